"""Standing on both feet and on the prosthesis alone: what is found, by name."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from simgait.arrays import Array
from simgait.case import Case
from simgait.library.strengths import StandingHabit, Strength, read_standing_habit, read_strength
from simgait.limb import Limb, limb_of
from simgait.parts.shoe import ankle_lift, heel_tilt
from simgait.physics import rest_layout as rows
from simgait.physics import still
from simgait.physics.posture import EQUAL_SHARE
from simgait.physics.posture import share_held as held
from simgait.physics.still import find_limits, stand_with
from simgait.standing.flat import flat
from simgait.standing.loading import level
from simgait.standing.names import QUANTITIES
from simgait.standing.pieces import pieces_of
from simgait.standing.pose import Pose, pose_of
from simgait.standing.posture import ENDINGS, STANDS, Stance, body_place, stood
from simgait.standing.tipping import REASONS, Limit
from simgait.units import degrees_from_radians, mm_from_metres

EQUAL = EQUAL_SHARE
DEGREE, MM = degrees_from_radians(1.0), mm_from_metres(1.0)
MEASURED = {  # where the equations put each measure, and its written unit
    "load_line_ahead_of_knee_mm": (rows.STOOD_LINE_KNEE, MM),
    "load_line_ahead_of_ankle_mm": (rows.STOOD_LINE_ANKLE, MM),
    "load_line_ahead_of_hip_mm": (rows.STOOD_LINE_HIP, MM),
    "load_line_ahead_of_socket_mm": (rows.STOOD_LINE_SOCKET, MM),
    "knee_flexion_moment_nm": (rows.STOOD_KNEE_MOMENT, 1.0),
    "socket_flexion_moment_nm": (rows.STOOD_SOCKET_MOMENT, 1.0),
    "prosthesis_load_share": (rows.STOOD_SHARE, 1.0),
    "forward_reserve_mm": (rows.STOOD_FORWARD_RESERVE, MM),
    "backward_reserve_mm": (rows.STOOD_BACKWARD_RESERVE, MM),
    "heel_share": (rows.STOOD_HEEL_SHARE, 1.0),
    "forefoot_share": (rows.STOOD_FOREFOOT_SHARE, 1.0),
    "knee_effort_percent": (rows.STOOD_KNEE_EFFORT, 100.0),
    "hip_effort_percent": (rows.STOOD_HIP_EFFORT, 100.0),
    "knee_flexion_deg": (rows.STOOD_KNEE_FLEXION, DEGREE),
    "shank_lean_deg": (rows.STOOD_SHANK_LEAN, DEGREE),
    "hip_below_level_mm": (rows.STOOD_HIP_BELOW, MM),
}
LIMIT_NAMES = ("forward slope", "forward push", "backward slope", "backward push")


@dataclass(frozen=True, kw_only=True, eq=False)
class Standing:
    """One way of standing: how it ends, its pose, its numbers by name (NaN where none applies)."""

    stance: Stance
    share: float  # [1] of the weight on the prosthesis
    ending: str  # "stands", or the reason why nobody could stand so
    pose: Pose
    limits: Mapping[str, Limit]  # by "forward slope", "backward push" and so on; empty if it falls
    measures: Mapping[str, float]  # by the names in `simgait.standing.names`


def stand(case: Case) -> tuple[Standing, Standing]:
    """Return a case's baseline standing on both feet, and on the prosthesis alone.

    Raises:
        RangeError: the limb cannot be built.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> both, alone = stand(read_case(models_folder() / "cases" / "everyday.toml"))
    >>> both.ending, both.measures["prosthesis_load_share"]
    ('stands', 0.5)
    """
    return stand_limb(limb_of(case, case.baseline), read_strength(case.wearer))


def stand_limb(
    limb: Limb, strength: Strength, habit: StandingHabit | None = None
) -> tuple[Standing, Standing]:
    """Return a limb standing on both feet, and on the prosthesis alone.

    Raises:
        RangeError: the limb cannot be built.
    """
    both, alone = (stance_of(limb, strength, share, habit) for share in (EQUAL, 1.0))
    return standing(both, share_held(both)), standing(alone, 1.0)


def stance_of(
    limb: Limb, strength: Strength, share: float, habit: StandingHabit | None = None
) -> Stance:
    """Return a limb ready to stand, the body's place found under a share of the weight [1]."""
    habit = habit or read_standing_habit()
    return Stance(
        limb=limb,
        pieces=pieces_of(limb),
        strength=strength,
        habit=habit,
        place=body_place(limb, habit, share * limb.body_weight),
    )


def share_held(stance: Stance, slope: float = 0.0) -> float:
    """Return the share of the weight that the wearer puts on the prosthesis, on both feet [1].

    Half; less as far as the knee could not hold its moment for minutes otherwise, unless no less
    than hardly anything would do: then half, and the body must move. ``slope`` of the floor, +
    falls away ahead [rad].
    """

    load, pose, room = (flat(size) for size in (rows.LOAD_ROWS, rows.POSE_ROWS, rows.BRACKET_ROWS))
    return held(slope, load, stance.rest, pose, room)


def standing(stance: Stance, share: float) -> Standing:
    """Return one way of standing, with a share of the weight on the prosthesis [1]."""
    load, pose, room = (flat(size) for size in (rows.LOAD_ROWS, rows.POSE_ROWS, rows.BRACKET_ROWS))
    found, disturbed = flat(rows.STOOD_ROWS), flat(rows.POSE_ROWS)
    stand_with(share, load, stance.rest, pose, room, found)
    find_limits(load, stance.rest, pose, room, flat(rows.TRIAL_ROWS), disturbed, found)
    ending = ENDINGS[int(found[rows.STOOD_ENDING])]
    loading = level(share * stance.limb.body_weight)
    limits: dict[str, Limit] = {}
    measures = {quantity.name: math.nan for quantity in QUANTITIES}
    measures |= outer_measures(stance, share)
    if ending == STANDS:
        limits = tipping_limits(found)
        measures |= {name: factor * found[row] for name, (row, factor) in MEASURED.items()}
        driven = driven_forward(stance, share, found[rows.STOOD_LINE_KNEE])
        measures["knee_driven_forward_mm"] = mm_from_metres(driven)
        measures |= tipping_measures(limits, stance.limb.body_weight)
    return Standing(
        stance=stance,
        share=share,
        ending=ending,
        pose=pose_of(loading, stance.rest, pose),
        limits=limits,
        measures=measures,
    )


def tipping_limits(found: Array) -> dict[str, Limit]:
    """Return where standing ends on slopes and under pushes, forward and backward.

    found: what the equations found of one way of standing, `simgait.physics.still`.
    """
    starts = range(rows.STOOD_LIMITS, rows.STOOD_ROWS, 3)
    return {
        name: Limit(
            ratio=found[row + rows.STOOD_RATIO],
            reason=REASONS[int(found[row + rows.STOOD_REASON])],
            place=found[row + rows.STOOD_AT],
        )
        for name, row in zip(LIMIT_NAMES, starts, strict=True)
    }


def tipping_measures(limits: Mapping[str, Limit], weight: float) -> dict[str, float]:
    """Return the slopes [deg] and pushes [N] by name. ``weight`` of the body [N]."""
    slopes = {
        f"tips_{way}_slope_deg": degrees_from_radians(math.atan(limits[f"{way} slope"].ratio))
        for way in ("forward", "backward")
    }
    pushes = {
        f"tips_{way}_push_n": weight * limits[f"{way} push"].ratio
        for way in ("forward", "backward")
    }
    return slopes | pushes


def outer_measures(stance: Stance, share: float) -> dict[str, float]:
    """Return what geometry alone says, by name."""
    limb = stance.limb
    mismatch = heel_tilt(limb.alignment.heel_rise, limb.foot.heel_rise, limb.foot.length)
    measures = {"heel_mismatch_deg": degrees_from_radians(mismatch)}
    if share < 1.0:
        tilt = pelvic_tilt(length_mismatch(limb), stance.habit.hip_spacing)
        measures["pelvic_tilt_deg"] = degrees_from_radians(tilt)
    return measures


def length_mismatch(limb: Limb) -> float:
    """Return by how much the prosthesis is longer than the sound leg, both as they are shod [m].

    The length change, and what heels other than those in which it was cut level do to either side.
    """
    foot, heel = limb.foot, limb.alignment.heel_rise
    own_lift = ankle_lift(heel, foot.heel_rise, foot.length, foot.heel_lever)
    return limb.alignment.length_change + limb.level_lift + own_lift - limb.sound_lift


def pelvic_tilt(mismatch: float, hip_spacing: float) -> float:
    """Return the tilt of the pelvis over legs of unequal length, asin(mismatch / spacing) [rad].

    Both legs upright, `simgait.physics.still.pelvic_tilt`. ``mismatch``: by how much the prosthesis
    is longer [m]; ``hip_spacing``: between the hip axes [m].

    >>> round(math.degrees(pelvic_tilt(0.010, 0.185)), 1)
    3.1
    """
    return still.pelvic_tilt(mismatch, hip_spacing)


def driven_forward(stance: Stance, share: float, ahead: float) -> float:
    """Return how far a heel other than the foot's own drives the knee towards folding [m].

    ``ahead``: load line ahead of the knee with this heel [m].
    """
    limb = stance.limb
    if limb.alignment.heel_rise == limb.foot.heel_rise:
        return 0.0
    own = replace(limb, alignment=replace(limb.alignment, heel_rise=limb.foot.heel_rise))
    before = replace(stance, limb=own, pieces=pieces_of(own))
    level_pose, _ = stood(before, level(share * limb.body_weight))
    return level_pose.line_ahead_of(level_pose.knee) - ahead
