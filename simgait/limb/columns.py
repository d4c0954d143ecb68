"""A limb as the columns of numbers that the equations take."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array, beside
from simgait.limb.geometry import Limb, prosthesis_bodies, sole_in_prosthesis
from simgait.limb.touch_down import touch_down
from simgait.parts.sole import ONSET, QUICKNESS, solved_sole
from simgait.people import residual_limb, thigh
from simgait.physics import layout as rows
from simgait.wearer import GRAVITY, REFERENCE_SPAN, spline_coefficients

SHEAR_SHARPNESS = 300.0  # [1/m] the sole slides 5 mm before friction is used up (assumed)
SHEAR_DAMPING = 0.8  # [s/m] (assumed)


@dataclass(frozen=True, kw_only=True, eq=False)
class Columns:
    """The numbers that the equations take for one run: one column of each flat array.

    Of a limb that stands for many runs: a column each, side by side, [rows, runs].
    """

    parameter: Array  # [PARAMETERS]
    sole: Array  # [SOLE_ROWS]
    reference: Array  # [REFERENCE_ROWS]
    state: Array  # [STATES] at touch-down


def limb_columns(limb: Limb) -> Columns:
    """Return a limb as the columns that the equations take.

    At touch-down the ankle axis is at x = 0 and the lowest element of the sole touches the floor.

    limb: of one run, or of many, of which then at least the alignment is many; both by the same
    arithmetic, so that a run's column has the same digits either way.

    Raises:
        RangeError: the limb cannot be built (pylon shorter than the unit needs, for example).
    """
    turn = limb.sole_slope
    runs = np.shape(turn)
    parameter = _parameters(limb, runs)
    forward, up = sole_in_prosthesis(limb)
    elements = solved_sole(limb.foot)
    sole = np.empty((rows.SOLE_ROWS, *runs))
    sole[rows.SOLE_FORWARD :: 4] = forward
    sole[rows.SOLE_UP :: 4] = up
    sole[rows.SOLE_STIFFNESS :: 4] = beside(elements.stiffness, turn)
    sole[rows.SOLE_LOSS :: 4] = beside(elements.loss, turn)
    reference = np.empty((rows.REFERENCE_ROWS, *runs))
    _put(reference, rows.THIGH_CURVE, spline_coefficients(limb.wearer.thigh))
    knee = spline_coefficients(limb.wearer.knee)
    _put(reference, rows.KNEE_CURVE, (value + limb.extra_flexion for value in knee))
    state = touch_down(limb, forward, up, parameter, reference)
    return Columns(parameter=parameter, sole=sole, reference=reference, state=state)


def _put(column: Array, first: int, values: Iterable[float | Array]) -> None:
    """Write values, each one number or many, into the rows of a column from `first` on."""
    for row, value in enumerate(values, start=first):
        column[row] = value


def _parameters(limb: Limb, runs: tuple[int, ...]) -> Array:
    """Return the column of parameters, RUN_ON 0 [PARAMETERS, *runs]."""
    p = np.zeros((rows.PARAMETERS, *runs))
    _fill_bodies(limb, p)
    _fill_wearer(limb, p)
    p[rows.FRICTION] = limb.friction
    p[rows.SHEAR_SHARPNESS] = SHEAR_SHARPNESS
    p[rows.SHEAR_DAMPING] = SHEAR_DAMPING
    p[rows.SOLE_QUICKNESS] = QUICKNESS
    p[rows.SOLE_ONSET] = ONSET
    p[rows.ANKLE_FORWARD], p[rows.ANKLE_UP] = limb.ankle
    p[rows.SOLE_SLOPE] = limb.sole_slope
    p[rows.HEEL_END] = -limb.foot.heel_lever
    p[rows.TOE_END] = limb.foot.toe_lever
    p[rows.LEG_LENGTH] = limb.leg_length
    p[rows.SOCKET_DEPTH] = limb.socket_depth
    p[rows.BODY_WEIGHT] = limb.body_weight
    return p


def _fill_bodies(limb: Limb, p: Array) -> None:
    """Write gravity, the masses and sizes of the bodies, and the socket's spring into `p`."""
    upper, lower = thigh(limb.person), residual_limb(limb.person, limb.residual_limb_length)
    body = prosthesis_bodies(limb)
    p[rows.GRAVITY] = GRAVITY
    p[rows.MASS_HIP] = limb.person.mass - upper.mass - lower.mass - body.mass
    _put(p, rows.MASS_THIGH, (upper.mass, upper.length, upper.centre, upper.inertia))
    _put(p, rows.MASS_RESIDUAL, (lower.mass, limb.pivot_below_knee, lower.centre, lower.inertia))
    _put(p, rows.MASS_PROSTHESIS, (body.mass, body.forward, body.up, body.inertia))
    p[rows.SOCKET_STIFFNESS] = limb.socket.rotational_stiffness
    p[rows.SOCKET_DAMPING] = limb.socket.rotational_damping


def _fill_wearer(limb: Limb, p: Array) -> None:
    """Write joint springs, pace and the other limb's support into `p`."""
    wearer = limb.wearer
    weight = limb.body_weight
    joints = (
        wearer.hip_stiffness,
        wearer.hip_damping,
        wearer.knee_stiffness,
        wearer.knee_damping,
        wearer.trunk_damping,
        wearer.trunk_speed,
    )
    _put(p, rows.HIP_STIFFNESS, joints)
    p[rows.REFERENCE_TIME] = REFERENCE_SPAN * wearer.stance_time
    p[rows.STANCE_TIME] = wearer.stance_time
    p[rows.LEAVES_TIME] = wearer.leaves * wearer.stance_time
    p[rows.ARRIVES_TIME] = wearer.arrives * wearer.stance_time
    for first, shares in (
        (rows.OTHER_UP, wearer.leaving_up),
        (rows.OTHER_FORWARD, wearer.leaving_forward),
        (rows.NEXT_UP, wearer.arriving_up),
        (rows.NEXT_FORWARD, wearer.arriving_forward),
    ):
        _put(p, first, (weight * share for share in shares))
    p[rows.NEXT_STIFFNESS] = wearer.arriving_stiffness
    p[rows.NEXT_DAMPING] = wearer.arriving_damping
    p[rows.NEXT_HEIGHT] = wearer.arriving_height + limb.sound_lift
