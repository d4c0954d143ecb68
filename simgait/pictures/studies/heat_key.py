"""What stands beside a heat map: the scale of shades, and what lines and hatching mean."""

from collections.abc import Sequence
from typing import Any

import numpy as np

from simgait.pictures.studies.heat_field import Field, Range, endings_in, known_values
from simgait.pictures.studies.heat_panel import HATCHES
from simgait.pictures.studies.page import Box, Page, broken
from simgait.pictures.studies.shades import shades
from simgait.pictures.studies.words import ending_name, exact, label, unit_of
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

__all__ = ["KEY_WIDTH", "draw_key", "key_height", "limit_words"]

KEY_WIDTH = 2.35  # [inch]
_WIDTH = KEY_WIDTH - 0.05  # [inch] of its words
_BAR, _SAMPLE, _LINE, _GAP = 0.24, 0.42, 0.165, 0.11  # [inch]
_SIZE = 8.0  # [point]


def key_height(measure: str, fields: Sequence[Field], span: Range, limit: float | None) -> float:
    """How high the key must be at least [inch]."""
    return _used(_broken(_entries(fields, span, limit, measure))) + _head(measure) + 1.85


def draw_key(
    page: Page, box: Box, measure: str, fields: Sequence[Field], span: Range, limit: float | None
) -> None:
    """Draw the scale in the upper part of `box`, and the key of lines and hatching under it."""
    left, bottom, width, height = box
    entries = _entries(fields, span, limit, measure)
    lines = _broken(entries)
    tall = max(height - _used(lines) - _head(measure) - 0.35, 1.4)
    keys = page.axes(box)
    keys.set_axis_off()
    keys.set_facecolor("none")
    keys.set_xlim(0.0, width)
    keys.set_ylim(0.0, height)
    for row, line in enumerate(broken(label(measure), _WIDTH, 9.0, True)):
        keys.text(0.0, height - 0.14 - 0.18 * row, line, size=9.0, weight="bold",
                  color=hex_colour(INK))  # fmt: skip
    down = height - _head(measure)
    if known_values(fields).size:
        place = (left, bottom + down - tall, _BAR, tall)
        _draw_bar(page.axes(place), span, limit)
        down -= tall + 0.27
    for (kind, _), words in zip(entries, lines, strict=True):
        used = max(len(words), 1.3) * _LINE
        _draw_sample(keys, kind, down - used / 2.0)
        for row, line in enumerate(words):
            up = down - used / 2.0 + _LINE * ((len(words) - 1) / 2.0 - row)
            keys.text(_SAMPLE + 0.12, up, line, size=_SIZE, va="center", color=hex_colour(INK))
        down -= used + _GAP


def _head(measure: str) -> float:
    """Height of the measure's name over the scale [inch]."""
    return 0.18 * len(broken(label(measure), _WIDTH, 9.0, True)) + 0.08


def _broken(entries: Sequence[tuple[str, str]]) -> list[tuple[str, ...]]:
    return [broken(words, _WIDTH - _SAMPLE - 0.12, _SIZE) for _, words in entries]


def _used(lines: Sequence[Sequence[str]]) -> float:
    """Height of the entries [inch]."""
    return sum(max(len(each), 1.3) * _LINE + _GAP for each in lines)


def limit_words(fields: Sequence[Field], limit: float, measure: str) -> str:
    """What the contour shows, or on which side of the limit everything lies."""
    known, unit = known_values(fields), unit_of(measure)
    words = f"limit {exact(limit)}{f' {unit}' if unit else ''}"
    if not known.size:
        return f"{words}: no cell has a number"
    if (known < limit).all():
        return f"{words}: all cells below"
    if (known > limit).all():
        return f"{words}: all cells above"
    return words


def _entries(
    fields: Sequence[Field], span: Range, limit: float | None, measure: str
) -> list[tuple[str, str]]:
    """Kind of sample and words of each entry."""
    found = [("limit", limit_words(fields, limit, measure))] if limit is not None else []
    if span.low < 0.0 < span.high and limit != 0.0:
        found.append(("zero", "0: the sign changes"))
    bad = endings_in(fields)
    found += [(name, ending_name(name)) for name in bad]
    if bad:
        words = "hatched part of a cell: its runs that ended badly; pattern: their commonest ending"
        found.append(("", words))
    if any(np.isnan(field.bad).any() for field in fields):
        found.append(("not run", "not run"))
    if any((np.isnan(field.values) & (field.bad < 1.0)).any() for field in fields):
        found.append(("no number", "ended with toe-off, but has no such number"))
    return found


def _draw_bar(axes: Any, span: Range, limit: float | None) -> None:
    from matplotlib.colors import ListedColormap

    steps = np.linspace(span.low, span.high, len(shades()) + 1)
    colours = ListedColormap([hex_colour(colour) for colour in shades()])
    middles = (steps[:-1] + steps[1:])[:, None] / 2.0
    axes.pcolormesh([0.0, 1.0], steps, middles, cmap=colours, gid="scale")
    axes.set_xticks([])
    axes.yaxis.tick_right()
    axes.tick_params(colors=hex_colour(INK), labelsize=8, length=3)
    axes.yaxis.set_major_formatter(lambda value, _: exact(value))
    for spine in axes.spines.values():
        spine.set_color(hex_colour(SOFT_INK))
    if limit is not None and span.low <= limit <= span.high:
        axes.axhline(limit, color=hex_colour(PAPER), linewidth=4.4)
        axes.axhline(limit, color=hex_colour(ACCENT), linewidth=2.0, gid="limit on the scale")


def _draw_sample(axes: Any, kind: str, up: float) -> None:
    """The sample of an entry, its middle at height `up` [inch]."""
    from matplotlib.patches import Rectangle

    ink = hex_colour(INK)
    if kind in ("limit", "zero"):
        accent = kind == "limit"
        axes.plot([0.0, _SAMPLE], [up, up], color=hex_colour(ACCENT) if accent else ink,
                  linewidth=2.0 if accent else 1.0,
                  linestyle="solid" if accent else "dashed")  # fmt: skip
    elif kind == "not run":
        axes.plot(_SAMPLE / 2.0, up, ".", color=hex_colour(SOFT_INK), markersize=5)
    elif kind == "no number":
        axes.text(_SAMPLE / 2.0, up, "\u2013", size=9, ha="center", va="center", color=ink)
    elif kind:
        axes.add_patch(
            Rectangle((0.0, up - 0.1), _SAMPLE, 0.2, facecolor="none", edgecolor=ink,
                      linewidth=0.6, hatch=HATCHES.get(kind, "**"))
        )  # fmt: skip
