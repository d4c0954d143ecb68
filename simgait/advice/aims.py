"""Goals and complaints of a case as aims: one number of a run, and how far it misses."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.advice.outcomes import Outcomes
from simgait.arrays import Array
from simgait.case import Case
from simgait.case.goals import Sense
from simgait.symbols.complaints import COMPLAINTS, Relief


@dataclass(frozen=True, kw_only=True)
class Aim:
    """What one measure is to be, in the unit of its name."""

    measure: str
    sense: Sense
    value: float
    within: float
    weight: float
    complaint: str | None  # that it stands for
    relief: Relief | None  # how it follows from what is now, if it stands for a complaint

    def missed(self, values: Array) -> Array:
        """Return by how much values miss the aim, 0 where it is met; NaN stays [n]."""
        if self.sense == "below":
            return np.maximum(values - self.value, 0.0)
        if self.sense == "above":
            return np.maximum(self.value - values, 0.0)
        return np.maximum(np.abs(values - self.value) - self.within, 0.0)

    def missed_from(self, values: Array, now: Array) -> Array:
        """Return the same where each value has its own present one [n].

        A complaint is relieved by a change; a goal of the case is what it is.
        """
        if self.relief is None:
            return self.missed(values)
        limits = limit_of(self.relief, now)
        gap = values - limits if self.sense == "below" else limits - values
        return np.asarray(np.maximum(gap, 0.0))


def limit_of(relief: Relief, now: Array | float) -> Array:
    """Return what a measure must be below or above, from what it is now, in its unit."""
    change = relief.share * np.abs(now) + relief.amount
    return np.asarray(now - change if relief.sense == "below" else now + change)


def aims_of(case: Case, now: Outcomes) -> tuple[Aim, ...]:
    """Return the aims of a case: its goals, then what its complaints ask for.

    now: the case's own alignment, one run.
    """
    found = [
        Aim(
            measure=goal.measure,
            sense=goal.sense,
            value=goal.value,
            within=goal.within,
            weight=goal.weight,
            complaint=None,
            relief=None,
        )
        for goal in case.wanted.goals
    ]
    for name in case.wanted.complaints:
        for relief in COMPLAINTS[name].reliefs:
            found.append(
                Aim(
                    measure=relief.measure,
                    sense=relief.sense,
                    value=float(limit_of(relief, now.measure(relief.measure)[0])),
                    within=0.0,
                    weight=1.0,
                    complaint=name,
                    relief=relief,
                )
            )
    return tuple(found)


def misses(aims: tuple[Aim, ...], outcomes: Outcomes) -> Array:
    """Return by how much each run misses each aim; infinity where there is no walk [runs, aims]."""
    columns = [aim.missed(outcomes.measure(aim.measure)) for aim in aims]
    found = np.stack(columns, axis=1)
    return np.where(np.isfinite(found), found, np.inf)
