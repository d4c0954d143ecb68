"""A limb as the columns of numbers that the equations take."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array, beside
from simgait.engines import compiled
from simgait.engines.setting_up import BenchColumns, beginning, set_up_columns
from simgait.limb.geometry import Limb
from simgait.parts.sole import ONSET, QUICKNESS, solved_sole
from simgait.people import residual_limb, thigh
from simgait.physics import bench_rows
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
    limb.require_pylon()
    kernel, before = compiled.kernel(), bench_columns(limb)
    parameter, sole, reference = set_up_columns(kernel, before)
    state = beginning(kernel, before, parameter, sole, reference)
    return Columns(parameter=parameter, sole=sole, reference=reference, state=state)


def bench_columns(limb: Limb) -> BenchColumns:
    """Return what is known of a limb before it is set up at its alignment.

    limb: of one run, or of many.
    """
    turn = limb.sole_slope
    runs = np.shape(turn)
    elements = solved_sole(limb.foot)
    built = np.empty((rows.SOLE_ROWS, *runs))
    built[rows.SOLE_FORWARD :: 4] = beside(elements.forward, turn)
    built[rows.SOLE_UP :: 4] = beside(elements.up, turn)
    built[rows.SOLE_STIFFNESS :: 4] = beside(elements.stiffness, turn)
    built[rows.SOLE_LOSS :: 4] = beside(elements.loss, turn)
    reference = np.empty((rows.REFERENCE_ROWS, *runs))
    _put(reference, rows.THIGH_CURVE, spline_coefficients(limb.wearer.thigh))
    _put(reference, rows.KNEE_CURVE, spline_coefficients(limb.wearer.knee))
    return BenchColumns(
        bench=_bench(limb, runs),
        setting=_setting(limb, runs),
        built=built,
        parameter=_parameters(limb, runs),
        reference=reference,
    )


def _put(column: Array, first: int, values: Iterable[float | Array]) -> None:
    """Write values, each one number or many, into the rows of a column from `first` on."""
    for row, value in enumerate(values, start=first):
        column[row] = value


def _bench(limb: Limb, runs: tuple[int, ...]) -> Array:
    """Return the bench's column [BENCH, *runs]."""
    b = np.empty((bench_rows.BENCH, *runs))
    foot, pylon, wearer = limb.foot, limb.pylon, limb.wearer
    upper, lower = thigh(limb.person), residual_limb(limb.person, limb.residual_limb_length)
    b[bench_rows.BENCH_KNEE] = limb.person.knee_height + limb.level_lift
    b[bench_rows.BENCH_END] = limb.end_below_pivot
    b[bench_rows.BENCH_SOLE_HEIGHT] = foot.sole_height
    b[bench_rows.BENCH_FOOT_LENGTH] = foot.length
    b[bench_rows.BENCH_BUILT_FOR] = foot.heel_rise
    b[bench_rows.BENCH_SOCKET_MASS] = limb.socket.mass
    b[bench_rows.BENCH_ADAPTER_MASS] = pylon.adapter_mass
    b[bench_rows.BENCH_TUBE_MASS] = pylon.mass_per_length
    b[bench_rows.BENCH_FOOT_MASS] = foot.mass
    b[bench_rows.BENCH_REST_MASS] = limb.person.mass - upper.mass - lower.mass
    b[bench_rows.BENCH_HIP_HEIGHT] = limb.person.hip_height
    b[bench_rows.BENCH_STRUT_HEIGHT] = wearer.arriving_height
    start = (
        wearer.start_thigh,
        wearer.start_flexion,
        wearer.start_thigh_rate,
        wearer.start_flexion_rate,
        wearer.start_forward_speed,
        wearer.start_upward_speed,
    )
    _put(b, bench_rows.START_THIGH, start)
    return b


def _setting(limb: Limb, runs: tuple[int, ...]) -> Array:
    """Return the setting's column [SETTING, *runs]."""
    column = np.empty((bench_rows.SETTING, *runs))
    own = limb.alignment
    values = (
        own.foot_forward,
        own.dorsiflexion,
        own.socket_flexion,
        own.length_change,
        own.heel_rise,
        limb.sound_lift,
    )
    _put(column, bench_rows.SET_FOOT_FORWARD, values)
    return column


def _parameters(limb: Limb, runs: tuple[int, ...]) -> Array:
    """Return the parameters that no alignment changes, RUN_ON 0 [PARAMETERS, *runs]."""
    p = np.zeros((rows.PARAMETERS, *runs))
    _fill_bodies(limb, p)
    _fill_wearer(limb, p)
    p[rows.FRICTION] = limb.friction
    p[rows.SHEAR_SHARPNESS] = SHEAR_SHARPNESS
    p[rows.SHEAR_DAMPING] = SHEAR_DAMPING
    p[rows.SOLE_QUICKNESS] = QUICKNESS
    p[rows.SOLE_ONSET] = ONSET
    p[rows.HEEL_END] = -limb.foot.heel_lever
    p[rows.TOE_END] = limb.foot.toe_lever
    p[rows.SOCKET_DEPTH] = limb.socket_depth
    p[rows.BODY_WEIGHT] = limb.body_weight
    return p


def _fill_bodies(limb: Limb, p: Array) -> None:
    """Write gravity, the masses and sizes of the bodies, and the socket's spring into `p`."""
    upper, lower = thigh(limb.person), residual_limb(limb.person, limb.residual_limb_length)
    p[rows.GRAVITY] = GRAVITY
    _put(p, rows.MASS_THIGH, (upper.mass, upper.length, upper.centre, upper.inertia))
    _put(p, rows.MASS_RESIDUAL, (lower.mass, limb.pivot_below_knee, lower.centre, lower.inertia))
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
