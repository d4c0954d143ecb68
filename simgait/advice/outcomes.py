"""Many alignments of one case at once: what each does, as columns."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

import numpy as np

from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array, Flags, many
from simgait.case import Case
from simgait.case.many import case_of_many
from simgait.errors import RangeError
from simgait.limb import Limb, limb_of
from simgait.physics import layout as rows
from simgait.stance.batch import batch_of_many
from simgait.stance.naming import MEASURE_ROWS
from simgait.stance.running import run_batch
from simgait.symbols import BY_NAME


@dataclass(frozen=True, kw_only=True, eq=False)
class Outcomes:
    """What came of some runs; NaN for a run that was not built or did not end with toe-off."""

    values: Array  # [runs, MEASURES] SI
    mass: Array  # [runs] kg

    def measure(self, name: str) -> Array:
        """Return one measure of all runs, in the unit of its name [runs]."""
        values = many(self.values[:, MEASURE_ROWS[name]])
        return np.asarray(BY_NAME[name].shown(values, many(self.mass)))

    def measures(self, run: int) -> dict[str, float]:
        """Return every measure of one run by name."""
        return {name: float(self.measure(name)[run]) for name in BY_NAME}


def kept(limb: Limb) -> Limb:
    """Return the limb: its wearer keeps the strategy."""
    return limb


@dataclass(frozen=True, kw_only=True, eq=False)
class Trials:
    """A case whose alignments are tried in many runs, each counted."""

    case: Case
    taking: Callable[[Limb], Limb] = kept  # how the wearer takes the alignments of many
    done: list[int] = field(default_factory=list)  # how many runs each call has asked for

    def outcomes(self, settings: Array, more: Mapping[str, Array] | None = None) -> Outcomes:
        """Return what some settings do.

        settings: [runs, 5] in millimetres and degrees, as WRITTEN_NAMES orders them; more: other
        numbers of the case that are many, by dotted name [runs].  A row with NaN is not run.
        """
        runs = len(settings)
        self.done.append(runs)
        values = np.full((runs, rows.MEASURES), np.nan)
        mass = np.full(runs, np.nan)
        open_runs = np.flatnonzero(np.isfinite(settings).all(axis=1))
        while len(open_runs):
            columns = {
                f"alignment.{name}": settings[open_runs, place]
                for place, name in enumerate(WRITTEN_NAMES)
            }
            columns |= {name: column[open_runs] for name, column in (more or {}).items()}
            try:
                case = case_of_many(self.case, columns)
                batch = batch_of_many(self.taking(limb_of(case, case.baseline)))
            except RangeError as refusal:
                wrong: Flags = np.asarray(refusal.rows, dtype=np.bool_)
                open_runs = open_runs[~wrong]
                continue
            values[open_runs] = run_batch(batch).measures
            mass[open_runs] = case.person.mass
            break
        return Outcomes(values=values, mass=mass)


def setting_of(case: Case) -> Array:
    """Return the case's own alignment in millimetres and degrees [5]."""
    return np.array([case.baseline.as_written()[name] for name in WRITTEN_NAMES])
