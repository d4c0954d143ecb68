"""An arm's case as it is written: every table with every key, for a page to save it changed."""

from __future__ import annotations

from typing import Any

from simgait.arm.entries import told, told_degrees
from simgait.case.arm_case import ArmCase

__all__ = ["written_tables"]

Table = dict[str, Any]


def written_tables(case: ArmCase) -> dict[str, Table]:
    """Return the tables of a case file that gives this case, what was filled in written out.

    >>> from simgait.case.arm_case import read_arm_case
    >>> from simgait.library import models_folder
    >>> case = read_arm_case(models_folder() / "cases" / "arms" / "above-elbow.toml")
    >>> written_tables(case)["cable"]["loop_mm"]
    32.0
    """
    tables = {
        "person": _person(case),
        "arm": _arm(case),
        "cable": _cable(case),
        "wearer": _wearer(case),
        "search": _search(case),
        "errors": {
            "mass_share": case.errors.mass_share,
            "length_mm": _mm(case.errors.length),
            "pull_share": case.errors.pull_share,
            "excursion_mm": _mm(case.errors.excursion),
            "friction_share": case.errors.friction_share,
        },
    }
    return {name: _without_gaps(table) for name, table in tables.items()}


def _person(case: ArmCase) -> Table:
    person = case.person
    return {
        "sex": person.sex,
        "mass_kg": person.mass,
        "stature_mm": _mm(person.stature),
        "segment_table": person.segment_table.name,
        "thigh_mm": _mm(person.measured_thigh),
        "knee_height_mm": _mm(person.measured_knee_height),
        "hip_height_mm": _mm(person.measured_hip_height),
    }


def _arm(case: ArmCase) -> Table:
    arm = case.arm
    return {
        "level": arm.level,
        "forearm_mm": _mm(arm.forearm),
        "upper_arm_mm": _mm(arm.upper_arm),
        "forearm_mass_kg": arm.forearm_mass,
        "forearm_centre_mm": _mm(arm.forearm_centre),
        "device_mass_kg": arm.device_mass,
        "device_centre_mm": _mm(arm.device_centre),
        "held_mass_kg": arm.held_mass,
        "tip_mm": _mm(arm.tip),
        "shoulder_flexion_deg": told_degrees(arm.shoulder_flexion),
        "flexion_from_deg": told_degrees(arm.flexion_from),
        "flexion_to_deg": told_degrees(arm.flexion_to),
        "upper_arm_mass_kg": arm.upper_arm_mass,
        "upper_arm_centre_mm": _mm(arm.upper_arm_centre),
        "residual_limb_mm": _mm(case.residual_limb),
        "socket_depth_mm": _mm(case.socket_depth),
        "other_side_mm": _mm(case.other_side),
    }


def _cable(case: ArmCase) -> Table:
    cable = case.cable
    lifts = case.arm.level != "forearm"
    return {
        "guide_mm": _mm(cable.guide) if lifts else None,
        "guide_offset_mm": _mm(cable.guide_offset),
        "loop_mm": _mm(case.own_loop) if lifts else None,
        "loop_offset_mm": _mm(cable.loop_offset),
        "bends_deg": [told_degrees(bend) for bend in cable.bends]
        if cable.efficiency is None
        else None,
        "friction": cable.friction,
        "efficiency": cable.efficiency,
        "pulley": cable.pulley,
        "assist_nm": list(cable.assist),
        "assist_at_deg": [told_degrees(angle) for angle in cable.assist_at],
        "device_action": cable.device_action,
        "device_excursion_mm": _mm(cable.device_excursion),
        "device_pull_n": cable.device_pull,
        "device_start_pull_n": cable.device_start_pull,
    }


def _wearer(case: ArmCase) -> Table:
    harness = case.harness
    measured = bool(harness.excursions)
    return {
        "max_pull_n": harness.max_pull,
        "max_excursion_mm": _mm(harness.max_excursion),
        "fatigue_free_share": harness.fatigue_free_share,
        "opening_share": harness.opening_share,
        "max_shoulder_moment_nm": harness.max_shoulder_moment,
        "excursion_points_mm": [_mm(place) for place in harness.excursions] if measured else None,
        "pull_points_n": list(harness.pulls) if measured else None,
    }


def _search(case: ArmCase) -> Table:
    lifts = case.arm.level != "forearm"
    return {
        "loop_mm": [_mm(loop) for loop in case.loops] if lifts else None,
        "guide_mm": [_mm(guide) for guide in case.guides] if lifts else None,
        "forearm_change_mm": [_mm(change) for change in case.forearm_changes],
    }


def _mm(length: float | None) -> float | None:
    """Return a length [m] in millimetres, or None."""
    return told(length, 1000.0)


def _without_gaps(table: Table) -> Table:
    """Return a table without the keys that have no value: a case file leaves them out."""
    return {key: value for key, value in table.items() if value is not None}
