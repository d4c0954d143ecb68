"""Moving arms in pymunk against sympy's equations, scipy's integrator, and closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import ellipk

from arm_lifts import FOREARM, LIFTS, PLAIN, PULL, STOP, UPPER, for_scipy
from arm_motion import cable_by_vectors, lift_by_modes, swing_by_lagrange
from simgait.engines.arm_scene import STEP, play_lift, play_swing
from simgait.errors import RangeError

TIMES = np.arange(0.0, 1.6, 1e-3)


@pytest.mark.parametrize("name", LIFTS)
def test_a_lift_is_that_of_another_integrator(name: str) -> None:
    setting = LIFTS[name]
    wanted = lift_by_modes(for_scipy(setting), setting.start, TIMES)
    assert np.degrees(np.ptp(wanted[0])) > 30.0  # something has moved
    errors = []
    for step in (2.0 * STEP, STEP, STEP / 2.0):
        track = play_lift(setting, 1.61, step)
        flexion = np.interp(TIMES, track.time, track.flexion)
        work = np.interp(TIMES, track.time, track.cable_work)
        errors.append(np.abs(flexion - wanted[0]).max())
        assert np.abs(work - wanted[2]).max() < 0.002 * np.abs(wanted[2]).max()
    assert errors[1] < 2e-3  # rad
    assert 2.0 < errors[0] / errors[2] < 5.7  # of first order, as pymunk is


@pytest.mark.parametrize("name", LIFTS)
def test_energy_is_accounted_for(name: str) -> None:
    setting = LIFTS[name]
    track = play_lift(setting, 1.6)
    weight = setting.forearm.mass * setting.gravity
    gained = track.kinetic + weight * (track.height - track.height[0])
    given = track.cable_work + track.assist_work + track.stop_work
    assert np.abs(gained - given).max() < 1e-3 * np.abs(track.cable_work).max()
    lost = track.harness_work - track.cable_work
    assert np.diff(lost).min() >= -1e-9  # a housing only takes
    assert (lost[-1] > 0.01) == (setting.through < 1.0)
    assert np.diff(track.stop_work).sum() <= 1e-9
    assert track.joint_gap.max() < 2e-4


def test_speed_and_overshoot_of_a_lossless_lift_in_closed_form() -> None:
    # P (l0 - l) = m g c (cos t0 - cos t) + I w^2 / 2 + k d^2 / 2: work in = work out
    track = play_lift(PLAIN, 1.0)
    f, length = PLAIN.forearm, cable_by_vectors()[0]

    def spare(flexion: float) -> float:
        drawn = length(PLAIN.start, *PLAIN.guide, *PLAIN.loop)
        drawn -= length(flexion, *PLAIN.guide, *PLAIN.loop)
        raised = f.mass * 9.81 * f.centre[0] * (math.cos(PLAIN.start) - math.cos(flexion))
        beyond = max(flexion - PLAIN.stop.high, 0.0)
        return float(PULL * drawn - raised - PLAIN.stop.stiffness * beyond**2 / 2.0)

    moving = f.inertia_about_joint * track.rate**2 / 2.0
    wanted = np.array([spare(each) for each in track.flexion])
    assert np.abs(moving - wanted).max() < 0.005 * moving.max()
    highest = brentq(spare, PLAIN.stop.high + 1e-6, PLAIN.stop.high + 1.0)
    assert highest - PLAIN.stop.high > math.radians(5.0)
    assert track.flexion.max() == pytest.approx(highest, abs=2e-4)


@pytest.mark.parametrize(("share", "lifts"), [(0.98, False), (1.02, True)])
def test_the_least_pull_that_lifts_is_that_of_statics(share: float, lifts: bool) -> None:
    f, through = PLAIN.forearm, 0.8
    length, _ = cable_by_vectors()
    a, r = PLAIN.guide[0], PLAIN.loop[0]
    needed = f.mass * 9.81 * f.centre[0] * length(PLAIN.start, a, 0.0, r, 0.0) / (a * r * through)
    setting = replace(PLAIN, through=through, pull=lambda time: share * needed)
    moved = np.ptp(play_lift(setting, 3.0).flexion)
    assert (moved > math.radians(20.0)) == lifts
    assert lifts or moved < math.radians(1.0)


def test_a_sticking_cable_does_not_creep() -> None:
    setting = LIFTS["held when halfway"]
    track = play_lift(setting, 4.0)
    late = track.flexion[track.time > 1.0]
    assert math.radians(20.0) < late[0] < math.radians(130.0)
    assert np.ptp(late) < 1e-9


@pytest.mark.parametrize("amplitude", [0.02, 0.5, 1.5, 2.2])
def test_the_period_of_a_swing_in_closed_form(amplitude: float) -> None:
    hanging = FOREARM.mass * 9.81 * math.hypot(*FOREARM.centre)
    small = 2.0 * math.pi * math.sqrt(FOREARM.inertia_about_joint / hanging)
    exact = small * 2.0 / math.pi * ellipk(math.sin(amplitude / 2.0) ** 2)
    rest = -math.atan2(FOREARM.centre[1], FOREARM.centre[0])
    step = STEP if amplitude < 2.0 else STEP / 8.0  # near upright little errors tell
    track = play_swing([FOREARM], [rest + amplitude], [0.0], 9.81, 5.0 * exact / 2.0, step)
    angle, time = track.lean[:, 0] - rest, track.time
    n = np.flatnonzero(angle[:-1] * angle[1:] < 0.0)
    at = time[n] - angle[n] * (time[n + 1] - time[n]) / (angle[n + 1] - angle[n])
    assert at[2] - at[0] == pytest.approx(exact, rel=3e-4)
    assert (at[2] - at[0] == pytest.approx(small, rel=3e-4)) == (amplitude < 0.1)


def test_two_links_swing_as_lagrange_has_it() -> None:
    links, leans, rates = [UPPER, FOREARM], [1.0, 1.4], [0.0, 0.5]
    errors = []
    for step in (2.0 * STEP, STEP):
        track = play_swing(links, leans, rates, 9.81, 1.5, step)
        wanted = swing_by_lagrange(links, leans, rates, 9.81, track.time)
        errors.append(np.abs(track.lean.T - wanted[:2]).max())
        assert np.abs(track.rate.T - wanted[2:]).max() < 0.1
        assert np.abs(track.energy).max() < 2e-3 * sum(each.mass for each in links) * 9.81
    assert errors[1] < 4e-3
    assert 1.6 < errors[0] / errors[1] < 2.5


def test_a_chain_that_does_not_fit_is_refused() -> None:
    with pytest.raises(RangeError, match="do not make an arm"):
        play_swing([FOREARM], [0.1, 0.2], [0.0], 9.81, 1.0)
    with pytest.raises(RangeError):
        replace(PLAIN, start=0.0)
    with pytest.raises(RangeError):
        replace(STOP, stiffness=0.0)
