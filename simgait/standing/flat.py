"""Flat arrays for the plain equations of standing.

Plain Python reads its own lists some four times as fast as it reads numpy's arrays; the equations
only index them. To the rest of the program both are arrays.
"""

from __future__ import annotations

from typing import cast

from simgait.arrays import Array


def flat(rows: int) -> Array:
    """Return a flat array of nothing, as long as it is told.

    >>> flat(2)
    [0.0, 0.0]
    """
    return cast("Array", [0.0] * rows)
