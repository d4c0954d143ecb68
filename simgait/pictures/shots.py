"""Scenes of tipping picked at chosen times for drawing, and turned so that gravity points down."""

from dataclasses import dataclass

import numpy as np

from simgait.pictures.inputs import FloatArray, TippingSceneLike
from simgait.pictures.limb import SAMPLES, View
from simgait.pictures.poses import Poses, between

__all__ = ["MARK_DEPTH", "Shot", "TiltedView", "outermost", "shot_of", "turned"]


MARK_DEPTH = 0.075  # [m] under the floor, of the bar of the feet and the mark on it

_HEAD_ROOM = 0.13  # [m] to both sides of the crown, for head and nose


@dataclass(frozen=True, kw_only=True)
class Shot:
    """A scene at chosen times; f instants. `done` marks those after its end: the last is held."""

    time: FloatArray  # [f] s, not beyond the end
    limb: Poses  # the prosthesis' side
    shoulder: FloatArray  # [f, 2] m
    crown: FloatArray  # [f, 2] m
    sound_hip: FloatArray  # [f, 2] m
    sound_knee: FloatArray  # [f, 2] m
    sound_ankle: FloatArray  # [f, 2] m
    sound_sole: FloatArray  # [f, e, 2] m
    force: FloatArray  # [f, 2, 2] N
    pressure: FloatArray  # [f, 2] m
    centre: FloatArray  # [f, 2] m
    extrapolated: FloatArray  # [f] m
    slope: FloatArray  # [f] rad
    under: FloatArray  # [f, e, 2] m
    reach: FloatArray  # [f, 2] m


def shot_of(scene: TippingSceneLike, times: FloatArray) -> Shot:
    """The scene at `times` [s], linear between its instants, held after the last."""
    track = scene.track
    pick = between(track.time, times)
    count, end = len(times), float(track.time[-1])
    of_limb = ("hip", "knee", "brim", "limb_end", "socket_end", "ankle", "sole")
    of_wearer = ("shoulder", "crown", "sound_hip", "sound_knee", "sound_ankle", "sound_sole")
    limb = Poses(
        **{name: pick(getattr(track, name)) for name in of_limb},
        pressure_x=pick(track.pressure[:, 0]),
        force=pick(track.force[:, 0]),
        percent=np.zeros(count),
        done=times >= end - 1e-9,
    )
    return Shot(
        time=np.minimum(times, end),
        limb=limb,
        **{name: pick(getattr(track, name)) for name in of_wearer},
        force=pick(track.force),
        pressure=pick(track.pressure),
        centre=pick(track.centre),
        extrapolated=pick(track.extrapolated),
        slope=pick(scene.slope),
        under=pick(scene.under),
        reach=pick(scene.reach),
    )


def turned(points: FloatArray, slope: FloatArray | float, pivot: float) -> FloatArray:
    """Points of the floor's frame [..., 2] [m] as seen with gravity downwards.

    The floor turns about its point `pivot` [m]; slope: [rad], + falls away ahead.

    >>> turned(np.array([1.0, 0.0]), np.pi / 6.0, 0.0).round(3).tolist()
    [0.866, -0.5]
    """
    x, y = points[..., 0] - pivot, points[..., 1]
    c, s = np.cos(slope), np.sin(slope)
    seen: FloatArray = np.stack((pivot + x * c + y * s, y * c - x * s), axis=-1)
    return seen


@dataclass(frozen=True, kw_only=True)
class TiltedView(View):
    """A view of the floor's frame turned by a slope [rad] about a point of the floor [m]."""

    slope: float
    pivot: float

    def pixels(self, points: FloatArray) -> list[tuple[float, float]]:
        """Points of the floor's frame [m] as pixels of a sheet."""
        return super().pixels(turned(points, self.slope, self.pivot))

    def place(self, x: float, y: float) -> tuple[float, float]:
        """One point of the floor's frame [m] as a pixel of the picture itself."""
        ((column, row),) = self.pixels(np.array([x, y]))
        return column / SAMPLES, row / SAMPLES


def outermost(scene: TippingSceneLike, pivot: float) -> FloatArray:
    """Corners [2, 2] [m] of what a scene needs of the page, seen with gravity downwards."""
    track = scene.track
    beyond = np.column_stack([track.extrapolated, scene.reach])
    marks = np.stack((beyond, np.full_like(beyond, -MARK_DEPTH)), axis=-1)
    head = [track.crown + np.array([side, 0.0]) for side in (-_HEAD_ROOM, _HEAD_ROOM)]
    points = [*head, track.shoulder, track.knee, track.sound_knee]
    points += [marks[:, i] for i in range(3)]
    points += [track.sole[:, i] for i in (0, -1)] + [track.sound_sole[:, i] for i in (0, -1)]
    seen = np.concatenate([turned(each, scene.slope, pivot) for each in points])
    seen = seen[np.isfinite(seen).all(axis=1)]
    return np.stack((seen.min(axis=0), seen.max(axis=0)))
