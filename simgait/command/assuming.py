"""What is assumed of the wearer, in a terminal: keeping the strategy, or adapting."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from simgait.errors import CaseError, Fault, RangeError, one_line
from simgait.stance import Comparison
from simgait.stance.disagreeing import disagreements
from simgait.symbols import BY_NAME, MAIN_MEASURES

CHOICES = ("keeps", "adapts", "both")
STRATEGIES = {
    "keeps": "The wearer keeps the same strategy throughout.",
    "adapts": "The wearer adapts: moves hip and knee as little as holds walking speed and shank as "
    "at the case's own alignment.",
}
DISAGREE = "Where keeping and adapting point in opposite directions"


def changes_line(changes: Mapping[str, float]) -> str:
    """Return how a wearer adapts in one line.

    >>> names = ("hip_touch_down_deg", "hip_toe_off_deg", "knee_touch_down_deg", "knee_toe_off_deg")
    >>> changes_line(dict(zip(names, (1.0, 1.2, -0.5, -0.2))))
    'thigh lean +1.0 to +1.2 deg, knee flexion -0.5 to -0.2 deg'
    """
    hip, hip_late, knee, knee_late = (value + 0.0 for value in changes.values())
    return (
        f"thigh lean {hip:+.1f} to {hip_late:+.1f} deg, "
        f"knee flexion {knee:+.1f} to {knee_late:+.1f} deg"
    )


def adaptation_lines(comparison: Comparison) -> list[str]:
    """Return how the wearer adapts to each alignment but the own one; nothing if nobody does."""
    return [
        f"run {number}: {changes_line(changes)} (reference, touch-down to toe-off)"
        for number, changes in enumerate(comparison.adaptations, start=1)
        if changes is not None and number != comparison.baseline + 1
    ]


def disagreement_lines(keeps: Comparison, adapts: Comparison) -> list[str]:
    """Return one line for each run in which main measures move in opposite directions.

    A line that says so where there are none.
    """
    found = disagreements(keeps, adapts, MAIN_MEASURES)
    lines = [
        f"run {number}: {', '.join(BY_NAME[name].title for name in names)}"
        for number, names in enumerate(found, start=1)
        if names
    ]
    return lines or ["nowhere, in the measures of the table"]


@contextmanager
def refused_without_walk(path: str) -> Iterator[None]:
    """Turn the trouble of a wearer who has no walk to keep into a refusal.

    path: of the case file.

    Raises:
        CaseError: the block found none.
    """
    try:
        yield
    except RangeError as trouble:
        fault = Fault(
            file=one_line(path),
            field="alignment",
            value="",
            allowed="an alignment at which the wearer walks, or --assumption keeps",
            nearest=None,
            problem=f"cannot be adapted to: {trouble}",
        )
        raise CaseError([fault]) from trouble
