"""What the changes of a report would be if the wearer adapted instead of keeping the strategy."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from simgait.case import Case
from simgait.errors import RangeError
from simgait.report.words import MOMENTS
from simgait.stance import Comparison, compare
from simgait.stance.disagreeing import disagreements
from simgait.symbols import BY_NAME, MAIN_MEASURES

KEEPS = "The wearer keeps the same strategy throughout"
ALSO_ADAPTS = (
    ", but where a wearer who adapts is named: one who moves hip and knee as little as holds "
    "walking speed and shank as at the baseline"
)


def adapted(case: Case, shown: Sequence[int]) -> Comparison | None:
    """Return some alignments of a case with a wearer who adapts; None without a walk to keep.

    case: as read; shown: places of the alignments, the baseline's among them.
    """
    settings = tuple(case.settings[place] for place in shown)
    few = replace(case, settings=settings, baseline_index=shown.index(case.baseline_index))
    try:
        return compare(few, assumption="adapts")
    except RangeError:
        return None


def assumption_words(adapts: Comparison | None) -> str:
    """Return what is assumed of the wearer; adapts: None where nobody adapts."""
    return f"{KEEPS}{ALSO_ADAPTS if adapts is not None else ''}."


def adapting_words(keeps: Comparison, adapts: Comparison | None) -> tuple[tuple[str, ...], ...]:
    """Return for each run how the explained moments would change with a wearer who adapts.

    And which main measures would then go the other way.  Nothing for the baseline, for a run that
    is not adapted, and for one without measures.

    keeps, adapts: of the same alignments in the same order.
    """
    if adapts is None:
        return tuple(() for _ in keeps.results)
    opposite = disagreements(keeps, adapts, MAIN_MEASURES)
    return tuple(
        _words(keeps, adapts, place, opposite[place]) for place in range(len(keeps.results))
    )


def _words(
    keeps: Comparison, adapts: Comparison, place: int, opposite: tuple[str, ...]
) -> tuple[str, ...]:
    if place == keeps.baseline or adapts.adaptations[place] is None:
        return ()
    parts = []
    for moment in MOMENTS:
        changes = [
            each.results[place].measures[moment.measure]
            - each.results[each.baseline].measures[moment.measure]
            for each in (keeps, adapts)
        ]
        if not all(map(math.isfinite, changes)):
            return ()
        parts.append(f"{moment.noun} by {changes[1]:+.3f} N m/kg (kept: {changes[0]:+.3f})")
    told = f"A wearer who adapts would change {', '.join(parts)}."
    if opposite:
        titles = ", ".join(BY_NAME[name].title.replace(", ", " ") for name in opposite)
        told += f" The other way round than kept: {titles}."
    remarks = adapts.results[place].remarks
    if remarks:
        told += f" Of that walk: {'; '.join(remarks)}."
    return (told,)
