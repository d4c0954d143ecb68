"""A grid's rows gathered into cells: the mean of each measure, and how many runs ended badly."""

from __future__ import annotations

from collections.abc import Sequence

import pandas as pd

from simgait.studies.study import AIM

GOOD = "toe_off"


def cells_of(
    table: pd.DataFrame, axes: Sequence[str], measures: Sequence[str], by: Sequence[str] = ()
) -> pd.DataFrame:
    """Return one row for each combination of values of axes and `by` that occurs.

    Columns: those names; each measure, its mean over the runs that gave a number (NaN if none
    did); ``runs``; ``bad``, the share of them that did not end with toe-off [1]; ``ending``, the
    commonest of the other endings, "" if there is none.  Values before their error are used where
    an axis has one.  Whatever else varies is averaged over.

    Raises:
        KeyError: a column is missing.

    >>> rows = pd.DataFrame({"x": [1.0, 1.0], "y": [2.0, 2.0], "m": [4.0, float("nan")],
    ...                      "ending": ["toe_off", "foot_slipped"]})
    >>> cells_of(rows, ["x", "y"], ["m"])
         x    y    m  runs  bad        ending
    0  1.0  2.0  4.0     2  0.5  foot_slipped
    """
    names = [*by, *axes]
    aimed = {
        name: table[f"{name}{AIM}" if f"{name}{AIM}" in table else name].reset_index(drop=True)
        for name in names
    }
    frame = pd.DataFrame(aimed)
    for name in measures:
        frame[name] = table[name].to_numpy()
    endings = table["ending"].astype(str).to_numpy()
    frame["_ending"] = pd.Series(endings).where(endings != GOOD)
    groups = frame.groupby(names, sort=False, observed=True)
    found = groups[[*measures]].mean()
    found["runs"] = groups.size()
    found["bad"] = groups["_ending"].count() / found["runs"]
    found["ending"] = groups["_ending"].agg(_commonest)
    return found.reset_index()


def _commonest(endings: pd.Series[str]) -> str:
    """Return the commonest ending; of equals the first in the alphabet; "" if there is none."""
    counted = endings.dropna().value_counts()
    return min(counted[counted == counted.max()].index, default="")
