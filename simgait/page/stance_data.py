"""What a page needs to run the stance model of a case by itself: columns of numbers, and words."""

from __future__ import annotations

from functools import cache
from typing import Any

from simgait.alignment import WRITTEN_NAMES
from simgait.case import Case
from simgait.case.entries import AlignmentEntry, number_range
from simgait.case.room import longest_limbs
from simgait.engines.script import script_text
from simgait.limb import bench_columns, limb_of
from simgait.parts.pylon import LONGEST_PYLON
from simgait.physics.bench import HEEL_BEHIND_ANKLE
from simgait.physics.stance import LATEST_END
from simgait.stance.curves import LEAST_LOAD
from simgait.stance.naming import ENDING_NAMES, MEASURE_ROWS
from simgait.stance.remarks import (
    BOUNDS,
    ENDED_SENTENCE,
    HEEL_SENTENCE,
    LENGTH_SENTENCE,
    MOST_HEEL_MM,
    MOST_LENGTH_MM,
    ROUNDING_MM,
)
from simgait.stance.running import LOADING, MARGIN, STEP
from simgait.symbols import ENDING_SENTENCES, MAIN_MEASURES, MEASURES, SETTING_BY_NAME
from simgait.units import mm_from_metres

ROOTS = (  # what the model in the page calls; see assets/stance_model.js
    "ankle_lifted",
    "set_up",
    "begin",
    "touch_down",
    "find_steps",
    "run_stance",
    "measure_block",
    "turned_forward",
    "turned_up",
)
FINEST = 8  # [1] of the step: as small as limbs that a case can state have needed, and to spare
SETTING_STEPS = (1.0, 0.25, 0.25, 1.0, 1.0)  # what one press of a key changes, as WRITTEN_NAMES


@cache
def stance_physics() -> str:
    """Return the equations of stance as a script.

    >>> "function run_stance(" in stance_physics()
    True
    """
    return script_text(ROOTS)


def stance_data(case: Case) -> dict[str, Any]:
    """Return the data from which `stanceModel` of a page simulates a case at any alignment.

    Raises:
        RangeError: the case's own alignment cannot be built.
    """
    limb = limb_of(case, case.baseline)
    limb.require_pylon()
    before = bench_columns(limb)
    return {
        "bench": before.bench.tolist(),
        "built": before.built.tolist(),
        "parameter": before.parameter.tolist(),
        "reference": before.reference.tolist(),
        "points": {
            "thigh": limb.person.thigh_length,
            "below_knee": limb.pivot_below_knee,
            "depth": limb.socket_depth,
            "end": limb.end_below_pivot,
        },
        "sound": {
            "thickness": case.sound_side.shoe_thickness,
            "heel_rise": case.sound_side.shoe_heel_rise,
            "foot": limb.person.foot_length,
            "behind": HEEL_BEHIND_ANKLE,
        },
        "pylon": {"shortest": limb.pylon.shortest, "longest": LONGEST_PYLON},
        "mass": case.person.mass,
        "least_load": LEAST_LOAD,
        "built_for_mm": mm_from_metres(limb.foot.heel_rise),
        "pace": _pace(),
        "settings": _settings(case),
        "baseline": case.baseline.as_written(),
        "alignments": [alignment.as_written() for alignment in case.alignments()],
        "measures": _measures(),
        "main_measures": list(MAIN_MEASURES),
        "endings": {str(code): name for code, name in ENDING_NAMES.items()},
        "ending_sentences": dict(ENDING_SENTENCES),
        "remarks": _remarks(),
    }


def least_length_change(case: Case) -> float:
    """Return the shortest length change that leaves room for foot and unit [mm].

    As the reader of cases checks it: :func:`simgait.case.room.check_room`.
    """
    parts = (case.shod_foot, case.socket, case.pylon)
    thickness = case.sound_side.shoe_thickness
    longest, _ = longest_limbs(case.residual_limb, case.person, parts, thickness, 0.0)
    return mm_from_metres(case.residual_limb - longest)


def _pace() -> dict[str, float]:
    """Return how a run is stepped; see `paces` and `steps_needed` of `simgait.stance.running`."""
    return {
        "step": STEP,
        "margin": MARGIN,
        "loading": LOADING,
        "latest": LATEST_END,
        "finest": FINEST,
    }


def _settings(case: Case) -> list[dict[str, Any]]:
    """Return name, words, range and step of the five settings."""
    found = []
    for name, step in zip(WRITTEN_NAMES, SETTING_STEPS, strict=True):
        low, high = number_range(AlignmentEntry, name) or (0.0, 0.0)
        if name == "length_change_mm":
            low = max(low, least_length_change(case))
        words = SETTING_BY_NAME[f"alignment.{name}"]
        found.append(
            {
                "name": name,
                "title": words.title,
                "unit": words.unit,
                "plus": words.plus,
                "low": low,
                "high": high,
                "step": step,
            }
        )
    return found


def _measures() -> list[dict[str, Any]]:
    """Return every measure: where it lies, how it is shown, what it means."""
    return [
        {
            "name": measure.name,
            "row": MEASURE_ROWS[measure.name],
            "scale": measure.scale,
            "per_mass": measure.per_mass,
            "unit": measure.unit,
            "title": measure.title,
            "definition": measure.definition,
            "sentence": measure.sentence,
        }
        for measure in MEASURES
    ]


def _remarks() -> dict[str, Any]:
    """Return the bounds beyond which a run is no walk to aim for, and their sentences."""
    return {
        "most_heel_mm": MOST_HEEL_MM,
        "heel": HEEL_SENTENCE,
        "most_length_mm": MOST_LENGTH_MM + ROUNDING_MM,
        "length": LENGTH_SENTENCE,
        "ended": ENDED_SENTENCE,
        "bounds": [
            {"measures": list(bound.measures), "most": bound.most, "sentence": bound.sentence}
            for bound in BOUNDS
        ],
    }
