"""The wearer adapts: hip and knee references moved as little as keeps speed and shank.

A second assumption beside 'keeps the strategy'.  Unknowns u: a constant and a linear part in time
of the reference of thigh lean and of that of knee flexion.  The wearer takes the u that makes

    F(u) = |r(u)|^2 + |u / a|^2

least, where r is what the walk differs from the kept one (see `simgait.stance.kept_walk`) and a
what counts as one of the unknowns.  Gauss-Newton with halved steps, the difference quotients of all
alignments side by side in batches of the compiled engine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from simgait.arrays import Array, Flags, many
from simgait.errors import refuse
from simgait.limb import Limb, as_many, limb_part, runs_of, stands_for_many
from simgait.physics.layout import NODES
from simgait.stance.kept_walk import KeptWalk, kept_walk, walks
from simgait.units import degrees_from_radians
from simgait.wearer import REFERENCE_SPAN, Wearer

__all__ = ["Adaptation", "adaptation", "adapted", "kept_walk", "with_adaptation"]

Runs: TypeAlias = NDArray[np.intp]

UNKNOWNS = 4  # hip constant, hip linear, knee constant, knee linear
DIFFERENCE = 1e-3  # [rad] of the difference quotients
ENOUGH = 1e-3  # [1] a step that is smaller, in what counts as one, ends the search
ROUNDS = 10  # evaluations of value and slope at most
LEAST_SHARE = 0.05  # [1] of a step, to which it is halved before the search gives up
TOGETHER = 128  # alignments whose runs lie side by side: bounds the memory
KEPT_OF_OTHERS = "what is kept is of as many runs as the limb, or of one for all"
# Where the nodes of a reference curve lie [1]: -1 at touch-down, 1 at the nominal end of stance.
ALONG = tuple(float(2.0 * share - 1.0) for share in np.linspace(0.0, REFERENCE_SPAN, NODES))


@dataclass(frozen=True, kw_only=True, eq=False)
class Adaptation:
    """How a wearer adapts, one entry a run."""

    unknowns: Array  # [runs, UNKNOWNS] rad: constant and linear part of hip, then of knee
    walks: Flags  # [runs] whether it walks without adapting: if not, it keeps the strategy
    settled: Flags  # [runs] whether the search came to rest
    before: Array  # [runs] F without adapting [1]; NaN for a run that does not walk
    after: Array  # [runs] F with it [1]

    def as_written(self, run: int) -> dict[str, float]:
        """Return one run's changes of the references at both ends of stance [deg].

        Thigh lean, + hip further ahead of the knee; knee flexion.
        """
        names = ("hip_touch_down_deg", "hip_toe_off_deg", "knee_touch_down_deg", "knee_toe_off_deg")
        hip, hip_slope, knee, knee_slope = map(float, self.unknowns[run])
        values = (hip - hip_slope, hip + hip_slope, knee - knee_slope, knee + knee_slope)
        return {
            name: round(degrees_from_radians(value), 9) + 0.0
            for name, value in zip(names, values, strict=True)
        }


def moved_wearer(wearer: Wearer, unknowns: Sequence[float]) -> Wearer:
    """Return a wearer whose references are moved, and with them posture and rates at touch-down.

    unknowns: constant and linear part of the change of thigh lean, then of knee flexion, each a
    number or many [rad].
    """
    hip, hip_slope, knee, knee_slope = unknowns
    pace = 2.0 / wearer.stance_time
    return replace(
        wearer,
        thigh=tuple(v + (hip + hip_slope * x) for v, x in zip(wearer.thigh, ALONG, strict=True)),
        knee=tuple(v + (knee + knee_slope * x) for v, x in zip(wearer.knee, ALONG, strict=True)),
        start_thigh=wearer.start_thigh + (hip - hip_slope),
        start_flexion=wearer.start_flexion + (knee - knee_slope),
        start_thigh_rate=wearer.start_thigh_rate + hip_slope * pace,
        start_flexion_rate=wearer.start_flexion_rate + knee_slope * pace,
    )


def with_moved(limb: Limb, unknowns: Array) -> Limb:
    """Return a limb with its wearer's references moved.

    limb: of one run or many; unknowns: [runs, UNKNOWNS] [rad].
    """
    columns = (
        [many(np.ascontiguousarray(column)) for column in unknowns.T]
        if stands_for_many(limb)
        else [float(value) for value in unknowns[0]]
    )
    return replace(limb, wearer=moved_wearer(limb.wearer, columns))


def with_adaptation(limb: Limb, found: Adaptation) -> Limb:
    """Return the limb with its wearer adapted as found.  limb: that it was found for."""
    return with_moved(limb, found.unknowns)


def adapted(limb: Limb, kept: KeptWalk) -> Limb:
    """Return the limb with its wearer's references adapted to its alignment.

    A run that with the strategy kept does not end with toe-off is not adapted: it goes on keeping
    it (`adaptation` says which).

    limb: of one run, or of many; kept: what is kept, of one run for all, or of as many.

    Raises:
        RangeError: a limb cannot be built.
    """
    return with_adaptation(limb, adaptation(limb, kept))


def adaptation(limb: Limb, kept: KeptWalk) -> Adaptation:
    """Return how a wearer adapts to the alignment of a limb.

    limb: of one run, or of many; kept: what is kept, of one run for all, or of as many.

    Raises:
        RangeError: a limb cannot be built.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> from simgait.limb import limb_of
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> limb = limb_of(case, case.baseline)
    >>> adaptation(limb, kept_walk(limb)).unknowns.tolist()
    [[0.0, 0.0, 0.0, 0.0]]
    """
    count = runs_of(limb)
    refuse(len(kept.walk) != count if kept.walk.ndim > 1 else False, KEPT_OF_OTHERS)
    limb = as_many(limb)
    parts = [
        _Search(limb, kept, np.arange(begin, min(begin + TOGETHER, count))).found()
        for begin in range(0, count, TOGETHER)
    ]
    names = ("unknowns", "walks", "settled", "before", "after")
    return Adaptation(
        **{name: np.concatenate([getattr(part, name) for part in parts]) for name in names}
    )


class _Search:
    """The search of some runs of a limb, side by side."""

    def __init__(self, limb: Limb, kept: KeptWalk, chosen: Runs) -> None:
        self.limb, self.kept, self.chosen = limb, kept, chosen
        y = kept.yardsticks
        self.units = np.array([y.hip, y.hip, y.knee, y.knee])

    def evaluated(self, runs: Runs, u: Array) -> tuple[Array, Array, Flags]:
        """Return misfits [n, m], their slopes [n, m, UNKNOWNS], and which runs walk.

        runs: numbers among the chosen [n]; u: in what counts as one [n, UNKNOWNS].
        """
        n, steps = len(runs), DIFFERENCE / self.units
        places = np.concatenate([u, *(u + step for step in np.diag(steps))])
        which = np.tile(self.chosen[runs], UNKNOWNS + 1)
        walk, walked = walks(with_moved(limb_part(self.limb, which), places * self.units))
        kept = self.kept
        if kept.walk.ndim > 1:
            kept = replace(kept, walk=kept.walk[which])
        misfits = kept.misfit(walk).reshape(UNKNOWNS + 1, n, -1)
        slopes = (misfits[1:] - misfits[0]) / steps[:, None, None]
        all_walk = np.logical_and.reduce(walked.reshape(-1, n))
        return misfits[0], np.moveaxis(slopes, 0, -1), all_walk

    def found(self) -> Adaptation:
        """Return what the search finds for the chosen runs.

        A step is taken if all its runs walk and F falls; otherwise it is halved.
        """
        runs = np.arange(len(self.chosen))
        best, share = np.zeros((len(runs), UNKNOWNS)), np.ones(len(runs))
        misfit, slope, walked = self.evaluated(runs, best)
        before = np.where(walked, objective(misfit, best), np.nan)
        value, step = before.copy(), newton_step(misfit, slope, best, walked)
        going = walked & (np.abs(step).max(axis=1) >= ENOUGH)
        for _ in range(ROUNDS):
            active = np.flatnonzero(going)
            if not active.size:
                break
            tried = best[active] + share[active, None] * step[active]
            misfit, slope, ok = self.evaluated(active, tried)
            now = objective(misfit, tried)
            better = ok & (now < value[active])
            taken, left = active[better], active[~better]
            best[taken], value[taken], share[taken] = tried[better], now[better], 1.0
            step[taken] = newton_step(misfit, slope, tried, better)[better]
            share[left] /= 2.0
            going[taken] = np.abs(step[taken]).max(axis=1) >= ENOUGH
            going[left] = share[left] >= LEAST_SHARE
        return Adaptation(
            unknowns=best * self.units,
            walks=walked,
            settled=walked & ~going,
            before=before,
            after=value,
        )


def objective(misfit: Array, u: Array) -> Array:
    """Return F = |r|^2 + |u|^2 of each run [runs] [1].

    misfit: r [runs, m]; u: in what counts as one [runs, UNKNOWNS].
    """
    return np.asarray((misfit * misfit).sum(axis=1) + (u * u).sum(axis=1))


def newton_step(misfit: Array, slope: Array, u: Array, wanted: Flags) -> Array:
    """Return the Gauss-Newton step of each run [runs, UNKNOWNS]: -(J'J + 1)^-1 (J'r + u).

    Zero for runs that are not wanted.  misfit: r [runs, m]; slope: J [runs, m, UNKNOWNS]; u: in
    what counts as one [runs, UNKNOWNS].
    """
    step = np.zeros_like(u)
    j, r = slope[wanted], misfit[wanted]
    normal = np.einsum("nmi,nmj->nij", j, j) + np.eye(UNKNOWNS)
    pull = np.einsum("nmi,nm->ni", j, r) + u[wanted]
    step[wanted] = -np.linalg.solve(normal, pull[:, :, None])[:, :, 0]
    return step
