"""What the guide to advice takes from the program: complaints, what is visible, shares found."""

from __future__ import annotations

from functools import cache

from advised import MEASURED, OFF, READ_BACK, Found, found_back
from making.text import plain, table
from simgait.library import read_defaults
from simgait.symbols import BY_NAME, SETTING_BY_NAME
from simgait.symbols.complaints import COMPLAINTS, Relief
from simgait.symbols.watching import VISIBLE

SEED = 4


def relief_words(relief: Relief) -> str:
    """Return what is to change, in words."""
    measure = BY_NAME[relief.measure]
    way = "less" if relief.sense == "below" else "more"
    much = (
        f"{100.0 * relief.share:.0f} %"
        if relief.share
        else f"{plain(relief.amount)} {measure.unit}".strip()
    )
    return f"{measure.title} {much} {way}"


def complaints() -> str:
    """Return the table of complaints."""
    return table(
        ("complaint", "what it is", "asks for"),
        [
            (name, each.sentence, "; ".join(map(relief_words, each.reliefs)))
            for name, each in COMPLAINTS.items()
        ],
    )


def visible() -> str:
    """Return the table of what the eye can tell."""
    return table(
        ("measure", "just visible", "unit"),
        [(f"`{name}`", plain(size), BY_NAME[name].unit or "1") for name, size in VISIBLE.items()],
        right=0,
    )


def usual() -> str:
    """Return the table of what is taken where a case says nothing."""
    figures = read_defaults()
    units = {"mm": "mm", "deg": "degrees", "turns": "turns", "share": "1"}
    rows = [
        (each.place, plain(each.number), units[name.rpartition("_")[2]])
        for name, each in figures.items()
        if name.startswith(("adjust_", "misset_"))
    ]
    return table(("what is taken", "value", "unit"), rows)


@cache
def shares() -> dict[str, Found]:
    """Return how often each misalignment was found back."""
    return found_back(SEED)


def found() -> str:
    """Return the table of shares found."""
    rows = [
        (
            f"{SETTING_BY_NAME[f'alignment.{key}'].title} +- {plain(OFF[key])} "
            f"{SETTING_BY_NAME[f'alignment.{key}'].unit}",
            str(row.tried),
            str(row.first),
            str(row.among),
            str(row.inside),
        )
        for key, row in shares().items()
    ]
    said = ", ".join(
        f"{BY_NAME[name].title} {plain(within)} {BY_NAME[name].unit}"
        for name, within in MEASURED.items()
    )
    return (
        table(
            ("off", "tried", "named first", "among those named", "size in its range"), rows, right=4
        )
        + f"\nCases: {', '.join(READ_BACK)}. Measured, each with noise of the standard deviation "
        f"said (invented): {said}.\n"
    )


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the guide to advice."""
    return {
        "complaints": complaints(),
        "visible": visible(),
        "usual": usual(),
        "found": found(),
    }
