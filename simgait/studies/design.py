"""The inputs of every row, from seed and row number alone.

So any split over threads, shards and machines gives the same rows.  Sobol points are scrambled and
come in scipy's order; a Latin hypercube is drawn as a whole, axis by axis; errors come from a
counter-based generator (Philox), whose key is made of seed and name and whose counter is the draw.
"""

from __future__ import annotations

import hashlib
import warnings
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri
from scipy.stats import qmc

from simgait.arrays import Array
from simgait.case import case_of_text
from simgait.errors import CaseError
from simgait.studies.reading import nominal, overrides_of
from simgait.studies.sensitivity import morris_design, sobol_design
from simgait.studies.settings import DRAWN_WHOLE
from simgait.studies.study import Axis, Deviation, Level, Study

Whole = NDArray[np.int64]


@dataclass(frozen=True, kw_only=True, eq=False)
class Rows:
    """The inputs of some rows."""

    number: Whole  # [n] rows of the study, from 0
    case: Whole  # [n] index of the case
    draw: Whole  # [n] which draw of the errors
    aims: dict[str, NDArray[np.generic]]  # [n] each: what varies, before its error
    values: dict[str, NDArray[np.generic]]  # [n] each: what is simulated

    def part(self, chosen: slice | Whole) -> Rows:
        """Return some of the rows."""
        return Rows(
            number=self.number[chosen],
            case=self.case[chosen],
            draw=self.draw[chosen],
            aims={name: column[chosen] for name, column in self.aims.items()},
            values={name: column[chosen] for name, column in self.values.items()},
        )

    def values_of(self, place: int, names: Sequence[str]) -> tuple[Level, ...]:
        """Return the simulated values of the row at a place, as plain numbers and texts."""
        return tuple(self.values[name][place : place + 1].tolist()[0] for name in names)


class Design:
    """Makes the rows of a study; quickest when asked for them in ascending order."""

    def __init__(self, study: Study) -> None:
        self.study = study
        self._stated = _stated(study)
        self._engine: qmc.Sobol | None = None
        self._whole: Array | None = None

    def rows(self, span: range) -> Rows:
        """Return the inputs of a span of rows."""
        study = self.study
        number = np.arange(span.start, span.stop)
        case, point = np.divmod(number, study.points)
        if study.method == "grid":
            combination, draw = np.divmod(point, study.draws)
            draw = draw if study.draws > 1 else number
            aims = self._combinations(combination)
        else:
            draw = point
            shares = self._shares(point)
            aims = {axis.name: _placed(axis, u) for axis, u in zip(study.axes, shares, strict=True)}
        values = dict(aims)
        for error in study.errors:
            if error.name in aims:
                centre = aims[error.name].astype(np.float64)
            else:
                centre = self._stated[error.name][case]
            values[error.name] = centre + errors_of(error, study.seed, draw)
        return Rows(number=number, case=case, draw=draw, aims=aims, values=values)

    def _combinations(self, combination: Whole) -> dict[str, NDArray[np.generic]]:
        """Return the levels of combinations of a grid, the last axis fastest."""
        axes = self.study.axes
        if not axes:
            return {}
        places = np.unravel_index(combination, [len(axis.levels) for axis in axes])
        return {axis.name: _levels(axis)[place] for axis, place in zip(axes, places, strict=True)}

    def _shares(self, point: Whole) -> Array:
        """Return the coordinates of ascending points of the sample, 0 to 1 [axes, points].

        The points may begin again once, where one case ends and the next begins.
        """
        pieces = np.split(point, np.flatnonzero(np.diff(point) != 1) + 1)
        return np.concatenate([self._run(int(p[0]), len(p)) for p in pieces], axis=1)

    def _run(self, begin: int, count: int) -> Array:
        """Return the coordinates of consecutive points of the sample [axes, count]."""
        study, axes = self.study, len(self.study.axes)
        if not axes:
            return np.empty((0, count))
        if study.method in DRAWN_WHOLE:
            if self._whole is None:
                self._whole = _drawn_whole(study)
            return self._whole[:, begin : begin + count]
        if self._engine is None or self._engine.num_generated > begin:
            self._engine = qmc.Sobol(axes, rng=np.random.default_rng(study.seed))
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", UserWarning)  # a size that is no power of two
            if begin > self._engine.num_generated:
                self._engine.fast_forward(begin - self._engine.num_generated)
            return np.asarray(self._engine.random(count)).T


def _drawn_whole(study: Study) -> Array:
    """Return all points of a sample that is drawn as a whole [axes, points]."""
    names, size = [axis.name for axis in study.axes], study.size or 0
    if study.method == "lhs":
        return _hypercube(len(names), size, study.seed)
    make = sobol_design if study.method == "saltelli" else morris_design
    return make(names, size, study.seed).T


def _hypercube(axes: int, size: int, seed: int) -> Array:
    """Return a Latin hypercube [axes, size], drawn axis by axis, which takes less memory."""
    cube = np.empty((axes, size))
    for axis, row in enumerate(cube):
        sampler = qmc.LatinHypercube(1, rng=np.random.default_rng([seed, axis]))
        row[:] = sampler.random(size)[:, 0]
    return cube


def _levels(axis: Axis) -> NDArray[np.generic]:
    """Return an axis' levels as an array: numbers, or texts."""
    texts = isinstance(axis.levels[0], str)
    return np.array(axis.levels, dtype=object if texts else np.float64)


def _placed(axis: Axis, share: Array) -> NDArray[np.generic]:
    """Return the values at shares of an axis: along its span, or by equal shares of its levels."""
    if not axis.levels:
        return axis.low + share * (axis.high - axis.low)
    place = np.minimum((share * len(axis.levels)).astype(np.int64), len(axis.levels) - 1)
    return _levels(axis)[place]


def errors_of(error: Deviation, seed: int, draw: Whole) -> Array:
    """Return the errors of some draws, each of seed, name and draw alone [unit of the name].

    Uniform shares u = (word + 1/2) / 2^53 from the upper 53 bits of one word a draw; normal errors
    by the inverse of the normal distribution.

    >>> one = Deviation(name="person.mass_kg", spread="uniform", size=1.0)
    >>> both = errors_of(one, 7, np.arange(10))
    >>> bool(np.array_equal(both[4:], errors_of(one, 7, np.arange(4, 10))))
    True
    """
    name = int.from_bytes(hashlib.sha256(error.name.encode()).digest()[:8], "little")
    first, last = int(draw.min()), int(draw.max())
    generator = np.random.Philox(key=[seed, name], counter=[first // 4, 0, 0, 0])
    words = generator.random_raw(last - first // 4 * 4 + 1)[draw - first // 4 * 4]
    share = ((words >> np.uint64(11)).astype(np.float64) + 0.5) * 2.0**-53
    if error.spread == "uniform":
        return np.asarray((2.0 * share - 1.0) * error.size)
    return np.asarray(ndtri(share) * error.size)


def _stated(study: Study) -> dict[str, Array]:
    """Return what each case states for the names that have an error but do not vary."""
    varied = {axis.name for axis in study.axes}
    names = [error.name for error in study.errors if error.name not in varied]
    found = {name: np.full(len(study.cases), np.nan) for name in names}
    if not names:
        return found
    axes = tuple(axis.name for axis in study.axes)
    for place, case in enumerate(study.cases):
        for values in zip(*(axis.probes for axis in study.axes), strict=True) if axes else [()]:
            try:
                read = case_of_text(case.text, case.label, overrides_of(axes, values))
            except CaseError:
                continue
            for name in names:
                value = nominal(case, read, name)
                found[name][place] = np.nan if value is None else value
            break
    return found
