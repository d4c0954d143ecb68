"""What a page needs to let the limb of a case stand by itself: numbers, and words."""

from __future__ import annotations

from functools import cache
from typing import Any

from simgait.case import Case
from simgait.engines.script import script_text
from simgait.library.strengths import read_standing_habit, read_strength
from simgait.limb import limb_of
from simgait.page.stance_data import ROOTS
from simgait.standing.names import ENDINGS as ENDING_SENTENCES
from simgait.standing.names import GUARDS, LIMITS, QUANTITIES, assumptions
from simgait.standing.posture import ENDINGS
from simgait.standing.result import EQUAL, LIMIT_NAMES, MEASURED, stance_of
from simgait.standing.tipping import REASONS
from simgait.units import mm_from_metres

STANDING_ROOTS = (  # what the model in the page calls; see assets/stand_model.js
    "take_columns",
    "share_held",
    "stand_with",
    "find_limits",
    "outline_limb",
    "pelvic_tilt",
    "ankle_lifted",
    "heel_tangent",
)


@cache
def page_physics() -> str:
    """Return the equations of stance and of standing as one script.

    >>> "function stand_with(" in page_physics() and "function run_stance(" in page_physics()
    True
    """
    return script_text(dict.fromkeys((*ROOTS, *STANDING_ROOTS)))


def standing_data(case: Case) -> dict[str, Any]:
    """Return the data from which `standModel` of a page lets a case stand at any alignment.

    Raises:
        RangeError: the case's own alignment cannot be built.
    """
    limb, habit = limb_of(case, case.baseline), read_standing_habit()
    both, alone = (stance_of(limb, read_strength(case.wearer), share) for share in (EQUAL, 1.0))
    return {
        "rest": list(both.rest),
        "places": {"both": both.place, "alone": alone.place},
        "built_for_mm": mm_from_metres(limb.foot.heel_rise),
        "level": {
            "built_for": limb.foot.heel_rise,
            "foot_length": limb.foot.length,
            "heel_lever": limb.foot.heel_lever,
            "level_lift": limb.level_lift,
            "hip_height": limb.person.hip_height,
            "hip_spacing": habit.hip_spacing,
        },
        "measures": _measures(),
        "limits": list(LIMIT_NAMES),
        "endings": {str(code): name for code, name in ENDINGS.items()},
        "ending_sentences": dict(ENDING_SENTENCES),
        "reasons": {str(code): name for code, name in REASONS.items()},
        "limit_sentences": dict(LIMITS),
        "assumptions": list(assumptions(habit)),
        "guards": GUARDS,
    }


def _measures() -> list[dict[str, Any]]:
    """Return every quantity of standing: where the equations put it, if they do, and its words."""
    found = []
    for quantity in QUANTITIES:
        row, scale = MEASURED.get(quantity.name, (None, None))
        found.append(
            {
                "name": quantity.name,
                "row": row,
                "scale": scale,
                "unit": quantity.unit,
                "title": quantity.title,
                "definition": quantity.definition,
                "sentence": quantity.sentence,
            }
        )
    return found
