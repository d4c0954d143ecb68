"""Runs that end normally and are still no walk to aim for are told as such."""

from __future__ import annotations

from dataclasses import replace

import pytest

from simgait.case import read_case
from simgait.library import models_folder
from simgait.stance import StanceResult, compare, simulate_stance
from simgait.stance.comparing import doubts
from walkers import WEARERS, aligned, walker


def stance_with(**changes: float) -> StanceResult:
    return simulate_stance(aligned(walker("steady-transtibial"), **changes))


@pytest.mark.parametrize("name", WEARERS)
def test_a_calibrated_walk_has_no_remarks(name: str) -> None:
    assert simulate_stance(walker(name)).remarks == ()


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"foot_forward": 0.050}, "back beyond straight"),
        ({"foot_forward": 0.050}, "levers on the limb"),
        ({"foot_forward": -0.050}, "drops hard"),
        ({"length_change": -0.040}, "-40 mm from level with the sound side"),
        ({"length_change": 0.025}, "+25 mm from level with the sound side"),
        ({"heel_rise": 0.030}, "+30 mm from what the foot is built for"),
    ],
)
def test_an_extreme_alignment_is_remarked_on(changes: dict[str, float], told: str) -> None:
    result = stance_with(**changes)
    assert result.ending == "toe_off"
    assert told in "; ".join(result.remarks)


def test_a_length_that_is_often_tried_is_not_remarked_on() -> None:
    assert not any("level" in remark for remark in stance_with(length_change=0.020).remarks)


def test_a_bad_end_is_remarked_on() -> None:
    result = simulate_stance(replace(walker("steady-transtibial"), friction=0.05))
    assert result.ending != "toe_off"
    assert result.ending.replace("_", " ") in result.remarks[-1]


def test_doubted_runs_are_named_in_the_cautions() -> None:
    assert doubts([]) == ()
    assert doubts(["2"])[0].startswith("Run 2:")
    case = read_case(models_folder() / "cases" / "everyday.toml")
    far = aligned(walker("steady-transtibial"), foot_forward=0.05).alignment
    cautions = compare(replace(case, settings=(case.baseline, far), baseline_index=0)).cautions
    assert cautions[-1].startswith("Run 2:")
