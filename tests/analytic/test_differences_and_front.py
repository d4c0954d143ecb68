"""Differences under errors and trade-off fronts, against what is known of made-up tables."""

from __future__ import annotations

import math

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from simgait.studies.differences import paired_differences
from simgait.studies.front import on_front, shortfalls, trade_off


def made_up(change: float, common: float, own: float, draws: int = 4000) -> pd.DataFrame:
    """Two settings 0 and 1; both share an error of spread `common`, each has its `own`."""
    rng = np.random.default_rng(1)
    shared = common * rng.standard_normal(draws)
    parts = [
        pd.DataFrame(
            {
                "shift": float(setting),
                "draw": np.arange(draws),
                "m": 10.0 + change * setting + shared + own * rng.standard_normal(draws),
            }
        )
        for setting in (0, 1)
    ]
    return pd.concat(parts, ignore_index=True)


def test_what_both_share_falls_out_of_the_difference() -> None:
    (row,) = paired_differences(made_up(1.0, 5.0, 0.1), ["shift"], [0.0], ["m"]).to_dict("records")
    # normal, by hand: the difference spreads by 0.1 √2, the measure itself by 5
    half = 1.96 * 0.1 * math.sqrt(2.0)
    assert row["difference"] == pytest.approx(1.0, abs=0.01)
    assert (row["low"], row["high"]) == pytest.approx((1.0 - half, 1.0 + half), abs=0.02)
    assert row["unknown"] == pytest.approx(1.96 * 5.0, rel=0.05)
    assert row["sign_kept"] == 1.0
    assert not row["distinguishable"]


def test_a_change_beyond_what_is_unknown_is_distinguishable() -> None:
    table = made_up(1.0, 0.4, 0.1)
    (row,) = paired_differences(table, ["shift"], [0.0], ["m"]).to_dict("records")
    assert row["distinguishable"]
    (row,) = paired_differences(made_up(0.0, 0.4, 0.1), ["shift"], [0.0], ["m"]).to_dict("records")
    assert not row["distinguishable"] and 0.45 < row["sign_kept"] < 0.55


def test_draws_without_a_number_leave_the_pair_out() -> None:
    table = made_up(1.0, 0.0, 0.0, draws=50)
    table.loc[3, "m"] = np.nan
    table.loc[60, "m"] = np.nan
    (row,) = paired_differences(table, ["shift"], [0.0], ["m"]).to_dict("records")
    assert row["pairs"] == 48
    few = made_up(1.0, 0.0, 0.0, draws=10)
    (row,) = paired_differences(few, ["shift"], [0.0], ["m"]).to_dict("records")
    assert row["pairs"] == 10 and math.isnan(row["difference"]) and not row["distinguishable"]


def test_an_unknown_base_is_refused() -> None:
    with pytest.raises(ValueError, match=r"shift.*7"):
        paired_differences(made_up(1.0, 0.0, 0.0), ["shift"], [7.0], ["m"])


numbers = st.integers(0, 4).map(float) | st.just(float("nan"))


@given(st.lists(st.tuples(numbers, numbers, numbers), min_size=1, max_size=30))
def test_the_front_is_what_comparing_all_pairs_says(rows: list[tuple[float, ...]]) -> None:
    costs = np.array(rows)
    expected = [
        all(math.isfinite(x) for x in row)
        and not any(
            all(o <= r for o, r in zip(other, row, strict=True)) and tuple(other) != tuple(row)
            for other in rows
            if all(math.isfinite(x) for x in other)
        )
        for row in rows
    ]
    assert on_front(costs).tolist() == expected


def test_goals_have_a_sense() -> None:
    table = pd.DataFrame({"a": [1.0, 2.0, 3.0], "b": [3.0, 2.0, 1.5], "c": [0.0, 0.5, 1.0]})
    assert list(trade_off(table, {"a": "low", "b": "high"}).index) == [0]
    assert list(trade_off(table, {"a": "low", "b": "low"}).index) == [0, 1, 2]
    assert list(trade_off(table, {"a": "high", "b": "high"}).index) == [2, 1, 0]
    assert shortfalls(table, {"c": 0.5})[:, 0].tolist() == [0.5, 0.0, 0.5]
    with pytest.raises(ValueError, match="two or three"):
        trade_off(table, {"a": "low"})
