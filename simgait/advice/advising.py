"""Advice on one case: its aims, the smallest changes that meet them, and how sure that is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from simgait.advice.aims import Aim, aims_of, misses
from simgait.advice.axes import Axis, axes_of
from simgait.advice.compromise import compromise, conflicts
from simgait.advice.outcomes import Outcomes, Trials, setting_of
from simgait.advice.pool import Pool
from simgait.advice.result import Advice, OtherWalk, Suggestion, Surer, Worsening
from simgait.advice.search import smallest
from simgait.advice.telling import LITTLE, confirming, fighting
from simgait.advice.walkers import (
    KEEPING,
    Walker,
    adapting_walker,
    alignments,
    exactly_adapted,
)
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.arrays import Array, Flags
from simgait.case import Case
from simgait.errors import CaseError, Fault
from simgait.limb import limb_of
from simgait.stance.batch import batch_of_many
from simgait.stance.disagreeing import opposite
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.stance.running import run_batch
from simgait.stance.uncertainty import TAILS, Draws, drawn_measures, usual_errors
from simgait.symbols import ADAPTS_CAUTIONS, BY_NAME, CAUTIONS, MAIN_MEASURES
from simgait.symbols.watching import WATCHING

MOST_SUGGESTIONS = 4
DRAWS = 200
SEED = 1
WORSE = 0.05  # [1] of its present size by which a measure must get worse to be told
FARTHER = 4  # levels that a change is made larger to meet the aims more surely
SURE = 0.8  # [1] of the draws


def advise(
    case: Case, *, draws: int = DRAWS, seed: int = SEED, assumption: str = "keeps"
) -> Advice:
    """Return what to change in a case so that its goals are met, and by how little.

    case: with ``[goal]``; draws, seed: of the errors of measurement; assumption: of the wearer,
    "keeps" the strategy or "adapts" (see `simgait.stance.adapting`).

    Raises:
        CaseError: the case states no goal, its own alignment is no walk, or nothing may be changed.
    """
    axes, filled = axes_of(case)
    now = setting_of(case)
    present = Trials(case=case).outcomes(now[None])
    aims = aims_of(case, present)
    check(case, aims, axes, present)
    walker = adapting_walker(case, axes, now) if assumption == "adapts" else KEEPING
    trials = Trials(case=case, taking=walker.taking)
    pool = Pool(trials=trials, axes=axes, aims=aims, now=now)
    found, fights = answers(pool)
    chosen = np.array([now, *found, *(row for each in found for row in farther(pool, each))])
    outcomes = trials.outcomes(chosen)
    tried = [alignment_of(row) for row in chosen]
    drawn = drawn_measures(case, tried, tuple(BY_NAME), draws, seed, walker.taking_as)
    others = other_walks(case, walker, aims, chosen[: len(found) + 1], outcomes)
    return Advice(
        title=case.title,
        assumption=walker.assumption,
        aims=aims,
        now=outcomes.measures(0),
        suggestions=tuple(
            replace(suggestion(pool, chosen, outcomes, drawn, place), other=others[place - 1])
            for place in range(1, len(found) + 1)
        ),
        fights=fights,
        errors=usual_errors().sentence,
        draws=drawn.asked,
        runs=sum(trials.done),
        filled=(*case.filled, *filled, *walker.told),
        cautions=case_cautions(case, ADAPTS_CAUTIONS if walker.model else CAUTIONS),
        sources=case_sources(case),
        version=model_version(),
    )


def answers(pool: Pool) -> tuple[list[Array], tuple[str, ...]]:
    """Return the settings to suggest, best first, and what stands in the way if none meets all."""
    found = smallest(pool)
    if found:
        return found[:MOST_SUGGESTIONS], ()
    best = compromise(pool)
    return [best], fighting(pool.aims, conflicts(pool))


def alignment_of(setting: Array) -> Alignment:
    """Return the alignment of a row of five numbers in millimetres and degrees."""
    return Alignment.from_written(dict(zip(WRITTEN_NAMES, setting.tolist(), strict=True)))


def check(case: Case, aims: tuple[Aim, ...], axes: tuple[Axis, ...], present: Outcomes) -> None:
    """Refuse a case on which there is nothing to advise.

    Raises:
        CaseError: no goal, nothing that may be changed, or no walk to begin with.
    """
    problem = field = allowed = ""
    if not aims:
        field, problem = "goal", "is missing: there is nothing to advise on"
        allowed = "[goal] with measures or complaints"
    elif not axes:
        field, problem = "adjust", "leaves nothing that may be changed"
    elif not np.isfinite(present.measure(aims[0].measure)).all():
        field, problem = (
            "alignment",
            "does not end with toe-off, so nothing can be compared with it",
        )
    if problem:
        fault = Fault(
            file=case.title, field=field, value="", allowed=allowed, nearest=None, problem=problem
        )
        raise CaseError([fault])


def farther(pool: Pool, setting: Array) -> list[Array]:
    """Return a setting with each of its changes larger by one, two, ... levels, ends kept."""
    found = []
    for steps in range(1, FARTHER + 1):
        row = setting.copy()
        for axis in pool.axes:
            place = pool.place(axis)
            if setting[place] != axis.now:
                outward = steps if setting[place] > axis.now else -steps
                at = int(np.searchsorted(axis.levels, setting[place])) + outward
                row[place] = axis.levels[min(max(at, 0), len(axis.levels) - 1)]
        found.append(row)
    return found


def changes_of(pool: Pool, setting: Array) -> dict[str, float]:
    """Return what a setting changes, by name, in the unit of the name."""
    return {
        axis.name: round(float(setting[pool.place(axis)] - axis.now), 9)
        for axis in pool.axes
        if setting[pool.place(axis)] != axis.now
    }


def suggestion(
    pool: Pool, chosen: Array, outcomes: Outcomes, drawn: Draws, place: int
) -> Suggestion:
    """Return one suggestion: the setting at a place of those chosen, the first being now."""
    now, then = outcomes.measures(0), outcomes.measures(place)
    changes = changes_of(pool, chosen[place])
    moved = [axis for axis in pool.axes if axis.name in changes]
    turns = {axis.name: axis.turns(changes[axis.name]) for axis in moved}
    worse = worsenings(now, then)
    return Suggestion(
        changes=changes,
        turns={name: round(value, 6) for name, value in turns.items() if value is not None},
        alignment=alignment_of(chosen[place]),
        measures=then,
        intervals=intervals(drawn, place),
        met=bool(met_by(pool.aims, outcomes)[place]),
        met_share=met_share(pool.aims, drawn, place),
        surer=surer(pool, chosen, outcomes, drawn, place),
        worse=worse,
        confirm=confirming(
            [aim.measure for aim in pool.aims if missed_now(aim, now)],
            [each.measure for each in worse],
            now,
            then,
        ),
        other=None,
    )


def other_walks(
    case: Case, walker: Walker, aims: tuple[Aim, ...], settings: Array, outcomes: Outcomes
) -> tuple[OtherWalk, ...]:
    """Return what settings do under the other assumption on the wearer, the first being now.

    outcomes: of the same settings under the walker's own.
    """
    if walker.model is None:
        limb, name = exactly_adapted(case, settings), "adapts"
    else:
        limb, name = limb_of(case, alignments(settings)), "keeps"
    mass = np.full(len(settings), case.person.mass)
    then = Outcomes(values=run_batch(batch_of_many(limb)).measures, mass=mass)
    met = met_by(aims, then)
    found = []
    for place in range(1, len(settings)):
        differs = [
            measure
            for measure in dict.fromkeys((*(aim.measure for aim in aims), *MAIN_MEASURES))
            if opposite_changes(outcomes.measure(measure), then.measure(measure), place)
        ]
        found.append(
            OtherWalk(
                assumption=name,
                measures=then.measures(place),
                met=bool(met[place]),
                differs=tuple(differs),
            )
        )
    return tuple(found)


def opposite_changes(own: Array, other: Array, place: int) -> bool:
    """Return whether a measure changes from now, the first, in opposite senses, and not little."""
    first, second = float(own[place] - own[0]), float(other[place] - other[0])
    return opposite(first, second, LITTLE * abs(float(own[0])))


def missed_now(aim: Aim, now: Mapping[str, float]) -> bool:
    """Return whether what is now misses an aim."""
    return bool(aim.missed(np.array([now[aim.measure]]))[0] > 0.0)


def met_by(aims: Sequence[Aim], outcomes: Outcomes) -> Flags:
    """Return which runs meet every aim [runs]."""
    return np.asarray((misses(tuple(aims), outcomes) <= 0.0).all(axis=1))


def surer(pool: Pool, chosen: Array, outcomes: Outcomes, drawn: Draws, place: int) -> Surer | None:
    """Return the smallest larger change of the same kind that meets the aims in `SURE` of the
    draws; None if the suggestion does itself, or none of those tried does."""
    count = (len(chosen) - 1) // (FARTHER + 1)
    if met_share(pool.aims, drawn, place) >= SURE:
        return None
    first = 1 + count + (place - 1) * FARTHER
    met = met_by(pool.aims, outcomes)
    for other in range(first, first + FARTHER):
        share = met_share(pool.aims, drawn, other)
        if met[other] and share >= SURE:
            return Surer(changes=changes_of(pool, chosen[other]), met_share=share)
    return None


def intervals(drawn: Draws, place: int) -> dict[str, tuple[float, float]]:
    """Return the central 95 per cent of every measure under the errors of measurement."""
    found = {}
    for name, values in drawn.values.items():
        column = values[place]
        known = column[np.isfinite(column)]
        low, high = np.quantile(known, TAILS) if len(known) else (np.nan, np.nan)
        found[name] = float(low), float(high)
    return found


def met_share(aims: tuple[Aim, ...], drawn: Draws, place: int) -> float:
    """Return the share of the draws in which a setting meets every aim [1].

    What is to change is compared with now in the same draw.
    """
    met = np.ones(drawn.asked, dtype=np.bool_)
    for aim in aims:
        values = drawn.values[aim.measure]
        met &= aim.missed_from(values[place], values[0]) <= 0.0
    return float(met.mean())


def worsenings(now: Mapping[str, float], then: Mapping[str, float]) -> tuple[Worsening, ...]:
    """Return the main measures that get worse by more than a little."""
    found = []
    for name in MAIN_MEASURES:
        watching = WATCHING.get(name)
        if watching is None or watching.worse == 0:
            continue
        change = watching.worse * (then[name] - now[name])
        if change > WORSE * max(abs(now[name]), 1e-9):
            found.append(Worsening(measure=name, now=now[name], then=then[name]))
    return tuple(found)
