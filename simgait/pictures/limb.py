"""Drawing one limb to scale: thigh, residual limb in its socket, pylon, foot, force and lever."""

from dataclasses import dataclass
from typing import Any

import numpy as np
from PIL import Image, ImageDraw

from simgait.pictures.inputs import FloatArray
from simgait.pictures.poses import Poses, knee_lever

__all__ = [
    "FLESH",
    "FORCE_SCALE",
    "KNEE_WIDTH",
    "SAMPLES",
    "THIGH_WIDTH",
    "Sheet",
    "View",
    "draw_arrow",
    "draw_bone",
    "draw_disc",
    "draw_foot",
    "draw_leg",
    "draw_limb",
]

SAMPLES = 3  # drawn this many times larger, then reduced: smooth edges
FORCE_SCALE = 0.45  # [m] length of the arrow of one body weight

# Strength of ink, 0 (paper) to 255
FLESH, _CUP, _METAL, _SHOE, _LINE = 46, 110, 120, 96, 255

# Half-widths as shares of the thigh length: drawn, not measured
THIGH_WIDTH, KNEE_WIDTH, _END_WIDTH = 0.165, 0.115, 0.085


@dataclass(frozen=True, kw_only=True)
class View:
    """A window of the room, fixed through a film: corner [m], pixels per metre, size [pixel]."""

    left: float
    bottom: float
    scale: float
    width: int
    height: int

    def pixels(self, points: FloatArray) -> list[tuple[float, float]]:
        """Points [m] as pixels of a sheet, which is SAMPLES times larger than the view."""
        grown = self.scale * SAMPLES
        x = (points[..., 0].ravel() - self.left) * grown
        y = self.height * SAMPLES - (points[..., 1].ravel() - self.bottom) * grown
        return list(zip(x.tolist(), y.tolist(), strict=True))


class Sheet:
    """Two layers of strength (0 to 255): ink, and accent above it; SAMPLES times enlarged."""

    def __init__(self, width: int, height: int) -> None:
        """A blank sheet for a picture of `width` by `height` [pixel]."""
        size = (width * SAMPLES, height * SAMPLES)
        self.ink_layer = Image.new("L", size)
        self.accent_layer = Image.new("L", size)
        self.ink: Any = ImageDraw.Draw(self.ink_layer)  # or what takes the same calls
        self.accent: Any = ImageDraw.Draw(self.accent_layer)

    def wipe(self) -> None:
        """Make both layers blank again."""
        for layer in (self.ink_layer, self.accent_layer):
            layer.paste(0, (0, 0, *layer.size))

    def reduced(self) -> tuple[Image.Image, Image.Image]:
        """The ink and accent layers at the size of the picture."""
        return self.ink_layer.reduce(SAMPLES), self.accent_layer.reduce(SAMPLES)


def draw_limb(
    sheet: Sheet, view: View, poses: Poses, frame: int, body_weight: float
) -> tuple[float, tuple[float, float]] | None:
    """Draw one instant; body_weight [N] sets the length of the arrow.

    Returns the signed knee lever [m] and where it ends [pixel of the reduced picture],
    or None when the foot carries nothing.
    """
    draw_leg(sheet, view, poses, frame)
    return _draw_force(sheet, view, poses, frame, body_weight)


def draw_leg(sheet: Sheet, view: View, poses: Poses, frame: int) -> None:
    """Draw thigh, residual limb in its socket, pylon and foot at one instant."""
    hip, knee = poses.hip[frame], poses.knee[frame]
    thigh = float(np.hypot(*(hip - knee)))
    draw_foot(sheet, view, poses.ankle[frame], poses.sole[frame])
    _draw_prosthesis(sheet, view, poses, frame, thigh)
    draw_bone(sheet, view, (hip, THIGH_WIDTH * thigh), (knee, KNEE_WIDTH * thigh), FLESH)
    _draw_cup_edge(sheet, view, poses, frame, thigh)
    draw_disc(sheet, view, knee, 0.022, 0, _LINE)
    draw_disc(sheet, view, hip, 0.026, 0, _LINE)
    draw_disc(sheet, view, hip, 0.010, _LINE, _LINE)


def _draw_prosthesis(sheet: Sheet, view: View, poses: Poses, frame: int, thigh: float) -> None:
    """Pylon, socket and the residual limb inside it, back to front."""
    knee, limb_end = poses.knee[frame], poses.limb_end[frame]
    brim, cup_end, ankle = poses.brim[frame], poses.socket_end[frame], poses.ankle[frame]
    upper, lower = _cup_widths(thigh)
    draw_bone(sheet, view, (cup_end, 0.018), (ankle, 0.015), _METAL)
    draw_bone(sheet, view, (brim, upper), (cup_end, lower), _CUP, round_start=False)
    draw_bone(sheet, view, (knee, KNEE_WIDTH * thigh), (limb_end, _END_WIDTH * thigh * 0.8), FLESH)
    draw_disc(sheet, view, ankle, 0.018, _METAL, _LINE)


def _cup_widths(thigh: float) -> tuple[float, float]:
    """Half-widths [m] of the socket at its brim and its end."""
    return KNEE_WIDTH * thigh * 1.08, _END_WIDTH * thigh * 0.9


def _draw_cup_edge(sheet: Sheet, view: View, poses: Poses, frame: int, thigh: float) -> None:
    """The wall of the socket over all else, so that the cup is seen around the limb."""
    brim, cup_end = poses.brim[frame], poses.socket_end[frame]
    upper, lower = _cup_widths(thigh)
    minus, plus = _sides(brim, cup_end, upper)
    _, end_minus = _sides(cup_end, brim, lower)
    bottom = _cap(cup_end, end_minus, np.linspace(0.0, -np.pi, 17))
    wall = view.pixels(np.concatenate([minus[None], bottom, plus[None]]))
    sheet.ink.line(wall, fill=_LINE, width=round(2.6 * SAMPLES), joint="curve")


def draw_foot(
    sheet: Sheet,
    view: View,
    ankle: FloatArray,
    sole: FloatArray,
    look: tuple[int, int] = (_SHOE, _LINE),
) -> None:
    """Draw the foot between its sole, laid on the floor where it is pressed in, and the ankle.

    look: strength of its fill and of its outline, 0 to 255.
    """
    along = sole[-1] - sole[0]
    long = float(np.hypot(*along))
    if long <= 0.0:
        return
    along = along / long
    up = np.array([-along[1], along[0]])
    tall = max(float((ankle - sole[0]) @ up), 0.03)
    place = (sole - ankle) @ along
    ahead = np.clip(place / max(float(place[-1]), 1e-6), 0.0, 1.0)
    behind = np.clip(-place / max(float(-place[0]), 1e-6), 0.0, 1.0)
    thick = tall * (0.92 - 0.66 * ahead**0.75 - 0.22 * behind)
    raised = np.maximum(-sole[:, 1], 0.0)
    laid = sole + np.column_stack([np.zeros_like(raised), raised])
    top = sole + np.outer(thick, up)
    top[:, 1] += raised * (1.0 - 0.6 * np.clip(thick / tall, 0.0, 1.0))
    outline = view.pixels(np.concatenate([laid, top[::-1]]))
    sheet.ink.polygon(outline, fill=look[0])
    sheet.ink.line([*outline, outline[0]], fill=look[1], width=SAMPLES, joint="curve")
    _draw_contact(sheet, view, laid, raised > 0.0, look[1])


def _draw_contact(
    sheet: Sheet, view: View, laid: FloatArray, pressed: np.ndarray, strength: int
) -> None:
    """Thicken the sole wherever two neighbouring elements are pressed in."""
    pixels = view.pixels(laid)
    for i in np.flatnonzero(pressed[:-1] & pressed[1:]).tolist():
        sheet.ink.line([pixels[i], pixels[i + 1]], fill=strength, width=4 * SAMPLES)


def _draw_force(
    sheet: Sheet, view: View, poses: Poses, frame: int, body_weight: float
) -> tuple[float, tuple[float, float]] | None:
    knee, force = poses.knee[frame], poses.force[frame]
    lever = knee_lever(knee, float(poses.pressure_x[frame]), force)
    if lever is None:
        return None
    foot, length = lever
    start = np.array([float(poses.pressure_x[frame]), 0.0])
    tip = start + force / body_weight * FORCE_SCALE
    size = float(np.hypot(*force))
    beyond = foot + force / size * 0.10
    sheet.accent.line(view.pixels(np.array([start, beyond])), fill=150, width=SAMPLES)
    draw_arrow(sheet, view.pixels(np.array([start, tip])))
    ends = view.pixels(np.array([knee, foot]))
    _draw_lever(sheet, ends)
    return length, (ends[1][0] / SAMPLES, ends[1][1] / SAMPLES)


def draw_arrow(
    sheet: Sheet, ends: list[tuple[float, float]], strength: int = 255, broad: float = 1.0
) -> None:
    """Draw a force arrow between two sheet pixels; a very short one is only its head.

    strength: 0 to 255; broad: how many times broader than the usual one.
    """
    (x0, y0), (x1, y1) = ends
    size = float(np.hypot(x1 - x0, y1 - y0))
    if size < 1.0:
        return
    ux, uy = (x1 - x0) / size, (y1 - y0) / size
    head, half = min(9.0 * SAMPLES * broad, size), 4.0 * SAMPLES * broad
    neck = (x1 - head * ux, y1 - head * uy)
    sheet.ink.line([(x0, y0), neck], fill=0, width=round(5 * SAMPLES * broad))
    sheet.accent.line([(x0, y0), neck], fill=strength, width=round(2.6 * SAMPLES * broad))
    sheet.accent.polygon(
        [
            (x1, y1),
            (neck[0] - half * uy, neck[1] + half * ux),
            (neck[0] + half * uy, neck[1] - half * ux),
        ],
        fill=strength,
    )


def _draw_lever(sheet: Sheet, ends: list[tuple[float, float]]) -> None:
    """A thick bar from the knee to the force line, with a round end on the line."""
    (x0, y0), (x1, y1) = ends
    sheet.accent.line(ends, fill=0, width=7 * SAMPLES)
    sheet.ink.line(ends, fill=0, width=7 * SAMPLES)
    sheet.ink.line(ends, fill=_LINE, width=4 * SAMPLES)
    for x, y, radius in ((x0, y0, 3.5 * SAMPLES), (x1, y1, 3.5 * SAMPLES)):
        box = (x - radius, y - radius, x + radius, y + radius)
        sheet.accent.ellipse(box, fill=0)
        sheet.ink.ellipse(box, fill=_LINE)


def _sides(start: FloatArray, end: FloatArray, width: float) -> tuple[FloatArray, FloatArray]:
    """Both edges at `start` of a bar towards `end`, `width` [m] to each side."""
    along = end - start
    size = float(np.hypot(*along))
    across = np.array([along[1], -along[0]]) / (size if size > 0.0 else 1.0) * width
    return start - across, start + across


def draw_bone(
    sheet: Sheet,
    view: View,
    start: tuple[FloatArray, float],
    end: tuple[FloatArray, float],
    strength: int,
    round_start: bool = True,
    edge: int = _LINE,
) -> None:
    """Draw a tapered bar between two (point [m], half-width [m]), with round ends and an outline.

    strength, edge: of its fill and of its outline, 0 to 255.
    """
    (a, wide_a), (b, wide_b) = start, end
    a_minus, a_plus = _sides(a, b, wide_a)
    b_plus, b_minus = _sides(b, a, wide_b)
    turn = np.linspace(0.0, -np.pi, 17)
    ring = [a_minus[None], _cap(b, b_minus, turn), b_plus[None], a_plus[None]]
    if round_start:
        ring.append(_cap(a, a_plus, turn))
    outline = view.pixels(np.concatenate(ring))
    sheet.ink.polygon(outline, fill=strength)
    sheet.ink.line([*outline, outline[0]], fill=edge, width=SAMPLES, joint="curve")


def _cap(centre: FloatArray, edge: FloatArray, turn: FloatArray) -> FloatArray:
    """Points of the half circle about `centre` from `edge`, turning by the angles `turn` [rad]."""
    arm = edge - centre
    cos, sin = np.cos(turn), np.sin(turn)
    turned: FloatArray = np.column_stack([arm[0] * cos - arm[1] * sin, arm[0] * sin + arm[1] * cos])
    return centre + turned


def draw_disc(
    sheet: Sheet, view: View, centre: FloatArray, radius: float, strength: int, edge: int
) -> None:
    """Draw a disc about a point [m], its radius [m], with fill and outline of 0 to 255."""
    ((x, y),) = view.pixels(centre)
    r = radius * view.scale * SAMPLES
    sheet.ink.ellipse((x - r, y - r, x + r, y + r), fill=strength, outline=edge, width=SAMPLES)
