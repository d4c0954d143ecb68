"""The smallest set of changes that meets the aims: fewest adjustments first, then the smallest.

One axis at a time, and two at a time, everything the hardware allows is simulated.  For more at a
time there is too much of it: a polynomial of degree 3 in the five numbers, fitted to everything
that was simulated so far, chooses what is.  Whatever meets the aims is then taken back step by step
towards the present setting as long as it still does.  So nothing is ever advised that was not
simulated; with three axes and more a smaller change may be missed.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import numpy as np

from simgait.advice.axes import Axis
from simgait.advice.pool import Pool
from simgait.arrays import Array

MOST_PAIRED = 8192  # settings of two axes that are simulated before they are thinned
SAMPLED = 2048  # settings of all axes at once, drawn evenly
GUESSED = 20_000  # settings of one set of axes that the polynomial looks at
CHOSEN = 192  # settings of one set of axes that it sends to be simulated
DEGREE = 3
ROUNDS = 60  # of steps towards the present setting, or towards a compromise
RIDGE = 1e-9  # [1] that keeps a fit through few axes solvable
SEED = 7


def grid(pool: Pool, axes: Sequence[Axis], levels: Sequence[Array]) -> Array:
    """Return all combinations of some levels of some axes, the others as now [n, 5]."""
    found = np.tile(pool.now, (int(np.prod([len(each) for each in levels])), 1))
    for axis, column in zip(axes, np.meshgrid(*levels, indexing="ij"), strict=True):
        found[:, pool.place(axis)] = column.reshape(-1)
    return found


def thinned(axis: Axis, stride: int) -> Array:
    """Return every `stride`-th level, counted from the present one, and the two ends."""
    here = int(np.searchsorted(axis.levels, axis.now))
    kept = {0, len(axis.levels) - 1, *range(here % stride, len(axis.levels), stride)}
    return np.asarray(axis.levels[sorted(kept)])


def try_pairs(pool: Pool) -> None:
    """Try every combination of the levels of two axes, thinned where there are too many."""
    pairs = list(itertools.combinations(pool.axes, 2))
    stride = 1
    while sum(len(thinned(a, stride)) * len(thinned(b, stride)) for a, b in pairs) > MOST_PAIRED:
        stride += 1
    settings = [grid(pool, pair, [thinned(each, stride) for each in pair]) for pair in pairs]
    if settings:
        pool.try_all(np.concatenate(settings))


def drawn(pool: Pool, axes: Sequence[Axis], count: int, seed: int) -> Array:
    """Return settings on the levels of some axes, drawn evenly, the others as now [count, 5]."""
    draw = np.random.Generator(np.random.PCG64(seed))
    found = np.tile(pool.now, (count, 1))
    for axis in axes:
        found[:, pool.place(axis)] = draw.choice(axis.levels, count)
    return found


def features(pool: Pool, settings: Array) -> Array:
    """Return the products up to `DEGREE` of the axes' moves over their spans [n, terms]."""
    moves = [
        (settings[:, pool.place(axis)] - pool.now[pool.place(axis)]) / axis.span
        for axis in pool.axes
    ]
    terms = [np.ones(len(settings))]
    for degree in range(1, DEGREE + 1):
        for chosen in itertools.combinations_with_replacement(moves, degree):
            terms.append(np.prod(chosen, axis=0))
    return np.stack(terms, axis=1)


def fitted(pool: Pool) -> Array:
    """Return the polynomial through everything that was tried, by least squares [terms, aims]."""
    settings, _, values = pool.every()
    good = np.isfinite(values).all(axis=1)
    terms = features(pool, settings[good])
    little = RIDGE * len(terms) * np.eye(terms.shape[1])
    return np.asarray(np.linalg.solve(terms.T @ terms + little, terms.T @ values[good]))


def promising(pool: Pool, axes: Sequence[Axis], fit: Array) -> Array:
    """Return the settings of some axes that a fit to all that was tried sends to be tried [m, 5].

    Those that it lets meet every aim, the smallest changes first, and those that miss least.
    """
    full = int(np.prod([len(axis.levels) for axis in axes]))
    guesses = (
        grid(pool, axes, [axis.levels for axis in axes])
        if full <= GUESSED
        else drawn(pool, axes, GUESSED, SEED)
    )
    told = features(pool, guesses) @ fit
    missed = np.stack([aim.missed(told[:, place]) for place, aim in enumerate(pool.aims)], axis=1)
    cost = (missed / scales(pool)).sum(axis=1)
    order = np.lexsort((pool.size(guesses), cost))
    return np.asarray(guesses[order[:CHOSEN]])


def scales(pool: Pool) -> Array:
    """Return how much each measure aimed at varies in what was tried [aims]: 10 to 90 %."""
    _, _, values = pool.every()
    low, high = np.nanpercentile(values, (10.0, 90.0), axis=0)
    return np.asarray(np.maximum(high - low, 1e-9))


def neighbours(pool: Pool, setting: Array) -> Array:
    """Return a setting with each moved axis nearer to now by one, two and four levels [n, 5]."""
    found = []
    for axis in pool.axes:
        place = pool.place(axis)
        at, here = (int(np.searchsorted(axis.levels, v)) for v in (setting[place], axis.now))
        for steps in {min(k, abs(at - here)) for k in (1, 2, 4)} - {0}:
            row = setting.copy()
            row[place] = axis.levels[at + steps * (1 if here > at else -1)]
            found.append(row)
    return np.array(found).reshape(-1, len(setting))


def taken_back(pool: Pool, setting: Array) -> Array:
    """Return the smallest change that steps towards now still lead to, all aims met [5]."""
    best = setting
    for _ in range(ROUNDS):
        near = neighbours(pool, best)
        if not len(near):
            break
        places = np.array(pool.try_all(near))
        good = near[pool.met()[places]]
        if not len(good):
            break
        order = np.lexsort((pool.size(good), pool.adjusted(good)))
        best = good[order[0]]
    return best


def smallest(pool: Pool) -> list[Array]:
    """Return one setting for each set of axes that meets all aims, best first; [] if none does.

    Sets of the fewest axes, and of one more if those are fewer than three.  If the present setting
    meets them, only that.
    """
    pool.try_all(pool.now[None])
    if pool.met()[0]:
        return [pool.now]
    for axis in pool.axes:
        pool.try_all(grid(pool, [axis], [axis.levels]))
    found = best_of_each(pool)
    if sum(count <= 1 for count, _, _ in found) < 3:
        try_pairs(pool)
        found = best_of_each(pool)
    if not found and len(pool.axes) > 2:
        pool.try_all(drawn(pool, pool.axes, SAMPLED, SEED))
        for count in range(3, len(pool.axes) + 1):
            fit = fitted(pool)
            for chosen in itertools.combinations(pool.axes, count):
                pool.try_all(promising(pool, chosen, fit))
            found = best_of_each(pool)
            if found:
                break
    return [setting for _, _, setting in found]


def best_of_each(pool: Pool) -> list[tuple[int, float, Array]]:
    """Return count, size and setting of the smallest change of each set of axes, best first.

    A set is left out if one of its parts meets the aims by itself.
    """
    settings, _, _ = pool.every()
    good = settings[pool.met()]
    moved = pool.shares(good) > 0.0
    found: list[tuple[int, float, Array]] = []
    kept: list[frozenset[int]] = []
    sets = {frozenset(np.flatnonzero(row).tolist()) for row in moved}
    for chosen in sorted(sets, key=lambda each: (len(each), sorted(each))):
        if any(part < chosen for part in kept):
            continue
        kept.append(chosen)
        mine = good[[frozenset(np.flatnonzero(row).tolist()) == chosen for row in moved]]
        best = taken_back(pool, mine[int(np.argmin(pool.size(mine)))])
        found.append((len(chosen), float(pool.size(best[None])[0]), best))
    return sorted(found, key=lambda each: each[:2])
