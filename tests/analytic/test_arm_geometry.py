"""The cable of an arm against sympy, closed forms, and where it must vanish."""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy as sp

from arms import arm, cable, harness, setting, weighing
from simgait.arm.geometry import (
    cable_length,
    excursion,
    forearm_place,
    guide_place,
    lever_arm,
    working_flexions,
)
from simgait.arm.lifting import lift, needed_tension, setting_of

RANDOM = np.random.default_rng(5)
PLACES = [
    dict(zip(("guide", "guide_offset", "loop", "loop_offset"), row, strict=True))
    for row in RANDOM.uniform((0.03, -0.03, 0.015, -0.03), (0.15, 0.04, 0.09, 0.04), (8, 4))
]
FLEXIONS = np.radians([1.0, 30.0, 77.0, 120.0, 150.0])


def derived() -> tuple[sp.Expr, sp.Expr, tuple[sp.Symbol, ...]]:
    """Return length and -d length / d flexion from vectors in the plane, and their symbols."""
    a, e, r, f, theta = sp.symbols("a e r f theta", real=True)
    turn = sp.Matrix([[sp.cos(theta), -sp.sin(theta)], [sp.sin(theta), sp.cos(theta)]])
    guide = sp.Matrix([e, a])  # forward, up; the elbow's axis is the origin
    loop = turn * sp.Matrix([f, -r])  # a straight forearm hangs; flexion turns it forward and up
    length = sp.sqrt((guide - loop).dot(guide - loop))
    return length, -sp.diff(length, theta), (a, e, r, f, theta)


@pytest.mark.parametrize("place", PLACES)
def test_length_and_lever_are_those_derived_from_vectors(place) -> None:
    length, lever, symbols = derived()
    values = (place["guide"], place["guide_offset"], place["loop"], place["loop_offset"])
    for flexion in FLEXIONS:
        at = dict(zip(symbols, (*values, float(flexion)), strict=True))
        assert float(cable_length(flexion, **place)) == pytest.approx(
            float(length.subs(at)), abs=1e-14
        )
        assert float(lever_arm(flexion, **place)) == pytest.approx(float(lever.subs(at)), abs=1e-14)


@pytest.mark.parametrize("place", PLACES)
def test_the_lever_is_the_distance_of_the_cable_from_the_axis(place) -> None:
    # a second way: cross product of the loop's place with the cable's direction
    for lean, flexion in [(0.0, 0.6), (0.8, 1.9), (-0.3, 1.2)]:
        guide = np.array(guide_place(lean, 0.3, place["guide"], place["guide_offset"]))
        loop = np.array(forearm_place(lean, flexion, 0.3, place["loop"], place["loop_offset"]))
        elbow = np.array(forearm_place(lean, flexion, 0.3, 0.0))
        along = (guide - loop) / np.linalg.norm(guide - loop)
        at = loop - elbow
        assert np.linalg.norm(guide - loop) == pytest.approx(
            float(cable_length(flexion, **place)), abs=1e-14
        )
        assert at[0] * along[1] - at[1] * along[0] == pytest.approx(
            float(lever_arm(flexion, **place)), abs=1e-14
        )


@pytest.mark.parametrize("place", PLACES)
def test_the_lever_vanishes_at_both_ends_of_the_working_range_and_nowhere_between(place) -> None:
    low, high = working_flexions(**place)
    assert float(lever_arm(low, **place)) == pytest.approx(0.0, abs=1e-15)
    assert float(lever_arm(high, **place)) == pytest.approx(0.0, abs=1e-15)
    assert high - low == pytest.approx(math.pi, abs=1e-15)
    inside = np.linspace(low + 1e-3, high - 1e-3, 500)
    assert lever_arm(inside, **place).min() > 0.0
    assert float(lever_arm(high + 1e-3, **place)) < 0.0 < -float(lever_arm(low - 1e-3, **place))


@pytest.mark.parametrize("place", PLACES)
def test_excursion_is_the_lever_summed_up(place) -> None:
    nodes, weights = np.polynomial.legendre.leggauss(60)
    start, end = 0.4, 1.8
    angles = 0.5 * (end - start) * nodes + 0.5 * (end + start)
    summed = 0.5 * (end - start) * float(weights @ lever_arm(angles, **place))
    assert float(excursion(start, end, **place)) == pytest.approx(summed, abs=1e-14)


@pytest.mark.parametrize(("guide", "loop"), [(0.075, 0.025), (0.06, 0.06), (0.1, 0.044)])
def test_without_offsets_the_pull_follows_the_length_alone(guide: float, loop: float) -> None:
    # F = W x l / (a r), exact for a hanging upper arm
    made = setting_of(weighing(1.353), cable(), harness(), guide, np.array([loop]))
    length = cable_length(made.flexion, guide=guide, loop=loop)
    assert needed_tension(made)[0] == pytest.approx(1.353 * length / (guide * loop), rel=1e-12)


def test_a_straight_hanging_arm_starts_with_the_limit_of_the_ratio() -> None:
    # at 0 degrees moment and lever both vanish; W x (a + r) / (a r) is what they tend to
    bent = weighing(1.353, flexion_from=0.0, flexion_to=math.pi)
    tension = needed_tension(setting_of(bent, cable(), harness(), 0.075, np.array([0.025])))
    assert tension[0, 0] == pytest.approx(1.353 * 0.1 / (0.075 * 0.025), rel=1e-9)
    assert tension[0, -1] == pytest.approx(1.353 * 0.05 / (0.075 * 0.025), rel=1e-9)


@pytest.mark.parametrize("offset", [-0.012, 0.05])
def test_a_cable_that_passes_the_axis_in_the_range_cannot_lift(offset: float) -> None:
    loop = np.array([0.03])
    low, high = working_flexions(guide=0.075, loop=0.03, loop_offset=offset)
    bent = arm(flexion_from=math.radians(5.0), flexion_to=math.radians(135.0))
    assert bent.flexion_from < low < bent.flexion_to or bent.flexion_from < high < bent.flexion_to
    made = setting_of(bent, cable(loop_offset=offset), harness(), 0.075, loop)
    assert np.isnan(lift(made).pull).all()


def test_a_lever_of_nothing_matters_only_where_a_pull_is_needed() -> None:
    # straight and hanging, an assist holds the forearm alone; raised forward, nothing does
    straight = arm(flexion_from=0.0)
    for helped, lifts in ((0.3, True), (0.0, True)):
        made = setting_of(straight, cable(assist=(helped,)), harness(), 0.075, np.array([0.03]))
        assert bool(np.isfinite(lift(made).pull).all()) is lifts
    raised = arm(flexion_from=0.0, shoulder_flexion=0.3)
    made = setting_of(raised, cable(), harness(), 0.075, np.array([0.03]))
    assert np.isnan(lift(made).pull).all()


def test_a_cable_that_passes_the_axis_at_the_very_end_cannot_lift_either() -> None:
    _, high = working_flexions(guide=0.075, loop=0.03, loop_offset=0.02)
    for end, lifts in ((float(high) - 1e-3, True), (float(high) + 1e-9, False)):
        made = setting_of(
            arm(flexion_to=end), cable(loop_offset=0.02), harness(), 0.075, np.array([0.03])
        )
        assert bool(np.isfinite(lift(made).pull).all()) is lifts


@pytest.mark.parametrize("lean", [0.0, 0.5, -0.4])
def test_the_work_of_the_cable_lifts_the_load(lean: float) -> None:
    # integral of F dl = W x (cos t0 - cos t1), whatever guide, loop and offsets are
    for place in PLACES:
        low, high = (float(end) for end in working_flexions(**place))
        made = setting(
            np.array([place["loop"]]),
            flexion=np.linspace(max(low, -lean) + 0.1, min(high, math.pi - lean) - 0.1, 181),
            guide=place["guide"],
            guide_offset=place["guide_offset"],
            loop_offset=place["loop_offset"],
            shoulder_flexion=lean,
            weight_moment=1.353,
        )
        ends = np.cos(made.flexion[[0, -1]] + lean)
        assert lift(made).work[0] == pytest.approx(1.353 * (ends[0] - ends[1]), rel=1e-3)


def test_the_sum_over_flexions_has_order_two() -> None:
    errors = []
    for count in (23, 46, 91):
        made = setting(np.array([0.03]), weight_moment=1.353, loop_offset=0.01)
        made = setting(
            np.array([0.03]),
            weight_moment=1.353,
            loop_offset=0.01,
            flexion=np.linspace(made.flexion[0], made.flexion[-1], 2 * count + 1),
        )
        ends = np.cos(made.flexion[[0, -1]])
        errors.append(abs(lift(made).work[0] - 1.353 * (ends[0] - ends[1])))
    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert orders == pytest.approx(2.0, abs=0.1)
