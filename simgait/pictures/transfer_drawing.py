"""A chain of components to scale: socket's end, plate, tilts, tube, foot, and its dimensions."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from simgait.limb import sole_in_prosthesis
from simgait.pictures.inputs import FloatArray
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour
from simgait.transfer import Chain, Fitted, Transfer

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["SCALES", "Window", "draw_chain", "window_of"]

SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 10.0)  # of the drawing, 1 to each
MM = 1.0 / 25.4  # [inch]
_STUB = 0.045  # [m] of the socket that is drawn above its end
_TUBE, _CLAMP, _CUP = 0.015, 0.019, 0.035  # [m] half-widths: drawn, not measured
_TILT = 0.008  # [m] radius of a tilt's mark
_MARGIN = 9.0  # [mm] round the drawing, for dimensions
_SMALL = 6.2  # [point]


@dataclass(frozen=True, kw_only=True)
class Window:
    """Where a chain is drawn: a box of the page [mm], the scale, and what is at its corner [m]."""

    box: tuple[float, float, float, float]
    scale: float  # 1 to this
    left: float
    bottom: float


def _sole(made: Transfer, fitted: Fitted) -> FloatArray:
    """Return the foot's sole in the frame of the socket [n, 2] m."""
    limb = fitted.result.limb
    x, y = sole_in_prosthesis(limb)
    return np.column_stack([x, np.asarray(y) + limb.end_below_pivot])


def window_of(made: Transfer, fitted: Fitted, box: tuple[float, float, float, float]) -> Window:
    """Return the window that shows a chain and its foot in a box of the page at a round scale.

    box: left, bottom, width, height [mm].
    """
    sole = _sole(made, fitted)
    points = np.concatenate([sole, np.array(fitted.found.chain.joints), [[-_CUP, _STUB]]])
    low, high = points.min(axis=0), points.max(axis=0)
    room = np.array([box[2], box[3]]) - 2.0 * _MARGIN
    needed = float((1000.0 * (high - low) / room).max())
    scale = next((each for each in SCALES if each >= needed), needed)
    middle = (low + high) / 2.0
    half = np.array([box[2], box[3]]) * scale / 2000.0
    return Window(box=box, scale=scale, left=middle[0] - half[0], bottom=middle[1] - half[1])


def draw_chain(figure: Figure, window: Window, made: Transfer, fitted: Fitted) -> None:
    """Draw a chain, the unit behind it in pale strokes, and its dimensions."""
    wide, high = figure.get_size_inches()
    box = [length * MM for length in window.box]
    axes = figure.add_axes((box[0] / wide, box[1] / high, box[2] / wide, box[3] / high))
    across, tall = (length * window.scale / 1000.0 for length in window.box[2:])
    axes.set_xlim(window.left, window.left + across)
    axes.set_ylim(window.bottom, window.bottom + tall)
    axes.set_axis_off()
    if made.unit is not None:
        _draw_unit(axes, made.unit)
    _draw_foot(axes, _sole(made, fitted), fitted.found.chain)
    _draw_components(axes, fitted.found.chain, made.hardware.clamps)
    _draw_dimensions(axes, fitted, _sole(made, fitted))


def _line(axes: Any, points: Any, **look: Any) -> None:
    x, y = np.asarray(points).T
    axes.plot(x, y, **{"color": hex_colour(INK), "linewidth": 0.8, **look})


def _bar(axes: Any, start: FloatArray, end: FloatArray, half: float, **look: Any) -> None:
    """Draw a bar between two points, half as wide as said [m]."""
    from matplotlib.patches import Polygon

    along = end - start
    length = float(np.hypot(*along)) or 1.0
    across = np.array([along[1], -along[0]]) / length * half
    corners = [start - across, start + across, end + across, end - across]
    axes.add_patch(Polygon(corners, closed=True, edgecolor=hex_colour(INK), linewidth=0.8, **look))


def _draw_unit(axes: Any, unit: Chain) -> None:
    joints = np.array(unit.joints)
    soft = hex_colour(SOFT_INK)
    _line(axes, joints, color=soft, linewidth=0.9, linestyle=(0, (4, 2)), zorder=7)
    _line(axes, joints[1:3], color=soft, linestyle="none", marker="o", markersize=3, zorder=7)


def _draw_foot(axes: Any, sole: FloatArray, chain: Chain) -> None:
    ankle = np.array(chain.joints[-1])
    _line(axes, sole, linewidth=1.6)
    for end in (sole[0], sole[-1]):
        _line(axes, [end, ankle], linewidth=0.5, color=hex_colour(SOFT_INK))


def _draw_components(axes: Any, chain: Chain, clamps: float) -> None:
    """Draw socket, plate, adapters, tube and tilts."""
    from matplotlib.patches import Circle

    end, upper, lower, ankle = (np.array(joint) for joint in chain.joints)
    pale = {"facecolor": "#e4e1dc"}
    _bar(axes, np.array([0.0, _STUB]), end, _CUP, facecolor="white", zorder=2)
    plate = np.array([chain.offset, 0.0])
    if chain.offset:
        reach = min(chain.offset, 0.0) - 0.02, max(chain.offset, 0.0) + 0.02
        left, right = (np.array([x, 0.0]) for x in reach)
        _bar(axes, left, right, 0.003, zorder=3, facecolor=hex_colour(INK))
    _bar(axes, plate, upper, 0.010, zorder=2, **pale)
    along = np.array([math.sin(chain.upper_tilt), -math.cos(chain.upper_tilt)])
    _bar(axes, upper, lower, _CLAMP, zorder=2, **pale)
    inside = along * clamps / 2.0
    _bar(axes, upper + inside, lower - inside, _TUBE, facecolor="white", zorder=3)
    _bar(axes, lower, ankle, 0.010, zorder=2, **pale)
    ring: dict[str, Any] = {"facecolor": "white", "edgecolor": hex_colour(INK), "linewidth": 1.0}
    for place in chain.joints[1:3]:
        axes.add_patch(Circle(place, _TILT, zorder=5, **ring))
    _line(axes, [ankle], marker="+", markersize=9, markeredgewidth=1.2, zorder=6)
    _line(axes, [[0.0, _STUB + 0.01], [0.0, ankle[1] - 0.02]], linestyle="-.", linewidth=0.5)


def _draw_dimensions(axes: Any, fitted: Fitted, sole: FloatArray) -> None:
    """Write the cut, the tilts, the plate and the pose beside what they are."""
    chain, found = fitted.found.chain, fitted.found
    _, upper, lower, ankle = (np.array(joint) for joint in chain.joints)
    right = max(upper[0], lower[0]) + 0.030
    middle = (upper + lower) / 2.0
    _note(axes, (right, middle[1]), f"tube {1000.0 * found.pylon:.1f} mm", bold=True)
    for joint, angle in ((upper, chain.upper_tilt), (lower, chain.lower_tilt)):
        _note(axes, (right, joint[1]), f"tilt {math.degrees(angle):+.2f} deg")
    plate = f"plate {1000.0 * chain.offset:+g} mm" if chain.offset else "no plate"
    _note(axes, (_CUP + 0.008, 0.0), plate)
    side = "ahead" if ankle[0] >= 0.0 else "behind"
    words = f"ankle axis {1000.0 * abs(ankle[0]):.1f} mm {side} of the socket's axis"
    _note(axes, (right, ankle[1]), words.replace("behind of", "behind"))
    left = float(sole[:, 0].min()) - 0.012
    soft = hex_colour(SOFT_INK)
    for y in (0.0, float(ankle[1])):
        _line(
            axes, [[left - 0.006, y], [0.0 if y == 0.0 else ankle[0], y]], color=soft, linewidth=0.4
        )
    axes.annotate(
        "", (left, 0.0), (left, float(ankle[1])),
        arrowprops={
            "arrowstyle": "<->", "color": soft, "linewidth": 0.7, "shrinkA": 0, "shrinkB": 0,
        },
    )  # fmt: skip
    axes.text(
        left - 0.004, float(ankle[1]) / 2.0, f"{-1000.0 * ankle[1]:.1f} mm", rotation=90,
        ha="right", va="center", size=_SMALL, color=hex_colour(INK),
    )  # fmt: skip


def _note(axes: Any, place: tuple[float, float], words: str, bold: bool = False) -> None:
    axes.text(
        *place, words, va="center", size=7.0 if bold else _SMALL,
        weight="bold" if bold else "normal", color=hex_colour(ACCENT if bold else INK), zorder=8,
    )  # fmt: skip
