"""The cable to the device, and drawn errors of measurement, against closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import norm

from arms import LOOPS, cable, harness, weighing
from simgait.arm.device import device_cable
from simgait.arm.drawing_errors import stands_share
from simgait.arm.lifting import lift, setting_of
from simgait.case.arm_case import read_arm_case
from simgait.library import models_folder
from simgait.library.arms import MeasurementErrors
from simgait.parts.cable import Cable, capstan_efficiency

CASE = models_folder() / "cases" / "arms" / "above-elbow.toml"
NO_ERRORS = MeasurementErrors(
    mass_share=0.0, length=0.0, pull_share=0.0, excursion=0.0, friction_share=0.0
)


# ---- the device's cable -------------------------------------------------------------------------


def device(**changed: object) -> Cable:
    return cable(friction=0.1, bends=(math.pi / 2.0, 0.5), **changed)


def test_opening_against_a_spring_stores_the_springs_work() -> None:
    row = device_cable(device(), harness(), 0.8)
    through = capstan_efficiency(0.1, [math.pi / 2.0 + 0.5])
    assert row.stored == pytest.approx(0.5 * (60.0 + 70.0) * 0.038)
    assert row.work == pytest.approx(row.stored / through)
    assert row.lost == pytest.approx(row.stored * (1.0 / through - through))
    assert row.efficiency == pytest.approx(through)
    assert row.peak_pull == pytest.approx(70.0 / through)


def test_closing_by_pull_travels_light_and_grips_in_place() -> None:
    row = device_cable(device(device_action="closes", device_start_pull=10.0), harness(), 0.8)
    assert row.stored == pytest.approx(10.0 * 0.038)
    assert row.device_force[-1] == 70.0
    assert row.travel[-1] == row.travel[-2] == pytest.approx(0.038)


def test_a_pulley_halves_pull_doubles_travel_and_keeps_the_work() -> None:
    single, double = (device_cable(device(pulley=ratio), harness(), 0.8) for ratio in (1.0, 2.0))
    assert double.peak_pull == pytest.approx(0.5 * single.peak_pull)
    assert double.excursion == pytest.approx(2.0 * single.excursion)
    assert double.work == pytest.approx(single.work)


# ---- draws --------------------------------------------------------------------------------------


def test_without_errors_a_position_stands_always_or_never() -> None:
    case = replace(read_arm_case(CASE), errors=NO_ERRORS)
    assert stands_share(case, 0.075, 0.032, 50, 1) == 1.0
    assert stands_share(case, 0.075, 0.060, 50, 1) == 0.0


@pytest.mark.parametrize("sigmas", [-1.0, 0.0, 1.0])
def test_the_share_is_that_of_the_normal_distribution(sigmas: float) -> None:
    # only the excursion errs, by 3 mm; the limit lies so many standard deviations away
    case = read_arm_case(CASE)
    case = replace(case, errors=replace(NO_ERRORS, excursion=0.003))
    made = setting_of(case.arm, case.cable, case.harness, 0.075, np.array([0.032]))
    needed = float(lift(made).drawn[0, -1]) + 0.038
    case = replace(case, harness=replace(case.harness, max_excursion=needed + 0.003 * sigmas))
    share = stands_share(case, 0.075, 0.032, 20000, 7)
    assert share == pytest.approx(norm.cdf(sigmas), abs=4.0 * math.sqrt(0.25 / 20000))


def test_the_same_seed_draws_the_same() -> None:
    case = read_arm_case(CASE)
    shares = [stands_share(case, 0.075, 0.035, 500, seed) for seed in (1, 1, 2)]
    assert shares[0] == shares[1] != shares[2]


def test_the_hand_that_weighs_nothing_costs_nothing() -> None:
    made = setting_of(weighing(0.0), cable(), harness(), 0.075, LOOPS)
    assert lift(made).work == pytest.approx(0.0, abs=1e-15)
