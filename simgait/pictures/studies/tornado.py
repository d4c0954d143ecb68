"""What matters most, as bars by size: Sobol indices, and Morris' elementary effects."""

import os
from collections.abc import Mapping, Sequence
from math import isfinite
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.pictures.studies.bars import (
    DARK,
    NAMES,
    PALE,
    Bar,
    draw_bar,
    draw_names,
    ready,
    write_beside,
    write_none,
)
from simgait.pictures.studies.page import Page, StudyLike, drawing, open_page, write_page
from simgait.pictures.studies.words import (
    decimals_for,
    has_sign,
    label,
    noun,
    number,
    unit_of,
)
from simgait.pictures.style import ACCENT, INK, PAPER, hex_colour

if TYPE_CHECKING:
    from simgait.studies.sensitivity import Index, Screening

__all__ = ["draw_screening", "draw_tornado"]

_BARS, _ROW, _HEAD, _BELOW, _BETWEEN = 3.55, 0.46, 0.36, 0.50, 0.45  # [inch]
_KEY = 0.34  # [inch] above the panels
_BESIDE = 0.45  # [inch] right of the bars, for numbers

Spans = Mapping[str, tuple[float, float]]

SOBOL_NOTE = (
    "Share of the measure's variance that each thing causes over the ranges of this study: alone "
    "(first order), and with all its joint effects (total). Lines: intervals of 95 per cent."
)
FIRST_NOTE = (
    "Share of the measure's variance that each thing causes alone (first order) over the ranges of "
    "this study; joint effects, which this sample cannot tell, come on top. Lines: intervals of 95 "
    "per cent."
)
MORRIS_NOTE = (
    "What one thing does to the measure when it crosses its whole range, the others anywhere in "
    "theirs: mean size with its interval of 95 per cent. A spread that is large beside the size "
    "says that the effect is curved, or depends on the others."
)


def draw_tornado(
    indices: Mapping[str, Sequence["Index"]],
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    spans: Spans | None = None,
) -> Path:
    """Draw first-order and total indices, one panel a measure, and write the picture whole.

    indices: by measure, as `simgait.studies.sensitivity` gives them; rows are sorted by total, or
    by first order where there is no total.

    Raises
    ------
    ValueError : no measure, a measure without indices, no cautions, or a name not in .png.
    OSError : the file cannot be written.
    """
    _require(indices, "indices")
    every = [each for found in indices.values() for each in found]
    totals = any(isfinite(each.total) for each in every)
    note = SOBOL_NOTE if totals else FIRST_NOTE
    ends = [v for e in every for v in (e.first_low, e.first_high, e.total_low, e.total_high)]
    known = [value for value in ends if isfinite(value)]
    low, high = min([-0.02, *known]), max([1.0, *known])
    span = low - 0.01 * (high - low), high + 0.01 * (high - low)
    with drawing():
        page, places = _page(study, "What matters: shares of variance", note, indices)
        for (measure, found), place in zip(indices.items(), places, strict=True):
            axes = page.axes(place)
            ordered = sorted(found, key=_weight, reverse=True)
            ready(axes, len(ordered), label(measure), span)
            draw_names(axes, _names(ordered, spans))
            for row, index in enumerate(ordered):
                _draw_index(axes, row, index)
            axes.set_xlabel("share of the variance", fontsize=8.5, color=hex_colour(INK))
        kinds = [("total", PALE), ("first order, alone", DARK)]
        _draw_key(page, kinds if totals else kinds[1:], spread=False)
    return write_page(page, path)


def draw_screening(
    screenings: Mapping[str, Sequence["Screening"]],
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    spans: Spans | None = None,
) -> Path:
    """Draw the sizes and spreads of elementary effects, one panel a measure; write it whole.

    screenings: by measure, as `simgait.studies.sensitivity.morris_screening` gives them;
    spans: as for `draw_tornado`.

    Raises
    ------
    ValueError : no measure, a measure without effects, no cautions, or a name not in .png.
    OSError : the file cannot be written.
    """
    _require(screenings, "effects")
    with drawing():
        page, places = _page(study, "What matters: a screening", MORRIS_NOTE, screenings)
        for (measure, found), place in zip(screenings.items(), places, strict=True):
            axes = page.axes(place)
            ordered = sorted(found, key=lambda each: each.mean_size, reverse=True)
            most = max(max(e.mean_size + e.half_interval, e.spread) for e in ordered)
            most = most if isfinite(most) and most > 0.0 else 1.0
            least = min([-0.02 * most, *(e.mean_size - e.half_interval for e in ordered)])
            ready(axes, len(ordered), label(measure), (least, 1.05 * most))
            draw_names(axes, _names(ordered, spans))
            for row, effect in enumerate(ordered):
                _draw_effect(axes, row, effect, decimals_for(most / 3.0))
            axes.set_xlabel(
                f"over the whole range: {label(measure)}", fontsize=8.5, color=hex_colour(INK)
            )
        _draw_key(page, [("mean size; in brackets the mean with its sign", PALE)], spread=True)
    return write_page(page, path)


def _require(found: Mapping[str, Sequence[object]], what: str) -> None:
    if not found:
        raise ValueError(f"no {what} to draw: name at least one measure")
    empty = [measure for measure, each in found.items() if not each]
    if empty:
        raise ValueError(f"no {what} to draw for {', '.join(empty)}")


def _names(found: Sequence["Index"] | Sequence["Screening"], spans: Spans | None) -> list[str]:
    """Names of the rows in plain words, each with its range if it is told."""
    words = []
    for each in found:
        low, high = (spans or {}).get(each.name, (float("nan"), float("nan")))
        if not (isfinite(low) and isfinite(high)):
            words.append(noun(each.name))
            continue
        decimals, signed = decimals_for(high - low), has_sign(each.name)
        ends = (number(end, decimals, signed=signed) for end in (low, high))
        words.append(f"{noun(each.name)}\n{' to '.join(ends)} {unit_of(each.name)}".rstrip())
    return words


def _weight(index: "Index") -> float:
    """What a row is sorted by."""
    known = index.total if isfinite(index.total) else index.first
    return known if isfinite(known) else float("-inf")


def _page(
    study: StudyLike, subject: str, note: str, found: Mapping[str, Sequence[object]]
) -> tuple[Page, list[tuple[float, float, float, float]]]:
    """The page, and the place of each panel in its body."""
    columns = min(len(found), 2)
    sizes = [len(each) for each in found.values()]
    heights = [max(sizes[k : k + columns]) * _ROW for k in range(0, len(sizes), columns)]
    bars = _BARS if columns > 1 else 1.6 * _BARS
    cell = NAMES + bars + _BESIDE
    width = columns * cell + (columns - 1) * 0.25
    height = _KEY + sum(heights) + len(heights) * (_HEAD + _BELOW)
    page = open_page(study, subject, (note,), width=width, height=height)
    places = []
    for place, rows in enumerate(sizes):
        row, column = divmod(place, columns)
        top = height - _KEY - sum(heights[:row]) - row * (_HEAD + _BELOW) - _HEAD
        left = NAMES + column * (cell + 0.25)
        places.append((left, top - rows * _ROW, bars, rows * _ROW))
    return page, places


def _draw_index(axes: Any, row: int, index: "Index") -> None:
    """A pair of bars: total above, first order below; one bar where there is no total."""
    paired = isfinite(index.total)
    first = Bar(value=index.first, low=index.first_low, high=index.first_high, colour=DARK,
                gid="first")  # fmt: skip
    if paired:
        total = Bar(value=index.total, low=index.total_low, high=index.total_high, colour=PALE,
                    gid="total")  # fmt: skip
        draw_bar(axes, total, row - 0.17, 0.32)
        write_beside(axes, max(index.total, index.total_high, 0.0), row - 0.17,
                     number(index.total, 2))  # fmt: skip
    middle = row + 0.17 if paired else row
    draw_bar(axes, first, middle, 0.32 if paired else 0.42)
    if isfinite(index.first):
        end = max(index.first, index.first_high, 0.0)
        write_beside(axes, end, middle, number(index.first, 2))
    else:
        write_none(axes, row, "not known")


def _draw_effect(axes: Any, row: int, effect: "Screening", decimals: int) -> None:
    if not isfinite(effect.mean_size):
        write_none(axes, row, "not known")
        return
    bar = Bar(
        value=effect.mean_size, low=effect.mean_size - effect.half_interval,
        high=effect.mean_size + effect.half_interval, colour=PALE, gid="size",
    )  # fmt: skip
    draw_bar(axes, bar, row, 0.46)
    axes.plot(
        effect.spread, row, "D", color=hex_colour(ACCENT), markeredgecolor=hex_colour(PAPER),
        markersize=7, zorder=6, gid="spread",
    )  # fmt: skip
    words = f"{number(effect.mean_size, decimals)} ({number(effect.mean, decimals, signed=True)})"
    write_beside(axes, max(bar.high, effect.spread), row, words)


def _draw_key(page: Page, kinds: Sequence[tuple[str, tuple[int, int, int]]], spread: bool) -> None:
    """Samples of the bars, of an interval and of the spread, above the panels."""
    width, height = page.body[2:]
    axes = page.axes((0.0, height - _KEY, width, _KEY))
    axes.set_axis_off()
    axes.set_facecolor("none")
    axes.set_xlim(0.0, width)
    axes.set_ylim(0.0, _KEY)
    ink, middle, left = hex_colour(INK), _KEY / 2.0, 0.0
    for words, colour in kinds:
        axes.barh(middle, 0.4, 0.15, left, color=hex_colour(colour), edgecolor=ink, linewidth=0.7)
        axes.text(left + 0.5, middle, words, size=8.5, va="center", color=ink)
        left += 0.85 + 0.075 * len(words)
    if spread:
        axes.plot(left + 0.1, middle, "D", color=hex_colour(ACCENT), markersize=7)
        axes.text(left + 0.3, middle, "spread", size=8.5, va="center", color=ink)
