"""What a lesson on legs carries into its page: figures and one pose for every setting."""

from __future__ import annotations

from typing import Any

import numpy as np

from simgait.arrays import Array
from simgait.lessons.leg_numbers import foot_moved, keel_ended, limb_cut, stance_of
from simgait.lessons.lesson import Lesson
from simgait.stance import StanceResult

LIMBS = {"heel-lever": foot_moved, "toe-lever": keel_ended, "short-residual-limb": limb_cut}
POINTS = ("hip", "knee", "brim", "socket_pivot", "limb_end", "socket_end", "ankle")
METRE_DECIMALS, FORCE_DECIMALS = 4, 1


def stance_table(lesson: Lesson) -> list[dict[str, Any]]:
    """Return figures and pose for each setting of a lesson's control, in their order."""
    made = LIMBS[lesson.name]
    early = lesson.name == "heel-lever"
    table = []
    for setting in lesson.control.settings():
        si = setting * lesson.control.si
        run = stance_of(made(si))
        table.append({"figures": lesson.numbers(si), "pose": pose(run, instant(run, early))})
    return table


def instant(run: StanceResult, early: bool) -> int:
    """Return the index of the instant at which the knee is bent most in the first half of stance,
    or forced back most in the second."""
    moment, percent = run.curves.knee_flexion_moment, run.curves.percent
    if early:
        return int(np.argmax(np.where(percent <= 50.0, moment, -np.inf)))
    return int(np.argmin(np.where(percent >= 50.0, moment, np.inf)))


def pose(run: StanceResult, at: int) -> dict[str, Any]:
    """Return the points [m], the ground's force [N] and its place [m] at an instant."""
    curves = run.curves
    return {
        "percent": round(float(curves.percent[at]), 1),
        "points": {name: rounded(getattr(curves, name)[at]) for name in POINTS},
        "sole": [rounded(each) for each in curves.sole[at]],
        "pressure": round(float(curves.pressure_x[at]), METRE_DECIMALS),
        "force": [
            round(float(curves.force_forward[at]), FORCE_DECIMALS),
            round(float(curves.force_up[at]), FORCE_DECIMALS),
        ],
        "socket_moment": round(float(curves.socket_flexion_moment[at]), 2),
    }


def rounded(place: Array) -> list[float]:
    """Return a place to a tenth of a millimetre [m]."""
    return [round(float(value), METRE_DECIMALS) for value in place]
