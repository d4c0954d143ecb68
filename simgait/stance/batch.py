"""Many runs as columns side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from simgait.arrays import Array
from simgait.limb import Limb, limb_columns


@dataclass(frozen=True, kw_only=True, eq=False)
class Batch:
    """The columns of many runs [runs, rows]."""

    parameter: Array
    sole: Array
    reference: Array
    state: Array

    def __len__(self) -> int:
        return len(self.parameter)

    def part(self, chosen: NDArray[np.intp]) -> Batch:
        """Return the chosen runs (indices) as a batch of their own."""
        return Batch(
            parameter=self.parameter[chosen],
            sole=self.sole[chosen],
            reference=self.reference[chosen],
            state=self.state[chosen],
        )


def batch_of_many(limb: Limb) -> Batch:
    """Return the columns of a limb that stands for many runs (see `simgait.arrays`).

    Raises:
        RangeError: some of the runs cannot be built; its `rows` say which.
    """
    columns = limb_columns(limb)
    return Batch(
        parameter=columns.parameter.T,
        sole=columns.sole.T,
        reference=columns.reference.T,
        state=columns.state.T,
    )


def batch_of(limbs: Sequence[Limb]) -> Batch:
    """Return the columns of several limbs, one row a limb."""
    columns = [limb_columns(limb) for limb in limbs]
    return Batch(
        parameter=np.array([c.parameter for c in columns]),
        sole=np.array([c.sole for c in columns]),
        reference=np.array([c.reference for c in columns]),
        state=np.array([c.state for c in columns]),
    )
