"""A smooth stand-in for the search: how a wearer adapts as a quadratic of the alignment.

Fitted by least squares to the adaptations of a sample of alignments; then thousands of alignments
are adapted without solving each.  What it is off by is known from leaving out one after the other.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from simgait.alignment import Alignment
from simgait.arrays import Array, Flags
from simgait.errors import refuse
from simgait.limb import Limb, as_many
from simgait.stance.adapting import Adaptation, adaptation, with_moved
from simgait.stance.kept_walk import KeptWalk
from simgait.units import degrees_from_radians

NAMES = tuple(field.name for field in fields(Alignment))
SPARE = 1.5  # alignments that must walk for each coefficient, lest the fit only repeat them
SIZES = {
    "foot_forward": 0.01,
    "dorsiflexion": 0.05,
    "socket_flexion": 0.05,
    "length_change": 0.01,
    "heel_rise": 0.01,
}  # [m or rad] so that all numbers of a fit are near one


@dataclass(frozen=True, kw_only=True, eq=False)
class AdaptationModel:
    """How a wearer adapts as a quadratic of the differences from the walk's own alignment.

    At that alignment it gives nothing, as the search does.
    """

    own: Alignment
    names: tuple[str, ...]  # of the alignment values that the sample varies
    low: Array  # [names] m or rad, the sample's least differences from the own alignment
    high: Array
    coefficients: Array  # [terms, UNKNOWNS] rad
    error: Array  # [UNKNOWNS] rad, root mean square, each sample left out in turn
    largest_error: Array  # [UNKNOWNS] rad
    fitted_to: int  # alignments

    def off(self, alignment: Alignment) -> Array:
        """Return how far alignments are from the own one [runs, names] [m or rad]."""
        return off_from(self.own, alignment, self.names)

    def unknowns(self, alignment: Alignment) -> Array:
        """Return how the wearer adapts to each alignment [runs, UNKNOWNS] [rad].

        alignment: one, or many.
        """
        return np.asarray(terms(self.off(alignment), self.names) @ self.coefficients)

    def covers(self, alignment: Alignment) -> Flags:
        """Return which alignments lie within the sample's spans [runs]: beyond is a guess."""
        off = self.off(alignment)
        rest = tuple(name for name in NAMES if name not in self.names)
        inside = np.logical_and.reduce(((off >= self.low) & (off <= self.high)).T)
        same = np.logical_and.reduce((off_from(self.own, alignment, rest) == 0.0).T)
        return np.asarray(inside & same)

    def applied(self, limb: Limb) -> Limb:
        """Return a limb, of one run or of many, with its wearer adapted by the quadratic."""
        return with_moved(limb, self.unknowns(limb.alignment))

    def error_as_written(self) -> dict[str, float]:
        """Return the root mean square error of each unknown [deg]."""
        names = ("hip_deg", "hip_linear_deg", "knee_deg", "knee_linear_deg")
        return {
            name: degrees_from_radians(float(value))
            for name, value in zip(names, self.error, strict=True)
        }


def off_from(own: Alignment, alignment: Alignment, names: tuple[str, ...]) -> Array:
    """Return how far alignments are from one [runs, names] [m or rad]."""
    columns = [np.atleast_1d(getattr(alignment, name)) - getattr(own, name) for name in names]
    runs = max(np.size(getattr(alignment, name)) for name in NAMES)
    return np.array(columns).T if columns else np.zeros((runs, 0))


def terms(off: Array, names: tuple[str, ...]) -> Array:
    """Return the linear and quadratic terms of differences from an alignment [runs, terms] [1].

    off: [runs, names] [m or rad].

    >>> terms(np.array([[0.02, 0.1]]), ("foot_forward", "dorsiflexion")).tolist()
    [[2.0, 2.0, 4.0, 4.0, 4.0]]
    """
    x = off / np.array([SIZES[name] for name in names])
    first, second = np.triu_indices(len(names))
    return np.concatenate((x, x[:, first] * x[:, second]), axis=1)


def adaptation_model(limb: Limb, kept: KeptWalk) -> AdaptationModel:
    """Return the quadratic fitted to how the wearer adapts to the alignments of a limb of many.

    Alignments at which nobody walks with the strategy kept are left out.  The error is that of
    predicting each alignment from all others, e / (1 - h) with h the diagonal of the hat matrix.

    limb: about 100 alignments, as they lie in the space to be covered; kept: of one run.

    Raises:
        RangeError: a limb cannot be built, or too few of them walk for the terms to be told.
    """
    refuse(kept.walk.ndim > 1, "a quadratic needs one walk that is kept")
    limb = as_many(limb)
    return fitted_model(limb.alignment, kept.alignment, adaptation(limb, kept))


def fitted_model(alignment: Alignment, own: Alignment, found: Adaptation) -> AdaptationModel:
    """Return the quadratic fitted to adaptations that were found; see `adaptation_model`."""
    off = off_from(own, alignment, NAMES)[found.walks]
    varied = [k for k in range(len(NAMES)) if np.ptp(off[:, k], axis=0) > 0.0] if len(off) else []
    names = tuple(NAMES[k] for k in varied)
    off, wanted = off[:, varied], found.unknowns[found.walks]
    columns = terms(off, names)
    count = columns.shape[1]
    refuse(
        not count or len(off) < SPARE * count or np.linalg.matrix_rank(columns) < count,
        f"{len(off)} alignments that walk are too few, or too alike, for {count} coefficients",
    )
    coefficients, *_ = np.linalg.lstsq(columns, wanted, rcond=None)
    orthogonal, _ = np.linalg.qr(columns)
    left = 1.0 - (orthogonal * orthogonal).sum(axis=1, keepdims=True)
    errors = (wanted - columns @ coefficients) / np.maximum(left, 1e-9)
    return AdaptationModel(
        own=own,
        names=names,
        low=off.min(axis=0),
        high=off.max(axis=0),
        coefficients=np.asarray(coefficients, dtype=np.float64),
        error=np.sqrt((errors * errors).mean(axis=0)),
        largest_error=np.abs(errors).max(axis=0),
        fitted_to=len(off),
    )
