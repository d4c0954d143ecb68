"""The pose of a limb's foot, and the alignment that a pose amounts to."""

from __future__ import annotations

import math

from simgait.alignment import Alignment
from simgait.limb import Limb
from simgait.parts.shoe import heel_tilt
from simgait.transfer.geometry import Pose


def pose_of_limb(limb: Limb) -> Pose:
    """Return where a limb's foot hangs under its socket.

    The ankle axis as `Limb.ankle` has it, from the socket's end; the foot's turn without the
    shoe's heel, which turns the foot on the floor and no component.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> from simgait.limb import limb_of
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> limb = limb_of(case, case.baseline)
    >>> abs(pose_of_limb(limb).below - limb.pylon_length) < 0.01
    True
    """
    x, y = limb.ankle
    heel = heel_tilt(limb.alignment.heel_rise, limb.foot.heel_rise, limb.foot.length)
    return Pose(forward=x, below=-(y + limb.end_below_pivot), turn=limb.sole_slope - heel)


def alignment_of_pose(limb: Limb, pose: Pose) -> Alignment:
    """Return the alignment of a limb whose foot hangs in another pose, all else equal.

    Socket flexion and heel rise stay.  On the bench, where the socket leans by its flexion, a foot
    further forward or lower is `foot_forward` or `length_change`; more turn is `dorsiflexion`.
    The inverse of `pose_of_limb`.

    Raises:
        RangeError: no alignment is so far off.
    """
    now, own = pose_of_limb(limb), limb.alignment
    c, s = math.cos(own.socket_flexion), math.sin(own.socket_flexion)
    forward, up = pose.forward - now.forward, now.below - pose.below
    return Alignment(
        foot_forward=own.foot_forward + forward * c + up * s,
        dorsiflexion=own.dorsiflexion + pose.turn - now.turn,
        socket_flexion=own.socket_flexion,
        length_change=own.length_change + forward * s - up * c,
        heel_rise=own.heel_rise,
    )
