"""What a limb that stands still must carry: the floor's force on it, and the pull of gravity.

Everything in the frame of the floor: x along it, + forward; y square to it, + up. On a slope that
falls away ahead, by + ``slope``, gravity leans forward in that frame.
"""

from __future__ import annotations

from dataclasses import dataclass

from simgait.arrays import Array
from simgait.physics import rest_layout as rows
from simgait.physics.resting import load_on_slope, load_pushed
from simgait.standing.flat import flat
from simgait.wearer import GRAVITY


@dataclass(frozen=True, kw_only=True)
class Loading:
    """The floor's force on the foot, which carries a share of the body, and gravity."""

    normal: float  # [N] floor on foot, square to the floor
    along: float  # [N] floor on foot, along the floor, + forward
    gravity_along: float  # [m/s2] + forward
    gravity_up: float  # [m/s2] + up, so negative
    slope: float  # [rad] of the floor, + falls away ahead

    @property
    def numbers(self) -> Array:
        """The flat array that the equations take, a new one each time."""
        load = flat(rows.LOAD_ROWS)
        load[rows.LOAD_NORMAL] = self.normal
        load[rows.LOAD_ALONG] = self.along
        load[rows.LOAD_PULL_ALONG] = self.gravity_along
        load[rows.LOAD_PULL_UP] = self.gravity_up
        return load


def level(carried: float) -> Loading:
    """Return the loading of standing on level floor: nothing but weight. ``carried`` [N]."""
    return on_slope(carried, 0.0)


def on_slope(carried: float, slope: float) -> Loading:
    """Return the loading on a slope, `simgait.physics.resting.load_on_slope`.

    ``carried``: share of the body weight on this foot [N]; ``slope``: + falls away
    ahead [rad].

    >>> import math
    >>> steep = on_slope(1000.0, math.atan(0.75))
    >>> round(steep.normal, 6), round(steep.along, 6)
    (800.0, -600.0)
    """
    load = flat(rows.LOAD_ROWS)
    load_on_slope(carried, slope, GRAVITY, load)
    return _loading(load, slope)


def pushed(carried: float, ratio: float) -> Loading:
    """Return the loading under a level push, `simgait.physics.resting.load_pushed`.

    ``carried`` [N]; ``ratio``: of the push at the body's centre to the weight, + forward [1].
    """
    load = flat(rows.LOAD_ROWS)
    load_pushed(carried, ratio, GRAVITY, load)
    return _loading(load, 0.0)


def _loading(load: Array, slope: float) -> Loading:
    return Loading(
        normal=load[rows.LOAD_NORMAL],
        along=load[rows.LOAD_ALONG],
        gravity_along=load[rows.LOAD_PULL_ALONG],
        gravity_up=load[rows.LOAD_PULL_UP],
        slope=slope,
    )
