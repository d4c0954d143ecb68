"""The two scenes beside a threshold, with all that a film of them shows."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.engines.scene import Course, Instant
from simgait.physics.scene import BODY_ANGLE
from simgait.tipping.anatomy import PROSTHESIS
from simgait.tipping.judging import sole_ends
from simgait.tipping.names import Trial
from simgait.tipping.outline import Track, track_of
from simgait.tipping.playing import (
    OBSTACLE_TIME,
    QUIET,
    SLOPE_TIME,
    Stand,
    Threshold,
    eased,
    evenly,
    obstacle_shape,
)


@dataclass(frozen=True, kw_only=True, eq=False)
class Filmed:
    """One scene: its size in the trial's unit, the wearer, and what was done to them."""

    size: float
    track: Track
    slope: Array  # [n] rad, + falls away ahead
    under: Array  # [n, elements, 2] m, under side of an obstacle; the sole itself without one
    reach: Array  # [n, 2] m, hindmost heel end and foremost toe end of both feet
    push_sense: float  # +1 forward, -1 backward, 0 if nobody pushes
    push_time: float  # s
    push_height: float  # m above the floor


@dataclass(frozen=True, kw_only=True, eq=False)
class Pair:
    """The scenes just below and just above a threshold; none above if the largest is stood."""

    title: str
    unit: str
    value: float  # the threshold, in the unit; NaN if the largest that is tried is stood
    body_weight: float  # [N]
    below: Filmed
    above: Filmed | None


def pair_of(stand: Stand, found: Threshold) -> Pair:
    """Return the scenes beside a threshold, for whoever draws them."""
    trial, above = found.trial, None
    if found.above is not None:
        above = _filmed(stand, trial, found.high, found.above)
    return Pair(
        title=trial.title,
        unit=trial.unit,
        value=found.value,
        body_weight=stand.wearer.standing.stance.limb.body_weight,
        below=_filmed(stand, trial, found.low, found.below),
        above=above,
    )


def _filmed(stand: Stand, trial: Trial, size: float, course: Course) -> Filmed:
    along = stand.setting.soles[0].forward
    slope, rise = np.zeros(len(course.time)), np.zeros((len(course.time), len(along)))
    if trial.unit == "deg":
        slope = math.radians(trial.sense * size) * _shares(course.time, SLOPE_TIME, evenly)
    elif trial.unit == "mm":
        shape = obstacle_shape(stand, trial.sense < 0.0)
        rise = size / 1000.0 * np.outer(_shares(course.time, OBSTACLE_TIME, eased), shape)
    track = track_of(stand, course)
    lean = -course.body[:, PROSTHESIS, BODY_ANGLE, None]
    return Filmed(
        size=size,
        track=track,
        slope=slope,
        under=track.sole - rise[:, :, None] * np.stack((np.sin(lean), np.cos(lean)), axis=-1),
        reach=np.array([_reach(stand, course, n) for n in range(len(course.time))]),
        push_sense=trial.sense if trial.unit == "N s" else 0.0,
        push_time=QUIET,
        push_height=stand.push_height,
    )


def _shares(time: Array, lasts: float, way: Callable[[float], float]) -> Array:
    """Return how far a disturbance has come at every instant, if it takes a while [s]."""
    return np.array([way((float(t) - QUIET) / lasts) for t in time])


def _reach(stand: Stand, course: Course, n: int) -> tuple[float, float]:
    """Return the hindmost heel end and the foremost toe end at an instant [m]."""
    instant = Instant(
        time=float(course.time[n]),
        body=course.body[n],
        loads=course.loads[n],
        given=course.given[n],
        aims=course.aims[n],
        centre=course.centre[n],
        slid=course.slid[n],
    )
    ends = [sole_ends(instant, sole) for sole in stand.setting.soles]
    return min(heel for heel, _ in ends), max(toe for _, toe in ends)
