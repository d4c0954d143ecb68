"""Advice on one case: its aims, the smallest changes that meet them, and how sure that is."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from simgait.advice.aims import Aim, aims_of
from simgait.advice.axes import Axis, axes_of
from simgait.advice.compromise import compromise, conflicts
from simgait.advice.outcomes import Outcomes, Trials, setting_of
from simgait.advice.pool import Pool
from simgait.advice.result import Advice, OtherWalk, Suggestion
from simgait.advice.search import smallest
from simgait.advice.sureness import (
    changes_of,
    fallen_share,
    farther,
    intervals,
    met_by,
    met_share,
    missed_by,
    surer,
    worsenings,
)
from simgait.advice.telling import LITTLE, NOTHING_CHANGED, confirming, fighting
from simgait.advice.walkers import (
    KEEPING,
    Walker,
    adapting_walker,
    exactly_adapted,
)
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.arrays import Array
from simgait.case import Case
from simgait.errors import refusal
from simgait.limb import limb_of
from simgait.stance.batch import batch_of_many
from simgait.stance.disagreeing import opposite
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.stance.remarks import remarks_on
from simgait.stance.running import run_batch
from simgait.stance.uncertainty import Draws, drawn_measures, usual_errors
from simgait.symbols import ADAPTS_CAUTIONS, BY_NAME, CAUTIONS, MAIN_MEASURES

MOST_SUGGESTIONS = 4
DRAWS = 200
SEED = 1
NOT_EXACTLY = (
    "Only the quadratic that stands in for adapting lets the goals be met; once every adaptation "
    "is searched they are just missed.",
)


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
    if walker.model is not None and not fights:
        found, fights = exact_answers(pool, found)
    chosen = np.array([now, *found, *(row for each in found for row in farther(pool, each))])
    outcomes = trials.outcomes(chosen) if walker.model is None else searched(case, chosen)
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


def exact_answers(pool: Pool, found: list[Array]) -> tuple[list[Array], tuple[str, ...]]:
    """Return settings that meet the aims once every adaptation is searched, and what is to be said.

    A setting that then just misses them is made larger level by level; one that goes on missing
    them is left out, unless nothing else is left.
    """
    kept = []
    for each in found:
        rows = np.array([each, *farther(pool, each)])
        met = met_by(pool.aims, searched(pool.trials.case, rows))
        if met.any():
            kept.append(rows[int(np.argmax(met))])
    return (kept, ()) if kept else (found[:1], NOT_EXACTLY)


def searched(case: Case, settings: Array) -> Outcomes:
    """Return what settings do if the wearer adapts, each adaptation searched.

    settings: [runs, 5] in millimetres and degrees.
    """
    limb = exactly_adapted(case, settings)
    mass = np.full(len(settings), case.person.mass)
    return Outcomes(values=run_batch(batch_of_many(limb)).measures, mass=mass)


def alignment_of(setting: Array) -> Alignment:
    """Return the alignment of a row of five numbers in millimetres and degrees."""
    return Alignment.from_written(dict(zip(WRITTEN_NAMES, setting.tolist(), strict=True)))


def check(case: Case, aims: tuple[Aim, ...], axes: tuple[Axis, ...], present: Outcomes) -> None:
    """Refuse a case on which there is nothing to advise.

    Raises:
        CaseError: no goal, nothing that may be changed, or no walk to begin with.
    """
    if not aims:
        allowed = "[goal] with measures or complaints"
        problem = "is missing: there is nothing to advise on"
        raise refusal(case.title, "goal", problem, allowed=allowed)
    if not axes:
        raise refusal(case.title, "adjust", "leaves nothing that may be changed")
    if not np.isfinite(present.measure(aims[0].measure)).all():
        problem = "does not end with toe-off, so nothing can be compared with it"
        raise refusal(case.title, "alignment", problem)


def suggestion(
    pool: Pool, chosen: Array, outcomes: Outcomes, drawn: Draws, place: int
) -> Suggestion:
    """Return one suggestion: the setting at a place of those chosen, the first being now."""
    now, then = outcomes.measures(0), outcomes.measures(place)
    changes = changes_of(pool, chosen[place])
    moved = [axis for axis in pool.axes if axis.name in changes]
    turns = {axis.name: axis.turns(changes[axis.name]) for axis in moved}
    worse = worsenings(pool.aims, now, then)
    alignment = alignment_of(chosen[place])
    nearer = [aim for aim in pool.aims if missed_by(aim, then) < missed_by(aim, now)]
    return Suggestion(
        changes=changes,
        turns={name: round(value, 6) for name, value in turns.items() if value is not None},
        alignment=alignment,
        measures=then,
        intervals=intervals(drawn, place),
        met=bool(met_by(pool.aims, outcomes)[place]),
        met_share=met_share(pool.aims, drawn, place),
        fallen_share=fallen_share(drawn, place),
        surer=surer(pool, chosen, outcomes, drawn, place),
        worse=worse,
        remarks=remarks_on(limb_of(pool.trials.case, alignment), "toe_off", then),
        confirm=confirming(
            list(dict.fromkeys(aim.measure for aim in nearer)),
            [each.measure for each in worse],
            now,
            then,
        )
        if changes
        else NOTHING_CHANGED,
        other=None,
    )


def other_walks(
    case: Case, walker: Walker, aims: tuple[Aim, ...], settings: Array, outcomes: Outcomes
) -> tuple[OtherWalk, ...]:
    """Return what settings do under the other assumption on the wearer, the first being now.

    outcomes: of the same settings under the walker's own.
    """
    if walker.model is None:
        then, name = searched(case, settings), "adapts"
    else:
        then, name = Trials(case=case).outcomes(settings), "keeps"
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
