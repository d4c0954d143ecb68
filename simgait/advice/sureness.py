"""How sure a suggestion is under errors of measurement, and what it makes worse."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from simgait.advice.aims import Aim, misses
from simgait.advice.outcomes import Outcomes
from simgait.advice.pool import Pool
from simgait.advice.result import Surer, Worsening
from simgait.arrays import Array, Flags
from simgait.stance.uncertainty import TAILS, Draws
from simgait.symbols import MAIN_MEASURES
from simgait.symbols.watching import VISIBLE, WATCHING

WORSE = 0.05  # [1] of its present size by which a measure must get worse to be told
WORSE_SEEN = 0.1  # [1] of what is just visible, by which besides
FARTHER = 4  # levels that a change is made larger to meet the aims more surely
SURE = 0.8  # [1] of the draws
PER_MASS = "_kg"  # ends the name of a measure over body mass


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


def missed_by(aim: Aim, measures: Mapping[str, float]) -> float:
    """Return by how much measures miss an aim, in the unit of its measure."""
    return float(aim.missed(np.array([measures[aim.measure]]))[0])


def fallen_share(drawn: Draws, place: int) -> float:
    """Return the share of the draws in which there is no walk that ends with toe-off [1]."""
    return (drawn.not_ended[place] + drawn.not_built[place]) / drawn.asked


def worsenings(
    aims: Sequence[Aim], now: Mapping[str, float], then: Mapping[str, float]
) -> tuple[Worsening, ...]:
    """Return the measures that move away from an aim, or get worse by more than a little."""
    away = [aim.measure for aim in aims if missed_by(aim, then) > missed_by(aim, now)]
    bad = [name for name in watched() if gets_worse(name, now, then)]
    return tuple(
        Worsening(measure=name, now=now[name], then=then[name])
        for name in dict.fromkeys((*away, *bad))
    )


def watched() -> tuple[str, ...]:
    """Return the measures of which it is known which way is worse; moments over body mass only."""
    names = dict.fromkeys((*MAIN_MEASURES, *WATCHING))
    return tuple(
        name
        for name in names
        if name in WATCHING and WATCHING[name].worse and f"{name}{PER_MASS}" not in names
    )


def gets_worse(name: str, now: Mapping[str, float], then: Mapping[str, float]) -> bool:
    """Return whether a measure gets worse by more than a little of its size and of the visible."""
    change = WATCHING[name].worse * (then[name] - now[name])
    return change > max(WORSE * abs(now[name]), WORSE_SEEN * VISIBLE.get(name, 0.0), 1e-9)
