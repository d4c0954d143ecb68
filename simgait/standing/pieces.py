"""A limb as the few numbers that statics needs."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.arrays import Array
from simgait.limb import Limb, prosthesis_bodies, sole_in_prosthesis
from simgait.parts.sole import ONSET, solved_sole
from simgait.people import residual_limb, thigh


@dataclass(frozen=True, kw_only=True, eq=False)
class Pieces:
    """Thigh, residual limb and prosthesis; the prosthesis' frame begins at the socket pivot, its
    up axis along the residual limb."""

    forward: Array  # [elements] [m] of the unloaded sole, in the prosthesis' frame
    up: Array  # [elements] [m]
    along: Array  # [elements] [m] along the sole, ahead of the ankle axis
    rise: float  # [m] of the toe end's element over the heel end's, as the foot was built
    stiffness: Array  # [elements] [N/m]
    loss: Array  # [elements] [1]; has no part in statics
    onset: float  # [m] depth over which an element's stiffness comes up
    socket_stiffness: float  # [N m/rad]
    ankle: tuple[float, float]  # [m] in the prosthesis' frame
    prosthesis_mass: float  # [kg]
    prosthesis_centre: tuple[float, float]  # [m] in the prosthesis' frame
    residual_mass: float  # [kg]
    residual_centre: float  # [m] knee axis to centre of mass
    pivot_below_knee: float  # [m]
    thigh_mass: float  # [kg]
    thigh_centre: float  # [m] hip axis to centre of mass
    thigh_length: float  # [m]


def pieces_of(limb: Limb) -> Pieces:
    """Return what statics needs of a limb.

    Raises:
        RangeError: the limb cannot be built, or no sole has its foot's figures.
    """
    forward, up = sole_in_prosthesis(limb)
    sole, body = solved_sole(limb.foot), prosthesis_bodies(limb)
    upper = thigh(limb.person)
    lower = residual_limb(limb.person, limb.residual_limb_length)
    return Pieces(
        forward=forward,
        up=up,
        along=sole.forward,
        rise=float(sole.up[-1] - sole.up[0]),
        stiffness=sole.stiffness,
        loss=sole.loss,
        onset=ONSET,
        socket_stiffness=limb.socket.rotational_stiffness,
        ankle=limb.ankle,
        prosthesis_mass=body.mass,
        prosthesis_centre=(body.forward, body.up),
        residual_mass=lower.mass,
        residual_centre=lower.centre,
        pivot_below_knee=limb.pivot_below_knee,
        thigh_mass=upper.mass,
        thigh_centre=upper.centre,
        thigh_length=upper.length,
    )
