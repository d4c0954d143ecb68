"""Simple machines against the worked examples and formulas of a textbook, as printed.

OpenStax College Physics 9.3, 9.5, 10.3 and Physics chapter 9 (CC BY 4.0), with its 9.80 m/s2. A
figure is compared to the digits in which it is printed.
"""

from __future__ import annotations

import math

import pytest

from simgait.levers import (
    Ledger,
    LeverClass,
    Machine,
    Weight,
    compound,
    effort_to_hold,
    lever_advantage,
    lever_class,
    pivot_force,
    pulley_effort,
    ramp_advantage,
    screw_advantage,
    support_force,
    wedge_advantage,
    wheel_advantage,
)

G = 9.80


def printed(value: float, digits: int) -> str:
    """Return a number to so many digits, as a book prints it."""
    return f"{value:#.{digits}g}".rstrip(".")


def test_a_book_in_the_hand() -> None:
    # 9.6 Forces and torques in muscles and joints: biceps 470 N, elbow 407 N, ratio 7.38.
    weights = (Weight(force=2.50 * G, arm=0.160), Weight(force=4.00 * G, arm=0.380))
    muscle = effort_to_hold(weights, 0.0400)
    elbow = pivot_force(weights, muscle)
    assert printed(muscle, 3) == "470"
    assert printed(-elbow, 3) == "407"  # the upper arm presses the elbow down
    assert printed(muscle / (6.50 * G), 3) == "7.38"
    assert lever_class(0.0, 0.380, 0.0400) is LeverClass.THIRD


def test_a_wheelbarrow() -> None:
    load = (Weight(force=45.0 * G, arm=0.0750),)
    hands = effort_to_hold(load, 1.02)
    assert printed(hands, 3) == "32.4"
    assert printed(pivot_force(load, hands), 3) == "409"
    assert printed(lever_advantage(1.02, 0.0750), 3) == "13.6"
    assert lever_class(0.0, 0.0750, 1.02) is LeverClass.SECOND


def test_an_engine_on_four_strands_pulled_up() -> None:
    load = (115.0 + 7.00) * G
    pull = pulley_effort(load, 4, 1.0)
    assert printed(pull, 3) == "299"
    assert printed(support_force(load, pull, effort_upward=True), 3) == "897"


def test_a_seesaw() -> None:
    child = (Weight(force=30.0 * G, arm=1.40),)
    place = -2.33
    assert printed(effort_to_hold(child, 1.0) / (18.0 * G), 3) == "2.33"
    assert -effort_to_hold(child, place) == pytest.approx(18.0 * G, rel=0.005 / 2.33)
    assert lever_class(0.0, 1.40, place) is LeverClass.FIRST


def test_a_push_up() -> None:
    assert printed(effort_to_hold((Weight(force=147.0, arm=0.200),), 0.0175), 3) == "1.68e+03"


def test_the_efficiency_of_a_lever() -> None:
    stroke = Ledger(work_in=11.0 * 0.4, work_out=40.0 * 0.1)
    assert printed(100.0 * stroke.efficiency, 2) == "91"


def test_a_forearm_is_turned() -> None:
    assert printed(Weight(force=2.00e3, arm=0.0300).moment / 120.0, 2) == "0.50"


def test_the_formulas_as_printed() -> None:
    # lever L_e/L_r; wheel R/r; ramp L/h; wedge L/t; screw 2 pi L/P; pulley: number of strands.
    assert lever_advantage(3.0, 2.0) == wheel_advantage(3.0, 2.0) == 1.5
    assert ramp_advantage(3.0, 2.0) == wedge_advantage(3.0, 2.0) == 1.5
    assert screw_advantage(3.0, 2.0) == pytest.approx(3.0 * math.pi)
    two = compound([Machine(motion_ratio=3.0, efficiency=0.5)] * 2)
    assert (two.motion_ratio, two.force_ratio) == (9.0, 2.25)
