"""The generated parts of the guide's page on the transfer to the finished limb."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

from making.case_file import unit_of
from making.text import plain, shown, table
from simgait.case import read_case
from simgait.case.entries import number_range
from simgait.case.transfer_entries import LARGEST_OFFSET, MOST_OFFSETS, OFFSETS, TRANSFER_TABLES
from simgait.errors import CaseError
from simgait.library import models_folder
from simgait.library.transfers import transfer_figures
from simgait.symbols import BY_NAME
from simgait.transfer import Transfer, transfer
from simgait.transfer.setting import TABLE_OF_FIGURES
from simgait.units import degrees_from_radians, mm_from_metres

EXAMPLE = """\
[unit]
pylon_mm = 158
spacer_mm = 10
slide_mm = -8
upper_tilt_deg = 4
lower_tilt_deg = -3

[finished]
offsets_mm = [0, 5, 10]
"""
STIFF = EXAMPLE + "upper_tilt_most_deg = 0.2\nlower_tilt_most_deg = 0.2\n"


def keys_part() -> str:
    """Return one table for each of the two tables of a case."""
    parts, figures = [], transfer_figures()
    for name, entry in TRANSFER_TABLES.items():
        rows = []
        for key in entry.model_fields:
            limits = number_range(entry, key)
            if key == OFFSETS:
                span = f"up to {MOST_OFFSETS} values, {-LARGEST_OFFSET:g} to {LARGEST_OFFSET:g}"
                rows.append((f"`{key}`", "mm", span, "no plate"))
                continue
            assert limits is not None
            figure = figures.get(TABLE_OF_FIGURES.get(key, key))
            left_out = "0" if figure is None else f"{plain(figure.number)} ({figure.grade.value})"
            if entry.model_fields[key].is_required():
                left_out = "must be there"
            span = f"{plain(limits[0])} to {plain(limits[1])}"
            rows.append((f"`{key}`", unit_of(key, entry), span, left_out))
        heads = ("key", "unit", "allowed", "if left out")
        parts.append(f"### [{name}]\n\n{table(heads, rows)}")
    return "\n".join(parts)


def made_of(tables: str) -> Transfer:
    """Return the transfer of the everyday case with tables of components."""
    text = (models_folder() / "cases" / "everyday.toml").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "case.toml"
        path.write_text(text + "\n" + tables, encoding="utf-8")
        return transfer(read_case(path), "case.toml")


@cache
def example() -> Transfer:
    """Return the worked example."""
    return made_of(EXAMPLE)


def example_part() -> str:
    """Return the worked example: its tables, its pose, its chains."""
    made = example()
    pose = made.pose
    rows = []
    for number, fitted in enumerate(made.fitted, start=1):
        found, chain = fitted.found, fitted.found.chain
        rows.append(
            (
                str(number),
                shown(mm_from_metres(found.pylon), 1),
                f"{shown(mm_from_metres(found.cut_from), 1)} to "
                f"{shown(mm_from_metres(found.cut_to), 1)}",
                shown(degrees_from_radians(chain.upper_tilt), 2),
                shown(degrees_from_radians(chain.lower_tilt), 2),
                shown(mm_from_metres(chain.offset), 0),
                shown(mm_from_metres(found.error), 2),
                shown(degrees_from_radians(abs(found.turn_error)), 2),
            )
        )
    heads = ("chain", "tube cut mm", "good from to mm", "upper tilt deg", "lower tilt deg",
             "plate mm", "ankle off mm", "foot off deg")  # fmt: skip
    return (
        f"```toml\n{EXAMPLE}```\n\n"
        "Added to the everyday case, the unit holds the ankle axis "
        f"{shown(mm_from_metres(pose.forward), 1)} mm ahead of the socket's axis and "
        f"{shown(mm_from_metres(pose.below), 1)} mm below its end, the foot turned by "
        f"{shown(degrees_from_radians(pose.turn), 2)} deg. Three plates are at hand, and each "
        f"gives a chain:\n\n{table(heads, rows, right=8)}\n{effect_words(made)}"
    )


def effect_words(made: Transfer) -> str:
    """Return what the last chain of the example changes most, and that of a refused case."""
    fitted = made.fitted[-1]
    name, change = max(
        made.changes(fitted).items(), key=lambda item: abs(item[1] / made.result.measures[item[0]])
    )
    measure = BY_NAME[name]
    return (
        f"Of the main measures, {measure.title} changes by the largest share with the last of "
        f"them: by {change:+.{measure.digits}f} {measure.unit}, from "
        f"{made.result.measures[name]:.{measure.digits}f}."
    )


def refusal_part() -> str:
    """Return what is said where nothing fits."""
    try:
        made_of(STIFF)
    except CaseError as refusal:
        words = str(refusal).replace("; plate", ";\nplate").replace(": no plate", ":\nno plate")
        return f"With tilts of no more than 0.2 degrees:\n\n```\n{words}\n```\n"
    raise ValueError("the example that should be refused has a chain")


def guide_parts() -> dict[str, str]:
    """Return the generated parts by name."""
    return {"keys": keys_part(), "example": example_part(), "refusal": refusal_part()}
