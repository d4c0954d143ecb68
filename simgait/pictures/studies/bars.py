"""Rows of horizontal bars: what the tornado and the screening share."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from typing import Any

from simgait.pictures.studies.page import broken, dress
from simgait.pictures.style import INK, PAPER, SOFT_INK, Colour, hex_colour

__all__ = [
    "DARK",
    "NAMES",
    "PALE",
    "Bar",
    "draw_bar",
    "draw_names",
    "ready",
    "write_beside",
    "write_none",
]

NAMES = 1.75  # [inch] left of the bars
PALE: Colour = (205, 193, 174)
DARK: Colour = (84, 68, 55)


@dataclass(frozen=True, kw_only=True)
class Bar:
    """One bar: where it ends, its interval, and how it looks."""

    value: float
    low: float
    high: float
    colour: Colour
    gid: str


def ready(axes: Any, rows: int, title: str, ends: tuple[float, float]) -> None:
    """Make axes ready for rows from the top down, with a heading and a line at nothing."""
    dress(axes, grid="x")
    axes.set_xlim(*ends)
    axes.set_ylim(rows - 0.45, -0.55)
    axes.axvline(0.0, color=hex_colour(INK), linewidth=1.0, zorder=3)
    axes.spines["left"].set_visible(False)
    axes.tick_params(axis="y", length=0)
    axes.annotate(
        title, (0.0, 1.0), (-NAMES * 72.0, 8.0), xycoords="axes fraction",
        textcoords="offset points", size=9.5, weight="bold", color=hex_colour(INK),
        gid="panel head", annotation_clip=False,
    )  # fmt: skip


def draw_names(axes: Any, names: Sequence[str]) -> None:
    """The names of the rows, broken to fit beside them; a line break of their own is kept."""
    words = [
        "\n".join(line for part in name.split("\n") for line in broken(part, NAMES - 0.15, 8.5))
        for name in names
    ]
    axes.set_yticks(range(len(words)), words, fontsize=8.5, color=hex_colour(INK))
    for text in axes.get_yticklabels():
        text.set_linespacing(1.1)


def draw_bar(axes: Any, bar: Bar, middle: float, thick: float) -> None:
    """Draw a bar around a height, with its interval as a line that shows on dark and pale."""
    if not isfinite(bar.value):
        return
    ink, paper = hex_colour(INK), hex_colour(PAPER)
    axes.barh(
        middle, bar.value, thick, color=hex_colour(bar.colour), edgecolor=ink, linewidth=0.7,
        gid=bar.gid, zorder=2,
    )  # fmt: skip
    if not (isfinite(bar.low) and isfinite(bar.high)):
        return
    for colour, width in ((paper, 3.6), (ink, 1.3)):
        axes.plot([bar.low, bar.high], [middle, middle], color=colour, linewidth=width, zorder=4,
                  solid_capstyle="butt", gid=f"{bar.gid} interval")  # fmt: skip
    for end in (bar.low, bar.high):
        axes.plot([end, end], [middle - 0.26 * thick, middle + 0.26 * thick], color=ink,
                  linewidth=1.3, zorder=4)  # fmt: skip


def write_beside(axes: Any, x: float, y: float, words: str) -> None:
    """A number to the right of a bar."""
    axes.annotate(
        words, (x, y), (5.0, 0.0), textcoords="offset points", size=7.5, va="center",
        color=hex_colour(INK), annotation_clip=False, gid="beside",
    )  # fmt: skip


def write_none(axes: Any, row: int, words: str) -> None:
    """What is said of a row without a bar."""
    axes.annotate(
        words, (0.0, row), (6.0, 0.0), textcoords="offset points", size=8, va="center",
        color=hex_colour(SOFT_INK), style="italic", gid="none",
    )  # fmt: skip
