"""What the page of an arm is given: the case in SI, its limits, its names, its sources."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from pathlib import Path
from typing import Any

import numpy as np

from simgait.arm.device import device_cable
from simgait.arm.entries import device_entry
from simgait.arm.judging import LIMITS, ROUNDING
from simgait.arm.lifting import FLEXIONS, LEAST_LEVER, NO_MOMENT, NUDGE, greatest_pull
from simgait.arm.names import (
    DEVICE,
    DEVICE_TIRES,
    LEAST_SURPLUS,
    LENGTH,
    MARGINS,
    OPENS,
    OWN_CAUTIONS,
    POSITION,
    SURPLUS,
    TIRING,
    ArmQuantity,
)
from simgait.arm.provenance import arm_case_sources, arm_version
from simgait.arm.reaching import midline_distance, mouth_distance, socket_place
from simgait.arm.result import DeviceCable
from simgait.arm.running import usual_minimum
from simgait.arm.statics import (
    NO_LEVER,
    excursion_margin,
    margin_without_tiring,
    pull_margin,
    share_asked,
)
from simgait.case.arm_case import ArmCase
from simgait.library.arms import read_arm_habit
from simgait.page.arm_words import LIMIT_TITLES, SPOKEN, measure_words
from simgait.page.arm_written import written_tables
from simgait.page.stance_page import says_invented
from simgait.wearer import GRAVITY

__all__ = ["arm_data"]

LEAST_LOOP, LEAST_GUIDE = 5.0, 20.0  # [mm] to which loop and guide can be moved
GUIDE_ROOM = 40.0  # [mm] kept between guide and shoulder's axis
SHORTEST = 100.0  # [mm] forearm that the page leaves
LONGER = 60.0  # [mm] by which the page lengthens a forearm
MOST_HELD = 2.0  # [kg] to be held in the page, or twice what the case holds


def arm_data(case: ArmCase, name: str = "arm.toml") -> dict[str, Any]:
    """Return everything that the page of an arm reads, as JSON can say it.

    name: of the case's file, without folders.

    >>> from simgait.case.arm_case import read_arm_case
    >>> from simgait.library import models_folder
    >>> case = read_arm_case(models_folder() / "cases" / "arms" / "above-elbow.toml")
    >>> arm_data(case)["ranges"]["loop_mm"]
    [5.0, 250.0, 1.0]
    """
    device = device_cable(case.cable, case.harness, usual_minimum(case.arm.level))
    return {
        **_in_si(case),
        "kind": "arm",
        "title": case.title,
        "ranges": setting_ranges(case),
        "baseline": baseline_setting(case),
        "device": device_entry(device),
        "device_margins": None if device is None else device_margins(case, device),
        "names": _names(),
        "cautions": _cautions(),
        "version": arm_version(),
        "words": measure_words(without=_not_here(case)),
        "limit_titles": LIMIT_TITLES,
        "spoken": SPOKEN,
        "page": {
            "title": case.title,
            "cautions": OWN_CAUTIONS,
            "invented": says_invented(case.title, ""),
            "version": arm_version(),
            "file": name,
            "filled": case.filled,
            "sources": arm_case_sources(case),
            "case_file": f"{Path(name).stem}-changed.toml",
        },
        "tables": written_tables(case),
    }


def _in_si(case: ArmCase) -> dict[str, Any]:
    """Return what the formulas take, in SI and radians, and the limits of the loops about them."""
    habit, stature = read_arm_habit(), case.person.stature
    return {
        "level": case.arm.level,
        "arm": asdict(case.arm),
        "cable": {**asdict(case.cable), "share_through": case.cable.share_through},
        "harness": asdict(case.harness),
        "gravity": GRAVITY,
        "mouth": mouth_distance(habit, stature),
        "midline": midline_distance(habit, stature),
        "socket_place": socket_place(case),
        "socket_depth": case.socket_depth,
        "other_side": case.other_side,
        "loops": case.loops,
        "limits": {
            "flexions": FLEXIONS,
            "least_lever": LEAST_LEVER,
            "no_lever": NO_LEVER,
            "no_moment": NO_MOMENT,
            "nudge": NUDGE,
            "rounding": ROUNDING,
            "least_surplus": LEAST_SURPLUS,
        },
    }


def setting_ranges(case: ArmCase) -> dict[str, list[float]]:
    """Return least, greatest and step of what the page changes, in the unit of the name."""
    arm = case.arm
    forearm = _mm(arm.forearm)
    changes = [_mm(change) for change in case.forearm_changes]
    shortest = max(SHORTEST - forearm, -_mm(arm.device_centre))
    held = max(MOST_HELD, 2.0 * arm.held_mass)
    ranges = {
        "forearm_change_mm": [
            min(0.0, *changes, shortest),
            max(0.0, *changes, min(LONGER, 500.0 - forearm)),
            1.0,
        ],
        "held_mass_kg": [0.0, min(held, 20.0), 0.05],
    }
    if arm.level == "forearm":
        return ranges
    loops = [_mm(loop) for loop in case.loops]
    guides = [_mm(guide) for guide in (*case.guides, case.cable.guide)]
    most = max(_mm(arm.upper_arm) - GUIDE_ROOM, *guides)
    return {
        "loop_mm": [min(LEAST_LOOP, *loops), max(forearm, *loops), 1.0],
        "guide_mm": [min(LEAST_GUIDE, *guides), min(most, 450.0), 1.0],
        **ranges,
    }


def baseline_setting(case: ArmCase) -> dict[str, float]:
    """Return the case's own setting; where it names no loop, the middle one of its search."""
    setting = {"forearm_change_mm": 0.0, "held_mass_kg": case.arm.held_mass}
    if case.arm.level == "forearm":
        return setting
    loop = case.loops[len(case.loops) // 2] if case.own_loop is None else case.own_loop
    return {"loop_mm": _mm(loop), "guide_mm": _mm(case.guides[0]), **setting}


def device_margins(case: ArmCase, device: DeviceCable) -> dict[str, Any]:
    """Return what working the device leaves of each of the wearer's limits [1]."""
    can = greatest_pull(case.harness).at(device.travel * case.cable.pulley)
    asked = float(np.max(share_asked(device.pull, can)))
    left = pull_margin(asked)
    limit = case.harness.max_excursion
    share = case.harness.fatigue_free_share
    rows = {
        "pull that works the device": (left, "What is left of the pull.", False),
        "travel": (
            excursion_margin(limit - device.excursion, 0.0, limit),
            "What is left of the travel.",
            False,
        ),
        "pull that does not tire": (
            margin_without_tiring(float(left), share),
            "Against the share that does not tire.",
            True,
        ),
    }
    return {
        name: {"left": float(left), "sentence": sentence, "soft": soft}
        for name, (left, sentence, soft) in rows.items()
    }


def _not_here(case: ArmCase) -> tuple[str, ...]:
    """Return the measures that this case cannot have, because something was not measured."""
    missing = []
    if case.cable.device_excursion is None:
        missing.append("opening_left_share")
    if case.other_side is None:
        missing.append("other_side_difference_mm")
    if case.harness.max_shoulder_moment is None:
        missing.append("first_acceleration_rad_s2")
    if socket_place(case) is None:
        missing.append("socket_moment_nm")
    if socket_place(case) is None or case.socket_depth is None:
        missing += ["brim_force_n", "end_force_n"]
    return tuple(missing)


def _names() -> dict[str, Any]:
    """Return units, definitions and sentences of all quantities, and the limits in words."""
    return {
        "position": _quantities(POSITION),
        "margins": _quantities(MARGINS),
        "length": _quantities(LENGTH),
        "device": _quantities(DEVICE),
        "limits": dict(LIMITS),
    }


def _quantities(rows: Iterable[ArmQuantity]) -> dict[str, dict[str, str]]:
    return {row.name: asdict(row) for row in rows}


def _cautions() -> dict[str, Any]:
    """Return the cautions of every arm, and those that depend on the setting."""
    return {
        "own": OWN_CAUTIONS,
        "tiring": TIRING,
        "opens": OPENS,
        "surplus": SURPLUS,
        "device_tires": DEVICE_TIRES,
    }


def _mm(length: float) -> float:
    """Return a length [m] in millimetres."""
    return round(length * 1000.0, 9)
