"""What a limb that stands still must carry: the floor's force on it, and the pull of gravity.

Everything in the frame of the floor: x along it, + forward; y square to it, + up. On a slope that
falls away ahead, by + ``slope``, gravity leans forward in that frame.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.wearer import GRAVITY


@dataclass(frozen=True, kw_only=True)
class Loading:
    """The floor's force on the foot, which carries a share of the body, and gravity."""

    normal: float  # [N] floor on foot, square to the floor
    along: float  # [N] floor on foot, along the floor, + forward
    gravity_along: float  # [m/s2] + forward
    gravity_up: float  # [m/s2] + up, so negative
    slope: float  # [rad] of the floor, + falls away ahead


def level(carried: float) -> Loading:
    """Return the loading of standing on level floor: nothing but weight. ``carried`` [N]."""
    return on_slope(carried, 0.0)


def on_slope(carried: float, slope: float) -> Loading:
    """Return the loading on a slope: the floor carries straight up, so along itself as well.

    Statics: nothing but weight and floor act on the body, so the floor's force is the weight
    turned round. ``carried``: share of the body weight on this foot [N]; ``slope``: + falls away
    ahead [rad].

    >>> steep = on_slope(1000.0, math.atan(0.75))
    >>> round(steep.normal, 6), round(steep.along, 6)
    (800.0, -600.0)
    """
    c, s = math.cos(slope), math.sin(slope)
    return Loading(
        normal=carried * c,
        along=-carried * s,
        gravity_along=GRAVITY * s,
        gravity_up=-GRAVITY * c,
        slope=slope,
    )


def pushed(carried: float, ratio: float) -> Loading:
    """Return the loading under a level push at the body's centre, of ``ratio`` weights [1].

    Statics: the floor's friction opposes the push; both feet share it as they share the weight.
    ``carried`` [N]; ``ratio`` + pushes forward.
    """
    return Loading(
        normal=carried,
        along=-carried * ratio,
        gravity_along=0.0,
        gravity_up=-GRAVITY,
        slope=0.0,
    )
