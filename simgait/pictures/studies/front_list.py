"""What stands beside a front: its runs by number with their settings, and what the marks mean."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import pandas as pd

from simgait.pictures.studies.page import Box, Page, broken
from simgait.pictures.studies.words import decimals_for, has_sign, label, number, value_words
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

__all__ = ["areas", "draw_list", "list_height", "list_width", "picked"]

MOST_LISTED = 12
_SMALLEST, _LARGEST = 26.0, 170.0  # [point^2] of a mark whose size says something
_LEAST_WIDTH, _LEAST_COLUMN = 5.2, 0.70  # [inch]
_ROW, _HEAD_LINE, _KEY_ROW, _NUMBER = 0.21, 0.155, 0.27, 0.42  # [inch]
_HEAD_LINES = 5


def picked(front: pd.DataFrame) -> list[int]:
    """Places in the front of the runs that are listed: all, or evenly spread with both ends.

    >>> picked(pd.DataFrame({"a": range(3)})), len(picked(pd.DataFrame({"a": range(90)})))
    ([0, 1, 2], 12)
    """
    if len(front) <= MOST_LISTED:
        return list(range(len(front)))
    return [round(place) for place in np.linspace(0, len(front) - 1, MOST_LISTED)]


def areas(marks: int) -> tuple[float, float]:
    """The smallest and largest area of a mark whose size says something; less if many [point^2].

    >>> areas(10)[1] > areas(200)[1] > areas(200)[0]
    True
    """
    crowd = min(max(50.0 / max(marks, 1), 0.45), 1.0)
    return _SMALLEST * crowd**0.5, _LARGEST * crowd


def list_width(columns: int) -> float:
    """How wide key and list are [inch]."""
    return max(_LEAST_WIDTH, _NUMBER + _LEAST_COLUMN * columns)


def list_height(rows: int) -> float:
    """How high list and key are at most [inch]."""
    return _HEAD_LINES * _HEAD_LINE + (rows + 2) * _ROW + 6 * _KEY_ROW


def draw_list(
    page: Page,
    box: Box,
    front: pd.DataFrame,
    settings: Sequence[str],
    measures: Sequence[str],
    baseline: Mapping[str, Any] | None,
    third: str | None,
    better: tuple[float, float] | None,
) -> None:
    """Draw the key and under it the list, from the top edge of `box` downward.

    better: the way into which both goals pull, right and up; None where there is none.
    """
    left, top, width, _ = box
    axes = page.axes((left, 0.0, width, top))
    axes.set_axis_off()
    axes.set_facecolor("none")
    axes.set_xlim(0.0, width)
    axes.set_ylim(0.0, top)
    up = _draw_key(axes, top - 0.12, front, baseline is not None, third, better)
    columns = [*settings, *measures]
    step = min((width - _NUMBER) / max(len(columns), 1), 1.0)
    heads = [broken(label(name), step - 0.08, 7.0) for name in columns]
    up -= _HEAD_LINE * max(map(len, heads)) + 0.06
    for place, lines in enumerate(heads):
        right = _NUMBER + step * (place + 1)
        for row, line in enumerate(lines):
            down = up + _HEAD_LINE * (len(lines) - 1 - row)
            axes.text(right, down, line, size=7.0, ha="right", weight="normal",
                      color=hex_colour(INK), gid="list head")  # fmt: skip
    axes.plot([0.0, _NUMBER + step * len(columns)], [up - 0.06] * 2, color=hex_colour(INK),
              linewidth=0.8)  # fmt: skip
    texts = _texts(front, columns, baseline)
    _write_rows(axes, texts, (up - 0.20, step), bold_first=baseline is not None)
    if len(front) > MOST_LISTED:
        axes.text(
            0.0, up - 0.20 - _ROW * len(texts), f"{MOST_LISTED} of {len(front):,} are listed",
            size=7.5, color=hex_colour(SOFT_INK),
        )  # fmt: skip


def _write_rows(
    axes: Any,
    texts: Sequence[tuple[str, Sequence[str]]],
    layout: tuple[float, float],
    *,
    bold_first: bool,
) -> None:
    """The rows of the list.  layout: height of the first, width of a column [inch]."""
    ink = hex_colour(INK)
    for row, (name, words) in enumerate(texts):
        up = layout[0] - _ROW * row
        weight = "bold" if bold_first and row == 0 else "normal"
        axes.text(0.0, up, name, size=8.0, weight="bold", color=ink, gid="list row")
        for place, word in enumerate(words):
            axes.text(_NUMBER + layout[1] * (place + 1), up, word, size=8.0, ha="right",
                      weight=weight, color=ink)  # fmt: skip


def _texts(
    front: pd.DataFrame, columns: Sequence[str], baseline: Mapping[str, Any] | None
) -> list[tuple[str, list[str]]]:
    """Head and cells of each row of the list; the baseline, if there is one, first."""
    runs: list[tuple[str, Mapping[str, Any]]] = [("base", baseline)] if baseline is not None else []
    for rank, place in enumerate(picked(front)):
        row = front.iloc[place]
        runs.append((f"{rank + 1}", {name: row[name] for name in columns}))
    decimals = {name: _decimals(front[name]) for name in columns}
    return [
        (head, [_cell(name, run.get(name), decimals[name]) for name in columns])
        for head, run in runs
    ]


def _decimals(values: pd.Series) -> int | None:
    """Decimals of a column; None for texts."""
    if not pd.api.types.is_numeric_dtype(values):
        return None
    return decimals_for(float(values.max() - values.min()))


def _cell(name: str, value: Any, decimals: int | None) -> str:
    if value is None:
        return ""
    if decimals is None:
        return value_words(name, str(value))
    return number(float(value), decimals, signed=has_sign(name))


def _draw_key(
    axes: Any,
    top: float,
    front: pd.DataFrame,
    with_baseline: bool,
    third: str | None,
    better: tuple[float, float] | None,
) -> float:
    """What dots, marks and sizes mean; returns the height that is free below."""
    accent, ink = hex_colour(ACCENT), hex_colour(INK)
    up, left = top, 0.12
    axes.scatter([left], [up], s=9, color=hex_colour(SOFT_INK), alpha=0.6, linewidths=0)
    axes.text(left + 0.18, up, "a run", size=8.5, va="center", color=ink)
    left += 0.98
    axes.scatter([left], [up], s=46, color=accent, edgecolors=ink, linewidths=0.8)
    axes.text(left + 0.18, up, "on the front", size=8.5, va="center", color=ink)
    left += 1.48
    if with_baseline:
        axes.scatter([left], [up], s=95, marker="s", color=ink, edgecolors=hex_colour(PAPER))
        axes.text(left + 0.18, up, "baseline", size=8.5, va="center", color=ink)
        left += 1.34
    if better is not None:
        ends = [(left + 0.13 * way * better[0], up + 0.09 * way * better[1]) for way in (1, -1)]
        axes.annotate("", ends[0], ends[1], gid="better",
                      arrowprops={"arrowstyle": "-|>", "color": ink, "linewidth": 1.3,
                                  "shrinkA": 0, "shrinkB": 0})  # fmt: skip
        axes.text(left + 0.24, up, "better", size=8.5, va="center", color=ink)
    up -= _KEY_ROW
    if third is not None:
        low, high = float(front[third].min()), float(front[third].max())
        decimals = decimals_for(high - low)
        axes.text(0.0, up, f"size of the marks: {label(third)}", size=8.5, va="center", color=ink)
        up -= _KEY_ROW
        small, large = areas(len(front))
        for left, area, value in ((0.12, small, low), (1.10, large, high)):
            axes.scatter([left], [up], s=area, color=accent, edgecolors=ink, linewidths=0.8,
                         gid="size sample")  # fmt: skip
            axes.text(left + 0.23, up, number(value, decimals), size=8.5, va="center", color=ink)
        up -= _KEY_ROW
    return up
