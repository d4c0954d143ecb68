"""Where everything of a standing limb is, for whoever draws it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.standing.footing import turned
from simgait.standing.result import Standing
from simgait.standing.tipping import centre_height


@dataclass(frozen=True, kw_only=True, eq=False)
class Outline:
    """Points of a limb that stands on level floor [m], x from below the ankle axis, y from it."""

    hip: Array  # [2]
    knee: Array  # [2]
    brim: Array  # [2]
    limb_end: Array  # [2]
    socket_end: Array  # [2]
    ankle: Array  # [2]
    sole: Array  # [elements, 2] undeformed; y < 0 is pressed in
    pressure: float  # x of the load line
    heel_end: float  # x of the heel end of the carrying sole
    toe_end: float  # x of its toe end
    centre_height: float  # of the body's centre
    carried: float  # [N] on this foot


def outline(standing: Standing) -> Outline:
    """Return the points of a standing limb; those of the failed stand if nobody could stand so."""
    pose, limb = standing.pose, standing.stance.limb
    shift = np.array([pose.ankle[0], 0.0])
    pivot = np.array(pose.pivot)

    def on_limb(lean: float, above: float) -> Array:
        place: Array = pivot + turned(lean, np.array(0.0), np.array(above)) - shift
        return place

    pressure = pose.footing.pressure - float(shift[0])
    return Outline(
        hip=np.array(pose.hip) - shift,
        knee=np.array(pose.knee) - shift,
        brim=on_limb(pose.prosthesis_lean, limb.socket_depth / 2.0),
        limb_end=on_limb(pose.residual_lean, -limb.socket_depth / 2.0),
        socket_end=on_limb(pose.prosthesis_lean, -limb.end_below_pivot),
        ankle=np.array(pose.ankle) - shift,
        sole=pose.footing.points + pivot - shift,
        pressure=pressure,
        heel_end=pressure - pose.place - limb.foot.heel_lever,
        toe_end=pressure - pose.place + limb.foot.toe_lever,
        centre_height=centre_height(standing.stance),
        carried=pose.loading.normal,
    )
