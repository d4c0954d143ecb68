"""Comparisons of moving arms: pymunk beside sympy's equations, scipy's integrator, closed forms."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from agreement import Comparison
from arm_lifts import FOREARM, LIFTS, UPPER, for_scipy
from arm_motion import lift_by_modes, swing_by_lagrange
from simgait.engines.arm_scene import play_lift, play_swing

TOPIC = "Levers in motion"
G = 9.81  # [m/s2]
TIMES = np.arange(0.0, 1.6, 1e-3)


@cache
def lift_differences() -> tuple[float, ...]:
    """Return the largest difference of flexion in each lift [deg]."""
    found = []
    for setting in LIFTS.values():
        track = play_lift(setting, 1.61)
        wanted = lift_by_modes(for_scipy(setting), setting.start, TIMES)[0]
        got = np.interp(TIMES, track.time, track.flexion)
        found.append(math.degrees(float(np.abs(got - wanted).max())))
    return tuple(found)


@cache
def ledger_errors() -> tuple[float, ...]:
    """Return the largest gap of each lift's ledger over the work of its cable [%]."""
    found = []
    for setting in LIFTS.values():
        track = play_lift(setting, 1.6)
        weight = setting.forearm.mass * setting.gravity
        gained = track.kinetic + weight * (track.height - track.height[0])
        left = gained - track.cable_work - track.assist_work - track.stop_work
        found.append(100.0 * float(np.abs(left).max() / np.abs(track.cable_work).max()))
    return tuple(found)


def swing_difference() -> tuple[float, ...]:
    """Return the largest difference of a lean in a swing of two links [deg]."""
    links, leans, rates = [UPPER, FOREARM], [1.0, 1.4], [0.0, 0.5]
    track = play_swing(links, leans, rates, G, 1.5)
    wanted = swing_by_lagrange(links, leans, rates, G, track.time)
    return (math.degrees(float(np.abs(track.lean.T - wanted[:2]).max())),)


def small_period() -> tuple[float, ...]:
    """Return the period of a small swing over 2 pi sqrt(I / (m g c))."""
    rest = -math.atan2(FOREARM.centre[1], FOREARM.centre[0])
    track = play_swing([FOREARM], [rest + 0.02], [0.0], G, 3.0)
    angle, time = track.lean[:, 0] - rest, track.time
    n = np.flatnonzero(angle[:-1] * angle[1:] < 0.0)
    at = time[n] - angle[n] * (time[n + 1] - time[n]) / (angle[n + 1] - angle[n])
    hanging = FOREARM.mass * G * math.hypot(*FOREARM.centre)
    wanted = 2.0 * math.pi * math.sqrt(FOREARM.inertia_about_joint / hanging)
    return (float(at[2] - at[0]) / wanted,)


USUAL = {"topic": TOPIC, "source": "pymunk", "grade": "measured", "kind": "engine"}
LAWS = "same laws, equations and integrator of its own; invented arms: " + "; ".join(LIFTS)
ARMS = (
    Comparison(
        place="flexion through a lift, largest difference", printed="0", got=lift_differences,
        low=0.0, high=0.1, unit="deg", digits=3, note=LAWS, **USUAL,
    ),
    Comparison(
        place="ledger of a lift, largest gap over the cable's work", printed="0",
        got=ledger_errors, low=0.0, high=0.1, unit="%", digits=3, note="the same lifts", **USUAL,
    ),
    Comparison(
        place="two links swinging freely for 1.5 s, largest difference", printed="0",
        got=swing_difference, low=0.0, high=0.25, unit="deg", digits=3,
        note="Lagrange's equations by sympy", **USUAL,
    ),
    Comparison(
        place="period of a small swing over 2 pi sqrt(I / (m g c))", printed="1",
        got=small_period, low=0.9997, high=1.0003, unit="1", digits=5,
        note="swing of 0.02 rad, closed form", **USUAL,
    ),
)  # fmt: skip
