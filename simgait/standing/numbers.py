"""A limb and its wearer as the flat array that the equations of standing take."""

from __future__ import annotations

from simgait.arrays import Array
from simgait.library.strengths import StandingHabit, Strength
from simgait.limb import Limb
from simgait.physics import rest_layout as rows
from simgait.physics.bench import HEEL_BEHIND_ANKLE
from simgait.standing.footing import put_strip
from simgait.standing.pieces import Pieces
from simgait.wearer import GRAVITY


def put_wearer(limb: Limb, strength: Strength, habit: StandingHabit, rest: Array) -> None:
    """Write what no alignment changes: strength, habit, sound foot, size; the place apart."""
    person = limb.person
    heel = HEEL_BEHIND_ANKLE * person.foot_length
    rest[rows.REST_KNEE] = strength.knee * person.mass
    rest[rows.REST_HIP] = strength.hip * person.mass
    rest[rows.REST_HELD] = strength.held
    rest[rows.REST_STRAIGHTEST] = -habit.knee_past_straight
    rest[rows.REST_DEEPEST] = habit.deepest_knee
    rest[rows.REST_CHOSEN] = habit.knee_flexion
    rest[rows.REST_SOUND_HEEL] = heel
    rest[rows.REST_SOUND_TOE] = habit.sound_effective_length * person.foot_length - heel
    rest[rows.REST_END_BELOW_PIVOT] = limb.end_below_pivot
    rest[rows.REST_CENTRE_ABOVE_HIP] = habit.centre_height * person.stature - person.hip_height


def put_limb(limb: Limb, pieces: Pieces, flat_lean: float, rest: Array) -> None:
    """Write what an alignment decides; after `put_wearer`.

    From a limb's columns `simgait.physics.still.take_columns` does the same. flat_lean: of the
    prosthesis where the sole lies as its foot was built [rad].
    """
    put_strip(pieces, rest)
    rest[rows.REST_SOCKET] = pieces.socket_stiffness
    rest[rows.REST_ANKLE_FORWARD], rest[rows.REST_ANKLE_UP] = pieces.ankle
    masses = (pieces.prosthesis_mass, pieces.residual_mass, pieces.thigh_mass)
    for row, mass in enumerate(masses, start=rows.REST_MASS):
        rest[row] = mass
    rest[rows.REST_CENTRE_FORWARD], rest[rows.REST_CENTRE_UP] = pieces.prosthesis_centre
    rest[rows.REST_CENTRE_RESIDUAL] = pieces.residual_centre
    rest[rows.REST_CENTRE_THIGH] = pieces.thigh_centre
    rest[rows.REST_PIVOT_BELOW_KNEE] = pieces.pivot_below_knee
    rest[rows.REST_LENGTH_THIGH] = pieces.thigh_length
    rest[rows.REST_FLAT] = flat_lean
    rest[rows.REST_WEIGHT] = limb.body_weight
    rest[rows.REST_GRAVITY] = GRAVITY
    rest[rows.REST_FRICTION] = limb.friction
    rest[rows.REST_HEEL_END] = -limb.foot.heel_lever
    rest[rows.REST_TOE_END] = limb.foot.toe_lever
    rest[rows.REST_LEG_LENGTH] = limb.leg_length
    rest[rows.REST_SOCKET_DEPTH] = limb.socket_depth
    rest[rows.REST_CENTRE_HEIGHT] = limb.leg_length + rest[rows.REST_CENTRE_ABOVE_HIP]
