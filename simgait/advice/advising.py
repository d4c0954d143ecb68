"""Advice on one case: its aims, the smallest changes that meet them, and how sure that is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from simgait.advice.aims import Aim, aims_of, misses
from simgait.advice.axes import Axis, axes_of
from simgait.advice.compromise import compromise, conflicts
from simgait.advice.outcomes import Outcomes, Trials, setting_of
from simgait.advice.pool import Pool
from simgait.advice.result import Advice, Suggestion, Surer, Worsening
from simgait.advice.search import smallest
from simgait.advice.telling import confirming, fighting
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.arrays import Array, Flags
from simgait.case import Case
from simgait.errors import CaseError, Fault
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.stance.uncertainty import TAILS, Draws, drawn_measures, usual_errors
from simgait.symbols import BY_NAME, MAIN_MEASURES
from simgait.symbols.watching import WATCHING

MOST_SUGGESTIONS = 4
DRAWS = 200
SEED = 1
WORSE = 0.05  # [1] of its present size by which a measure must get worse to be told
KEEPS = "keeps"
FARTHER = 4  # levels that a change is made larger to meet the aims more surely
SURE = 0.8  # [1] of the draws


def advise(case: Case, *, draws: int = DRAWS, seed: int = SEED) -> Advice:
    """Return what to change in a case so that its goals are met, and by how little.

    case: with ``[goal]``; draws, seed: of the errors of measurement.

    Raises:
        CaseError: the case states no goal, its own alignment is no walk, or nothing may be changed.
    """
    axes, filled = axes_of(case)
    trials, now = Trials(case=case), setting_of(case)
    present = trials.outcomes(now[None])
    aims = aims_of(case, present)
    check(case, aims, axes, present)
    pool = Pool(trials=trials, axes=axes, aims=aims, now=now)
    found = smallest(pool)
    fights: tuple[str, ...] = ()
    if not found:
        found = [compromise(pool)]
        fights = fighting(aims, conflicts(pool))
    found = found[:MOST_SUGGESTIONS]
    chosen = np.array([now, *found, *(row for each in found for row in farther(pool, each))])
    outcomes = trials.outcomes(chosen)
    drawn = drawn_measures(case, [alignment_of(row) for row in chosen], tuple(BY_NAME), draws, seed)
    return Advice(
        title=case.title,
        assumption=KEEPS,
        aims=aims,
        now=outcomes.measures(0),
        suggestions=tuple(
            suggestion(pool, chosen, outcomes, drawn, place) for place in range(1, len(found) + 1)
        ),
        fights=fights,
        errors=usual_errors().sentence,
        draws=drawn.asked,
        runs=sum(trials.done),
        filled=(*case.filled, *filled),
        cautions=case_cautions(case),
        sources=case_sources(case),
        version=model_version(),
    )


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
