"""The one array type of the project, and arithmetic that one number and many share.

A limb may stand for many runs: a field then holds an array, one entry a run, where one run has a
number (`many`).  Every formula on the way is arithmetic that gives an entry of an array the same
last digit as a number alone: + - * / and roots, which are rounded as IEEE 754 says, sine and cosine
by the physics' own polynomials, and otherwise `each`.  numpy's own sine, powers and sums are not:
what they round to may depend on how many numbers they take at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TypeAlias, cast

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
Flags: TypeAlias = NDArray[np.bool_]


def many(values: Array) -> float:
    """Return the values of many runs, typed as the one number in whose place they stand.

    values: one entry a run [any unit].

    >>> many(np.array([1.0, 2.0])) * 2.0
    array([2., 4.])
    """
    return cast(float, values)


def is_many(value: float) -> bool:
    """Return whether a number stands for many runs.

    >>> is_many(1.0), is_many(many(np.zeros(3)))
    (False, True)
    """
    return getattr(value, "ndim", 0) > 0


def each(function: Callable[[float], float], value: float) -> float:
    """Return a function of a number, or of each of many, by the same call of the C library.

    function: of one number; value: [unit that it takes].

    >>> each(math.atan, many(np.array([0.0, 1.0]))) == np.array([0.0, math.atan(1.0)])
    array([ True,  True])
    """
    if not is_many(value):
        return function(value)
    entries: list[float] = cast(Array, value).tolist()
    return many(np.array([function(entry) for entry in entries]))


def root(value: float) -> float:
    """Return the square root of a number, or of each of many; correctly rounded [unit^(1/2)]."""
    return many(np.sqrt(value)) if is_many(value) else math.sqrt(value)


def whole_power(value: float, exponent: int) -> float:
    """Return value^exponent, exponent >= 1, by repeated multiplication [unit^exponent].

    >>> whole_power(3.0, 4)
    81.0
    """
    result = value
    for _ in range(exponent - 1):
        result = result * value
    return result


def beside(column: Array, value: float) -> Array:
    """Return a column so shaped that it meets a number, or many, entry by entry.

    column: [n]; value: a number, or many [runs].  With many, the product of both is [n, runs].

    >>> (beside(np.arange(3.0), many(np.ones(2))) * np.ones(2)).shape
    (3, 2)
    """
    return column.reshape(-1, 1) if is_many(value) else column
