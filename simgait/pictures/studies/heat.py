"""A measure over two settings, as shades: one panel, or one a case at a common scale."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import pandas as pd

from simgait.pictures.studies.asking import require_rows
from simgait.pictures.studies.heat_field import Field, field_of, range_of, scale_of
from simgait.pictures.studies.heat_key import KEY_WIDTH, draw_key, key_height
from simgait.pictures.studies.heat_panel import draw_panel
from simgait.pictures.studies.heat_ticks import left_room, low_room
from simgait.pictures.studies.page import (
    Page,
    StudyLike,
    broken,
    drawing,
    open_page,
    write_page,
)
from simgait.pictures.studies.words import axis_label, definition, label, noun, setting_words
from simgait.pictures.style import INK, hex_colour

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["draw_heat_map", "draw_small_multiples", "heat_figure"]

MOST_PANELS = 16
_SIDES = {1: (6.4, 5.0), 2: (4.0, 3.7), 3: (3.3, 3.2), 4: (2.7, 2.7)}  # [inch] by columns
_ABOVE, _BETWEEN, _TOP, _TALLEST = 0.30, 0.28, 0.10, 5.6  # [inch]


def draw_heat_map(
    cells: pd.DataFrame,
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    x: str,
    y: str,
    measure: str,
    limit: float | None = None,
) -> Path:
    """Draw a measure over two settings as shades and write the picture whole; return its path.

    cells: one row a cell with the columns x, y, measure (its mean, NaN where no run gave a number),
    runs, bad (share of them that ended badly [1]) and ending (the commonest bad one), as
    `simgait.studies.cells.cells_of` gives them; limit: value at which a line is drawn, in the
    measure's unit.

    Raises
    ------
    ValueError : no rows, a missing column, a cell twice, no cautions, or a name not in .png.
    OSError : the file cannot be written.
    """
    with drawing():
        page = _page(cells, study, (x, y, measure), limit, None, {})
    return write_page(page, path)


def draw_small_multiples(
    cells: pd.DataFrame,
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    x: str,
    y: str,
    measure: str,
    by: str = "case",
    limit: float | None = None,
    labels: Mapping[object, str] | None = None,
) -> Path:
    """Draw a measure over two settings, one panel for each value of `by`, at a common scale.

    cells, limit: as for `draw_heat_map`, the cells with the column `by`; labels: what to write over
    the panels, by value; the value in plain words where it says nothing.

    Raises
    ------
    ValueError : as for `draw_heat_map`; or more than sixteen panels.
    OSError : the file cannot be written.
    """
    with drawing():
        page = _page(cells, study, (x, y, measure), limit, by, labels or {})
    return write_page(page, path)


def heat_figure(
    cells: pd.DataFrame,
    *,
    study: StudyLike,
    x: str,
    y: str,
    measure: str,
    limit: float | None = None,
    by: str | None = None,
) -> "Figure":
    """The heat map, or with `by` the small multiples, as a matplotlib figure.

    Raises
    ------
    ValueError : as for `draw_heat_map` and `draw_small_multiples`.
    """
    with drawing():
        return _page(cells, study, (x, y, measure), limit, by, {}).figure


def _page(
    cells: pd.DataFrame,
    study: StudyLike,
    names: tuple[str, str, str],
    limit: float | None,
    by: str | None,
    labels: Mapping[object, str],
) -> Page:
    x, y, measure = names
    split = [by] if by else []
    require_rows(cells, [x, y, measure, "runs", "bad", "ending", *split], "cells")
    panels = list(cells.groupby(by, sort=False, observed=True)) if by else [("", cells)]
    if len(panels) > MOST_PANELS:
        raise ValueError(
            f"{len(panels)} panels are too many to read; up to {MOST_PANELS} are drawn"
        )
    scales = scale_of(x, cells[x]), scale_of(y, cells[y])
    fields = [field_of(part, *scales, measure) for _, part in panels]
    heads = [labels.get(value, setting_words(by, value)) if by else "" for value, _ in panels]
    span, columns = range_of(fields), _columns(len(panels))
    wide, high = _SIDES[columns]
    rows = -(-len(panels) // columns)
    left, below = left_room(scales[1]), low_room(scales[0], wide)
    above = _ABOVE if by else 0.0
    most = key_height(measure, fields, span, limit)
    height = max(rows * (high + above + _BETWEEN) - _BETWEEN + below, most + 0.1) + _TOP
    width = left + columns * (wide + _BETWEEN) + KEY_WIDTH
    split_words = f", by {noun(by)}" if by else ""
    subject = f"{label(measure)} over {noun(x)} and {noun(y)}{split_words}"
    notes = (definition(measure), _cell_note(cells, study))
    page = open_page(study, subject, notes, width=width, height=height)
    _draw_panels(page, fields, heads, (left, columns, above), limit)
    tall = min(max(height - below - _TOP, most), max(_TALLEST, most))
    key = (width - KEY_WIDTH + 0.05, height - _TOP - tall, KEY_WIDTH - 0.05, tall)
    draw_key(page, key, measure, fields, span, limit)
    return page


def _columns(panels: int) -> int:
    return panels if panels <= 3 else 2 if panels == 4 else 3 if panels <= 9 else 4


def _cell_note(cells: pd.DataFrame, study: StudyLike) -> str:
    """How many runs stand behind a cell, and behind the picture."""
    low, high = int(cells["runs"].min()), int(cells["runs"].max())
    total = int(cells["runs"].sum())
    each = f"{low}" if low == high else f"{low} to {high}"
    shown = f"Shown here: {total:,} of the {study.rows:,} runs. " if total != study.rows else ""
    if high == 1:
        return f"{shown}Each cell is one run."
    return f"{shown}A cell shows the mean over those of its {each} runs that ended with toe-off."


def _draw_panels(
    page: Page,
    fields: Sequence[Field],
    heads: Sequence[str],
    layout: tuple[float, int, float],
    limit: float | None,
) -> None:
    """Draw the panels.  layout: room left of them [inch], columns, room above each [inch]."""
    span, ink = range_of(fields), hex_colour(INK)
    left, columns, above = layout
    wide, high = _SIDES[columns]
    for place, (field, head) in enumerate(zip(fields, heads, strict=True)):
        row, column = divmod(place, columns)
        top = page.body[3] - _TOP - row * (high + above + _BETWEEN) - above
        axes = page.axes((left + column * (wide + _BETWEEN), top - high, wide, high))
        low_edge = place + columns >= len(fields)
        draw_panel(axes, field, span, limit, low_edge=low_edge, left_edge=column == 0)
        for line in broken(head, wide, 9.5, True)[:1]:
            axes.text(0.0, 1.0 + 0.08 / high, line, transform=axes.transAxes, size=9.5,
                      weight="bold", color=ink, gid="panel head")  # fmt: skip
        if low_edge:
            axes.set_xlabel(axis_label(field.x.name), fontsize=9, color=ink)
        if column == 0:
            axes.set_ylabel(axis_label(field.y.name), fontsize=9, color=ink)
