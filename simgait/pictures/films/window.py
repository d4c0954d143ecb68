"""The window of the room through which the limbs of a film are seen, and shifts along the floor."""

from collections.abc import Sequence
from dataclasses import fields, replace

import numpy as np

from simgait.pictures.inputs import FloatArray, ResultLike
from simgait.pictures.limb import FORCE_SCALE, View
from simgait.pictures.poses import Poses

__all__ = ["moved_together", "window"]

_ASIDE, _ABOVE = 0.07, 0.10  # [m] left free beside and above what moves
_MORE_FOR_BAD = 0.25  # [m] by which runs that ended badly may widen the window
_POINTS = ("hip", "knee", "brim", "limb_end", "socket_end", "ankle", "sole")


def moved_together(tracks: Sequence[Poses | None], together: str) -> tuple[Poses | None, ...]:
    """The same poses, each moved along the floor so that hips or ankles are above each other.

    The first that can be drawn stays where it is; heights do not change.
    """
    name = {"hips": "hip", "ankles": "ankle"}[together]
    first = next((track for track in tracks if track is not None), None)
    moved: list[Poses | None] = []
    for track in tracks:
        if track is None or first is None or track is first:
            moved.append(track)
            continue
        shift = (getattr(first, name) - getattr(track, name))[:, 0]
        changed = {
            field.name: getattr(track, field.name) + _along(shift, getattr(track, field.name))
            for field in fields(track)
            if field.name in _POINTS
        }
        moved.append(replace(track, **changed, pressure_x=track.pressure_x + shift))
    return tuple(moved)


def _along(shift: FloatArray, points: FloatArray) -> FloatArray:
    """A shift along the floor [m] an instant, in the shape of points [..., 2]."""
    moved: FloatArray = np.zeros_like(points)
    moved[..., 0] = shift.reshape(-1, *(1,) * (points.ndim - 2))
    return moved


def window(
    results: Sequence[ResultLike],
    tracks: Sequence[Poses | None],
    most: tuple[int, int],
    state: int,
) -> View:
    """The window that holds all runs that ended at toe-off; all runs, if none did.

    most: greatest width and height [pixel]; state: height under the floor for words [pixel].
    """
    width, high = most
    known = [
        (_reach(track, result.body_weight), result.ending == "toe_off")
        for result, track in zip(results, tracks, strict=True)
        if track is not None
    ]
    if not known:
        return View(left=-0.6, bottom=-state / width, scale=width, width=width, height=width)
    sure = np.concatenate([box for box, normal in known if normal] or [box for box, _ in known])
    low, high_corner = sure.min(axis=0), sure.max(axis=0)
    every = np.concatenate([box for box, _ in known])
    every = np.clip(every, low - _MORE_FOR_BAD, high_corner + _MORE_FOR_BAD)
    left, right = float(every[:, 0].min()) - _ASIDE, float(every[:, 0].max()) + _ASIDE
    top = max(float(every[:, 1].max()), 0.1) + _ABOVE
    scale = min(width / (right - left), (high - state) / top)
    return View(
        left=(left + right) / 2.0 - width / scale / 2.0,
        bottom=-state / scale,
        scale=scale,
        width=width,
        height=round(top * scale) + state,
    )


def _reach(track: Poses, body_weight: float) -> FloatArray:
    """Points [m] that must be inside the window: the limb and the tip of the arrow."""
    start = np.column_stack([track.pressure_x, np.zeros_like(track.pressure_x)])
    tip = start + track.force / body_weight * FORCE_SCALE
    tip = tip[np.isfinite(tip).all(axis=1)]
    return np.concatenate([track.hip, track.knee, track.ankle, track.sole.reshape(-1, 2), tip])
