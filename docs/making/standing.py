"""What the pages on standing take from the program: quantities, endings, cases that stand."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from making.runs import case_of, scenario, version
from making.text import page, shown, table
from simgait.library.strengths import read_standing_habit
from simgait.pictures.standing import draw_standing
from simgait.standing import Standing, stand
from simgait.standing.names import (
    AGREED,
    BY_NAME,
    ENDINGS,
    FURTHER,
    GUARDS,
    LIMITS,
    Quantity,
    assumptions,
)
from simgait.symbols import CAUTIONS
from simgait.units import degrees_from_radians, mm_from_metres

SHOWN_CASES = ("everyday", "heavy-worker")
MEASURES = (
    ("load_line_ahead_of_knee_mm", 0),
    ("load_line_ahead_of_ankle_mm", 0),
    ("knee_flexion_moment_nm", 1),
    ("socket_flexion_moment_nm", 1),
    ("knee_effort_percent", 0),
    ("heel_share", 2),
    ("forward_reserve_mm", 0),
    ("backward_reserve_mm", 0),
    ("tips_forward_slope_deg", 1),
    ("tips_backward_slope_deg", 1),
    ("tips_forward_push_n", 0),
    ("tips_backward_push_n", 0),
)


@cache
def standing_of(name: str) -> tuple[Standing, Standing]:
    """Return a case of models/cases standing on both feet, and on the prosthesis alone."""
    return stand(case_of(name))


def entry(quantity: Quantity) -> str:
    """Return a quantity as an entry of a definition list."""
    unit = quantity.unit if quantity.unit != "1" else "shares"
    return (
        f"`{quantity.name}`\n: {quantity.title.capitalize()}, in {unit}. {quantity.definition}\n\n"
        f"  *{quantity.sentence}*\n"
    )


def listed(lines: tuple[str, ...]) -> str:
    """Return lines as a list."""
    return "\n".join(f"* {line}" for line in lines)


def reference_page() -> str:
    """Return the page of all quantities of standing, endings and limits."""
    return page(
        "Standing: quantities",
        "What `simgait stand CASE --json` gives, for standing on both feet and, under "
        "`prosthesis_alone`, on the prosthesis alone. Moments are external: what floor and "
        "weights do to a joint. Lengths along the floor are + forward. Why they are computed as "
        "they are: [standing](../guide/standing.md).",
        "## Main quantities\n\n" + "\n".join(entry(each) for each in AGREED),
        "## Further quantities\n\n" + "\n".join(entry(each) for each in FURTHER),
        "## Endings\n\nA limb that cannot stand is a result with a reason; all but what geometry "
        "gives is then empty.\n\n"
        + table(("ending", "in words"), [(f"`{key}`", said) for key, said in ENDINGS.items()]),
        "## What ends standing\n\nUnder `tips_because`, for each slope and push:\n\n"
        + table(("limit", "in words"), [(f"`{key}`", said) for key, said in LIMITS.items()]),
        "## Assumptions\n\n" + listed(assumptions(read_standing_habit())),
        "## Cautions\n\n" + listed((*CAUTIONS, GUARDS)),
    )


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the guide's page on standing."""
    habit = read_standing_habit()
    rows = (
        (
            "knee flexion at bench alignment",
            f"{degrees_from_radians(habit.knee_flexion):g} degrees",
        ),
        (
            "farthest the knee goes past straight",
            f"{degrees_from_radians(habit.knee_past_straight):g} degrees",
        ),
        ("distance of the hip axes", f"{mm_from_metres(habit.hip_spacing):g} mm"),
        ("height of the body's centre", f"{habit.centre_height:g} of stature"),
        ("part of the sound foot that carries", f"{habit.sound_effective_length:g} of its length"),
    )
    return {
        "habit": table(("what", "value"), rows),
        "assumptions": listed(assumptions(habit)),
        "guards": f"**{GUARDS}**",
    }


def draw(name: str, path: Path) -> None:
    """Draw a case as `simgait stand` does."""
    both, alone = standing_of(name)
    draw_standing(case_of(name).title, both, alone, ((*CAUTIONS, GUARDS), version()), path)


def numbers(name: str) -> str:
    """Return the table of a case's numbers, both ways of standing."""
    both, alone = standing_of(name)
    rows = [
        (
            f"`{measure}`",
            BY_NAME[measure].unit,
            *(shown(way.measures[measure], digits) for way in (both, alone)),
        )
        for measure, digits in MEASURES
    ]
    return table(("quantity", "unit", "both feet", "prosthesis alone"), rows, right=2)


def section(name: str) -> str:
    """Return the part of the gallery's page on one case."""
    return (
        f"## {case_of(name).title}\n\n{scenario(name)}\n\n```\nsimgait stand "
        f"models/cases/{name}.toml\n```\n\n![The limb to scale on both feet and on the prosthesis "
        f"alone, with load line and levers](standing-{name}.png)\n\n{numbers(name)}"
    )


def gallery_page() -> str:
    """Return the gallery's page on standing."""
    return page(
        "Standing",
        "Two invented cases at their own alignment, standing. No real person stands behind them. "
        "How to read the figures: [standing](../guide/standing.md).",
        *(section(name) for name in SHOWN_CASES),
        "## Cautions\n\n" + listed((*CAUTIONS, GUARDS)),
    )
