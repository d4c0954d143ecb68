"""Housing, lift assist, ledger, lengths and draws of arms against closed forms and limits."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator

from arms import LOOPS, arm, cable, constant, harness, setting
from simgait.arm.geometry import excursion
from simgait.arm.judging import judge
from simgait.arm.lengths import (
    hanging_moment,
    level_moment,
    moment_about,
    shoulder_inertia,
    socket_couple,
    swing_period,
)
from simgait.arm.lifting import greatest_pull, lift
from simgait.arm.monotone import MonotoneCurve
from simgait.arm.search import front_of, ledgers
from simgait.parts.cable import capstan_efficiency
from simgait.wearer import GRAVITY

# ---- curves through points ----------------------------------------------------------------------


@pytest.mark.parametrize("count", [2, 3, 4, 7])
@pytest.mark.parametrize("seed", range(4))
def test_the_monotone_curve_is_that_of_a_library(count: int, seed: int) -> None:
    random = np.random.default_rng(100 * count + seed)
    places = np.cumsum(random.uniform(0.1, 1.0, count))
    values = np.round(random.uniform(-2.0, 2.0, count), 1)
    curve = MonotoneCurve(places=tuple(places), values=tuple(values))
    library = PchipInterpolator(places, values)
    inside = np.linspace(places[0], places[-1], 301)
    assert curve.at(inside) == pytest.approx(library(inside), abs=1e-12)
    low, high = places[0] + 0.03, places[-1] - 0.02
    assert curve.integral(low, high) == pytest.approx(float(library.integrate(low, high)))


def test_a_falling_curve_falls_everywhere_and_stays_level_outside() -> None:
    curve = MonotoneCurve(places=(0.0, 0.03, 0.05, 0.1), values=(200.0, 190.0, 90.0, 80.0))
    values = curve.at(np.linspace(-0.05, 0.2, 500))
    assert np.all(np.diff(values) <= 0.0)
    assert (values[0], values[-1]) == (200.0, 80.0)


# ---- the housing --------------------------------------------------------------------------------


@pytest.mark.parametrize("friction", [0.0, 0.04, 0.15, 0.6])
def test_bends_in_series_are_one_bend_of_their_sum(friction: float) -> None:
    parts = [capstan_efficiency(friction, [bend]) for bend in (0.3, 1.1, 2.0)]
    for bends in ([3.4], [0.3, 1.1, 2.0], [2.0, 1.4]):
        assert math.prod(parts) == pytest.approx(capstan_efficiency(friction, bends), rel=1e-14)


def test_the_capstan_solves_its_differential_equation() -> None:
    # dT/dphi = mu T along the bend, integrated by small steps of its own
    tension, steps = 1.0, 20000
    for _ in range(steps):
        tension *= 1.0 + 0.3 * (2.0 / steps)
    assert 1.0 / tension == pytest.approx(capstan_efficiency(0.3, [2.0]), rel=1e-4)


@pytest.mark.parametrize("through", [1.0, 0.8, 0.5])
def test_friction_loads_lifting_and_relieves_lowering(through: float) -> None:
    free, rubbed = lift(setting()), lift(setting(through=through))
    assert rubbed.pull == pytest.approx(free.pull / through, rel=1e-13)
    assert rubbed.lowering == pytest.approx(free.pull * through, rel=1e-13)
    lost = np.trapezoid(rubbed.pull - rubbed.lowering, rubbed.drawn, axis=1)
    assert lost == pytest.approx(free.work * (1.0 / through - through), rel=1e-12)


# ---- the ledger ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"through": 0.7},
        {"pulley": 2.0},
        {"shoulder_flexion": 0.6},
        {"assist": constant(0.5)},
        {"assist": constant(5.0)},
        {"assist": MonotoneCurve(places=(0.2, 1.2, 2.3), values=(2.0, 1.0, 0.0)), "through": 0.8},
        {"loop_offset": 0.012, "guide_offset": 0.02, "through": 0.6},
        {"weight_moment": 0.0},
    ],
)
def test_the_ledger_closes_to_a_thousandth(change) -> None:
    made = setting(**change)
    for ledger in ledgers(made, lift(made)):
        assert ledger.error_percent < 0.1
        assert min(ledger.cable, ledger.housing, ledger.surplus) >= 0.0


def test_a_spring_that_lifts_alone_leaves_the_cable_idle_and_a_surplus() -> None:
    made = setting(assist=constant(5.0))
    curves = lift(made)
    assert curves.pull.max() == 0.0
    ledger = ledgers(made, curves)[0]
    span = made.flexion[-1] - made.flexion[0]
    assert ledger.spring == pytest.approx(5.0 * span, rel=1e-12)
    assert ledger.surplus == pytest.approx(ledger.spring - ledger.load, rel=1e-3)


def test_a_wrong_lever_would_be_seen_by_the_ledger() -> None:
    made = setting()
    curves = lift(made)
    wrong = replace(curves, pull=curves.pull * 1.01, work=curves.work * 1.01)
    assert all(ledger.error_percent > 0.9 for ledger in ledgers(made, wrong))


def test_work_does_not_depend_on_the_place_of_the_loop() -> None:
    work = lift(setting()).work
    assert work == pytest.approx(work[0], rel=2e-4)


# ---- limits of the wearer -----------------------------------------------------------------------


def test_margins_are_what_hand_arithmetic_gives() -> None:
    made = setting(through=0.8)
    curves = lift(made)
    found = judge(made, curves, cable(), harness())
    drawn = excursion(made.flexion[0], made.flexion[-1], guide=0.075, loop=LOOPS)
    assert found.margins["pull"] == pytest.approx(1.0 - curves.pull.max(axis=1) / 250.0)
    assert found.margins["excursion"] == pytest.approx(1.0 - drawn / 0.105)
    assert found.margins["device_excursion"] == pytest.approx((0.105 - 0.038 - drawn) / 0.105)
    assert found.margins["device_pull"] == pytest.approx(1.0 - 70.0 / 0.8 / 250.0)
    assert found.opening_left == pytest.approx((0.105 - drawn) / 0.038)


@pytest.mark.parametrize(
    ("changed", "limit"),
    [
        ({"max_pull": 30.0}, "pull"),
        ({"max_excursion": 0.05}, "excursion"),
        ({"max_excursion": 0.09}, "device_excursion"),
        ({"max_pull": 65.0}, "device_pull"),
    ],
)
def test_each_limit_alone_makes_a_position_not_feasible(changed, limit: str) -> None:
    made = setting(np.array([0.038]))
    assert judge(made, lift(made), cable(), harness()).feasible.all()
    tight = harness(**changed)
    bound = replace(made, capacity=greatest_pull(tight), max_excursion=tight.max_excursion)
    found = judge(bound, lift(bound), cable(), tight)
    assert found.margins[limit][0] < 0.0
    assert not found.feasible.any()


def test_a_pull_that_falls_with_excursion_binds_where_it_falls() -> None:
    made = setting(np.array([0.03]))
    peak = lift(made).pull.max()
    falling = harness(max_pull=2.0 * peak, excursions=(0.0, 0.02), pulls=(2.0 * peak, 0.5 * peak))
    bound = replace(made, capacity=greatest_pull(falling))
    curves = lift(bound)
    place = int(np.argmax(curves.pull / curves.capacity))
    assert curves.drawn[0, place] > 0.0
    assert judge(bound, curves, cable(), falling).margins["pull"][0] < 0.0


def test_lifting_works_the_device_if_it_takes_more_pull() -> None:
    made = setting(np.array([0.038]), through=0.5)
    tension = lift(made).tension.max()
    for start, opens in ((tension * 1.001, False), (tension * 0.999, True)):
        found = judge(made, lift(made), cable(device_start_pull=start), harness())
        assert bool(found.works_device[0]) is opens


def test_the_front_is_what_comparing_every_pair_gives() -> None:
    random = np.random.default_rng(3)
    pulls, drawn = np.round(random.uniform(0.0, 1.0, (2, 60)), 1)
    pulls[7] = np.nan
    kept = front_of(pulls, drawn)
    best = {
        (p, d)
        for p, d in zip(pulls, drawn, strict=True)
        if not np.isnan(p)
        and not any(
            q <= p and e <= d and (q < p or e < d)
            for q, e in zip(pulls, drawn, strict=True)
            if not np.isnan(q)
        )
    }
    assert {(pulls[k], drawn[k]) for k in kept} == best
    assert list(drawn[list(kept)]) == sorted(drawn[list(kept)])


# ---- lengths ------------------------------------------------------------------------------------


def test_inertia_and_moment_are_those_of_masses_spread_along_the_arm() -> None:
    # the shell as many grains of a uniform tube, each by itself
    made = arm(forearm_centre=0.125, upper_arm_mass=0.5, upper_arm_centre=0.155, held_mass=0.3)
    for flexion in (0.0, 1.0, 2.2):
        along = (np.arange(4000) + 0.5) / 4000 * made.forearm
        ahead = np.concatenate([along, [made.device_centre]])
        mass = np.concatenate([np.full(4000, made.forearm_mass / 4000), [0.13 + 0.3]])
        x = made.upper_arm + ahead * math.cos(flexion)
        y = ahead * math.sin(flexion)
        upper = quad(lambda s: s * s * 0.5 / made.upper_arm, 0.0, made.upper_arm)[0]
        assert shoulder_inertia(made, flexion) == pytest.approx(
            float(mass @ (x * x + y * y)) + upper, rel=1e-6
        )
        first = float(mass @ x) + 0.5 * 0.155
        assert level_moment(made, flexion) == pytest.approx(GRAVITY * first, rel=1e-9)
        centre = math.hypot(first, float(mass @ y))
        assert hanging_moment(made, flexion) == pytest.approx(GRAVITY * centre, rel=1e-9)


def test_a_rod_swings_as_textbooks_say() -> None:
    # uniform rod about its end: 2 pi sqrt(2 L / (3 g)); point on a thread: 2 pi sqrt(L / g)
    assert swing_period(1.0 / 3.0, GRAVITY / 2.0) == pytest.approx(
        2.0 * math.pi * math.sqrt(2.0 / (3.0 * GRAVITY))
    )
    thread = arm(forearm_mass=0.0, device_mass=1.0, device_centre=0.3, tip=0.36)
    period = swing_period(shoulder_inertia(thread), hanging_moment(thread))
    assert period == pytest.approx(2.0 * math.pi * math.sqrt(0.61 / GRAVITY))


def test_the_couple_in_the_socket_balances_moment_and_load() -> None:
    made = arm(held_mass=0.5)
    moment, load = moment_about(made, 0.22)
    brim, end = socket_couple(moment, load, 0.16)
    assert end - brim == pytest.approx(load)  # what is left over carries the load
    # about the shoulder: end pushes up at the limb's end, brim down 0.16 m nearer the shoulder
    assert end * 0.22 - brim * (0.22 - 0.16) == pytest.approx(level_moment(made))


def test_half_the_depth_doubles_the_couple() -> None:
    assert socket_couple(3.0, 0.0, 0.08)[0] == pytest.approx(2.0 * socket_couple(3.0, 0.0, 0.16)[0])
