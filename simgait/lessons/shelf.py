"""All lessons, in the order in which they build on each other, and one of them by its name."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from simgait.errors import CaseError, Fault, shown
from simgait.lessons import (
    arm_length,
    heel_lever,
    lever_first,
    lever_second,
    lever_third,
    loop_on_a_forearm,
    pulley_block,
    ramp,
    screw,
    short_residual_limb,
    toe_lever,
    wheel_and_gears,
)
from simgait.lessons.lesson import Lesson
from simgait.library import nearest

__all__ = ["LESSONS", "read_lesson"]

_MODULES = (
    lever_first, lever_second, lever_third, pulley_block, wheel_and_gears, ramp, screw,
    loop_on_a_forearm, arm_length, heel_lever, toe_lever, short_residual_limb,
)  # fmt: skip
LESSONS: Mapping[str, Lesson] = MappingProxyType(
    {module.LESSON.name: module.LESSON for module in _MODULES}
)


def read_lesson(name: str) -> Lesson:
    """Return the lesson of a name.

    Raises:
        CaseError: there is none; the fault names the nearest.

    >>> read_lesson("ramp").title
    'Compost for the raised bed'
    """
    if name in LESSONS:
        return LESSONS[name]
    fault = Fault(
        file="lesson",
        field="",
        value=shown(name),
        allowed=", ".join(LESSONS),
        nearest=nearest(name, tuple(LESSONS)),
        problem="is not a known lesson",
    )
    raise CaseError([fault])
