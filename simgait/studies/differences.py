"""Differences between settings under errors of measurement, draw by draw."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pandas as pd

LEAST_DRAWS = 20  # pairs under which no interval is given
SURE = 0.95  # [1] of the intervals


def paired_differences(
    table: pd.DataFrame, settings: Sequence[str], base: Sequence[object], measures: Sequence[str]
) -> pd.DataFrame:
    """Return what each setting changes against a base, over draws that both share.

    One row for each setting and measure:

    * ``difference``: mean over the draws; ``low``, ``high``: its central 95 per cent over the
      draws, so what the change is for a wearer whose numbers are known only so well;
    * ``sign_kept``: share of the draws in which the change has the mean's sign;
    * ``unknown``: half of the central 95 per cent of the measure itself over the draws at the base:
      how far off it may be because the numbers are known only so well;
    * ``distinguishable``: whether the change is larger than that;
    * ``pairs``: draws in which both gave a number.

    table: rows with ``draw``, the columns of ``settings`` and the measures; settings: names that
    make up a setting; base: their values at the base; measures: names.

    Raises:
        KeyError: a column is missing.
        ValueError: the base is not among the settings.
    """
    keys = [*settings]
    groups = {
        key if isinstance(key, tuple) else (key,): group.set_index("draw")
        for key, group in table.groupby(keys, sort=False)
    }
    if tuple(base) not in groups:
        raise ValueError(f"no rows with {dict(zip(settings, base, strict=True))}")
    start = groups[tuple(base)]
    rows = [
        {**dict(zip(settings, key, strict=True)), "measure": name, **_change(start, group, name)}
        for key, group in groups.items()
        if key != tuple(base)
        for name in measures
    ]
    return pd.DataFrame(rows)


def _change(start: pd.DataFrame, group: pd.DataFrame, name: str) -> dict[str, object]:
    """Return the change of one measure between two groups of rows with the draw as index."""
    pairs = pd.concat((start[name], group[name]), axis=1, join="inner").dropna().to_numpy()
    nothing: dict[str, object] = {
        "difference": np.nan,
        "low": np.nan,
        "high": np.nan,
        "sign_kept": np.nan,
        "unknown": np.nan,
        "distinguishable": False,
        "pairs": len(pairs),
    }
    if len(pairs) < LEAST_DRAWS:
        return nothing
    change = pairs[:, 1] - pairs[:, 0]
    tails = ((1.0 - SURE) / 2.0, (1.0 + SURE) / 2.0)
    mean = float(change.mean())
    low, high = np.quantile(change, tails)
    first, last = np.quantile(pairs[:, 0], tails)
    unknown = float(last - first) / 2.0
    return nothing | {
        "difference": mean,
        "low": float(low),
        "high": float(high),
        "sign_kept": float(np.mean(np.sign(change) == np.sign(mean))),
        "unknown": unknown,
        "distinguishable": bool(abs(mean) > unknown),
    }
