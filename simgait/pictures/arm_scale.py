"""The arm to scale: sections, cable, guide, loop, and the lever square to the cable."""

from typing import Any

import numpy as np

from simgait.arm.sheet import FOCUS, ArmSheet
from simgait.pictures.arm_panels import angle_words
from simgait.pictures.inputs import FloatArray
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

__all__ = ["draw_arm_to_scale"]

_UPPER_WIDTH, _ELBOW_WIDTH, _WRIST_WIDTH = 0.045, 0.036, 0.024  # [m] half; drawn, not measured
_BAR = 0.1  # [m] scale bar
_SHARE = 0.60  # of the width for the arm; the rest is for the elbow, enlarged
_MIDDLE = 1  # of the three flexions: drawn in full, the others faint


def draw_arm_to_scale(axes: Any, sheet: ArmSheet) -> None:
    """Draw the arm at the middle of its range, and faint at both ends."""
    pose = sheet.pose
    if pose is None or sheet.focus is None or sheet.why is None:
        return
    axes.set_axis_off()
    axes.set_aspect("equal")
    ink = hex_colour(INK)
    words = FOCUS[sheet.why]
    axes.set_title(f"To scale: {words}", loc="left", size=9.5, weight="bold", color=ink, pad=7)
    for place in (0, 2):
        _section(axes, (pose.elbow[place], _ELBOW_WIDTH), (pose.shell_end[place], _WRIST_WIDTH),
                 0.0, "none", SOFT_INK)  # fmt: skip
        _hook(axes, pose.shell_end[place], pose.tip[place], SOFT_INK, 1.0)
        out = (pose.tip[place] - pose.elbow[place]) * 1.10 + pose.elbow[place]
        axes.text(*out, angle_words(float(sheet.flexion[place])), size=8, ha="center", va="center",
                  color=hex_colour(SOFT_INK))  # fmt: skip
    shoulder = np.zeros(2)
    _section(axes, (shoulder, _UPPER_WIDTH), (pose.elbow[_MIDDLE], _ELBOW_WIDTH), 0.16, INK, INK)
    _section(axes, (pose.elbow[_MIDDLE], _ELBOW_WIDTH), (pose.shell_end[_MIDDLE], _WRIST_WIDTH),
             0.16, INK, INK)  # fmt: skip
    _hook(axes, pose.shell_end[_MIDDLE], pose.tip[_MIDDLE], INK, 2.6)
    for point in (shoulder, pose.elbow[_MIDDLE]):
        _dot(axes, point, PAPER, 7)
    _cable(axes, sheet)
    axes.annotate("shoulder axis", shoulder, (0, 21), textcoords="offset points", size=8,
                  ha="center", color=ink, zorder=6)  # fmt: skip
    _window(axes, sheet)
    _near_elbow(axes.inset_axes((0.60, 0.20, 0.40, 0.68)), sheet)


def _section(
    axes: Any,
    start: tuple[FloatArray, float],
    end: tuple[FloatArray, float],
    fill: float,
    face: Any,
    edge: Any,
) -> None:
    """A tapered section with round ends between two (point, half width) [m]."""
    (a, wide_a), (b, wide_b) = start, end
    lean = float(np.arctan2(b[1] - a[1], b[0] - a[0]))
    far = np.linspace(lean - np.pi / 2.0, lean + np.pi / 2.0, 25)
    near = far + np.pi
    ring = np.concatenate(
        [
            b + wide_b * np.column_stack([np.cos(far), np.sin(far)]),
            a + wide_a * np.column_stack([np.cos(near), np.sin(near)]),
        ]
    )
    closed = np.concatenate([ring, ring[:1]])
    if fill > 0.0:
        axes.fill(*ring.T, facecolor=hex_colour(PAPER), edgecolor="none", zorder=2)
        axes.fill(*ring.T, facecolor=hex_colour(face), alpha=fill, edgecolor="none", zorder=2)
    axes.plot(*closed.T, color=hex_colour(edge), linewidth=1.0 if fill else 0.7, zorder=2.1,
              dashes=() if fill else (3.0, 2.0))  # fmt: skip


def _hook(axes: Any, wrist: FloatArray, tip: FloatArray, colour: Any, width: float) -> None:
    """The device as a bent finger from the wrist to its tip."""
    along = tip - wrist
    across = np.array([-along[1], along[0]])
    share = np.linspace(0.0, 1.0, 25)[:, None]
    bend = 0.22 * np.sin(np.pi * share) * across
    axes.plot(*(wrist + share * along + bend).T, color=hex_colour(colour), linewidth=width,
              solid_capstyle="round", zorder=2.2)  # fmt: skip


def _dot(axes: Any, point: FloatArray, face: Any, size: float) -> None:
    axes.plot(*point, "o", markersize=size, markerfacecolor=hex_colour(face),
              markeredgecolor=hex_colour(INK), markeredgewidth=1.2, zorder=5)  # fmt: skip


def _cable(axes: Any, sheet: ArmSheet) -> None:
    """The cable from guide to loop, its line to the lever's foot, and the lever."""
    pose = sheet.pose
    if pose is None:
        return
    guide, loop, elbow = pose.guide[_MIDDLE], pose.loop[_MIDDLE], pose.elbow[_MIDDLE]
    foot, accent = pose.lever_foot[_MIDDLE], hex_colour(ACCENT)
    axes.plot(*np.array([guide, loop]).T, color=accent, linewidth=2.4, zorder=4)
    axes.plot(*np.array([loop, foot]).T, color=accent, linewidth=0.8, dashes=(2.0, 2.0), zorder=4)
    # the housing comes down the upper arm to the guide
    top = guide - 0.82 * elbow
    axes.plot(*np.array([top, guide]).T, color=accent, linewidth=1.2, dashes=(5.0, 2.0), zorder=4)
    axes.plot(*np.array([elbow, foot]).T, color=hex_colour(INK), linewidth=3.2, zorder=4.5,
              solid_capstyle="round")  # fmt: skip
    for point in (guide, loop):
        _dot(axes, point, ACCENT, 6)


def _near_elbow(axes: Any, sheet: ArmSheet) -> None:
    """The elbow once more, enlarged, with names and the size of the lever."""
    pose = sheet.pose
    if pose is None:
        return
    guide, loop, elbow = pose.guide[_MIDDLE], pose.loop[_MIDDLE], pose.elbow[_MIDDLE]
    foot, ink = pose.lever_foot[_MIDDLE], hex_colour(INK)
    _section(axes, (np.zeros(2), _UPPER_WIDTH), (elbow, _ELBOW_WIDTH), 0.16, INK, SOFT_INK)
    _section(axes, (elbow, _ELBOW_WIDTH), (pose.shell_end[_MIDDLE], _WRIST_WIDTH), 0.16, INK,
             SOFT_INK)  # fmt: skip
    _cable(axes, sheet)
    _dot(axes, elbow, PAPER, 9)
    _right_angle(axes, elbow, foot, guide)
    for point, words, shift, side in (
        (guide, "guide", (10, 2), "left"),
        (loop, "loop", (9, -8), "left"),
        (elbow, "elbow axis", (0, -17), "center"),
    ):
        axes.annotate(words, point, shift, textcoords="offset points", size=8, ha=side, color=ink,
                      zorder=6)  # fmt: skip
    reach = float(np.hypot(*(guide - elbow))), float(np.hypot(*(loop - elbow)))
    half = max(0.055, 0.62 * reach[0], 1.1 * reach[1])
    middle = (guide + elbow) / 2.0
    axes.set_xlim(middle[0] - 0.86 * half, middle[0] + 0.98 * half)
    axes.set_ylim(middle[1] - 1.15 * half, middle[1] + half)
    axes.set_aspect("equal", adjustable="box")
    axes.set_facecolor(hex_colour(PAPER))
    axes.set_xticks([])
    axes.set_yticks([])
    for spine in axes.spines.values():
        spine.set_color(hex_colour(SOFT_INK))
    lever = 1000.0 * float(pose.lever[_MIDDLE])
    axes.set_title(f"at the elbow: lever {lever:.0f} mm", size=8.5, weight="bold", color=ink,
                   pad=5)  # fmt: skip


def _right_angle(axes: Any, elbow: FloatArray, foot: FloatArray, guide: FloatArray) -> None:
    """The mark of the right angle between lever and cable."""
    lever, along = elbow - foot, guide - foot
    lengths = np.hypot(*lever), np.hypot(*along)
    if min(lengths) < 1e-6:
        return
    a, b = 0.006 * lever / lengths[0], 0.006 * along / lengths[1]
    axes.plot(*np.array([foot + a, foot + a + b, foot + b]).T, color=hex_colour(INK),
              linewidth=1.0, zorder=4.6)  # fmt: skip


def _window(axes: Any, sheet: ArmSheet) -> None:
    """The limits of the axes around everything, a scale bar, and what the lines mean."""
    pose = sheet.pose
    if pose is None:
        return
    points = np.concatenate([pose.tip, pose.elbow, pose.shell_end, np.zeros((1, 2))])
    low = points.min(axis=0) - np.array([0.08, 0.15])
    high = points.max(axis=0) + np.array([0.06, 0.09])
    box = axes.get_window_extent()
    ratio = box.width / box.height
    size = high - low
    wide = max(size[0] / _SHARE, size[1] * ratio)
    low[0] -= max(_SHARE * wide - size[0], 0.0) / 2.0
    low[1] = high[1] - wide / ratio
    axes.set_xlim(low[0], low[0] + wide)
    axes.set_ylim(low[1], high[1])
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    left, bottom = low[0] + 0.64 * wide, low[1] + 0.02
    axes.plot([left, left + _BAR], [bottom, bottom], color=ink, linewidth=2.4, zorder=6)
    axes.text(left + _BAR + 0.012, bottom, f"{1000.0 * _BAR:.0f} mm", size=8, va="center",
              color=ink)  # fmt: skip
    middle = angle_words(float(sheet.flexion[_MIDDLE]))
    axes.text(
        low[0], low[1],
        f"full: elbow at {middle}; dashed: both ends of the range\n"
        "accent: cable; thick bar: its lever, square to it;\nwidths are drawn, not measured",
        size=8, color=soft, va="bottom", linespacing=1.35,
    )  # fmt: skip
