"""What every simple machine must obey: work, balance, limits; the formulas by another way."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from simgait.errors import RangeError
from simgait.levers import (
    Ledger,
    LeverClass,
    Machine,
    Weight,
    block_efficiency,
    compound,
    effort_to_hold,
    gear_ratio,
    holds_by_itself,
    lever_advantage,
    lever_class,
    pivot_force,
    pulley_advantage,
    pulley_effort,
    ramp_advantage,
    ramp_efficiency,
    screw_advantage,
    screw_efficiency,
    support_force,
    train_ratio,
    wedge_advantage,
    wheel_advantage,
    work_ledger,
)

ARMS = st.floats(0.01, 10.0)
FORCES = st.floats(0.1, 1000.0)
SHARES = st.floats(0.05, 1.0)
MACHINES = st.builds(Machine, motion_ratio=st.floats(0.1, 10.0), efficiency=SHARES)
WEIGHTS = st.lists(st.builds(Weight, force=FORCES, arm=st.floats(-3.0, 3.0)), min_size=1)


@given(MACHINES, FORCES, ARMS)
def test_work_in_is_work_out_and_loss(machine: Machine, load: float, travel: float) -> None:
    entry = work_ledger(machine, load, travel)
    assert entry.work_in == pytest.approx(machine.effort(load) * machine.effort_travel(travel))
    assert entry.work_in == pytest.approx(load * travel + entry.loss)
    assert entry.efficiency == pytest.approx(machine.efficiency)
    assert entry.loss == pytest.approx((1.0 / machine.efficiency - 1.0) * load * travel, abs=1e-9)


@given(st.lists(MACHINES, min_size=1, max_size=3), st.floats(0.1, 50.0), st.floats(0.001, 0.1))
def test_a_chain_of_machines_is_one_after_the_other(
    machines: list[Machine], load: float, travel: float
) -> None:
    whole = compound(machines)
    effort, moved = load, travel
    for each in reversed(machines):
        effort, moved = each.effort(effort), each.effort_travel(moved)
    assert whole.effort(load) == pytest.approx(effort)
    assert whole.effort_travel(travel) == pytest.approx(moved)
    assert whole.force_ratio <= whole.motion_ratio


@given(WEIGHTS, ARMS)
def test_a_held_bar_is_balanced_about_every_point(weights: list[Weight], arm: float) -> None:
    effort = effort_to_hold(weights, arm)
    pivot = pivot_force(weights, effort)
    size = sum(each.force * (abs(each.arm) + 10.0) for each in weights) + abs(effort) * 10.0
    for point in (-1.0, 0.0, 2.5):
        turned = sum(each.force * (each.arm - point) for each in weights)
        assert turned - effort * (arm - point) - pivot * (-point) == pytest.approx(
            0.0, abs=1e-12 * size
        )


@given(ARMS, ARMS, st.sampled_from(sorted(LeverClass)))
def test_the_class_says_which_way_the_bargain_goes(
    near: float, farther: float, kind: LeverClass
) -> None:
    far = near + farther
    places = ((-near, far), (near, far), (far, near))  # of load and effort, by class
    load, effort = places[kind - 1]
    for turned in (1.0, -1.0):
        assert lever_class(0.5, 0.5 + turned * load, 0.5 + turned * effort) is kind
    if kind is not LeverClass.FIRST:
        wins = lever_advantage(abs(effort), abs(load)) > 1.0
        assert wins == (kind is LeverClass.SECOND)


@given(st.integers(1, 8), SHARES)
def test_a_block_is_its_strands_one_by_one(strands: int, sheave: float) -> None:
    tension, held = 1.0, 0.0
    for _ in range(strands):
        tension *= sheave
        held += tension
    efficiency = block_efficiency(strands, sheave)
    assert held == pytest.approx(efficiency * pulley_advantage(strands))
    assert pulley_effort(held, strands, efficiency) == pytest.approx(1.0)


@given(FORCES, st.integers(1, 8))
def test_the_ceiling_and_the_hand_carry_the_load(load: float, strands: int) -> None:
    pull = pulley_effort(load, strands, 1.0)
    up = support_force(load, pull, effort_upward=True)
    assert up + pull == pytest.approx(load)
    assert support_force(load, pull, effort_upward=False) - up == pytest.approx(2.0 * pull)


@given(st.floats(0.02, 1.5), st.floats(0.0, 2.0))
def test_a_ramp_is_a_block_pushed_up_it(angle: float, friction: float) -> None:
    push = math.sin(angle) + friction * math.cos(angle)  # of a weight of 1 N
    machine = Machine(
        motion_ratio=ramp_advantage(1.0, math.sin(angle)),
        efficiency=ramp_efficiency(angle, friction),
    )
    assert machine.effort(1.0) == pytest.approx(push)
    assert holds_by_itself(math.tan(angle), friction) == (push <= 2.0 * friction * math.cos(angle))


@given(st.floats(0.001, 0.02), st.floats(0.004, 0.05), st.floats(0.01, 0.4))
def test_a_screw_is_a_slope_pushed_level(lead: float, diameter: float, friction: float) -> None:
    angle = math.atan(lead / (math.pi * diameter))
    if math.tan(angle) * friction > 0.5:
        return

    def left(push: float) -> float:
        """Return the force along the slope that the friction leaves, of a weight of 1 N."""
        normal = math.cos(angle) + push * math.sin(angle)
        return push * math.cos(angle) - math.sin(angle) - friction * normal

    push = brentq(left, 0.0, 1e3, xtol=1e-14)
    share = screw_efficiency(lead, diameter, friction)
    ideal = screw_advantage(diameter / 2.0, lead)
    assert 1.0 / (push * ideal) == pytest.approx(share)
    assert screw_efficiency(lead, diameter, 0.0) == pytest.approx(1.0)
    if holds_by_itself(lead / (math.pi * diameter), friction):
        assert share <= 0.5  # what does not run back loses at least half


@given(st.lists(st.tuples(st.integers(8, 60), st.integers(8, 60)), min_size=1, max_size=4))
def test_a_train_turned_round_undoes_itself(pairs: list[tuple[int, int]]) -> None:
    back = [(driven, driving) for driving, driven in reversed(pairs)]
    assert train_ratio(pairs) * train_ratio(back) == pytest.approx(1.0)
    driving, driven = pairs[0]
    turns = train_ratio(pairs[:1])  # of the driving gear, until the driven one has turned once
    assert turns * driving == pytest.approx(driven)  # as many teeth have passed on both
    assert gear_ratio(driving, driven) == turns


@pytest.mark.parametrize(
    "fault",
    [
        lambda: lever_class(0.0, 0.1, 0.1),
        lambda: lever_class(0.0, math.nan, 0.1),
        lambda: lever_advantage(0.0, 0.1),
        lambda: lever_advantage(1.0, 300.0),
        lambda: effort_to_hold([], 0.0),
        lambda: pivot_force([], math.inf),
        lambda: Weight(force=math.nan, arm=1.0),
        lambda: pulley_advantage(0),
        lambda: pulley_advantage(2.5),  # type: ignore[arg-type]
        lambda: block_efficiency(2, 1.1),
        lambda: pulley_effort(-1.0, 2, 1.0),
        lambda: support_force(1.0, -1.0, effort_upward=True),
        lambda: ramp_advantage(0.5, 1.0),
        lambda: ramp_efficiency(0.0, 0.1),
        lambda: wedge_advantage(1.0, 0.0),
        lambda: wheel_advantage(-1.0, 1.0),
        lambda: screw_efficiency(1.0, 0.01, 0.2),
        lambda: screw_advantage(0.1, 0.0),
        lambda: holds_by_itself(0.1, -0.1),
        lambda: gear_ratio(12, 1.5),  # type: ignore[arg-type]
        lambda: train_ratio([]),
        lambda: compound([]),
        lambda: Machine(motion_ratio=1.0, efficiency=1.01),
        lambda: Ledger(work_in=1.0, work_out=1.1),
        lambda: Ledger(work_in=0.0, work_out=0.0).efficiency,
    ],
)
def test_what_cannot_be_is_refused(fault) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError):
        fault()
