"""Where no setting meets all aims: the best compromise, and which aims fight."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np

from simgait.advice.pool import Pool
from simgait.advice.search import ROUNDS, SAMPLED, SEED, drawn, scales
from simgait.arrays import Array, Flags

KEEP = 1e-3  # [1] of cost that a whole span of moving must gain: of two equals the smaller change


@dataclass(frozen=True, kw_only=True)
class Conflict:
    """Aims, by place, that cannot be met together though each of them can; one alone: cannot."""

    aims: tuple[int, ...]
    nearest: float  # of a single aim: the value that comes nearest, in its measure's unit


def cost(pool: Pool, missed: Array, settings: Array) -> Array:
    """Return how bad settings are [n]: weighted misses, each over how much its measure varies."""
    weights = np.array([aim.weight for aim in pool.aims])
    return np.asarray((missed * weights / scales(pool)).sum(axis=1) + KEEP * pool.size(settings))


def compromise(pool: Pool) -> Array:
    """Return the setting that misses the aims least, weighed; refined level by level [5]."""
    pool.try_all(drawn(pool, pool.axes, SAMPLED, SEED))
    settings, missed, _ = pool.every()
    best: Array = settings[int(np.argmin(cost(pool, missed, settings)))]
    for _ in range(ROUNDS):
        near = np.concatenate((best[None], around(pool, best)))
        places = pool.try_all(near)
        missed = np.array([pool.missed[place] for place in places])
        lowest = int(np.argmin(cost(pool, missed, near)))
        if lowest == 0:
            break
        best = near[lowest]
    return best


def around(pool: Pool, setting: Array) -> Array:
    """Return the settings one, two and four levels away along each axis [n, 5]."""
    found = []
    for axis in pool.axes:
        place = pool.place(axis)
        at = int(np.searchsorted(axis.levels, setting[place]))
        for steps in (-4, -2, -1, 1, 2, 4):
            if 0 <= at + steps < len(axis.levels):
                row = setting.copy()
                row[place] = axis.levels[at + steps]
                found.append(row)
    return np.array(found).reshape(-1, len(setting))


def conflicts(pool: Pool) -> tuple[Conflict, ...]:
    """Return what stands in the way, in all that was tried: single aims, then pairs, then threes.

    If those can all be met, one larger set.  Only sets are told whose parts can be met.
    """
    _, missed, values = pool.every()
    met = missed <= 0.0
    found: list[Conflict] = []
    for count in (1, 2, 3):
        for chosen in itertools.combinations(range(len(pool.aims)), count):
            if any(set(each.aims) <= set(chosen) for each in found):
                continue
            if not met[:, list(chosen)].all(axis=1).any():
                found.append(Conflict(aims=chosen, nearest=_nearest(missed, values, chosen)))
    return tuple(found) or (least_fighting(met),)


def least_fighting(met: Flags) -> Conflict:
    """Return aims that cannot be met together of which none can be left out [runs, aims]."""
    chosen = list(range(met.shape[1]))
    for aim in tuple(chosen):
        rest = [each for each in chosen if each != aim]
        if not met[:, rest].all(axis=1).any():
            chosen = rest
    return Conflict(aims=tuple(chosen), nearest=float("nan"))


def _nearest(missed: Array, values: Array, chosen: tuple[int, ...]) -> float:
    if len(chosen) > 1:
        return float("nan")
    return float(values[int(np.argmin(missed[:, chosen[0]])), chosen[0]])
