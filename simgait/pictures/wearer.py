"""Drawing a whole wearer to scale on a floor that may slope: both legs, trunk, forces, marks."""

import numpy as np

from simgait.pictures.inputs import FloatArray, TippingSceneLike
from simgait.pictures.limb import (
    FLESH,
    FORCE_SCALE,
    KNEE_WIDTH,
    SAMPLES,
    THIGH_WIDTH,
    Sheet,
    draw_arrow,
    draw_bone,
    draw_disc,
    draw_foot,
    draw_leg,
)
from simgait.pictures.shots import MARK_DEPTH, Shot, TiltedView

__all__ = [
    "OWN_ARROW",
    "PUSH_SHOWN",
    "SOUND_ARROW",
    "draw_centre",
    "draw_floor",
    "draw_mark",
    "draw_wearer",
]

PUSH_SHOWN = 0.45  # [s] after a push its arrow is still shown

_PALE, _PALE_LINE, _PALE_SHOE = 20, 120, 44  # strength of ink behind
SOUND_ARROW, OWN_ARROW = 120, 255

# Half-widths as shares of the thigh length, heights as shares of shoulder to crown: drawn
_CHEST, _PELVIS, _ANKLE, _HEAD = 0.25, 0.215, 0.085, 0.37


def draw_wearer(
    sheet: Sheet,
    view: TiltedView,
    scene: TippingSceneLike,
    shot: Shot,
    frame: int,
    body_weight: float,
) -> None:
    """Draw one instant of a scene; body_weight [N] sets the length of the force arrows."""
    draw_floor(sheet, view)
    _draw_sound_leg(sheet, view, shot, frame)
    _draw_trunk(sheet, view, shot, frame)
    draw_leg(sheet, view, shot.limb, frame)
    _draw_obstacle(sheet, view, shot, frame)
    _draw_forces(sheet, view, shot, frame, body_weight)
    heel, toe = shot.reach[frame].tolist()
    draw_mark(sheet, view, (heel, toe), float(shot.extrapolated[frame]))
    draw_centre(sheet, view, shot.centre[frame])
    _draw_push(sheet, view, scene, shot, frame)


def draw_floor(sheet: Sheet, view: TiltedView) -> None:
    """Draw the floor line with short strokes under it, to both sides of the view's pivot."""
    half = view.width / view.scale
    ends = view.pixels(np.array([[view.pivot - half, 0.0], [view.pivot + half, 0.0]]))
    sheet.ink.line(ends, fill=230, width=round(1.4 * SAMPLES))
    step = 14.0 / view.scale
    for x in np.arange(-half, half, step) + view.pivot:
        stroke = np.array([[x, 0.0], [x - 0.36 * step, -0.43 * step]])
        sheet.ink.line(view.pixels(stroke), fill=110, width=SAMPLES)


def draw_mark(
    sheet: Sheet,
    view: TiltedView,
    reach: tuple[float, float],
    place: float,
    depth: float = MARK_DEPTH,
) -> None:
    """Draw the bar from the hindmost heel end to the foremost toe end [m] and the mark [m].

    A mark beyond the bar is tied to its end. depth: under the floor [m].
    """
    heel, toe = reach
    ends = view.pixels(np.array([[x, -depth] for x in (heel, toe)]))
    sheet.ink.line(ends, fill=255, width=2 * SAMPLES)
    for x in (heel, toe):
        tick = np.array([[x, -depth - 0.025], [x, -depth + 0.025]])
        sheet.ink.line(view.pixels(tick), fill=255, width=round(1.6 * SAMPLES))
    if not np.isfinite(place):
        return
    nearest = min(max(place, heel), toe)
    if place != nearest:
        tie = view.pixels(np.array([[nearest, -depth], [place, -depth]]))
        sheet.accent.line(tie, fill=255, width=round(1.4 * SAMPLES))
    ((x, y),) = view.pixels(np.array([place, -depth]))
    r = 5.0 * SAMPLES
    corners = [(x, y - r), (x + r, y), (x, y + r), (x - r, y)]
    sheet.accent.polygon(corners, fill=255)


def _draw_sound_leg(sheet: Sheet, view: TiltedView, shot: Shot, frame: int) -> None:
    """The leg behind, paler."""
    hip, knee, ankle = (each[frame] for each in (shot.sound_hip, shot.sound_knee, shot.sound_ankle))
    thigh = float(np.hypot(*(hip - knee)))
    look = (_PALE_SHOE, _PALE_LINE)
    draw_foot(sheet, view, ankle, shot.sound_sole[frame], look)
    wide = KNEE_WIDTH * thigh
    draw_bone(sheet, view, (knee, wide), (ankle, _ANKLE * thigh), _PALE, edge=_PALE_LINE)
    draw_bone(sheet, view, (hip, THIGH_WIDTH * thigh), (knee, wide), _PALE, edge=_PALE_LINE)


def _draw_trunk(sheet: Sheet, view: TiltedView, shot: Shot, frame: int) -> None:
    """Trunk, neck and head between hip, shoulder and crown."""
    hip, shoulder, crown = shot.limb.hip[frame], shot.shoulder[frame], shot.crown[frame]
    thigh = float(np.hypot(*(hip - shot.limb.knee[frame])))
    above = crown - shoulder
    radius = _HEAD * float(np.hypot(*above))
    head = crown - _HEAD * above
    chest = _CHEST * thigh
    along = (shoulder - hip) / max(float(np.hypot(*(shoulder - hip))), 1e-9)
    draw_bone(sheet, view, (shoulder, 0.45 * radius), (head, 0.45 * radius), FLESH)
    top = shoulder - chest * along
    draw_bone(sheet, view, (top, chest), (hip, _PELVIS * thigh), FLESH)
    _draw_nose(sheet, view, head, above / max(float(np.hypot(*above)), 1e-9) * radius)
    draw_disc(sheet, view, head, radius, FLESH, 255)


def _draw_nose(sheet: Sheet, view: TiltedView, head: FloatArray, up: FloatArray) -> None:
    """Which way the head looks; `up` reaches from its middle to the crown [m]."""
    ahead = np.array([up[1], -up[0]])
    ridge = (head + 0.95 * ahead + 0.22 * up, head + 1.3 * ahead - 0.16 * up)
    outline = view.pixels(np.stack([*ridge, head + 0.9 * ahead - 0.30 * up]))
    sheet.ink.polygon(outline, fill=FLESH)
    sheet.ink.line(outline, fill=255, width=SAMPLES, joint="curve")


def _draw_obstacle(sheet: Sheet, view: TiltedView, shot: Shot, frame: int) -> None:
    """What lies between the sole and the floor; it is as tall where it presses the sole in."""
    sole, under = shot.limb.sole[frame], shot.under[frame]
    there = np.hypot(*(sole - under).T) > 1e-4
    if there.sum() < 2:
        return
    pressed = np.maximum(-under[there, 1], 0.0)
    lift = np.column_stack([np.zeros_like(pressed), pressed])
    outline = view.pixels(np.concatenate([sole[there] + lift, (under[there] + lift)[::-1]]))
    sheet.ink.polygon(outline, fill=215)
    sheet.ink.line([*outline, outline[0]], fill=255, width=SAMPLES, joint="curve")


def _draw_forces(
    sheet: Sheet, view: TiltedView, shot: Shot, frame: int, body_weight: float
) -> None:
    """The floor's forces: on the sound foot broad and pale, on the prosthesis narrow over it."""
    for foot, strength, broad in ((1, SOUND_ARROW, 2.2), (0, OWN_ARROW, 1.0)):
        start = np.array([float(shot.pressure[frame, foot]), 0.0])
        if not np.isfinite(start[0]):
            continue
        tip = start + shot.force[frame, foot] / body_weight * FORCE_SCALE
        draw_arrow(sheet, view.pixels(np.array([start, tip])), strength, broad)


def draw_centre(sheet: Sheet, view: TiltedView, centre: FloatArray) -> None:
    """Draw the mark of the body's centre: a circle with a cross."""
    ((x, y),) = view.pixels(centre)
    r = 5 * SAMPLES
    sheet.ink.ellipse((x - r, y - r, x + r, y + r), fill=0, outline=255, width=SAMPLES)
    sheet.ink.line(((x - r, y), (x + r, y)), fill=255, width=SAMPLES)
    sheet.ink.line(((x, y - r), (x, y + r)), fill=255, width=SAMPLES)


def _draw_push(
    sheet: Sheet, view: TiltedView, scene: TippingSceneLike, shot: Shot, frame: int
) -> None:
    """The arrow of a push, for a while after it, against the trunk where it was given."""
    after = float(shot.time[frame]) - scene.push_time
    if scene.push_sense == 0.0 or not -1e-9 <= after < PUSH_SHOWN:
        return
    hip, shoulder = shot.limb.hip[frame], shot.shoulder[frame]
    thigh = float(np.hypot(*(hip - shot.limb.knee[frame])))
    tall = max(float(shoulder[1] - hip[1]), 1e-9)
    share = min(max((scene.push_height - float(hip[1])) / tall, 0.0), 1.0)
    struck = hip + share * (shoulder - hip)
    tip = struck - np.array([scene.push_sense * (_CHEST * thigh + 0.015), 0.0])
    tail = tip - np.array([scene.push_sense * 0.26, 0.0])
    draw_arrow(sheet, view.pixels(np.array([tail, tip])), 255, 2.0)
