"""Where everything of a standing limb is, for whoever draws it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.physics import rest_layout as rows
from simgait.physics.still import outline_limb
from simgait.standing.flat import flat
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
    found = flat(rows.OUTLINE_ROWS)
    outline_limb(standing.stance.rest, standing.pose.numbers, found)

    def point(row: int) -> Array:
        return np.array(found[row : row + 2])

    return Outline(
        hip=point(rows.OUTLINE_HIP),
        knee=point(rows.OUTLINE_KNEE),
        brim=point(rows.OUTLINE_BRIM),
        limb_end=point(rows.OUTLINE_LIMB_END),
        socket_end=point(rows.OUTLINE_SOCKET_END),
        ankle=point(rows.OUTLINE_ANKLE),
        sole=np.array(found[rows.OUTLINE_SOLE : rows.OUTLINE_ROWS]).reshape(-1, 2),
        pressure=found[rows.OUTLINE_PRESSURE],
        heel_end=found[rows.OUTLINE_HEEL_END],
        toe_end=found[rows.OUTLINE_TOE_END],
        centre_height=centre_height(standing.stance),
        carried=standing.pose.loading.normal,
    )
