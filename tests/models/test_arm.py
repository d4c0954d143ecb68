"""What an arm's case must show: directions, feasible positions, remedies, lengths."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest

from simgait.arm.lengths import level_moment
from simgait.arm.reaching import longest_change, mouth_distance, reaches
from simgait.arm.remedies import Fitted, fitting, steps_for
from simgait.arm.result import ArmResult, Position
from simgait.arm.running import grid, work_arm
from simgait.case.arm_case import ArmCase, read_arm_case
from simgait.library import models_folder
from simgait.library.arms import read_arm_habit

FOLDER = models_folder() / "cases" / "arms"
CASES = sorted(path.stem for path in FOLDER.glob("*.toml"))
ABOVE = ("above-elbow", "shoulder-level")


@cache
def case_of(name: str) -> ArmCase:
    return read_arm_case(FOLDER / f"{name}.toml")


@cache
def result_of(name: str) -> ArmResult:
    return work_arm(case_of(name), draws=200)


def with_harness(name: str, **changed: float) -> ArmCase:
    case = case_of(name)
    return replace(case, harness=replace(case.harness, **changed))


def test_there_is_a_case_of_every_level_and_it_says_that_it_is_invented() -> None:
    assert {case_of(name).arm.level for name in CASES} == {"forearm", "upper_arm", "shoulder"}
    assert all("(invented)" in case_of(name).title for name in CASES)
    assert all("invented case" in (FOLDER / f"{name}.toml").read_text() for name in CASES)


@pytest.mark.parametrize("name", ABOVE)
def test_a_loop_farther_out_pulls_lighter_and_farther(name: str) -> None:
    rows = result_of(name).positions
    for inner, outer in pairwise(rows):
        assert outer.loop > inner.loop
        assert outer.peak_pull < inner.peak_pull
        assert outer.pull_at_right_angle < inner.pull_at_right_angle
        assert outer.excursion > inner.excursion
        assert outer.excursion_left < inner.excursion_left
    assert result_of(name).front == tuple(range(len(rows)))


@pytest.mark.parametrize("name", CASES)
def test_a_longer_arm_reaches_farther_and_is_harder_to_hold(name: str) -> None:
    rows = sorted(result_of(name).lengths, key=lambda row: row.change)
    assert len(rows) > 2
    for short, long in pairwise(rows):
        assert long.reach > short.reach
        assert long.reach_lost < short.reach_lost
        assert long.shoulder_moment > short.shoulder_moment
        assert long.inertia > short.inertia
        assert long.slowest_swing > short.slowest_swing
        if long.brim_force is not None:
            assert long.brim_force > short.brim_force


@pytest.mark.parametrize("name", ABOVE)
def test_flags_follow_from_pull_and_excursion(name: str) -> None:
    case, rows = case_of(name), result_of(name).positions
    harness, cable = case.harness, case.cable
    if not harness.excursions:
        for row in rows:
            needs = row.excursion + cable.device_excursion * cable.pulley
            fits = row.peak_pull <= harness.max_pull and needs <= harness.max_excursion
            assert row.feasible is bool(fits)
            tireless = row.peak_pull <= harness.fatigue_free_share * harness.max_pull
            assert row.fatigue_free is bool(fits and tireless)
    assert 0 < sum(row.feasible for row in rows) < len(rows)


@pytest.mark.parametrize("name", ABOVE)
def test_the_recommended_position_is_feasible_and_balanced(name: str) -> None:
    result = result_of(name)
    best = result.positions[result.recommended]
    assert best.feasible and not best.opens_while_lifting
    assert min(best.margins.values()) >= 0.0
    assert result.binding == ()
    assert 0.0 < result.stands_share <= 1.0


@pytest.mark.parametrize("excursion", [0.105, 0.13, 0.2])
def test_no_eligible_position_has_a_larger_smallest_margin(excursion: float) -> None:
    case = with_harness("above-elbow", max_excursion=excursion)
    result = work_arm(case, draws=0)

    def smallest(row: Position) -> float:
        tiring = 1.0 - row.peak_pull / case.harness.fatigue_free_pull
        return min(tiring, row.margins["excursion"], row.margins["device_excursion"])

    eligible = [row for row in result.positions if row.fatigue_free and not row.opens_while_lifting]
    best = max(eligible, key=smallest)
    assert result.positions[result.recommended] is best
    if excursion > 0.15:
        assert len(eligible) > 10 and best.loop not in (eligible[0].loop, eligible[-1].loop)


@pytest.mark.parametrize("name", ABOVE)
def test_all_ledgers_close(name: str) -> None:
    assert max(row.ledger.error_percent for row in result_of(name).positions) < 0.1


def test_nothing_fits_says_what_binds_and_what_would_help() -> None:
    case = with_harness("above-elbow", max_pull=85.0, max_excursion=0.082)
    result = work_arm(case, draws=50)
    assert result.recommended is None and result.stands_share is None
    assert {row.limit for row in result.binding} == {
        "pull", "excursion", "device_excursion",
    }  # fmt: skip
    assert all(row.positions > 0 and row.least_excess >= 0.0 for row in result.binding)
    assert {row.wanted for row in result.remedies} == {"feasible"}
    names = [row.name for row in result.remedies]
    assert names == [
        "lift_assist", "lighter_device", "shorter_forearm", "better_housing", "two_to_one_pulley",
        "less_device_travel",
    ]  # fmt: skip
    for row in result.remedies:
        assert row.peak_pull_change < 0.0 or row.name == "less_device_travel"
        if row.name != "two_to_one_pulley":
            assert row.excursion_change == 0.0
    assert next(r for r in result.remedies if r.name == "two_to_one_pulley").excursion_change > 0.0
    assert any(row.needed is not None for row in result.remedies)


def test_the_needed_change_is_just_enough() -> None:
    case = with_harness("above-elbow", max_pull=85.0, max_excursion=0.082)
    guides, loops = grid(case)
    start = Fitted(arm=case.arm, cable=case.cable, harness=case.harness, guide=guides, loop=loops)
    steps = {step.name: step for step in steps_for(start, read_arm_habit().forearm_step)}
    tried = 0
    for row in work_arm(case, draws=0).remedies:
        if row.needed is None or row.name == "two_to_one_pulley":
            continue
        made = steps[row.name].made
        assert fitting(made(start, row.needed), 1.0).any()
        assert not fitting(made(start, row.needed * 0.99), 1.0).any()
        tried += 1
    assert tried > 0


def test_where_all_tire_the_remedies_say_so() -> None:
    assert {row.wanted for row in result_of("shoulder-level").remedies} == {"fatigue_free"}
    assert result_of("above-elbow").remedies == ()


def test_if_every_position_works_the_device_one_is_recommended_all_the_same() -> None:
    case = case_of("above-elbow")
    soft = replace(case, cable=replace(case.cable, device_pull=5.0, device_start_pull=5.0))
    result = work_arm(soft, draws=0)
    assert all(row.opens_while_lifting for row in result.positions)
    assert result.positions[result.recommended].feasible


def test_a_cable_over_the_axis_is_reported_by_name() -> None:
    case = case_of("above-elbow")
    behind = replace(case, cable=replace(case.cable, guide_offset=-0.04, loop_offset=-0.02))
    result = work_arm(behind, draws=0)
    over = [row for row in result.positions if row.turns_over is not None]
    assert over and not any(row.feasible for row in over)
    for row in over:
        lean = math.atan2(-0.04, row.guide) + math.atan2(-0.02, row.loop)
        assert row.turns_over == pytest.approx(-lean)
        assert math.isnan(row.peak_pull) and row.margins["pull"] == -math.inf
    assert "axis" in {each.limit for each in result.binding} or result.recommended is not None


def test_an_assist_lightens_the_pull_and_leaves_the_travel() -> None:
    case = case_of("above-elbow")
    helped = replace(case, cable=replace(case.cable, assist=(0.3,), assist_at=(0.0,)))
    for with_it, without in zip(
        work_arm(helped, draws=0).positions, result_of("above-elbow").positions, strict=True
    ):
        assert with_it.peak_pull < without.peak_pull
        assert with_it.excursion == without.excursion


def test_guides_are_searched_with_every_loop() -> None:
    case = replace(case_of("shoulder-level"), guides=(0.06, 0.09))
    rows = work_arm(case, draws=0).positions
    assert [(row.guide, row.loop) for row in rows] == [
        (guide, loop) for guide in case.guides for loop in case.loops
    ]


# ---- lengths ------------------------------------------------------------------------------------


def test_the_recommended_length_keeps_within_the_capacity_and_loses_least() -> None:
    result = result_of("shoulder-level")
    best = result.lengths[result.recommended_length]
    assert best.within_capacity
    longer = [row for row in result.lengths if row.change > best.change]
    assert longer and not any(row.within_capacity for row in longer)
    assert best.change <= result.longest_change


def test_the_longest_forearm_just_meets_the_capacity() -> None:
    case = case_of("shoulder-level")
    change = longest_change(case)
    assert level_moment(case.arm.with_forearm(change)) == pytest.approx(
        case.harness.max_shoulder_moment, rel=1e-9
    )
    assert longest_change(with_harness("shoulder-level", max_shoulder_moment=50.0)) == 0.0
    assert longest_change(with_harness("shoulder-level", max_shoulder_moment=0.2)) is None


def test_shortening_by_38_mm_changes_what_it_must() -> None:
    rows = {round(1000.0 * row.change): row for row in result_of("shoulder-level").lengths}
    given, short = rows[0], rows[-38]
    assert given.reach - short.reach == pytest.approx(0.038)
    case = case_of("shoulder-level")
    shell = case.arm.forearm_mass * 0.038 / case.arm.forearm
    assert case.arm.with_forearm(-0.038).forearm_mass == pytest.approx(
        case.arm.forearm_mass - shell
    )
    assert case.arm.with_forearm(-0.038).device_mass == case.arm.device_mass


def test_reach_to_the_mouth_is_lost_both_ways() -> None:
    case = case_of("above-elbow")
    wanted = mouth_distance(read_arm_habit(), case.person.stature)
    assert reaches(case.arm, wanted)
    stiff = replace(case.arm, flexion_to=math.radians(90.0))
    assert not reaches(stiff, wanted)
    stub = replace(case.arm, upper_arm=0.12, forearm=0.05, forearm_centre=0.02,
                   device_centre=0.06, tip=0.08)  # fmt: skip
    assert not reaches(stub, wanted)


def test_a_forearm_level_arm_has_a_device_and_lengths_but_no_elbow_to_lift() -> None:
    result = result_of("forearm-level")
    assert result.positions == () and result.recommended is None
    assert result.device.peak_pull > result.cable.device_pull
    assert np.all(result.device.pull > result.device.return_pull)
    assert len(result.lengths) == 3
