"""The draws behind a report's spans: paired, repeatable, and counted where they cannot be."""

from __future__ import annotations

import numpy as np
import pandas as pd
import pytest

from simgait.case import read_case
from simgait.library import models_folder
from simgait.stance.uncertainty import LEVELS, drawn_measures, spread_of, usual_errors
from simgait.studies.differences import paired_differences

EVERYDAY = models_folder() / "cases" / "everyday.toml"
KNEE = "knee_flexion_moment_peak_nm_kg"


def test_an_alignment_differs_from_itself_in_no_draw() -> None:
    case = read_case(EVERYDAY)
    drawn = drawn_measures(case, [case.baseline, case.baseline], [KNEE], 50, 1)
    spread = drawn.spread(KNEE, 0, 1)
    assert (spread.difference, spread.low, spread.high) == (0.0, 0.0, 0.0)
    assert spread.unknown > 0.0
    assert not spread.told_apart


def test_the_same_seed_gives_the_same_draws_and_another_seed_others() -> None:
    case = read_case(EVERYDAY)
    first, again, other = (
        drawn_measures(case, [case.baseline], [KNEE], 50, seed).values[KNEE] for seed in (4, 4, 5)
    )
    assert np.array_equal(first, again)
    assert not np.array_equal(first, other)


def test_draws_without_errors_would_be_the_run_itself(monkeypatch: pytest.MonkeyPatch) -> None:
    from simgait.stance import compare, uncertainty

    none = dict.fromkeys(vars(usual_errors()), 0.0)
    monkeypatch.setattr(uncertainty, "usual_errors", lambda: uncertainty.Errors(**none))
    case = read_case(EVERYDAY)
    drawn = drawn_measures(case, case.alignments(), [KNEE], LEVELS, 1)
    alone = [result.measures[KNEE] for result in compare(case).results]
    assert drawn.values[KNEE] == pytest.approx(np.repeat(np.array(alone)[:, None], LEVELS, axis=1))


def test_spreads_are_those_of_a_study_of_the_same_numbers() -> None:
    rng = np.random.default_rng(1)
    start = rng.normal(5.0, 1.0, 200)
    end = start + rng.normal(0.3, 0.1, 200)
    end[::17] = np.nan
    table = pd.DataFrame(
        {
            "draw": np.tile(np.arange(200), 2),
            "setting": np.repeat([0.0, 1.0], 200),
            "value": np.concatenate((start, end)),
        }
    )
    (row,) = paired_differences(table, ["setting"], [0.0], ["value"]).to_dict("records")
    found = spread_of(start, end)
    assert (found.difference, found.low, found.high, found.unknown, found.pairs) == pytest.approx(
        (row["difference"], row["low"], row["high"], row["unknown"], row["pairs"])
    )


def test_a_change_is_told_apart_only_if_sure_and_large() -> None:
    start = np.linspace(-1.0, 1.0, 101)
    large, small, unsure = start + 2.0, start + 0.1, start + np.where(np.arange(101) % 2, 4.0, -0.1)
    assert spread_of(start, large).told_apart
    assert spread_of(start, small).sense_sure
    assert not spread_of(start, small).told_apart
    assert not spread_of(start, unsure).told_apart
    assert not spread_of(start[:19], large[:19]).known


def test_draws_out_of_range_are_counted_and_not_taken_for_numbers() -> None:
    case = read_case(EVERYDAY, {"alignment.foot_forward_mm": "60"})
    drawn = drawn_measures(case, [case.baseline], [KNEE], 400, 1)
    assert drawn.asked == 400
    assert 140 < drawn.not_built[0] < 260  # half of the errors lead beyond 60 mm
    assert np.isnan(drawn.values[KNEE]).sum() >= drawn.not_built[0]
