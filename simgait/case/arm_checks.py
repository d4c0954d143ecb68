"""What numbers of an arm's case must keep to each other, beyond the range of each alone."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from simgait.case.arm_entries import ArmEntry, CableEntry, HarnessEntry
from simgait.case.findings import Findings
from simgait.errors import shown
from simgait.library.arms import ArmHabit
from simgait.units import degrees_from_radians

Lists = Mapping[str, tuple[float, ...] | None]
SHORTEST_FOREARM = 50.0  # [mm] after a change


def check_range(arm: ArmEntry, habit: ArmHabit, findings: Findings) -> None:
    """Note a fault if the elbow's range folds the wrong way."""
    low = arm.flexion_from_deg
    high = arm.flexion_to_deg
    start = degrees_from_radians(habit.flexion_from) if low is None else low
    end = degrees_from_radians(habit.flexion_to) if high is None else high
    if start >= end:
        key = "arm.flexion_to_deg" if high is not None else "arm.flexion_from_deg"
        findings.fault(
            key,
            f"folds the wrong way: the range goes from {start:g} to {end:g}",
            value=f"{end if high is not None else start:g}",
            allowed="flexion_from_deg below flexion_to_deg",
        )


def check_arm(arm: ArmEntry, findings: Findings) -> None:
    """Note faults of places beyond the section that they are on."""
    upper = arm.upper_arm_mm
    places = [
        ("arm.forearm_centre_mm", arm.forearm_centre_mm, arm.forearm_mm, "the forearm, forearm_mm"),
        ("arm.upper_arm_centre_mm", arm.upper_arm_centre_mm, upper, "the upper arm, upper_arm_mm"),
    ]
    if arm.level == "upper_arm":
        where = "the upper arm, upper_arm_mm"
        places.append(("arm.residual_limb_mm", arm.residual_limb_mm, upper, where))
    elif arm.level == "forearm":
        where = "the forearm, forearm_mm"
        places.append(("arm.residual_limb_mm", arm.residual_limb_mm, arm.forearm_mm, where))
    for key, value, end, name in places:
        check_within(key, value, end, name, findings)
    farthest = max(arm.forearm_mm, arm.device_centre_mm)
    if arm.tip_mm is not None and arm.tip_mm < farthest:
        findings.fault(
            "arm.tip_mm",
            "is nearer than what it is the tip of",
            value=f"{arm.tip_mm:g}",
            allowed=f"at least {farthest:g}, from the elbow's axis",
            near=f"{farthest:g}",
        )
    if arm.level != "forearm" and upper is None:
        findings.fault("arm.upper_arm_mm", "is missing", allowed="100 to 500")
    if arm.upper_arm_mass_kg and arm.upper_arm_centre_mm is None:
        findings.fault("arm.upper_arm_centre_mm", "is missing", allowed="with upper_arm_mass_kg")


def check_within(
    key: str, value: float | None, end: float | None, name: str, findings: Findings
) -> None:
    """Note a fault of a place beyond the end of what it is on [mm]."""
    if value is not None and end is not None and value > end:
        findings.fault(
            key,
            f"lies beyond the end of {name} = {end:g}",
            value=f"{value:g}",
            allowed=f"up to {end:g}",
            near=f"{end:g}",
        )


def check_places(arm: ArmEntry, cable: CableEntry, lists: Lists, findings: Findings) -> None:
    """Note faults of guides and loops beyond the arm, and of those that are missing."""
    if arm.level == "forearm":
        return
    forearm, upper = "the forearm, forearm_mm", "the upper arm, upper_arm_mm"
    check_within("cable.loop_mm", cable.loop_mm, arm.forearm_mm, forearm, findings)
    check_within("cable.guide_mm", cable.guide_mm, arm.upper_arm_mm, upper, findings)
    for key, end, name in (
        ("search.loop_mm", arm.forearm_mm, forearm),
        ("search.guide_mm", arm.upper_arm_mm, upper),
    ):
        worst = max(lists[key] or (0.0,))
        check_within(key, worst, end, name, findings)
    for key, own in (("loop_mm", cable.loop_mm), ("guide_mm", cable.guide_mm)):
        if own is None and lists[f"search.{key}"] is None:
            findings.fault(f"cable.{key}", "is missing", allowed=f"a place, or search.{key}")


def check_housing(cable: CableEntry, bends: Sequence[float] | None, findings: Findings) -> None:
    """Note a fault if friction and efficiency contradict each other or bends have neither."""
    if cable.friction is not None and cable.efficiency is not None:
        findings.fault(
            "cable.efficiency",
            "contradicts cable.friction: the housing's loss is either worked out or measured",
            value=f"{cable.efficiency:g} beside friction = {cable.friction:g}",
            allowed="either friction with bends_deg, or efficiency",
        )
    elif cable.friction is None and cable.efficiency is None and bends:
        findings.fault(
            "cable.friction", "is missing beside bends_deg", allowed="friction, or efficiency"
        )


def check_axis(arm: ArmEntry, cable: CableEntry, habit: ArmHabit, findings: Findings) -> None:
    """Note a fault if the case's own cable passes the elbow's axis within the range.

    The lever is nothing at -b and pi - b, b = atan2(across, along) of :mod:`simgait.arm.geometry`.
    """
    if arm.level == "forearm" or cable.loop_mm is None or cable.guide_mm is None:
        return
    front = math.atan2(cable.guide_offset_mm or 0.0, cable.guide_mm)
    front += math.atan2(cable.loop_offset_mm or 0.0, cable.loop_mm)
    low, high = degrees_from_radians(-front), degrees_from_radians(math.pi - front)
    start, end = arm.flexion_from_deg, arm.flexion_to_deg
    start = degrees_from_radians(habit.flexion_from) if start is None else start
    end = degrees_from_radians(habit.flexion_to) if end is None else end
    passed = [angle for angle in (low, high) if start + 1e-9 < angle < end - 1e-9]
    if passed:
        findings.fault(
            "cable.loop_mm",
            f"lets the cable cross the elbow's axis at {passed[0]:.1f} degrees, within the range "
            f"{start:g} to {end:g}",
            value=f"{cable.loop_mm:g}",
            allowed=f"places of guide and loop between which it pulls in front of the axis; here "
            f"it does from {max(low, 0.0):.1f} to {min(high, 180.0):.1f} degrees",
        )


def check_points(
    key: str, at_key: str, lists: Lists, findings: Findings, falling: bool = False
) -> None:
    """Note faults of two lists that make a curve: as long as each other, places rising."""
    values, places = lists[key], lists[at_key]
    if values is None and places is None:
        return
    if not values or not places or len(values) != len(places):
        counts = f"{len(values or ())} and {len(places or ())} numbers"
        findings.fault(
            key, "does not match its places", value=counts, allowed=f"as many as {at_key}"
        )
        return
    if any(b <= a for a, b in pairwise(places)):
        findings.fault(at_key, "does not rise", value=shown(list(places)), allowed="rising numbers")
    if falling and any(b > a for a, b in pairwise(values)):
        findings.fault(
            key, "rises", value=shown(list(values)), allowed="pulls that fall or stay, as drawn on"
        )


def check_wearer(wearer: HarnessEntry, lists: Lists, findings: Findings) -> None:
    """Note a fault if a measured pull exceeds the greatest."""
    pulls = lists["wearer.pull_points_n"]
    if pulls and max(pulls) > wearer.max_pull_n:
        findings.fault(
            "wearer.max_pull_n",
            "is less than a pull of pull_points_n",
            value=f"{wearer.max_pull_n:g}",
            allowed=f"at least {max(pulls):g}",
            near=f"{max(pulls):g}",
        )


def check_device(arm: ArmEntry, cable: CableEntry, findings: Findings) -> None:
    """Note faults of the device's figures: missing on a forearm-level arm, or contradicting."""
    excursion, pull = cable.device_excursion_mm, cable.device_pull_n
    start = cable.device_start_pull_n
    if arm.level == "forearm":
        for key, value, span in (
            ("device_excursion_mm", excursion, "1 to 150"),
            ("device_pull_n", pull, "1 to 500"),
        ):
            if value is None:
                findings.fault(f"cable.{key}", "is missing", allowed=span)
    if start is not None and (pull is None or start > pull):
        findings.fault(
            "cable.device_start_pull_n",
            "is more than the pull at the end of the travel",
            value=f"{start:g}",
            allowed="up to device_pull_n",
        )


def check_changes(arm: ArmEntry, lists: Lists, findings: Findings) -> None:
    """Note a fault of a change that leaves no forearm, or one longer than any."""
    for change in lists["search.forearm_change_mm"] or ():
        length = arm.forearm_mm + change
        if not SHORTEST_FOREARM <= length <= 500.0 or arm.device_centre_mm + change < 0.0:
            low = max(SHORTEST_FOREARM - arm.forearm_mm, -arm.device_centre_mm)
            high = 500.0 - arm.forearm_mm
            findings.fault(
                "search.forearm_change_mm",
                f"leaves a forearm of {length:g} mm",
                value=f"{change:g}",
                allowed=f"{low:g} to {high:g}",
                near=f"{low if change < 0 else high:g}",
            )
            return
