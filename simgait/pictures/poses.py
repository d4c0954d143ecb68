"""Instants of a stance picked for drawing, and the geometry of the drawn lever."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from simgait.pictures.inputs import CurvesLike, FloatArray

__all__ = ["Poses", "between", "knee_lever", "last_drawable", "poses_at"]

_POINTS = ("hip", "knee", "brim", "limb_end", "socket_end", "ankle", "sole")


@dataclass(frozen=True, kw_only=True)
class Poses:
    """A stance at chosen times; f instants, e sole elements; metres, newtons, seconds.

    `done` marks instants after the end of the run, where the last pose is held.
    """

    hip: FloatArray  # [f, 2] m
    knee: FloatArray  # [f, 2] m
    brim: FloatArray  # [f, 2] m
    limb_end: FloatArray  # [f, 2] m
    socket_end: FloatArray  # [f, 2] m
    ankle: FloatArray  # [f, 2] m
    sole: FloatArray  # [f, e, 2] m
    pressure_x: FloatArray  # [f] m, NaN when unloaded
    force: FloatArray  # [f, 2] N, forward and up
    percent: FloatArray  # [f] % of stance
    done: np.ndarray  # [f] bool


def last_drawable(curves: CurvesLike) -> int:
    """Index of the last instant before any drawn point stops being finite; -1 if there is none."""
    count = len(curves.time)
    finite = np.isfinite(curves.time) & np.isfinite(curves.percent)
    for name in _POINTS:
        finite &= np.isfinite(getattr(curves, name).reshape(count, -1)).all(axis=1)
    return int(np.argmin(finite)) - 1 if not finite.all() else count - 1


def poses_at(curves: CurvesLike, times: FloatArray) -> Poses | None:
    """The stance at `times` [s], linear between instants, held after its last drawable one.

    None when the run has no drawable instant at all.
    """
    last = last_drawable(curves)
    if last < 0:
        return None
    clock = curves.time[: last + 1]
    pick = between(clock, times)
    return Poses(
        **{name: pick(getattr(curves, name)) for name in _POINTS},
        pressure_x=pick(curves.pressure_x),
        force=np.column_stack([pick(curves.force_forward), pick(curves.force_up)]),
        percent=pick(curves.percent),
        done=times > clock[-1] + 1e-9,
    )


def between(clock: FloatArray, times: FloatArray) -> Callable[[FloatArray], FloatArray]:
    """What picks values at `times` [s], linear between the instants of `clock` [s], held outside.

    >>> between(np.array([0.0, 2.0]), np.array([-1.0, 0.5, 9.0]))(np.array([4.0, 8.0])).tolist()
    [4.0, 5.0, 8.0]
    """
    last = len(clock) - 1
    asked = np.clip(times, clock[0], clock[-1])
    after = np.clip(np.searchsorted(clock, asked), min(1, last), last)
    before = np.maximum(after - 1, 0)
    span = clock[after] - clock[before]
    share = np.where(span > 0.0, (asked - clock[before]) / np.where(span > 0.0, span, 1.0), 0.0)

    def pick(values: FloatArray) -> FloatArray:
        weight = share.reshape(-1, *(1,) * (values.ndim - 1))
        picked: FloatArray = (1.0 - weight) * values[before] + weight * values[after]
        return picked

    return pick


def knee_lever(
    knee: FloatArray, pressure_x: float, force: FloatArray
) -> tuple[FloatArray, float] | None:
    """Foot of the perpendicular from the knee to the force line, and its signed length [m].

    + when the line passes behind the knee (the force tends to bend it), - when it passes ahead.
    Plane geometry: with r from the pressure point (pressure_x [m], 0) to the knee [m] and u the
    unit vector of the force [N], the length is r x u. None without a force.

    >>> foot, length = knee_lever(np.array([0.10, 0.5]), 0.04, np.array([0.0, 700.0]))
    >>> foot.tolist(), round(length, 6)
    ([0.04, 0.5], 0.06)
    """
    size = float(np.hypot(force[0], force[1]))
    if not np.isfinite(pressure_x) or not np.isfinite(size) or size <= 0.0:
        return None
    along = force / size
    arm = knee - np.array([pressure_x, 0.0])
    foot = np.array([pressure_x, 0.0]) + along * float(arm @ along)
    return foot, float(arm[0] * along[1] - arm[1] * along[0])
