"""Reading backward: which misalignments would explain what was seen of a wearer.

The case states the alignment as it is believed to be.  Each cause is one number of it, or two, that
is off by more or less, normally distributed beforehand with the sizes of models/defaults.toml; the
plausibility of a cause is its share in all of them once each is weighed by how well it explains
what was seen (Bayes' rule, the integral over its size by sums on even levels).

A number that was measured is explained as a normal distribution has it.  A word is explained by
thresholds: with d the change of the measure from what the stated alignment would do, v what is
just visible (`VISIBLE`) and F the normal distribution's share below,
"more" has the likelihood F((d - v) / (v / 2)), "less" F((-d - v) / (v / 2)), "usual" the rest.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from simgait.advice.outcomes import Outcomes, Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array
from simgait.case import Case
from simgait.case.entries import AlignmentEntry, number_range
from simgait.case.goals import TILTS
from simgait.case.seen import Sign
from simgait.errors import CaseError, Fault
from simgait.library import read_defaults
from simgait.symbols.watching import VISIBLE

FARTHEST = 3.0  # standard deviations that a cause reaches
SINGLE_LEVELS, PAIRED_LEVELS = 49, 13  # of each number
BLUR = 0.5  # [1] of what is visible: how unsure the eye is about it
ALIKE = 3.0  # causes whose plausibilities differ by less cannot be told apart
INSIDE = (0.05, 0.95)


@dataclass(frozen=True, kw_only=True)
class Cause:
    """One explanation: what would be off, by how much, and how plausible that is."""

    off: dict[str, float]  # most plausible size by name, in the unit of the name
    ranges: dict[str, tuple[float, float]]  # in which it lies in 90 of 100
    plausibility: float  # [1] share among all causes
    fit: float  # [1] likelihood of what was seen at the most plausible size, over the best of all
    measures: dict[str, float]  # what the wearer's measures would be then


@dataclass(frozen=True, kw_only=True, eq=False)
class Hypothesis:
    """Names that may be off, the sizes tried, and how plausible each is beforehand."""

    names: tuple[str, ...]
    sizes: Array  # [n, names]
    prior: Array  # [n] adds to 1 over all sizes, built or not


NOTHING = Hypothesis(names=(), sizes=np.zeros((1, 0)), prior=np.ones(1))


def spread_of(name: str) -> float:
    """Return by how much a number of the alignment is off as a rule, in the unit of its name."""
    figures = read_defaults()
    key = (
        "misset_tilt_deg"
        if name in TILTS
        else {
            "foot_forward_mm": "misset_foot_mm",
            "length_change_mm": "misset_length_mm",
            "heel_rise_mm": "misset_heel_mm",
        }[name]
    )
    return figures[key].number


def hypotheses() -> tuple[Hypothesis, ...]:
    """Return every number of the alignment alone, and every two of them."""
    found = []
    for count, levels in ((1, SINGLE_LEVELS), (2, PAIRED_LEVELS)):
        for names in itertools.combinations(WRITTEN_NAMES, count):
            steps = np.linspace(-FARTHEST, FARTHEST, levels)
            mesh = np.stack(
                [each.reshape(-1) for each in np.meshgrid(*[steps] * count, indexing="ij")], axis=1
            )
            weight = np.exp(-0.5 * (mesh**2).sum(axis=1))
            sizes = mesh * np.array([spread_of(name) for name in names])
            found.append(Hypothesis(names=names, sizes=sizes, prior=weight / weight.sum()))
    return tuple(found)


def log_likelihood(signs: Sequence[Sign], then: Outcomes, now: Outcomes) -> Array:
    """Return how well each run explains what was seen [runs]; minus infinity for no walk."""
    total = np.zeros(len(then.mass))
    for sign in signs:
        values, usual = then.measure(sign.measure), now.measure(sign.measure)[0]
        if sign.word is None:
            total += -0.5 * ((values - sign.value) / sign.within) ** 2
            continue
        visible = VISIBLE[sign.measure]
        more = ndtr((values - usual - visible) / (BLUR * visible))
        less = ndtr((usual - values - visible) / (BLUR * visible))
        share = {"more": more, "less": less, "usual": 1.0 - more - less}[sign.word]
        total += np.log(np.maximum(share, 1e-12))
    return np.where(np.isfinite(total), total, -np.inf)


def causes_of(case: Case) -> tuple[Cause, ...]:
    """Return all causes, the most plausible first; one of them is that nothing is off.

    case: with ``[seen]``.

    Raises:
        CaseError: nothing was seen, or the case's own alignment is no walk.
    """
    trials, now = Trials(case=case), setting_of(case)
    present = trials.outcomes(now[None])
    check(case, present)
    tried = (NOTHING, *hypotheses())
    outcomes = trials.outcomes(np.concatenate([settings_of(now, each) for each in tried]))
    likely = log_likelihood(case.seen, outcomes, present)
    likely -= likely.max()
    share = read_defaults()["misset_two_share"].number
    weights: list[Array] = []
    starts = np.cumsum([0, *(len(each.sizes) for each in tried)])
    for each, start in zip(tried, starts[:-1], strict=True):
        more = share ** max(len(each.names) - 1, 0)
        weights.append(each.prior * np.exp(likely[start : start + len(each.sizes)]) * more)
    whole = sum(float(weight.sum()) for weight in weights)
    found = [
        cause(each, weight, whole, likely, outcomes, int(start))
        for each, weight, start in zip(tried, weights, starts[:-1], strict=True)
        if weight.sum() > 0.0
    ]
    return tuple(sorted(found, key=lambda each: -each.plausibility))


def settings_of(now: Array, each: Hypothesis) -> Array:
    """Return the settings of a hypothesis [n, 5]; what no case can state is left NaN."""
    found = np.tile(now, (len(each.sizes), 1))
    for column, name in enumerate(each.names):
        place = WRITTEN_NAMES.index(name)
        low, high = number_range(AlignmentEntry, name) or (-math.inf, math.inf)
        values = now[place] + each.sizes[:, column]
        found[:, place] = np.where((values >= low) & (values <= high), values, np.nan)
    return found


def cause(
    each: Hypothesis, weight: Array, whole: float, likely: Array, outcomes: Outcomes, start: int
) -> Cause:
    """Return what a hypothesis says; its first run is at `start`, all weights add to `whole`."""
    best = int(np.argmax(weight))
    ranges = {}
    for column, name in enumerate(each.names):
        order = np.argsort(each.sizes[:, column], kind="stable")
        summed = np.cumsum(weight[order])
        sizes = each.sizes[order, column]
        ends = [sizes[int(np.searchsorted(summed, share * summed[-1]))] for share in INSIDE]
        ranges[name] = float(ends[0]), float(ends[1])
    return Cause(
        off={name: float(each.sizes[best, column]) for column, name in enumerate(each.names)},
        ranges=ranges,
        plausibility=float(weight.sum()) / whole,
        fit=float(np.exp(likely[start + best])),
        measures=outcomes.measures(start + best),
    )


def alike(causes: Sequence[Cause]) -> tuple[int, ...]:
    """Return the places of the causes that cannot be told from the most plausible one."""
    if not causes:
        return ()
    least = causes[0].plausibility / ALIKE
    return tuple(place for place, each in enumerate(causes) if each.plausibility > least)


def telling_apart(causes: Sequence[Cause], seen: Sequence[str]) -> tuple[str, float] | None:
    """Return the visible measure in which the two likeliest causes differ most, of those not seen.

    And that difference over what is just visible [1].  None if there are no two.
    """
    chosen = [causes[place] for place in alike(causes)][:2]
    if len(chosen) < 2:
        return None
    gaps = {
        name: abs(chosen[0].measures[name] - chosen[1].measures[name]) / visible
        for name, visible in VISIBLE.items()
        if name not in seen
    }
    name = max(gaps, key=gaps.__getitem__)
    return name, gaps[name]


def check(case: Case, present: Outcomes) -> None:
    """Refuse a case that shows nothing to explain.

    Raises:
        CaseError: nothing was seen, or the case's own alignment is no walk.
    """
    field = "" if case.seen else "seen"
    problem = "" if case.seen else "is missing: there is nothing to explain"
    if case.seen and not np.isfinite(present.measure(case.seen[0].measure)).all():
        field, problem = "alignment", "is no walk that ends with toe-off"
    if problem:
        allowed = "[seen] with measures" if field == "seen" else ""
        raise CaseError(
            [
                Fault(
                    file=case.title,
                    field=field,
                    value="",
                    allowed=allowed,
                    nearest=None,
                    problem=problem,
                )
            ]
        )
