"""simgait stand: standing on both feet and on the prosthesis alone, and what tips the wearer."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from simgait.case import Case, read_case
from simgait.command.running import print_json, ready_folder, refused_if_unwritable
from simgait.errors import CaseError, Fault, RangeError, one_line
from simgait.library import source
from simgait.library.strengths import read_standing_habit, standing_sources
from simgait.stance.provenance import case_sources, model_version
from simgait.standing import Standing, stand
from simgait.standing.names import ENDINGS, GUARDS, LIMITS, QUANTITIES, assumptions
from simgait.symbols import CAUTIONS


def standing_entry(standing: Standing) -> dict[str, Any]:
    """Return one way of standing as JSON says it."""
    return {
        "ending": standing.ending,
        **standing.measures,
        "tips_because": {
            name.replace(" ", "_"): limit.reason for name, limit in standing.limits.items()
        },
    }


def stand_sources(case: Case) -> tuple[str, ...]:
    """Return the citations that standing rests on, each once."""
    lines = [*case_sources(case), *(source(key).line for key in standing_sources(case.wearer))]
    return tuple(dict.fromkeys(lines))


def both_ways(path: str, case: Case) -> tuple[Standing, Standing]:
    """Return a case's own alignment standing on both feet, and on the prosthesis alone.

    path: of the case file, for the message.

    Raises:
        CaseError: the limb cannot be built.
    """
    try:
        return stand(case)
    except RangeError as trouble:
        fault = Fault(
            file=one_line(path),
            field="alignment",
            value="",
            allowed="",
            nearest=None,
            problem=f"cannot be built: {trouble}",
        )
        raise CaseError([fault]) from trouble


def run_stand(path: str, out: str | None, as_json: bool) -> None:
    """Let the case's own alignment stand; print what comes out and draw it.

    path: of the case file; out: folder of the figure, by default out/CASE, and none with JSON;
    as_json: print one JSON object and nothing else.

    Raises:
        CaseError: the case is refused, its limb cannot be built, or the folder cannot be written.
    """
    case = read_case(path)
    both, alone = both_ways(path, case)
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(path).stem))
    cautions = (*CAUTIONS, GUARDS)
    drawn = None
    if folder is not None:
        from simgait.pictures.standing import draw_standing

        notes = (cautions, model_version())
        with refused_if_unwritable(folder / "stand.png"):
            drawn = draw_standing(case.title, both, alone, notes, folder / "stand.png")
    if as_json:
        print_json(
            {
                "title": case.title,
                **standing_entry(both),
                "prosthesis_alone": standing_entry(alone),
                "assumptions": assumptions(read_standing_habit()),
                "filled": case.filled,
                "cautions": cautions,
                "sources": stand_sources(case),
                "version": model_version(),
            }
        )
        return
    print_standing(case, both, alone, cautions, drawn)


def print_standing(
    case: Case, both: Standing, alone: Standing, cautions: tuple[str, ...], drawn: Path | None
) -> None:
    """Print both ways of standing as a table, and the notes."""
    from rich.table import Table

    from simgait.command.tables import console, print_notes

    table = Table(title=case.title, title_justify="left", header_style="")
    for heading in ("quantity", "both feet", "prosthesis alone", "unit", "what it says"):
        table.add_column(
            heading,
            justify="right" if heading.startswith(("both", "pros")) else "left",
            no_wrap=heading == "quantity",
        )
    for quantity in QUANTITIES:
        cells = (shown(way.measures, quantity.name) for way in (both, alone))
        table.add_row(quantity.name, *cells, quantity.unit, quantity.sentence)
    terminal = console()
    terminal.print(table)
    for name, way in (("Both feet", both), ("Prosthesis alone", alone)):
        terminal.print(f"{name}: {ENDINGS[way.ending]}.")
        for limit, found in way.limits.items():
            terminal.print(f"  tips, {limit}: {LIMITS[found.reason]}")
    print_notes(terminal, "Assumed", assumptions(read_standing_habit()))
    print_notes(terminal, "Filled in", case.filled)
    print_notes(terminal, "Cautions", cautions)
    print_notes(terminal, "Written", [str(drawn)] if drawn else [])


def shown(measures: Mapping[str, float], name: str) -> str:
    """Return a number of standing as text; - where none applies.

    >>> shown({"heel_share": 0.25}, "heel_share"), shown({"a_mm": float("nan")}, "a_mm")
    ('0.25', '-')
    """
    value = measures[name]
    if not math.isfinite(value):
        return "-"
    return f"{value:.2f}" if name.endswith("_share") else f"{value:.1f}"
