"""Reading backward: which misalignments would explain what was seen of a wearer.

The case states the alignment as it is believed to be.  Each cause is one number of it, or two, that
is off by more or less, normally distributed beforehand with the sizes of models/defaults.toml; the
plausibility of a cause is its share in all of them once each is weighed by how well it explains
what was seen (Bayes' rule, the integral over its size by sums on even levels).  That nothing is off
counts beforehand as much as each number alone.  What lies between simulated sizes is taken on
straight lines, so that a sign that was measured finely is not lost between two of them; what is
said of the most plausible size is simulated there.

A number that was measured is explained as a normal distribution has it.  A word is explained by
thresholds: with d the change of the measure from what the stated alignment would do, v what is
just visible (`VISIBLE`) and F the normal distribution's share below,
"more" has the likelihood F((d - v) / (v / 2)), "less" F((-d - v) / (v / 2)), "usual" the rest.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from simgait.advice.hypotheses import Hypothesis, hypotheses
from simgait.advice.outcomes import Outcomes, Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array
from simgait.case import Case
from simgait.case.entries import AlignmentEntry, number_range
from simgait.case.seen import Sign
from simgait.errors import refusal
from simgait.library import read_defaults
from simgait.symbols.watching import VISIBLE

BLUR = 0.5  # [1] of what is visible: how unsure the eye is about it
ALIKE = 3.0  # causes whose plausibilities differ by less cannot be told apart
INSIDE = (0.05, 0.95)
FAR_OFF = 3.0  # [1] of how well a sign was measured by which a cause leaves it unexplained
UNLIKELY = 0.05  # [1] likelihood of a word under which a cause leaves it unexplained


@dataclass(frozen=True, kw_only=True)
class Cause:
    """One explanation: what would be off, by how much, and how plausible that is."""

    off: dict[str, float]  # most plausible size by name, in the unit of the name
    ranges: dict[str, tuple[float, float]]  # in which it lies in 90 of 100
    plausibility: float  # [1] share among all causes
    fit: float  # [1] likelihood of what was seen at the most plausible size, over the best of all
    measures: dict[str, float]  # what the wearer's measures would be then
    unexplained: tuple[str, ...]  # measures of the signs that it does not explain


def log_likelihood(sign: Sign, values: Array, usual: float) -> Array:
    """Return how well values of its measure explain a sign [n]; minus infinity for NaN.

    usual: what the stated alignment would do, in the unit of the measure.
    """
    if sign.word is None:
        found = -0.5 * ((values - sign.value) / sign.within) ** 2
    else:
        found = np.log(np.maximum(word_likelihood(sign, values, usual), 1e-12))
    return np.where(np.isfinite(found), found, -np.inf)


def word_likelihood(sign: Sign, values: Array, usual: float) -> Array:
    """Return the likelihood of a word [n] [1], as the head of this file has it."""
    visible = VISIBLE[sign.measure]
    more = ndtr((values - usual - visible) / (BLUR * visible))
    less = ndtr((usual - values - visible) / (BLUR * visible))
    return np.asarray({"more": more, "less": less, "usual": 1.0 - more - less}[sign.word or ""])


def causes_of(case: Case) -> tuple[Cause, ...]:
    """Return all causes, the most plausible first; one of them is that nothing is off.

    case: with ``[seen]``.

    Raises:
        CaseError: nothing was seen, or the case's own alignment is no walk.
    """
    trials, now = Trials(case=case), setting_of(case)
    present = trials.outcomes(now[None])
    check(case, present)
    usual = present.measures(0)
    tried = hypotheses()
    settings = [settings_of(now, each.names, each.simulated) for each in tried]
    outcomes = trials.outcomes(np.concatenate(settings))
    columns = np.stack([outcomes.measure(sign.measure) for sign in case.seen], axis=1)
    parts = np.split(columns, np.cumsum([len(each) for each in settings])[:-1])
    likely = [
        explained(case.seen, each, part, usual) for each, part in zip(tried, parts, strict=True)
    ]
    highest = max(float(part.max()) for part in likely)
    share = read_defaults()["misset_two_share"].number
    weights = [
        each.prior * np.exp(part - highest) * share ** max(len(each.names) - 1, 0)
        for each, part in zip(tried, likely, strict=True)
    ]
    whole = sum(float(weight.sum()) for weight in weights)
    best = [
        each.summed[int(np.argmax(weight))] for each, weight in zip(tried, weights, strict=True)
    ]
    there = trials.outcomes(
        np.concatenate(
            [
                settings_of(now, each.names, size[None])
                for each, size in zip(tried, best, strict=True)
            ]
        )
    )
    found = [
        cause(case.seen, each, weight, whole, likely[place] - highest, there.measures(place), usual)
        for place, (each, weight) in enumerate(zip(tried, weights, strict=True))
        if weight.sum() > 0.0
    ]
    return tuple(sorted(found, key=lambda each: -each.plausibility))


def explained(
    signs: Sequence[Sign], each: Hypothesis, values: Array, usual: Mapping[str, float]
) -> Array:
    """Return how well the summed sizes of a hypothesis explain all signs [m], as a logarithm.

    values: of the signs' measures at its simulated sizes [n, signs].
    """
    between = each.between(values)
    columns = [
        log_likelihood(sign, between[:, place], usual[sign.measure])
        for place, sign in enumerate(signs)
    ]
    return np.asarray(np.sum(columns, axis=0))


def settings_of(now: Array, names: Sequence[str], sizes: Array) -> Array:
    """Return the settings that are off by some sizes [n, 5]; what no case can state is NaN.

    sizes: [n, names] in the units of the names.
    """
    found = np.tile(now, (len(sizes), 1))
    for column, name in enumerate(names):
        place = WRITTEN_NAMES.index(name)
        low, high = number_range(AlignmentEntry, name) or (-math.inf, math.inf)
        values = now[place] + sizes[:, column]
        found[:, place] = np.where((values >= low) & (values <= high), values, np.nan)
    return found


def cause(
    signs: Sequence[Sign],
    each: Hypothesis,
    weight: Array,
    whole: float,
    likely: Array,
    measures: dict[str, float],
    usual: Mapping[str, float],
) -> Cause:
    """Return what a hypothesis says; all weights of all hypotheses add to `whole`.

    likely: of its summed sizes, over the best of all; measures: at its most plausible size.
    """
    best, sizes, ranges = int(np.argmax(weight)), each.summed, {}
    for column, name in enumerate(each.names):
        order = np.argsort(sizes[:, column], kind="stable")
        summed = np.cumsum(weight[order])
        rising = sizes[order, column]
        ends = [rising[int(np.searchsorted(summed, share * summed[-1]))] for share in INSIDE]
        ranges[name] = float(ends[0]), float(ends[1])
    return Cause(
        off={name: float(sizes[best, column]) for column, name in enumerate(each.names)},
        ranges=ranges,
        plausibility=float(weight.sum()) / whole,
        fit=float(np.exp(likely[best])),
        measures=measures,
        unexplained=tuple(
            sign.measure for sign in signs if not explains(sign, measures[sign.measure], usual)
        ),
    )


def explains(sign: Sign, value: float, usual: Mapping[str, float]) -> bool:
    """Return whether a value of its measure is one that would be seen as a sign says."""
    if sign.word is None:
        return abs(value - sign.value) <= FAR_OFF * sign.within
    return bool(word_likelihood(sign, np.array([value]), usual[sign.measure])[0] >= UNLIKELY)


def alike(causes: Sequence[Cause]) -> tuple[int, ...]:
    """Return the places of the causes that cannot be told from the most plausible one."""
    if not causes:
        return ()
    least = causes[0].plausibility / ALIKE
    return tuple(place for place, each in enumerate(causes) if each.plausibility > least)


def telling_apart(causes: Sequence[Cause], seen: Sequence[str]) -> tuple[str, float] | None:
    """Return the visible measure in which the two likeliest causes differ most, of those not seen.

    And that difference over what is just visible [1].  None if there are no two, or nothing is left
    to look at.
    """
    chosen = [causes[place] for place in alike(causes)][:2]
    if len(chosen) < 2:
        return None
    first, second = (each.measures for each in chosen)
    gaps = {
        name: abs(first[name] - second[name]) / visible
        for name, visible in VISIBLE.items()
        if name not in seen and math.isfinite(first[name] - second[name])
    }
    if not gaps:
        return None
    name = max(gaps, key=gaps.__getitem__)
    return name, gaps[name]


def check(case: Case, present: Outcomes) -> None:
    """Refuse a case that shows nothing to explain.

    Raises:
        CaseError: nothing was seen, or the case's own alignment is no walk.
    """
    if not case.seen:
        problem = "is missing: there is nothing to explain"
        raise refusal(case.title, "seen", problem, allowed="[seen] with measures")
    if any(not np.isfinite(present.measure(sign.measure)).all() for sign in case.seen):
        raise refusal(case.title, "alignment", "is no walk that ends with toe-off")
