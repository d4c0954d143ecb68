"""Everything that was tried so far: settings, what they do, and how far they miss the aims."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from simgait.advice.aims import Aim, misses
from simgait.advice.axes import Axis
from simgait.advice.outcomes import Outcomes, Trials
from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array, Flags


@dataclass(frozen=True, kw_only=True, eq=False)
class Pool:
    """Settings that were tried, each once, on the levels of the axes."""

    trials: Trials
    axes: tuple[Axis, ...]
    aims: tuple[Aim, ...]
    now: Array  # [5] the present setting
    seen: dict[bytes, int] = field(default_factory=dict)
    settings: list[Array] = field(default_factory=list)  # [5] each
    missed: list[Array] = field(default_factory=list)  # [aims] each
    values: list[Array] = field(default_factory=list)  # [aims] each, of the measures aimed at

    def place(self, axis: Axis) -> int:
        """Return the column of an axis among the five numbers."""
        return WRITTEN_NAMES.index(axis.name)

    def try_all(self, settings: Array) -> list[int]:
        """Return the places of some settings in the pool; those not tried yet are tried.

        settings: [n, 5].
        """
        keys = [row.tobytes() for row in np.ascontiguousarray(settings)]
        fresh = {key: place for place, key in enumerate(keys) if key not in self.seen}
        if fresh:
            chosen = settings[list(fresh.values())]
            outcomes = self.trials.outcomes(chosen)
            self._keep(list(fresh), chosen, outcomes)
        return [self.seen[key] for key in keys]

    def _keep(self, keys: list[bytes], settings: Array, outcomes: Outcomes) -> None:
        missed = misses(self.aims, outcomes)
        values = np.stack([outcomes.measure(aim.measure) for aim in self.aims], axis=1)
        for row, key in enumerate(keys):
            self.seen[key] = len(self.settings)
            self.settings.append(settings[row])
            self.missed.append(missed[row])
            self.values.append(values[row])

    def every(self) -> tuple[Array, Array, Array]:
        """Return all settings [n, 5], misses [n, aims] and values aimed at [n, aims]."""
        return np.array(self.settings), np.array(self.missed), np.array(self.values)

    def met(self) -> Flags:
        """Return which settings meet every aim [n]."""
        return np.asarray((np.array(self.missed) <= 0.0).all(axis=1))

    def shares(self, settings: Array) -> Array:
        """Return how far each axis is moved, as a share of its span [n, axes]."""
        moved = [
            (settings[:, self.place(axis)] - self.now[self.place(axis)]) / axis.span
            for axis in self.axes
        ]
        return np.asarray(np.abs(np.stack(moved, axis=1)))

    def adjusted(self, settings: Array) -> Array:
        """Return how many axes are moved [n]."""
        return np.asarray((self.shares(settings) > 0.0).sum(axis=1))

    def size(self, settings: Array) -> Array:
        """Return the size of a change [n]: the sum of all moves, each over its axis' span [1]."""
        return np.asarray(self.shares(settings).sum(axis=1))
