"""What the gallery's page on the worked study takes from running it."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

import pandas as pd

from making.standing import listed
from making.text import page, table
from simgait.library import models_folder
from simgait.pictures.studies.heat import draw_heat_map
from simgait.studies import read_study_file, run_study
from simgait.studies.analysis import Report, report_of
from simgait.studies.differences import paired_differences
from simgait.symbols import BY_NAME, CAUTIONS

STUDY = "residual-limb-length"
LENGTH, SHIFT = "limb.residual_limb_mm", "alignment.foot_forward_mm"
FROM, TO = 0.0, 10.0  # [mm] of foot shift
MEASURES = (
    ("knee_extension_moment_peak_nm", "late extension moment of the knee"),
    ("socket_extension_moment_peak_nm", "late extending moment of the socket"),
    ("socket_couple_force_n", "force couple in the socket"),
)


@cache
def told() -> Report:
    """Return the report of the study, run anew."""
    study = read_study_file(models_folder() / "studies" / f"{STUDY}.toml")
    with tempfile.TemporaryDirectory() as room:
        run_study(study, Path(room) / "out")
        return report_of(Path(room) / "out")


def runs() -> pd.DataFrame:
    """Return the rows of the study."""
    return told().frame


def draw(path: Path) -> None:
    """Draw the map of the force couple."""
    report = told()
    assert report.cells is not None
    x, y = report.across
    draw_heat_map(report.cells, path, study=report.stock, x=x, y=y, measure=MEASURES[-1][0])


def changes() -> pd.DataFrame:
    """Return what 10 mm of shift changes at each length, draw by draw."""
    aimed = runs().assign(**{SHIFT: runs()[f"{SHIFT}.aim"]})
    names = [name for name, _ in MEASURES]
    parts = []
    for length, part in aimed.groupby(LENGTH):
        pair = part[part[SHIFT].isin([FROM, TO])]
        found = paired_differences(pair, [SHIFT], [FROM], names)
        base = part[part[SHIFT] == FROM][names].mean()
        parts.append(found.assign(**{LENGTH: length, "base": found["measure"].map(base)}))
    return pd.concat(parts, ignore_index=True)


def rows_of(measure: str) -> list[tuple[str, ...]]:
    """Return one measure's rows: length, value, change, its interval, what is unknown."""
    found = changes()
    return [
        (
            f"{row[LENGTH]:.0f}",
            f"{row['base']:.1f}",
            f"{row['difference']:+.1f}",
            f"{row['low']:+.1f} to {row['high']:+.1f}",
            f"±{row['unknown']:.1f}",
            "yes" if row["distinguishable"] else "no",
        )
        for _, row in found[found["measure"] == measure].iterrows()
    ]


def answer() -> str:
    """Return the answer in a sentence for each measure, from the numbers."""
    said = []
    for measure, title in MEASURES:
        found = changes()
        own = found[found["measure"] == measure].set_index(LENGTH)["difference"]
        short, long = own.iloc[0], own.iloc[-1]
        said.append(
            f"{title}: {short:+.1f} {BY_NAME[measure].unit} at {own.index[0]:.0f} mm, "
            f"{long:+.1f} at {own.index[-1]:.0f} mm"
        )
    return listed(tuple(said))


def gallery_page() -> str:
    """Return the gallery's page on the worked study."""
    head = (
        "residual limb, mm",
        "at 0 mm",
        "change by 10 mm forward",
        "95 % of the draws",
        "unknown",
        "told apart",
    )
    sections = [
        f"## {BY_NAME[measure].title} [{BY_NAME[measure].unit}]\n\n"
        + table(head, rows_of(measure), right=5)
        for measure, _ in MEASURES
    ]
    return page(
        "A study: short residual limbs and foot shift",
        "Question: how much does the length of the residual limb change what 10 mm of foot shift "
        "does? An invented study of an invented case; no real person stands behind it. "
        f"{len(runs())} runs.",
        f"```\nsimgait study models/studies/{STUDY}.toml --out out/{STUDY}\n```",
        "## Answer\n\nMoving the foot 10 mm forward changes\n\n" + answer(),
        "![Mean force couple in the socket over length of the residual limb and foot shift]"
        f"({STUDY}.png)",
        "The draws are errors of body mass, foot shift and dorsiflexion, shared by all settings. "
        "*Change*: mean over the draws; *95 % of the draws*: what it is for a wearer whose numbers "
        "are known only so well; *unknown*: half of the central 95 % of the measure itself over "
        "the draws; *told apart*: the change is larger than that.",
        *sections,
        "## What this can and cannot say\n\n"
        + listed(
            (
                "It holds for this case, foot and wearer, who keeps one strategy; real wearers "
                "with a short limb walk otherwise, and the study cannot know how.",
                "A socket is as stiff here for every length; in a short limb soft tissue is often "
                "less firm, which the study leaves out.",
                "The errors are invented; with larger ones less can be told apart.",
            )
        ),
        "## Cautions\n\n" + listed(CAUTIONS),
    )
