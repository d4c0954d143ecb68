"""The trade-off front: runs that no other run beats in every goal at once."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from simgait.arrays import Array
from simgait.studies.wishes import Sense


def shortfalls(table: pd.DataFrame, goals: Mapping[str, Sense]) -> Array:
    """Return how far each run is from each goal, less being better [rows, goals].

    goals: by measure: "low", "high", or the value to be near to, in the measure's unit.

    >>> runs = pd.DataFrame({"a": [1.0, 2.0], "b": [3.0, 5.0]})
    >>> shortfalls(runs, {"a": "high", "b": 4.0}).tolist()
    [[-1.0, 1.0], [-2.0, 1.0]]
    """
    columns = []
    for name, sense in goals.items():
        values = table[name].to_numpy(dtype=np.float64)
        if sense == "low":
            columns.append(values)
        elif sense == "high":
            columns.append(-values)
        else:
            columns.append(np.abs(values - sense))
    return np.stack(columns, axis=-1)


def on_front(costs: Array) -> NDArray[np.bool_]:
    """Return which rows no other row beats: at most as much in every column, and less in one.

    Equal rows are all kept; a row with NaN is not on the front, and beats none.

    costs: [rows, goals], less being better.

    >>> on_front(np.array([[0.0, 2.0], [1.0, 1.0], [1.0, 3.0]])).tolist()
    [True, True, False]
    """
    kept = np.zeros(len(costs), dtype=np.bool_)
    good = np.flatnonzero(np.isfinite(costs).all(axis=1))
    order = good[np.lexsort(costs[good].T[::-1])]  # who beats a row comes before it
    front = np.empty((0, costs.shape[1]))
    for row in order:
        cost = costs[row]
        beaten = np.any(np.all(front <= cost, axis=1) & np.any(front < cost, axis=1))
        if not beaten:
            kept[row] = True
            front = np.vstack((front, cost))
    return kept


def trade_off(table: pd.DataFrame, goals: Mapping[str, Sense]) -> pd.DataFrame:
    """Return the rows of a table on the front between two or three goals, by the first goal.

    goals: by measure: "low", "high", or the value to be near to, in the measure's unit.

    Raises:
        KeyError: the table has no such measure.
        ValueError: there are fewer than two goals, or more than three.
    """
    if not 2 <= len(goals) <= 3:
        raise ValueError(f"a front lies between two or three goals, not {len(goals)}")
    costs = shortfalls(table, goals)
    kept = on_front(costs)
    return table[kept].iloc[np.argsort(costs[kept][:, 0], kind="stable")]
