"""From entries of an arm's case to its parts in SI: what is left out is filled, and it says so."""

from __future__ import annotations

from simgait.case.arm_checks import Lists
from simgait.case.arm_entries import ArmEntry, CableEntry, ErrorsEntry, HarnessEntry
from simgait.case.findings import Findings
from simgait.library.arms import MeasurementErrors, read_arm_habit
from simgait.parts.arm import Arm, Level
from simgait.parts.cable import Cable, Harness
from simgait.people import Person
from simgait.units import (
    degrees_from_radians,
    metres_from_mm,
    mm_from_metres,
    radians_from_degrees,
)


def or_usual(value: float | None, usual: float, said: str, findings: Findings) -> float:
    """Return a value, or the usual one with a sentence that says so."""
    if value is not None:
        return value
    findings.fill(said)
    return usual


def built_range(entry: ArmEntry, findings: Findings) -> tuple[float, float, float]:
    """Return the upper arm's flexion and the elbow's range, from and to [rad]."""
    habit = read_arm_habit()
    start, end = degrees_from_radians(habit.flexion_from), degrees_from_radians(habit.flexion_to)
    usual = (
        ("shoulder_flexion_deg", 0.0, "0, the upper arm hangs"),
        ("flexion_from_deg", start, f"{start:g} (memory)"),
        ("flexion_to_deg", end, f"{end:g} (memory)"),
    )
    lean, low, high = (
        radians_from_degrees(or_usual(getattr(entry, key), value, f"arm.{key}: {said}", findings))
        for key, value, said in usual
    )
    return lean, low, high


def built_arm(entry: ArmEntry, person: Person, findings: Findings) -> Arm:
    """Return the arm.

    Raises:
        RangeError: no arm can be so.
    """
    share = read_arm_habit().upper_arm
    upper = mm_from_metres(share * person.stature)
    said = f"arm.upper_arm_mm: {upper:.0f}, {share:g} of stature (memory)"
    upper = or_usual(entry.upper_arm_mm, upper, said, findings)
    held = or_usual(entry.held_mass_kg, 0.0, "arm.held_mass_kg: 0, nothing held", findings)
    tip = max(entry.forearm_mm, entry.device_centre_mm)
    said = f"arm.tip_mm: {tip:g}, the farther of forearm_mm and device_centre_mm"
    tip = or_usual(entry.tip_mm, tip, said, findings)
    lean, start, end = built_range(entry, findings)
    return Arm(
        level=entry.level,
        forearm=metres_from_mm(entry.forearm_mm),
        upper_arm=metres_from_mm(upper),
        forearm_mass=entry.forearm_mass_kg,
        forearm_centre=metres_from_mm(entry.forearm_centre_mm),
        device_mass=entry.device_mass_kg,
        device_centre=metres_from_mm(entry.device_centre_mm),
        held_mass=held,
        tip=metres_from_mm(tip),
        shoulder_flexion=lean,
        flexion_from=start,
        flexion_to=end,
        upper_arm_mass=entry.upper_arm_mass_kg or 0.0,
        upper_arm_centre=metres_from_mm(entry.upper_arm_centre_mm or 0.0),
    )


def built_cable(entry: CableEntry, level: Level, lists: Lists, findings: Findings) -> Cable:
    """Return the cable with housing, lift assist and device.

    level: of the arm; lists: those of the case, by dotted key.
    """
    bends = lists["cable.bends_deg"] or ()
    friction, efficiency = entry.friction, entry.efficiency
    if friction is None and efficiency is None:
        findings.fill("cable.friction: neither bends nor efficiency given, so the housing is free")
        friction = 0.0
    elif friction is not None and lists["cable.bends_deg"] is None:
        findings.fill("cable.bends_deg: none given, so the housing is straight")
    if efficiency is not None and bends:
        findings.fill("cable.bends_deg: not used, because the efficiency was measured")
    assist = lists["cable.assist_nm"] or (0.0,)
    at = tuple(radians_from_degrees(angle) for angle in lists["cable.assist_at_deg"] or (0.0,))
    if entry.device_excursion_mm is None or entry.device_pull_n is None:
        findings.fill("cable: no device measured, so positions are judged by the elbow alone")
    elif entry.device_start_pull_n is None:
        findings.fill("cable.device_start_pull_n: none given, so device_pull_n all along")
    pull = entry.device_pull_n
    return Cable(
        guide=metres_from_mm(entry.guide_mm or 50.0),
        guide_offset=metres_from_mm(entry.guide_offset_mm or 0.0),
        loop_offset=metres_from_mm(entry.loop_offset_mm or 0.0),
        bends=tuple(radians_from_degrees(bend) for bend in bends),
        friction=friction,
        efficiency=efficiency,
        pulley=entry.pulley or 1.0,
        assist=assist,
        assist_at=at,
        device_action=entry.device_action or "opens",
        device_excursion=None
        if entry.device_excursion_mm is None
        else metres_from_mm(entry.device_excursion_mm),
        device_pull=pull,
        device_start_pull=pull if entry.device_start_pull_n is None else entry.device_start_pull_n,
    )


def built_harness(entry: HarnessEntry, lists: Lists, findings: Findings) -> Harness:
    """Return what the wearer can pull; lists: those of the case, by dotted key."""
    usual = read_arm_habit().fatigue_free_share
    return Harness(
        max_pull=entry.max_pull_n,
        max_excursion=metres_from_mm(entry.max_excursion_mm),
        fatigue_free_share=or_usual(
            entry.fatigue_free_share,
            usual,
            f"wearer.fatigue_free_share: {usual:g} (published, Hichert et al. 2018)",
            findings,
        ),
        excursions=tuple(map(metres_from_mm, lists["wearer.excursion_points_mm"] or ())),
        pulls=lists["wearer.pull_points_n"] or (),
        opening_share=or_usual(
            entry.opening_share,
            1.0,
            "wearer.opening_share: 1, the device is to work fully at the mouth",
            findings,
        ),
        max_shoulder_moment=entry.max_shoulder_moment_nm,
    )


def built_errors(entry: ErrorsEntry, findings: Findings) -> MeasurementErrors:
    """Return the errors of measurement; those left out are the invented ones of models/arm.toml."""
    usual = read_arm_habit().errors
    left = [key for key in ErrorsEntry.model_fields if getattr(entry, key) is None]
    if left:
        findings.fill(f"errors: {', '.join(left)} as in models/arm.toml (illustrative)")

    def taken(value: float | None, other: float) -> float:
        return other if value is None else value

    return MeasurementErrors(
        mass_share=taken(entry.mass_share, usual.mass_share),
        length=taken(entry.length_mm, mm_from_metres(usual.length)) / 1000.0,
        pull_share=taken(entry.pull_share, usual.pull_share),
        excursion=taken(entry.excursion_mm, mm_from_metres(usual.excursion)) / 1000.0,
        friction_share=taken(entry.friction_share, usual.friction_share),
    )
