"""An arm's result in the words and units of its JSON and its tables."""

from __future__ import annotations

import math
from typing import Any

from simgait.arm.result import ArmResult, Binding, DeviceCable, Length, Position, Remedy
from simgait.arm.statics import margin_without_tiring
from simgait.arrays import Array
from simgait.units import degrees_from_radians, mm_from_metres

EVERY = 5  # flexions between those that are told
UNITS = {"m": ("mm", 1000.0), "1": ("share", 1.0)}  # as told, and the factor to it
NANOS = 9  # decimals to which millimetres and degrees are told


def told(value: float | None, factor: float = 1.0) -> float | None:
    """Return a number in the unit told, without the last digits of the conversion.

    >>> told(0.029, 1000.0)
    29.0
    """
    return None if value is None else round(value * factor, NANOS)


def told_degrees(angle: float | None) -> float | None:
    """Return an angle [rad] in degrees, or None."""
    return None if angle is None else told(degrees_from_radians(angle))


def percentages(margins: dict[str, float]) -> dict[str, float]:
    """Return margins [1] in per cent."""
    return {name: 100.0 * margin for name, margin in margins.items()}


def position_entry(row: Position) -> dict[str, Any]:
    """Return one position."""
    bent = math.isfinite(row.peak_pull)
    return {
        "loop_mm": told(row.loop, 1000.0),
        "guide_mm": told(row.guide, 1000.0),
        "peak_pull_n": row.peak_pull,
        "peak_pull_at_deg": told_degrees(row.peak_flexion) if bent else None,
        "pull_at_90_n": row.pull_at_right_angle,
        "lever_at_90_mm": told(row.lever_at_right_angle, 1000.0),
        "excursion_mm": told(row.excursion, 1000.0),
        "device_excursion_left_mm": told(row.excursion_left, 1000.0),
        "opening_left_share": row.opening_left,
        "work_j": row.ledger.cable,
        "ledger_error_percent": row.ledger.error_percent,
        "feasible": row.feasible,
        "fatigue_free": row.fatigue_free,
        "opens_while_lifting": row.opens_while_lifting,
        "crosses_axis_at_deg": told_degrees(row.turns_over),
        "on_front": row.on_front,
    }


def with_range(result: ArmResult, place: int) -> dict[str, Any]:
    """Return one position with its pull through the range, lifting and letting down [N]."""
    entry = position_entry(result.positions[place])
    curves = result.flexion_pull
    if curves is not None:
        entry["pull_n"] = through_range(curves.pull[place])
        entry["lowering_pull_n"] = through_range(curves.lowering[place])
    return entry


def through_range(values: Array) -> list[float]:
    """Return every fifth value of a curve."""
    picked: list[float] = values[::EVERY].tolist()
    return picked


def flexions(result: ArmResult) -> list[float]:
    """Return the flexions at which pulls are told [deg]; none on a forearm-level arm."""
    curves = result.flexion_pull
    return [] if curves is None else [degrees_from_radians(a) for a in curves.flexion[::EVERY]]


def recommended_entry(result: ArmResult) -> dict[str, Any] | None:
    """Return the recommended position with its ledger and the margin to each limit, or None."""
    if result.recommended is None:
        return None
    row = result.positions[result.recommended]
    margins = dict(row.margins)
    nearest = min(margins, key=lambda name: margins[name])
    share = result.harness.fatigue_free_share
    tiring = margin_without_tiring(margins["pull"], share)
    return {
        **position_entry(row),
        "place": result.recommended,
        "margins_percent": percentages(margins),
        "fatigue_free_margin_percent": 100.0 * tiring,
        "nearest_limit": nearest,
        "stays_feasible_share": result.stands_share,
        "ledger": {
            "cable_j": row.ledger.cable,
            "load_j": row.ledger.load,
            "spring_j": row.ledger.spring,
            "housing_j": row.ledger.housing,
            "surplus_j": row.ledger.surplus,
        },
    }


def binding_entry(result: ArmResult, row: Binding) -> dict[str, Any]:
    """Return one limit that binds."""
    return {
        "limit": row.limit,
        "positions": row.positions,
        "least_excess_percent": 100.0 * row.least_excess,
        "excess_at_nearest_percent": 100.0 * row.excess_at_nearest,
        "nearest_loop_mm": told(result.positions[row.nearest].loop, 1000.0),
    }


def remedy_entry(row: Remedy) -> dict[str, Any]:
    """Return one remedy."""
    unit, factor = UNITS.get(row.unit, (row.unit, 1.0))
    if row.name == "two_to_one_pulley":
        unit = "ratio"
    return {
        "remedy": row.name,
        "wanted": row.wanted,
        "change": told(row.change, factor),
        "unit": unit,
        "peak_pull_change_n": row.peak_pull_change,
        "excursion_change_mm": mm_from_metres(row.excursion_change),
        "positions_that_fit": row.feasible_positions,
        "needed_change": told(row.needed, factor),
    }


def length_entry(row: Length) -> dict[str, Any]:
    """Return one length."""
    return {
        "forearm_change_mm": told(row.change, 1000.0),
        "forearm_mm": told(row.forearm, 1000.0),
        "shoulder_moment_nm": row.shoulder_moment,
        "shoulder_moment_bent_nm": row.shoulder_moment_bent,
        "elbow_moment_nm": row.elbow_moment,
        "inertia_kg_m2": row.inertia,
        "first_acceleration_rad_s2": row.first_acceleration,
        "slowest_swing_s": row.slowest_swing,
        "fastest_swing_s": row.fastest_swing,
        "socket_moment_nm": row.socket_moment,
        "brim_force_n": row.brim_force,
        "end_force_n": row.end_force,
        "reach_mm": told(row.reach, 1000.0),
        "reach_lost_mm": told(row.reach_lost, 1000.0),
        "other_side_difference_mm": told(row.other_side_difference, 1000.0),
        "mouth_reached": row.mouth,
        "midline_reached": row.midline,
        "peak_pull_n": row.peak_pull,
        "within_capacity": row.within_capacity,
    }


def device_entry(row: DeviceCable | None) -> dict[str, Any] | None:
    """Return the cable to the device, or None."""
    if row is None:
        return None
    return {
        "peak_pull_n": row.peak_pull,
        "excursion_mm": told(row.excursion, 1000.0),
        "work_j": row.work,
        "stored_j": row.stored,
        "lost_n_mm": 1000.0 * row.lost,
        "efficiency": row.efficiency,
        "usual_minimum": row.usual_minimum,
        "efficient": row.efficient,
        "feasible": row.feasible,
        "fatigue_free": row.fatigue_free,
        "travel_mm": [mm_from_metres(each) for each in row.travel[::EVERY]],
        "pull_n": through_range(row.pull),
        "return_pull_n": through_range(row.return_pull),
    }


def arm_entry(result: ArmResult) -> dict[str, Any]:
    """Return all of a result, without title, cautions, sources and version."""
    best = result.recommended_length
    return {
        "level": result.arm.level,
        "flexion_deg": flexions(result),
        "positions": [with_range(result, place) for place in range(len(result.positions))],
        "front": [told(result.positions[place].loop, 1000.0) for place in result.front],
        "recommended": recommended_entry(result),
        "binding": [binding_entry(result, row) for row in result.binding],
        "remedies": [remedy_entry(row) for row in result.remedies],
        "lengths": [length_entry(row) for row in result.lengths],
        "recommended_length": None if best is None else length_entry(result.lengths[best]),
        "longest_forearm_change_mm": told(result.longest_change, 1000.0),
        "device": device_entry(result.device),
    }
