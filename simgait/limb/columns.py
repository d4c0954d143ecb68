"""A limb as the columns of numbers that the equations take."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.engines import plain
from simgait.limb.geometry import Limb, prosthesis_bodies, sole_in_prosthesis
from simgait.limb.inertia import lean_mass_matrices
from simgait.parts.sole import ONSET, QUICKNESS, solved_sole
from simgait.people import residual_limb, thigh
from simgait.physics import layout as rows
from simgait.wearer import GRAVITY, REFERENCE_SPAN, spline_coefficients

SHEAR_SHARPNESS = 300.0  # [1/m] the sole slides 5 mm before friction is used up (assumed)
SHEAR_DAMPING = 0.8  # [s/m] (assumed)


@dataclass(frozen=True, kw_only=True, eq=False)
class Columns:
    """The numbers that the equations take for one run: one column of each flat array."""

    parameter: Array  # [PARAMETERS]
    sole: Array  # [SOLE_ROWS]
    reference: Array  # [REFERENCE_ROWS]
    state: Array  # [STATES] at touch-down


def limb_columns(limb: Limb) -> Columns:
    """Return a limb as the columns that the equations take.

    At touch-down the ankle axis is at x = 0 and the lowest element of the sole touches the floor.

    Raises:
        RangeError: the limb cannot be built (pylon shorter than the unit needs, for example).
    """
    forward, up = sole_in_prosthesis(limb)
    elements = solved_sole(limb.foot)
    sole = np.empty(rows.SOLE_ROWS)
    sole[rows.SOLE_FORWARD :: 4] = forward
    sole[rows.SOLE_UP :: 4] = up
    sole[rows.SOLE_STIFFNESS :: 4] = elements.stiffness
    sole[rows.SOLE_LOSS :: 4] = elements.loss
    wearer = limb.wearer
    reference = np.concatenate(
        (
            spline_coefficients(wearer.thigh),
            spline_coefficients(wearer.knee) + limb.extra_flexion,
        )
    )
    parameter = _parameters(limb)
    state = _touch_down(limb, forward, up, parameter, reference)
    return Columns(parameter=parameter, sole=sole, reference=reference, state=state)


def _parameters(limb: Limb) -> Array:
    """Return the column of parameters; RUN_ON stays 0 [PARAMETERS]."""
    p = np.zeros(rows.PARAMETERS)
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
    p[rows.MASS_THIGH : rows.INERTIA_THIGH + 1] = (
        upper.mass,
        upper.length,
        upper.centre,
        upper.inertia,
    )
    p[rows.MASS_RESIDUAL : rows.INERTIA_RESIDUAL + 1] = (
        lower.mass,
        limb.pivot_below_knee,
        lower.centre,
        lower.inertia,
    )
    p[rows.MASS_PROSTHESIS : rows.INERTIA_PROSTHESIS + 1] = (
        body.mass,
        body.forward,
        body.up,
        body.inertia,
    )
    p[rows.SOCKET_STIFFNESS] = limb.socket.rotational_stiffness
    p[rows.SOCKET_DAMPING] = limb.socket.rotational_damping


def _fill_wearer(limb: Limb, p: Array) -> None:
    """Write joint springs, pace and the other limb's support into `p`."""
    wearer = limb.wearer
    weight = limb.body_weight
    p[rows.HIP_STIFFNESS : rows.TRUNK_SPEED + 1] = (
        wearer.hip_stiffness,
        wearer.hip_damping,
        wearer.knee_stiffness,
        wearer.knee_damping,
        wearer.trunk_damping,
        wearer.trunk_speed,
    )
    p[rows.REFERENCE_TIME] = REFERENCE_SPAN * wearer.stance_time
    p[rows.STANCE_TIME] = wearer.stance_time
    p[rows.LEAVES_TIME] = wearer.leaves * wearer.stance_time
    p[rows.ARRIVES_TIME] = wearer.arrives * wearer.stance_time
    p[rows.OTHER_UP : rows.OTHER_UP + 4] = np.multiply(weight, wearer.leaving_up)
    p[rows.OTHER_FORWARD : rows.OTHER_FORWARD + 4] = np.multiply(weight, wearer.leaving_forward)
    p[rows.NEXT_UP : rows.NEXT_UP + 4] = np.multiply(weight, wearer.arriving_up)
    p[rows.NEXT_FORWARD : rows.NEXT_FORWARD + 4] = np.multiply(weight, wearer.arriving_forward)
    p[rows.NEXT_STIFFNESS] = wearer.arriving_stiffness
    p[rows.NEXT_DAMPING] = wearer.arriving_damping
    p[rows.NEXT_HEIGHT] = wearer.arriving_height + limb.sound_lift


def touch_down_hip(limb: Limb, forward: Array, up: Array, state: Array) -> tuple[float, float]:
    """Return the hip's place at which the sole just touches the floor, the ankle at x = 0 [m].

    forward, up: as `sole_in_prosthesis` gives them [m]; state: with its three leans.
    """
    thigh_lean, lean, foot_lean = state[[rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS]]
    c, s = math.cos(foot_lean), math.sin(foot_lean)
    low = float(np.min(up * c - forward * s))
    ankle = limb.ankle
    upper, lower = limb.person.thigh_length, limb.pivot_below_knee
    x = upper * math.sin(thigh_lean) + lower * math.sin(lean) - (ankle[0] * c + ankle[1] * s)
    y = upper * math.cos(thigh_lean) + lower * math.cos(lean) - low
    return x, y


def starting_strain(parameter: Array, reference: Array, state: Array) -> float:
    """Return the turn of the prosthesis on the residual limb with which swing ends [rad].

    Just before touch-down limb and prosthesis turn together: with M the mass matrix of the leans,
    the knee's and hip's torques Q give M^-1 Q, and the socket's strain is that for which
    the second and third entry are equal.  Started without strain, the light limb would ring.

    parameter, reference, state: columns; the state with all leans and rates.
    """
    kernel = plain.kernel()
    block = [np.zeros(len(column) * rows.W) for column in (state, parameter, reference)]
    for flat, column in zip(block, (state, parameter, reference), strict=True):
        flat[:: rows.W] = column
    scratch = np.zeros(rows.SCRATCH * rows.W)
    kernel.follow_curves(1, 0.0, block[1], block[2], scratch)
    kernel.joint_torques(1, block[0], block[1], scratch)
    hip, knee = scratch[rows.TORQUE_HIP * rows.W], scratch[rows.TORQUE_KNEE * rows.W]
    force = np.array([hip - knee, knee, 0.0])
    turn = np.array([0.0, 1.0, -1.0])
    inverse = np.linalg.inv(lean_mass_matrices(parameter[None], state[None])[0])
    gap = float(turn @ inverse @ force)
    return -gap / float(parameter[rows.SOCKET_STIFFNESS] * (turn @ inverse @ turn))


def _touch_down(limb: Limb, forward: Array, up: Array, parameter: Array, reference: Array) -> Array:
    """Return the state at touch-down; forward, up: as `sole_in_prosthesis` gives them [STATES]."""
    wearer = limb.wearer
    lean = wearer.start_thigh + wearer.start_flexion + limb.extra_flexion
    rate = wearer.start_thigh_rate + wearer.start_flexion_rate
    state = np.zeros(rows.STATES)
    state[rows.THIGH] = wearer.start_thigh
    state[rows.RESIDUAL] = lean
    state[rows.PROSTHESIS] = lean
    state[rows.HIP_VX] = wearer.start_forward_speed
    state[rows.HIP_VY] = wearer.start_upward_speed
    state[rows.THIGH_RATE] = wearer.start_thigh_rate
    state[rows.RESIDUAL_RATE] = rate
    state[rows.PROSTHESIS_RATE] = rate
    state[rows.PROSTHESIS] += starting_strain(parameter, reference, state)
    state[rows.HIP_X], state[rows.HIP_Y] = touch_down_hip(limb, forward, up, state)
    return state
