"""Standing on both feet and on the prosthesis alone: what is found, by name."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from simgait.case import Case
from simgait.library.strengths import StandingHabit, Strength, read_standing_habit, read_strength
from simgait.limb import Limb, limb_of
from simgait.parts.shoe import ankle_lift, heel_tilt
from simgait.physics.bench import HEEL_BEHIND_ANKLE
from simgait.standing.loading import level, on_slope, pushed
from simgait.standing.names import QUANTITIES
from simgait.standing.pieces import pieces_of
from simgait.standing.pose import Pose
from simgait.standing.posture import STANDS, Stance, body_place, lean_over, stood
from simgait.standing.roots import root_between
from simgait.standing.tipping import Ground, Limit, slope_of, tipping_limit
from simgait.units import degrees_from_radians, mm_from_metres

EQUAL = 0.5  # [1] share of the weight that both feet take when nothing hinders
LEAST = 0.05  # [1] less load on the prosthesis than this is not standing on it


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

    def overload(share: float) -> float:
        loading = on_slope(share * stance.limb.body_weight, slope)
        pose = stance.pose(loading, lean_over(stance, loading))
        return stance.knee_effort(pose) - stance.strength.held

    if overload(EQUAL) <= 0.0 or overload(LEAST) >= 0.0:
        return EQUAL
    return root_between(overload, LEAST, EQUAL, within=1e-6)


def standing(stance: Stance, share: float) -> Standing:
    """Return one way of standing, with a share of the weight on the prosthesis [1]."""
    loading = level(share * stance.limb.body_weight)
    pose, ending = stood(stance, loading)
    limits: dict[str, Limit] = {}
    measures = {quantity.name: math.nan for quantity in QUANTITIES}
    measures |= outer_measures(stance, share)
    if ending == STANDS:
        limits = tipping_limits(stance, share, pose)
        measures |= load_measures(stance, share, pose)
        measures |= tipping_measures(limits, stance.limb.body_weight)
    return Standing(
        stance=stance, share=share, ending=ending, pose=pose, limits=limits, measures=measures
    )


def tipping_limits(stance: Stance, share: float, pose: Pose) -> dict[str, Limit]:
    """Return where standing ends on slopes and under pushes, forward and backward."""
    ahead = pose.line_ahead_of(pose.ankle)
    foot = stance.limb.person.foot_length
    heel = HEEL_BEHIND_ANKLE * foot
    toe = stance.habit.sound_effective_length * foot - heel
    ground = Ground(
        share=share,
        forward_reach=max(toe - ahead, 0.0),
        backward_reach=max(ahead + heel, 0.0),
    )
    return {
        f"{way} {kind}": tipping_limit(stance, ground, pose, sense, disturbance)
        for way, sense in (("forward", 1.0), ("backward", -1.0))
        for kind, disturbance in (("slope", slope_of), ("push", pushed))
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


def load_measures(stance: Stance, share: float, pose: Pose) -> dict[str, float]:
    """Return what the load does to the prosthesis' side, by name."""
    foot, leg = stance.limb.foot, stance.limb.leg_length
    points = {"knee": pose.knee, "ankle": pose.ankle, "hip": pose.hip, "socket": pose.pivot}
    lines = {
        f"load_line_ahead_of_{name}_mm": mm_from_metres(pose.line_ahead_of(point))
        for name, point in points.items()
    }
    return lines | {
        "knee_flexion_moment_nm": pose.knee_moment,
        "socket_flexion_moment_nm": pose.socket_moment,
        "prosthesis_load_share": share,
        "forward_reserve_mm": mm_from_metres(foot.toe_lever - pose.place),
        "backward_reserve_mm": mm_from_metres(pose.place + foot.heel_lever),
        "heel_share": pose.footing.heel_share,
        "forefoot_share": 1.0 - pose.footing.heel_share,
        "knee_effort_percent": 100.0 * stance.knee_effort(pose),
        "hip_effort_percent": 100.0 * stance.hip_effort(pose),
        "knee_flexion_deg": degrees_from_radians(pose.knee_flexion),
        "shank_lean_deg": degrees_from_radians(pose.residual_lean),
        "knee_driven_forward_mm": mm_from_metres(driven_forward(stance, share, pose)),
        "hip_below_level_mm": mm_from_metres(leg - pose.hip[1]),
    }


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

    Geometry, derived: both legs upright. ``mismatch``: by how much the prosthesis is longer
    [m]; ``hip_spacing``: between the hip axes [m].

    >>> round(math.degrees(pelvic_tilt(0.010, 0.185)), 1)
    3.1
    """
    return math.asin(mismatch / hip_spacing)


def driven_forward(stance: Stance, share: float, pose: Pose) -> float:
    """Return how far a heel other than the foot's own drives the knee towards folding [m]."""
    limb = stance.limb
    if limb.alignment.heel_rise == limb.foot.heel_rise:
        return 0.0
    own = replace(limb, alignment=replace(limb.alignment, heel_rise=limb.foot.heel_rise))
    before = replace(stance, limb=own, pieces=pieces_of(own))
    level_pose, _ = stood(before, level(share * limb.body_weight))
    return level_pose.line_ahead_of(level_pose.knee) - pose.line_ahead_of(pose.knee)
