"""The drawing of the chain with its frames and signs: a scheme, its angles larger than life."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
from matplotlib.patches import Arc

from making.ink import save, sheet
from simgait.arrays import Array
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour
from simgait.stance.curves import turned

INKED, SOFT, ACCENTED = hex_colour(INK), hex_colour(SOFT_INK), hex_colour(ACCENT)
LEANS = (math.radians(-14.0), math.radians(22.0), math.radians(33.0))  # thigh, limb, prosthesis
FORCE = np.array([-0.10, 1.0])  # direction of the ground force, towards the body and back
PRESSURE = 0.025  # [m] pressure point ahead of the ankle


def along(lean: float, up: float, forward: float = 0.0) -> Array:
    """Return a vector carried by a segment of a lean [m]."""
    return np.asarray(turned(np.array([lean]), forward, up)[0])


def draw_frames(path: Path) -> None:
    """Draw the bodies from hip to foot, the leans, and the lever of the ground force."""
    figure = sheet(7.6, 6.6)
    axes = figure.add_subplot()
    axes.set_aspect("equal")
    axes.axis("off")
    thigh, limb, prosthesis = LEANS
    knee = np.array([0.0, 0.50])
    hip, pivot = knee + along(thigh, 0.42), knee - along(limb, 0.13)
    ankle = pivot + along(prosthesis, -0.285, -0.015)
    draw_bodies(axes, hip, knee, pivot, ankle)
    draw_lean(axes, knee, thigh, 0.26, r"$\theta_1 < 0$", -0.09)
    draw_lean(axes, pivot, limb, 0.25, r"$\theta_2 > 0$", 0.06)
    draw_lean(axes, pivot - along(prosthesis, 0.20), prosthesis, 0.16, r"$\theta_3 > 0$", -0.06)
    draw_flexion(axes, knee, thigh, limb)
    draw_force(axes, knee, ankle[0] + PRESSURE)
    label(axes, hip, "hip point: the rest of the body", 14, -3)
    label(axes, knee, "knee axis", 14, -3)
    label(axes, pivot, "socket pivot: middle\nof the enclosed limb", 30, -40)
    label(axes, ankle, "ankle axis", -14, 2)
    draw_axes(axes, np.array([ankle[0] - 0.36, 0.0]))
    axes.margins(0.05)
    save(figure, path)


def label(axes: Any, point: Array, words: str, right: float, up: float) -> None:
    """Write words beside a point; to its left if `right` is negative [pt]."""
    side = "left" if right > 0 else "right"
    axes.annotate(
        words, point, (right, up), textcoords="offset points", size=9, ha=side, color=INKED
    )


def draw_bodies(axes: Any, hip: Array, knee: Array, pivot: Array, ankle: Array) -> None:
    """Draw the bodies, the joints between them and the sole on the floor."""
    _, limb, prosthesis = LEANS
    cup = np.array([pivot + along(prosthesis, 0.075), pivot - along(prosthesis, 0.105)])
    axes.plot(*cup.T, color=SOFT, linewidth=24, alpha=0.35, solid_capstyle="round")
    axes.plot(*np.array([hip, knee]).T, color=INKED, linewidth=4, solid_capstyle="round")
    end = pivot - along(limb, 0.07)
    axes.plot(*np.array([knee, end]).T, color=INKED, linewidth=4, solid_capstyle="round")
    axes.plot(*np.array([cup[1], ankle]).T, color=INKED, linewidth=2)
    x = np.linspace(ankle[0] - 0.06, ankle[0] + 0.17, 24)
    u = (x - ankle[0]) / 0.17
    axes.plot([ankle[0] - 0.36, ankle[0] + 0.62], [0, 0], color=SOFT, linewidth=1)
    axes.plot([x[0], ankle[0], x[-1]], [0.004, ankle[1], 0.02], color=SOFT, linewidth=1)
    rise = 0.02 * np.clip(u, 0, None) ** 2 + 0.02 * np.clip(-u, 0, None) ** 2 - 0.006
    axes.plot(x, rise, color=INKED, linewidth=0.8, marker="o", markersize=2.6)
    label(axes, np.array([x[-1], 0.0]), "sole: a strip of springs", 10, 6)
    for point in (hip, knee, pivot, ankle):
        axes.plot(*point, marker="o", markersize=8, color="white", markeredgecolor=INKED, zorder=5)


def draw_lean(axes: Any, low: Array, lean: float, size: float, name: str, aside: float) -> None:
    """Draw the vertical through a segment's lower point, its axis, the angle between, its name."""
    axes.plot([low[0], low[0]], [low[1], low[1] + size], color=SOFT, linewidth=1, linestyle=":")
    axis = np.array([low, low + along(lean, size)])
    axes.plot(*axis.T, color=ACCENTED, linewidth=0.8, linestyle=":")
    first, last = sorted((90.0, 90.0 - math.degrees(lean)))
    arc = Arc(tuple(low), 1.7 * size, 1.7 * size, theta1=first, theta2=last, color=ACCENTED, lw=1.7)
    axes.add_patch(arc)
    top = low + along(lean / 2.0, size * 0.95)
    axes.text(top[0] + aside, top[1], name, color=ACCENTED, size=11, ha="center", va="center")


def draw_flexion(axes: Any, knee: Array, thigh: float, limb: float) -> None:
    """Draw the angle between the prolonged thigh and the residual limb."""
    axes.plot(*np.array([knee, knee - along(thigh, 0.15)]).T, color=SOFT, linewidth=1, ls=":")
    first, last = -90.0 - math.degrees(limb), -90.0 - math.degrees(thigh)
    arc = Arc(tuple(knee), 0.20, 0.20, theta1=first, theta2=last, color=INKED, linewidth=1.4)
    axes.add_patch(arc)
    place = knee - along(thigh, 0.10)
    axes.text(place[0] + 0.02, place[1], r"$\varphi = \theta_2 - \theta_1 > 0$", size=11,
              color=INKED, va="center")  # fmt: skip


def draw_force(axes: Any, knee: Array, place: float) -> None:
    """Draw the ground force, its line, and the lever with which it bends the knee."""
    start = np.array([place, 0.0])
    unit = FORCE / np.hypot(*FORCE)
    foot = start + unit * float((knee - start) @ unit)
    axes.plot(*np.array([start, foot + 0.10 * unit]).T, color=ACCENTED, linewidth=1, ls="--")
    arrow = {"arrowstyle": "-|>", "color": ACCENTED, "linewidth": 2.4}
    axes.annotate("", start + 0.30 * unit, start, arrowprops=arrow)
    axes.plot(*np.array([knee, foot]).T, color=INKED, linewidth=2.6)
    label(axes, foot, "its line passes behind the knee:\nthe lever bends the knee (+)", -8, -4)
    axes.annotate("ground force", start + 0.28 * unit, (-8, -2), textcoords="offset points",
                  size=9, ha="right", color=ACCENTED)  # fmt: skip


def draw_axes(axes: Any, origin: Array) -> None:
    """Draw the axes of the room."""
    for way, name in (((0.10, 0.0), "x forward"), ((0.0, 0.10), "y up")):
        arrow = {"arrowstyle": "->", "color": INKED}
        axes.annotate("", origin + way, origin, arrowprops=arrow)
        axes.annotate(name, origin + way, (3, 3), textcoords="offset points", size=9, color=INKED)
