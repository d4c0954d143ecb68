"""The pictures of a report: each alignment's limb at two instants, and two curves beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from simgait.pictures.curves import PANELS, draw_panel
from simgait.pictures.inputs import FloatArray
from simgait.pictures.limb import FORCE_SCALE, View, draw_limb
from simgait.pictures.poses import Poses, poses_at
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour, line_looks
from simgait.pictures.vector import VectorSheet, lay_into
from simgait.pictures.wording import ended_badly, ending_words
from simgait.report.content import Report

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["STRIP_WIDTH", "draw_strip", "scale_words"]

MM = 1.0 / 25.4  # [inch]
STRIP_WIDTH = 190.0  # [mm]
_CELL, _CURVES, _GAP = 34.0, 64.0, 9.0  # [mm] widest cell, least width of the curves
_WORDS, _HEAD = 3.4, 4.2  # [mm] a line under a limb, the head of a row
_PIXEL = 0.5  # [point] of a picture
_CURVE_LETTERS = 0.66  # of the usual size


@dataclass(frozen=True, kw_only=True)
class Row:
    """One instant of all shown alignments: what it is called, the poses, and left of its window."""

    words: str
    poses: tuple[Poses | None, ...]
    left: float  # [m]
    right: float


def _rows(report: Report) -> tuple[Row, ...]:
    results = [report.comparison.results[place] for place in report.shown]
    rows = []
    for words, percent in report.instants:
        poses = []
        for result in results:
            time = float(np.interp(percent, result.curves.percent, result.curves.time))
            poses.append(poses_at(result.curves, np.array([time])))
        reach = [
            _reach(pose, r.body_weight) for pose, r in zip(poses, results, strict=True) if pose
        ]
        across = np.concatenate(reach)[:, 0] if reach else np.array([-0.4, 0.4])
        low, high = float(across.min()) - 0.10, float(across.max()) + 0.06
        heading = f"{words.capitalize()}, {percent:.0f} % of stance"
        rows.append(Row(words=heading, poses=tuple(poses), left=low, right=high))
    return tuple(rows)


def _reach(pose: Poses, body_weight: float) -> FloatArray:
    """Points [m] that must be inside the window: the limb and the tip of the arrow."""
    start = np.column_stack([pose.pressure_x, np.zeros_like(pose.pressure_x)])
    tip = start + pose.force / body_weight * FORCE_SCALE
    tip = tip[np.isfinite(tip).all(axis=1)]
    return np.concatenate([pose.hip, pose.knee, pose.ankle, pose.sole.reshape(-1, 2), tip])


def _scale(rows: Sequence[Row], cell: float, tall: float) -> float:
    """Return millimetres of paper for a metre, at which every limb fits its cell."""
    poses = [pose for row in rows for pose in row.poses if pose]
    top = max((float(pose.hip[:, 1].max()) for pose in poses), default=1.0) + 0.10
    wide = max(row.right - row.left for row in rows)
    return min(cell / wide, tall / (top + 0.04))


def _sizes(report: Report, height: float) -> tuple[float, float]:
    """Return the width of a cell and the height of a limb's window [mm]."""
    count = len(report.shown)
    cell = min(_CELL, (STRIP_WIDTH - _CURVES - _GAP) / count)
    return cell, height / len(report.instants) - _HEAD - _WORDS - 1.0


def scale_words(report: Report, height: float) -> str:
    """Return what the pictures' scale and marks mean.

    height: of the strip [mm].
    """
    scale = _scale(_rows(report), *_sizes(report, height))
    return (
        f"Limbs to scale 1 : {1000.0 / scale:.0f}. Arrow: ground force, "
        f"{FORCE_SCALE * scale:.0f} mm for one body weight; bar: its lever at the knee; "
        "under each limb, how far behind or ahead of the knee the force passes. Widths are drawn, "
        "not measured. Numbers on the curves: alignments; square: the baseline."
    )


def draw_strip(figure: Figure, report: Report, corner: tuple[float, float], height: float) -> None:
    """Draw limbs and curves into a figure.

    corner: left and bottom [mm]; height: [mm]; the width is `STRIP_WIDTH`.
    """
    left, bottom = corner
    rows = _rows(report)
    cell, tall = _sizes(report, height)
    scale = _scale(rows, cell, tall)
    band = height / len(rows)
    for number, row in enumerate(rows):
        below = bottom + height - (number + 1) * band
        _write(figure, (left, below + band - 2.6), row.words, 6.4, weight="bold")
        for place in range(len(report.shown)):
            _draw_cell(
                figure, report, row, place, (left + place * cell, below), (cell, tall), scale
            )
    aside = left + len(report.shown) * cell + _GAP
    _draw_curves(figure, report, (aside, bottom, left + STRIP_WIDTH - aside, height))


def _draw_cell(
    figure: Figure,
    report: Report,
    row: Row,
    place: int,
    corner: tuple[float, float],
    size: tuple[float, float],
    scale: float,
) -> None:
    """Draw one limb over its number and the lever at the knee."""
    index = report.shown[place]
    result, pose = report.comparison.results[index], row.poses[place]
    own = index == report.comparison.baseline
    middle = corner[0] + size[0] / 2.0
    words = "not drawn"
    if pose is not None:
        pixels = scale * MM * 72.0 / _PIXEL  # of a metre
        wide, high = (round(length * MM * 72.0 / _PIXEL) for length in size)
        left = (row.left + row.right) / 2.0 - wide / pixels / 2.0
        view = View(left=left, bottom=-0.04, scale=pixels, width=wide, height=high)
        box = (corner[0] * MM, (corner[1] + _WORDS) * MM, size[0] * MM, size[1] * MM)
        words = _draw_pose(figure, box, view, pose, result.body_weight)
    if ended_badly(result):
        words = ending_words(result)
    look = {"color": hex_colour(ACCENT if ended_badly(result) else INK), "ha": "center"}
    name = f"{index + 1}: {words}"
    weight = "bold" if own else "normal"
    _write(figure, (middle, corner[1] + 0.9), name, 5.6, weight=weight, **look)


def _draw_pose(
    figure: Figure,
    box: tuple[float, float, float, float],
    view: View,
    pose: Poses,
    body_weight: float,
) -> str:
    """Draw a limb on the floor; return where the force passes the knee, in words."""
    sheet = VectorSheet()
    lever = draw_limb(sheet, view, pose, 0, body_weight)
    axes = lay_into(figure, box, sheet, (view.width, view.height))
    floor = view.pixels(np.array([[0.0, 0.0]]))[0][1]
    axes.axhline(floor, color=hex_colour(SOFT_INK), linewidth=0.6, zorder=-1)
    if lever is None:
        return "no load"
    return f"{1000.0 * abs(lever[0]):.0f} mm {'behind' if lever[0] >= 0.0 else 'ahead'}"


def _write(
    figure: Figure, place: tuple[float, float], words: str, size: float, **look: Any
) -> None:
    wide, high = figure.get_size_inches()
    figure.text(
        place[0] * MM / wide, place[1] * MM / high, words, size=size,
        **{"color": hex_colour(INK), **look},
    )  # fmt: skip


def _draw_curves(figure: Figure, report: Report, box: tuple[float, float, float, float]) -> None:
    """Draw the moments of knee and socket, one over the other."""
    wide, high = figure.get_size_inches()
    count = len(report.shown)
    base = report.shown.index(report.comparison.baseline)
    looks = dict(zip(report.shown, line_looks(count, base), strict=True))
    each = (box[3] - 28.0) / 2.0
    for row, panel in enumerate(PANELS[:2]):
        bottom = box[1] + 7.0 + (1 - row) * (each + 12.0)
        axes = figure.add_axes(
            (
                (box[0] + 5.0) * MM / wide,
                bottom * MM / high,
                (box[2] - 8.0) * MM / wide,
                each * MM / high,
            )
        )
        draw_panel(
            axes, panel, report.comparison, looks, row=row, name_endings=False,
            size=_CURVE_LETTERS, faint_rest=False,
        )  # fmt: skip
