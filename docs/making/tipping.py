"""What the pages on tipping take from the program: trials, endings, a case that is tipped."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from making.runs import case_of, scenario, version
from making.standing import listed
from making.text import page, table
from simgait.library.strengths import read_tipping_habit
from simgait.pictures.tipping_still import draw_tipping_still
from simgait.standing.names import GUARDS
from simgait.symbols import CAUTIONS
from simgait.tipping import Tipping, tip
from simgait.tipping.names import ENDINGS, TRIALS, assumptions

CASE = "everyday"


@cache
def tipped() -> Tipping:
    """Return what tips the case that is shown."""
    return tip(case_of(CASE))


def reference_page() -> str:
    """Return the page of trials and endings."""
    trials = [(f"`{trial.name}`", trial.unit, trial.definition) for trial in TRIALS]
    return page(
        "Tipping: trials and endings",
        "What `simgait tip` looks for, by the names of its JSON. A trial that is stood at the "
        "largest that is tried has no number.",
        "## Trials\n\n" + table(("name", "unit", "definition"), trials),
        "## Endings\n\nUnder `then`, for each trial just above its threshold; under `endings`, how "
        "often a drawn push ended so:\n\n"
        + table(("ending", "in words"), [(f"`{key}`", said) for key, said in ENDINGS.items()]),
        "## Assumptions\n\n" + listed(assumptions(read_tipping_habit())),
        "## Cautions\n\n" + listed((*CAUTIONS, GUARDS)),
    )


def draw(path: Path) -> None:
    """Draw the still of the threshold cases as `simgait tip` does."""
    title = f"{case_of(CASE).title}: tipping, just below and just above"
    draw_tipping_still(title, tipped().pairs(), ((*CAUTIONS, GUARDS), version()), path)


def gallery_page() -> str:
    """Return the gallery's page on tipping."""
    found = tipped().thresholds
    rows = [
        (
            f"`{trial.name}`",
            trial.unit,
            f"{found[trial.name].value:.3g}" if found[trial.name].above else "-",
            ENDINGS[found[trial.name].ending],
        )
        for trial in TRIALS
    ]
    return page(
        "Tipping",
        "An invented case, tipped. No real person stands behind it. How to read the figures: "
        "[tipping](../guide/tipping.md).",
        f"## {case_of(CASE).title}\n\n{scenario(CASE)}\n\n```\nsimgait tip models/cases/{CASE}.toml"
        "\n```\n\n![Four instants of the wearer to scale for each trial just above its threshold]"
        "(tipping-everyday.png)\n\n"
        + table(("trial", "unit", "too much from", "just above"), rows),
        "## Cautions\n\n" + listed((*CAUTIONS, GUARDS)),
    )
