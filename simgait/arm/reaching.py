"""Every length to look at as a row, and the one to recommend."""

from __future__ import annotations

import math

import numpy as np

from simgait.arm.lengths import (
    acceleration_from,
    comes_as_near_and_far,
    hanging_moment,
    level_moment,
    moment_about,
    shoulder_inertia,
    socket_couple,
    swing_period,
)
from simgait.arm.lifting import lift, setting_of
from simgait.arm.result import Length
from simgait.case.arm_case import ArmCase
from simgait.library.arms import ArmHabit, read_arm_habit
from simgait.parts.arm import Arm

RIGHT_ANGLE = math.pi / 2.0
HALVINGS = 40  # of the interval in which the longest forearm is sought
CANNOT_BE = 0.05  # [m] shortest forearm that is looked at


def mouth_distance(habit: ArmHabit, stature: float) -> float:
    """Return the distance from the shoulder's axis to the mouth [m].

    Across to the midline (memory), up and ahead (assumed), as shares of stature.
    stature: [m].

    >>> from simgait.library.arms import read_arm_habit
    >>> round(mouth_distance(read_arm_habit(), 1.76), 3)
    0.283
    """
    return stature * math.hypot(habit.to_midline, habit.mouth_up, habit.mouth_ahead)


def midline_distance(habit: ArmHabit, stature: float) -> float:
    """Return how far a level forearm must reach to the midline in front of the trunk [m].

    Across from the elbow of a hanging arm (memory) and ahead (assumed), as shares of stature.
    stature: [m].
    """
    return stature * math.hypot(habit.to_midline, habit.trunk_ahead)


def reaches(arm: Arm, distance: float) -> bool:
    """Return whether the tip comes as near and as far as a distance from the shoulder [m].

    :func:`~simgait.arm.lengths.comes_as_near_and_far` of an arm.
    """
    return comes_as_near_and_far(distance, arm.upper_arm, arm.tip, arm.flexion_to)


def socket_place(case: ArmCase) -> float | None:
    """Return where the limb ends in the socket, from the shoulder's axis [m]; None if unknown.

    On a shoulder-level arm the socket sits at the shoulder.
    """
    if case.arm.level == "shoulder":
        return case.residual_limb or 0.0
    if case.residual_limb is None:
        return None
    return case.residual_limb + (case.arm.upper_arm if case.arm.level == "forearm" else 0.0)


def socket_forces(case: ArmCase, arm: Arm) -> tuple[float | None, float | None, float | None]:
    """Return moment in the socket [N m], force at brim and at the limb's end [N]; None: unknown.

    The prosthesis is held straight out and level.
    """
    place = socket_place(case)
    if place is None:
        return None, None, None
    moment, load = moment_about(arm, place)
    if case.socket_depth is None:
        return moment, None, None
    return moment, *socket_couple(moment, load, case.socket_depth)


def peak_at(case: ArmCase, arm: Arm, loop: float | None) -> float | None:
    """Return the peak pull of an arm at a loop [N]; None without one or with it beyond the forearm.

    loop: [m].
    """
    if loop is None or not case.guides or loop > arm.forearm:
        return None
    setting = setting_of(arm, case.cable, case.harness, case.guides[0], loop)
    return float(np.max(lift(setting).pull))


def length_row(case: ArmCase, change: float, loop: float | None) -> Length:
    """Return the row of one change of the forearm [m].

    loop: at which the elbow's pull is given [m].
    """
    habit, arm = read_arm_habit(), case.arm.with_forearm(change)
    stature, capacity = case.person.stature, case.harness.max_shoulder_moment
    moment, inertia = level_moment(arm), shoulder_inertia(arm)
    hanging, folded = hanging_moment(arm), hanging_moment(arm, arm.flexion_to)
    socket, brim, end = socket_forces(case, arm)
    reach = arm.upper_arm + arm.tip
    has_weight = hanging > 0.0 and folded > 0.0
    return Length(
        change=change,
        forearm=arm.forearm,
        shoulder_moment=moment,
        shoulder_moment_bent=level_moment(arm, RIGHT_ANGLE),
        elbow_moment=arm.weight_moment(),
        inertia=inertia,
        first_acceleration=None
        if capacity is None or inertia == 0.0
        else acceleration_from(capacity, inertia),
        slowest_swing=swing_period(inertia, hanging) if has_weight else math.nan,
        fastest_swing=swing_period(shoulder_inertia(arm, arm.flexion_to), folded)
        if has_weight
        else math.nan,
        socket_moment=socket,
        brim_force=brim,
        end_force=end,
        reach=reach,
        reach_lost=case.arm.upper_arm + case.arm.tip - reach,
        other_side_difference=None if case.other_side is None else reach - case.other_side,
        mouth=reaches(arm, mouth_distance(habit, stature)),
        midline=arm.tip >= midline_distance(habit, stature),
        peak_pull=peak_at(case, arm, loop),
        within_capacity=None if capacity is None else moment <= capacity,
    )


def best_length(rows: tuple[Length, ...]) -> int | None:
    """Return the place of the length within the capacity that changes the reach least.

    None if no capacity was measured or no length keeps within it.
    """
    within = [place for place, row in enumerate(rows) if row.within_capacity]
    return min(within, key=lambda place: abs(rows[place].reach_lost)) if within else None


def longest_change(case: ArmCase) -> float | None:
    """Return the change of the forearm at which the shoulder's moment meets the capacity [m].

    Found by halving between the shortest forearm and the one given; nothing if the arm as given
    keeps within it.  None if no capacity was measured, or no forearm is short enough.
    """
    capacity = case.harness.max_shoulder_moment
    if capacity is None:
        return None
    if level_moment(case.arm) <= capacity:
        return 0.0
    low = max(CANNOT_BE - case.arm.forearm, -case.arm.device_centre)
    if level_moment(case.arm.with_forearm(low)) > capacity:
        return None
    high = 0.0
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        within = level_moment(case.arm.with_forearm(middle)) <= capacity
        low, high = (middle, high) if within else (low, middle)
    return low
