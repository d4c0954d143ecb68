"""The table under the curves: which number is which alignment, and main measures as dot strips."""

import textwrap
from collections.abc import Mapping, Sequence
from math import isfinite
from typing import TYPE_CHECKING, Any

import numpy as np

from simgait.pictures.inputs import ComparisonLike
from simgait.pictures.style import INK, PAPER, SOFT_INK, LineLook, hex_colour
from simgait.pictures.wording import (
    MAIN_MEASURES,
    Measure,
    alignment_labels,
    ended_badly,
    ending_words,
    signed,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["draw_strips", "strips_height"]

_NAMES = 3.75  # [inch] for number, line and label
_HEAD, _ROW = 0.55, 0.25  # [inch] above the first row; a row
_LETTERS, _BOLD_LETTERS = 45, 39  # in a label of one line; longer ones take two smaller lines


def strips_height(rows: int) -> float:
    """Height of the table with this many rows [inch].

    >>> strips_height(1) < strips_height(9)
    True
    """
    return _HEAD + _ROW * rows


def draw_strips(
    figure: "Figure",
    box: tuple[float, float, float, float],
    comparison: ComparisonLike,
    looks: Mapping[int, LineLook],
) -> None:
    """Draw the table in `box` (left, bottom, width, height) [inch]; one row a run in `looks`.

    The baseline's row prints its values; the others print their change, with a dot for it.
    """
    left, bottom, width, height = box
    wide, high = figure.get_size_inches()
    rows = [comparison.baseline, *sorted(i for i in looks if i != comparison.baseline)]
    columns = [m for m in MAIN_MEASURES if any(m.key in r.measures for r in comparison.results)]

    def axes_at(start: float, span: float) -> Any:
        place = (start / wide, bottom / high, span / wide, (height - _HEAD) / high)
        axes = figure.add_axes(place)
        axes.set_ylim(len(rows) - 0.5, -0.5)
        axes.set_facecolor("none")
        axes.set_axis_off()
        return axes

    _draw_bands(axes_at(left, width), len(rows))
    _draw_names(axes_at(left, _NAMES), comparison, rows, looks)
    span = (width - _NAMES) / max(len(columns), 1)
    for place, measure in enumerate(columns):
        axes = axes_at(left + _NAMES + place * span, span - 0.08)
        _draw_strip(axes, measure, comparison, rows, looks)


def _draw_bands(axes: Any, rows: int) -> None:
    axes.set_xlim(0, 1)
    for row in range(0, rows, 2):
        axes.axhspan(row - 0.5, row + 0.5, color=hex_colour(INK), alpha=0.05, linewidth=0)
    axes.axhline(0.5, color=hex_colour(INK), linewidth=0.8)
    axes.text(
        0, -0.62, "Alignment\nfirst row: values; below: change from the baseline", size=8,
        color=hex_colour(INK), va="bottom", linespacing=1.2,
    )  # fmt: skip


def _draw_names(
    axes: Any, comparison: ComparisonLike, rows: Sequence[int], looks: Mapping[int, LineLook]
) -> None:
    axes.set_xlim(0.0, _NAMES)
    ink, paper = hex_colour(INK), hex_colour(PAPER)
    labels = alignment_labels(comparison.results)
    for row, index in enumerate(rows):
        look, base = looks[index], index == comparison.baseline
        box = {
            "boxstyle": "square,pad=0.22" if base else "circle,pad=0.14",
            "facecolor": ink if base else paper, "edgecolor": ink, "linewidth": 0.6,
        }  # fmt: skip
        number = str(index + 1)
        axes.text(0.12, row, number, size=7, weight="bold", color=paper if base else ink,
                  ha="center", va="center", bbox=box)  # fmt: skip
        (line,) = axes.plot([0.30, 0.85], [row, row], color=hex_colour(look.colour),
                            linewidth=look.width)  # fmt: skip
        if look.dashes:
            line.set_dashes(look.dashes)
        words = _row_words(comparison, index, labels[index])
        fits = len(words) <= (_BOLD_LETTERS if base else _LETTERS)
        size, lines = (8.5, [words]) if fits else (6.6, textwrap.wrap(words, 50))
        axes.text(0.95, row, "\n".join(lines), size=size, color=ink, va="center", linespacing=1.0,
                  weight="bold" if base else "normal", gid=f"label {index + 1}")  # fmt: skip


def _row_words(comparison: ComparisonLike, index: int, label: str) -> str:
    """Label of a row, with 'baseline' and a bad ending named."""
    result = comparison.results[index]
    words = f"baseline: {label}" if index == comparison.baseline else label
    if not ended_badly(result):
        return words
    reached = result.curves.percent[np.isfinite(result.curves.percent)]
    return f"{words}: {ending_words(result)}" + (f" at {reached[-1]:.0f} %" if reached.size else "")


def _draw_strip(
    axes: Any,
    measure: Measure,
    comparison: ComparisonLike,
    rows: Sequence[int],
    looks: Mapping[int, LineLook],
) -> None:
    """One measure: dots of its change from the baseline in the left part, numbers at the right."""
    values = np.array([comparison.results[i].measures.get(measure.key, np.nan) for i in rows])
    changes = values - values[0]
    largest = float(np.nanmax(np.abs(changes), initial=0.0))
    largest = largest if largest > 0.0 else 1.0
    axes.set_xlim(-1.25 * largest, 3.6 * largest)
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    axes.plot([0, 0], [-0.5, len(rows) - 0.5], color=soft, linewidth=0.8)
    end = 3.55 * largest
    head = f"{measure.noun}\n{measure.words}\n[{measure.unit}]"
    axes.text(-1.25 * largest, -0.62, head, size=8, weight="bold", color=ink, va="bottom",
              linespacing=1.2)  # fmt: skip
    for row, index in enumerate(rows):
        look = looks[index]
        if row == 0:
            words = f"{values[0]:.{measure.decimals}f}" if isfinite(values[0]) else "none"
            axes.plot(0, 0, "s", color=ink, markersize=6)
        elif isfinite(changes[row]):
            words = signed(float(changes[row]), measure.decimals)
            axes.plot([0, changes[row]], [row, row], color=soft, linewidth=0.8)
            axes.plot(changes[row], row, "o", color=hex_colour(look.colour), markersize=5.5)
        else:
            words = "none"
        axes.text(end, row, words.replace("-", "\u2212"), size=8, color=ink, va="center",
                  ha="right", weight="bold" if row == 0 else "normal")  # fmt: skip
