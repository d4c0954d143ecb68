"""Paired differences between settings, with intervals, beside what is not known anyway."""

import os
from collections.abc import Mapping, Sequence
from math import isfinite
from pathlib import Path
from typing import Any

import pandas as pd

from simgait.pictures.studies.asking import require_rows
from simgait.pictures.studies.page import (
    Box,
    Page,
    StudyLike,
    broken,
    drawing,
    dress,
    open_page,
    write_page,
)
from simgait.pictures.studies.words import decimals_for, label, noun, number, setting_words
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, Colour, hex_colour

__all__ = ["draw_differences"]

COLUMNS = ("difference", "low", "high", "sign_kept", "unknown", "distinguishable", "pairs")
MOST_ROWS = 40
_BAND: Colour = (222, 211, 192)
_PANEL, _ROW, _HEAD, _BELOW, _KEY, _NUMBERS = 2.9, 0.27, 0.24, 0.36, 0.40, 1.30  # [inch]
_HEAD_LINE = 0.17  # [inch] a line of a panel's head
_CHANGE, _KEPT = 46.0, 92.0  # [point] right of the panel: right edges of the numbers
_LEAST_WIDTH = 8.0  # [inch]
_GAP = 0.30  # [inch] between panels
_NOTE = (
    "Change of the measure against the base, draw by draw of the errors of measurement: mean, and "
    "the central 95 per cent of the draws. Band: how far off the measure itself may be at the base "
    "because the numbers behind it are known only so well. A change within the band cannot be told "
    "from not knowing them."
)


def draw_differences(
    differences: pd.DataFrame,
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    settings: Sequence[str],
    base: Mapping[str, object],
    labels: Mapping[str, str] | None = None,
) -> Path:
    """Draw what each setting changes against a base, one panel a measure; write it whole.

    differences: as `simgait.studies.differences.paired_differences` gives them; settings: the
    columns that make up a setting; base: their values at the base; labels: heads of the panels
    by measure, if they should not be the measures' own.

    Raises
    ------
    ValueError : no rows, a missing column, more than forty settings, no cautions, or a name not in
        .png.
    OSError : the file cannot be written.
    """
    require_rows(differences, [*settings, "measure", *COLUMNS], "differences")
    rows = differences[[*settings]].drop_duplicates()
    if len(rows) > MOST_ROWS:
        raise ValueError(f"{len(rows)} settings are too many to read; up to {MOST_ROWS} are drawn")
    names = [_row_words(row, settings, base) for _, row in rows.iterrows()]
    measures = list(dict.fromkeys(differences["measure"]))
    told = [(labels or {}).get(measure, label(measure)) for measure in measures]
    with drawing():
        page, boxes = _page(study, names, told, settings, base)
        for measure, head, box in zip(measures, told, boxes, strict=True):
            part = differences[differences["measure"] == measure]
            axes = page.axes(box)
            _draw_panel(axes, rows.merge(part, how="left", on=[*settings]))
            _write_heads(axes, broken(head, box[2] + _NUMBERS, 9.0, True))
            if measure == measures[0]:
                axes.set_yticks(range(len(names)), names, fontsize=8.5, color=hex_colour(INK))
            else:
                axes.set_yticks([])
        _draw_key(page)
    return write_page(page, path)


def _row_words(row: "pd.Series[Any]", settings: Sequence[str], base: Mapping[str, object]) -> str:
    """The settings of a row that are not the base's."""
    changed = [name for name in settings if row[name] != base.get(name)]
    return ", ".join(setting_words(name, row[name]) for name in changed) or "as the base"


def _page(
    study: StudyLike,
    names: Sequence[str],
    heads: Sequence[str],
    settings: Sequence[str],
    base: Mapping[str, object],
) -> tuple[Page, list[Box]]:
    """The page, and the place of each panel."""
    longest = max(len(name) for name in names)
    left = min(max(0.075 * longest + 0.15, 1.0), 4.5)
    room = (_LEAST_WIDTH - left + _GAP) / len(heads) - _NUMBERS - _GAP
    panel = max(_PANEL, room)
    step = panel + _NUMBERS + _GAP
    lines = max(len(broken(head, panel + _NUMBERS, 9.0, True)) for head in heads)
    high = _ROW * len(names)
    height = _KEY + _HEAD + _HEAD_LINE * lines + high + _BELOW
    start = ", ".join(setting_words(name, base.get(name, "")) for name in settings)
    subject = f"What a change of {' and '.join(map(noun, settings))} does; base: {start}"
    width = left + step * len(heads) - _GAP
    page = open_page(study, subject, (_NOTE,), width=width, height=height)
    return page, [(left + step * place, _BELOW, panel, high) for place in range(len(heads))]


def _draw_panel(axes: Any, part: pd.DataFrame) -> None:
    dress(axes, grid="x")
    ink = hex_colour(INK)
    ends = part[["low", "high", "difference", "unknown"]].abs().to_numpy(dtype=float)
    largest = max([value for value in ends.ravel() if isfinite(value)], default=1.0) or 1.0
    axes.set_xlim(-1.08 * largest, 1.08 * largest)
    axes.set_ylim(len(part) - 0.5, -0.5)
    axes.axvline(0.0, color=ink, linewidth=1.0, zorder=2)
    axes.spines["left"].set_visible(False)
    axes.tick_params(axis="y", length=0)
    for row, each in enumerate(part.itertuples(index=False)):
        _draw_row(axes, row, each, decimals_for(largest / 3.0))


def _write_heads(axes: Any, head: Sequence[str]) -> None:
    """The measure over the panel, and the heads of the two columns of numbers."""
    for place, line in enumerate(reversed(head)):
        axes.annotate(line, (0.0, 1.0), (0.0, 17.0 + 72.0 * _HEAD_LINE * place),
                      xycoords="axes fraction", textcoords="offset points", size=9.0,
                      weight="bold", color=hex_colour(INK), annotation_clip=False,
                      gid="panel head")  # fmt: skip
    for words, right in (("change", _CHANGE), ("sign kept", _KEPT)):
        axes.annotate(words, (1.0, 1.0), (right, 4.0), xycoords="axes fraction", ha="right",
                      textcoords="offset points", size=7.5, color=hex_colour(SOFT_INK),
                      annotation_clip=False)  # fmt: skip


def _draw_row(axes: Any, row: int, each: Any, decimals: int) -> None:
    """Band, interval, mark and numbers of one setting."""
    ink, paper, accent = hex_colour(INK), hex_colour(PAPER), hex_colour(ACCENT)
    if not isfinite(each.difference):
        pairs = 0 if not isfinite(each.pairs) else int(each.pairs)
        axes.text(0.0, row, f"too few pairs: {pairs}", size=8, style="italic", va="center",
                  ha="center", color=hex_colour(SOFT_INK), gid="none",
                  bbox={"facecolor": paper, "linewidth": 0, "pad": 1.0})  # fmt: skip
        return
    if isfinite(each.unknown):
        axes.barh(row, 2.0 * each.unknown, 1.0, -each.unknown, color=hex_colour(_BAND),
                  linewidth=0, zorder=1, gid="unknown")  # fmt: skip
    told = bool(each.distinguishable)
    colour = accent if told else ink
    axes.plot([each.low, each.high], [row, row], color=colour, linewidth=1.6, zorder=4,
              gid="interval")  # fmt: skip
    axes.plot(
        each.difference, row, "o", markersize=7, color=accent if told else paper,
        markeredgecolor=ink, markeredgewidth=1.2, zorder=5,
        gid="told apart" if told else "not told apart",
    )  # fmt: skip
    words = number(each.difference, decimals, signed=True)
    for text, right in ((words, _CHANGE), (f"{100.0 * each.sign_kept:.0f} %", _KEPT)):
        axes.annotate(text, (1.0, row), (right, 0.0), xycoords=("axes fraction", "data"),
                      textcoords="offset points", size=8, ha="right", va="center", color=ink,
                      weight="bold" if told and right == _CHANGE else "normal",
                      annotation_clip=False)  # fmt: skip


def _draw_key(page: Page) -> None:
    width, height = page.body[2:]
    axes = page.axes((0.0, height - _KEY, width, _KEY))
    axes.set_axis_off()
    axes.set_facecolor("none")
    axes.set_xlim(0.0, width)
    axes.set_ylim(0.0, _KEY)
    ink, accent, up = hex_colour(INK), hex_colour(ACCENT), _KEY / 2.0
    for left, fill, line, words in (
        (0.0, accent, accent, "larger than what is unknown"),
        (2.75, hex_colour(PAPER), ink, "within what is unknown"),
    ):
        axes.plot([left, left + 0.45], [up, up], color=line, linewidth=1.6)
        axes.plot(left + 0.225, up, "o", markersize=7, color=fill, markeredgecolor=ink,
                  markeredgewidth=1.2)  # fmt: skip
        axes.text(left + 0.55, up, words, size=8.5, va="center", color=ink)
    axes.barh(up, 0.45, 0.2, 5.2, color=hex_colour(_BAND), linewidth=0)
    axes.text(5.75, up, "what is unknown at the base", size=8.5, va="center", color=ink)
