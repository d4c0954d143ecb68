"""What a lesson on legs carries into its page: the model of its case, or of each of its cases."""

from __future__ import annotations

from typing import Any

from simgait.lessons.leg_numbers import everyday, keel_case, limb_case
from simgait.lessons.lesson import Lesson
from simgait.page.stance_data import stance_data

CASES = {"toe-lever": keel_case, "short-residual-limb": limb_case}


def stances(lesson: Lesson) -> dict[str, Any]:
    """Return the models of a lesson, as `stanceModel` of a page reads them.

    One, and the name of the setting that its control varies; or one for each setting of the
    control, in their order, and no name.
    """
    if lesson.name not in CASES:
        return {"varies": f"{lesson.control.key}_mm", "limbs": [stance_data(everyday())]}
    made = CASES[lesson.name]
    settings = lesson.control.settings()
    return {
        "varies": None,
        "limbs": [stance_data(made(setting * lesson.control.si)) for setting in settings],
    }
