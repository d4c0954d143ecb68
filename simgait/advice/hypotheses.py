"""What may be off of an alignment, by how much, and how plausible that is beforehand.

Sizes are simulated on even levels; what lies between two of them is taken on straight lines, so
that sums over finer steps miss nothing that was measured finely.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import RegularGridInterpolator

from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array
from simgait.case.goals import TILTS
from simgait.library import read_defaults

FARTHEST = 3.0  # standard deviations that a cause reaches
SINGLE_LEVELS, PAIRED_LEVELS = 49, 13  # of each number that are simulated
SINGLE_FINER, PAIRED_FINER = 8, 8  # steps that stand for one of those when sizes are summed


@dataclass(frozen=True, kw_only=True, eq=False)
class Hypothesis:
    """Names that may be off, and the sizes tried, in standard deviations of each."""

    names: tuple[str, ...]
    levels: Array  # [levels] simulated, of each name
    finer: int  # steps that stand for one level

    @property
    def simulated(self) -> Array:
        """Sizes that are simulated [n, names], in the units of the names."""
        return self._all(self.levels)

    @property
    def summed(self) -> Array:
        """Sizes over which plausibility is summed [m, names], in the units of the names."""
        return self._all(self._fine)

    @property
    def prior(self) -> Array:
        """How plausible the summed sizes are beforehand [m]; adds to 1, built or not."""
        weight = np.exp(-0.5 * (combinations(self._fine, len(self.names)) ** 2).sum(axis=1))
        return np.asarray(weight / weight.sum())

    def between(self, values: Array) -> Array:
        """Return values of the simulated sizes at the summed ones, on straight lines.

        values: [n, columns]; returned: [m, columns], NaN beside what is NaN.
        """
        count = len(self.names)
        if not count:
            return values
        known = values.reshape(*[len(self.levels)] * count, values.shape[1])
        lines = RegularGridInterpolator((self.levels,) * count, known)
        return np.asarray(lines(combinations(self._fine, count)))

    @property
    def _fine(self) -> Array:
        steps = (len(self.levels) - 1) * self.finer + 1
        return np.linspace(self.levels[0], self.levels[-1], steps)

    def _all(self, levels: Array) -> Array:
        spreads = np.array([spread_of(name) for name in self.names])
        return np.asarray(combinations(levels, len(self.names)) * spreads)


NOTHING = Hypothesis(names=(), levels=np.zeros(1), finer=1)


def combinations(levels: Array, count: int) -> Array:
    """Return all combinations of some levels of each of a count of numbers [n, count].

    >>> combinations(np.array([0.0, 1.0]), 2).tolist()
    [[0.0, 0.0], [0.0, 1.0], [1.0, 0.0], [1.0, 1.0]]
    """
    columns = np.meshgrid(*[levels] * count, indexing="ij")
    return np.stack([each.reshape(-1) for each in columns], axis=1) if count else np.zeros((1, 0))


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
    """Return nothing, every number of the alignment alone, and every two of them."""
    found = [NOTHING]
    for count, levels, finer in (
        (1, SINGLE_LEVELS, SINGLE_FINER),
        (2, PAIRED_LEVELS, PAIRED_FINER),
    ):
        steps = np.linspace(-FARTHEST, FARTHEST, levels)
        for names in itertools.combinations(WRITTEN_NAMES, count):
            found.append(Hypothesis(names=names, levels=steps, finer=finer))
    return tuple(found)
