"""The trade-off front: all runs pale, the best of them marked, joined and listed."""

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pandas as pd

from simgait.pictures.studies.asking import require_rows
from simgait.pictures.studies.front_list import (
    areas,
    draw_list,
    list_height,
    list_width,
    picked,
)
from simgait.pictures.studies.page import Page, StudyLike, drawing, dress, open_page, write_page
from simgait.pictures.studies.words import definition, exact, label, noun, unit_of
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

if TYPE_CHECKING:
    from simgait.studies.wishes import Sense

__all__ = ["draw_front", "number_offsets"]

_PLOT, _HIGH, _LEFT, _BELOW, _TOP = 6.0, 5.0, 0.75, 0.62, 0.12  # [inch]
_BETWEEN = 0.35  # [inch] between plot and list


def draw_front(
    table: pd.DataFrame,
    front: pd.DataFrame,
    path: str | os.PathLike[str],
    *,
    study: StudyLike,
    goals: Mapping[str, "Sense"],
    settings: Sequence[str] = (),
    size: str | None = None,
    baseline: Mapping[str, float] | None = None,
) -> Path:
    """Draw the front between the first two goals and write the picture whole; return its path.

    table: all runs; front: those on the front, as `simgait.studies.front.trade_off` gives them;
    goals: two or three measures, each "low", "high" or a value to be near to; settings: columns
    that are listed for the front's runs; size: the measure that the size of the marks says, the
    third goal if not stated; baseline: a run to compare with, by column.

    Raises
    ------
    ValueError : no rows, no front, a missing column, not two or three goals, no cautions, or a
        name not in .png.
    OSError : the file cannot be written.
    """
    if not 2 <= len(goals) <= 3:
        raise ValueError(f"a front lies between two or three goals, not {len(goals)}")
    names = list(goals)
    third = size if size is not None else (names[2] if len(names) == 3 else None)
    columns = list(dict.fromkeys([*names, *([third] if third else [])]))
    require_rows(table, [*columns, "ending"], "runs")
    require_rows(front, [*columns, *settings], "runs on the front")
    with drawing():
        room = list_width(len(settings) + len(columns))
        page = _page(table, front, study, goals, room)
        _draw_plot(page, table, front, goals, third, baseline)
        box = (_LEFT + _PLOT + _BETWEEN, page.body[3] - _TOP, room, 0.0)
        draw_list(page, box, front, settings, columns, baseline, third, _better(goals))
    return write_page(page, path)


def _page(
    table: pd.DataFrame,
    front: pd.DataFrame,
    study: StudyLike,
    goals: Mapping[str, "Sense"],
    room: float,
) -> Page:
    subject = f"Trade-off: {'; '.join(_goal_words(*goal) for goal in goals.items())}"
    bad = int((table["ending"].astype(str) != "toe_off").sum())
    shown = f"Shown here: {len(table):,} of the {study.rows:,} runs. "
    missing = f"{bad:,} of them ended badly and have no place here. " if bad else ""
    notes = [
        f"{shown if len(table) != study.rows or bad else ''}{missing}{len(front):,} are on the "
        "front: for each of these, every run that is better in one goal is worse in another.",
        *(f"{noun(name)}: {definition(name)}" for name in goals if definition(name)),
    ]
    width = _LEFT + _PLOT + _BETWEEN + room
    height = max(_HIGH + _BELOW + _TOP, list_height(len(picked(front))) + _TOP)
    return open_page(study, subject, notes, width=width, height=height)


def _goal_words(name: str, sense: "Sense") -> str:
    """What is wanted of a measure."""
    if isinstance(sense, str):
        return f"{'less' if sense == 'low' else 'more'} {noun(name)}"
    unit = unit_of(name)
    return f"{noun(name)} near {exact(float(sense))}{f' {unit}' if unit else ''}"


def _sense_words(sense: "Sense") -> str:
    if isinstance(sense, str):
        return "less is better" if sense == "low" else "more is better"
    return f"near {exact(float(sense))} is better"


def _draw_plot(
    page: Page,
    table: pd.DataFrame,
    front: pd.DataFrame,
    goals: Mapping[str, "Sense"],
    third: str | None,
    baseline: Mapping[str, float] | None,
) -> None:
    axes = page.axes((_LEFT, page.body[3] - _TOP - _HIGH, _PLOT, _HIGH))
    dress(axes)
    x, y = list(goals)[:2]
    ink = hex_colour(INK)
    pale = hex_colour(SOFT_INK)
    dot = 3.0 if len(table) > 3000 else 5.0 if len(table) > 500 else 10.0
    axes.scatter(table[x], table[y], s=dot, color=pale, alpha=0.35, linewidths=0, gid="runs")
    style = _joining(goals)
    if style:
        ordered = front.sort_values(x, kind="stable")
        axes.plot(ordered[x], ordered[y], color=hex_colour(ACCENT), linewidth=1.4,
                  drawstyle=style, zorder=3, gid="front joined")  # fmt: skip
    sizes = _sizes(front[third]) if third else np.full(len(front), 46.0)
    axes.scatter(front[x], front[y], s=sizes, color=hex_colour(ACCENT), edgecolors=ink,
                 linewidths=0.8, zorder=4, gid="front")  # fmt: skip
    if baseline is not None and x in baseline and y in baseline:
        axes.scatter([baseline[x]], [baseline[y]], s=95, marker="s", color=ink, zorder=5,
                     edgecolors=hex_colour(PAPER), linewidths=1.2, gid="baseline")  # fmt: skip
    axes.margins(0.06)
    for name, axis in ((x, axes.xaxis), (y, axes.yaxis)):
        sense = goals[name]
        axis.set_label_text(f"{label(name)}: {_sense_words(sense)}", fontsize=9, color=ink)
        if not isinstance(sense, str):
            line = axes.axvline if name == x else axes.axhline
            line(float(sense), color=ink, linewidth=1.0, linestyle="dashed", gid="wanted")
    axes.autoscale_view()
    axes.set_xlim(axes.get_xlim())
    axes.set_ylim(axes.get_ylim())
    _write_numbers(axes, front, (x, y), _better(goals) or (1.0, 1.0))


def _joining(goals: Mapping[str, "Sense"]) -> str | None:
    """How the front is joined: along the edge of what is beaten; None where it is no line."""
    senses = list(goals.values())
    if len(senses) != 2 or not all(isinstance(sense, str) for sense in senses):
        return None
    return "steps-post" if senses[0] == "low" else "steps-pre"


def _sizes(values: pd.Series) -> np.ndarray:
    """The area of each mark [point^2], from the smallest to the largest value."""
    known = values.to_numpy(dtype=np.float64)
    low, high = float(np.nanmin(known)), float(np.nanmax(known))
    share = (known - low) / (high - low) if high > low else np.full(known.shape, 0.5)
    small, large = areas(len(values))
    return np.asarray(small + (large - small) * share)


def _better(goals: Mapping[str, "Sense"]) -> tuple[float, float] | None:
    """The way into which the two goals of the axes pull, right and up; None if it has none."""
    senses = list(goals.values())[:2]
    if not all(isinstance(sense, str) for sense in senses):
        return None
    first, second = (1.0 if sense == "high" else -1.0 for sense in senses)
    return first, second


def _write_numbers(
    axes: Any, front: pd.DataFrame, names: tuple[str, str], towards: tuple[float, float]
) -> None:
    """The number of each listed run beside its mark, where it is free, best on the better side."""
    from matplotlib import patheffects

    places = front[[*names]].to_numpy(dtype=np.float64)
    points = axes.transData.transform(places) * 72.0 / axes.figure.dpi
    corners = axes.transAxes.transform([(0.0, 0.0), (1.0, 1.0)]) * 72.0 / axes.figure.dpi
    rim = patheffects.withStroke(linewidth=2.4, foreground=hex_colour(PAPER))
    offsets = number_offsets(points, picked(front), corners, towards)
    for rank, (place, offset) in enumerate(zip(picked(front), offsets, strict=True)):
        axes.annotate(
            f"{rank + 1}", tuple(places[place]), offset, textcoords="offset points", size=8,
            weight="bold", ha="center", va="center", color=hex_colour(INK), zorder=7,
            path_effects=[rim], gid="front number", annotation_clip=False,
            arrowprops={"arrowstyle": "-", "color": hex_colour(INK), "linewidth": 0.6,
                        "shrinkA": 0.0, "shrinkB": 0.0},
        )  # fmt: skip


def number_offsets(
    points: np.ndarray, listed: Sequence[int], corners: np.ndarray, towards: tuple[float, float]
) -> list[tuple[float, float]]:
    """Where each listed number stands, from its mark [point].

    Of a ring of places around the mark the one farthest from all marks and from the numbers already
    placed, inside the frame, and the more gladly the more it lies `towards` the free side.

    points: of all marks [marks, 2]; corners: lower left, upper right of the frame [2, 2], [point].
    """
    angles = np.linspace(0.0, 2.0 * np.pi, 16, endpoint=False)
    ring = np.concatenate(
        [r * np.column_stack([np.cos(angles), np.sin(angles)]) for r in (12, 17, 24)]
    )
    glad = 0.15 * (ring @ np.asarray(towards))
    taken = np.empty((0, 2))
    found: list[tuple[float, float]] = []
    for place in listed:
        where = points[place] + ring
        others = np.concatenate([points, taken])
        gaps = np.hypot(*(where[:, None, :] - others[None, :, :]).transpose(2, 0, 1))
        free = np.minimum(gaps.min(axis=1), 14.0)
        inside = ((where > corners[0] + 5.0) & (where < corners[1] - 5.0)).all(axis=1)
        best = int(np.argmax(free + glad - 100.0 * ~inside))
        taken = np.vstack([taken, where[best]])
        found.append((float(ring[best, 0]), float(ring[best, 1])))
    return found
