"""Lifts and links that the tests of moving arms share; invented, none is a person's."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from arm_motion import Lift
from simgait.engines.arm_setting import LiftSetting, Link, Stop

FOREARM = Link(mass=0.6, inertia=0.004, centre=(0.2, 0.01), length=0.3)
UPPER = Link(mass=1.0, inertia=0.010, centre=(0.13, -0.005), length=0.3)
STOP = Stop(low=math.radians(10.0), high=math.radians(135.0), stiffness=200.0, loss=0.3)
PULL = 60.0  # [N]
PLAIN = LiftSetting(
    forearm=replace(FOREARM, centre=(0.2, 0.0)), shoulder_flexion=0.0, guide=(0.075, 0.0),
    loop=(0.038, 0.0), through=1.0, pulley=1.0, stop=replace(STOP, loss=0.0), start=STOP.low,
    gravity=9.81, pull=lambda time: PULL, assist=lambda flexion: 0.0,
)  # fmt: skip


def rising(most: float, over: float) -> Callable[[float], float]:
    return lambda time: min(time / over, 1.0) * most


def up_and_down(time: float) -> float:
    return float(np.interp(time, (0.0, 0.3, 0.7, 1.5), (0.0, 72.0, 72.0, 8.0)))


def eased(time: float) -> float:
    return float(np.interp(time, (0.0, 0.3, 0.6, 0.7), (0.0, 110.0, 110.0, 50.0)))


LIFTS = {
    "plain": replace(PLAIN, stop=STOP, pull=rising(60.0, 0.3)),
    "offsets, housing, assist, raised upper arm": replace(
        PLAIN, forearm=FOREARM, shoulder_flexion=0.3, guide=(0.075, 0.005), loop=(0.038, 0.01),
        through=0.8, stop=STOP, pull=rising(60.0, 0.3), assist=lambda flexion: 0.3 - 0.1 * flexion,
    ),
    "pulled up, held by the housing, let down": replace(
        PLAIN, through=0.85, stop=STOP, pull=up_and_down
    ),
    "two-to-one pulley": replace(PLAIN, pulley=2.0, stop=STOP, pull=rising(30.0, 0.3)),
    "held when halfway": replace(
        PLAIN, through=0.6, stop=STOP, pull=eased,
    ),
}  # fmt: skip


def for_scipy(s: LiftSetting) -> Lift:
    """Return the same lift for scipy."""
    f = s.forearm
    return Lift(
        mass=f.mass, inertia=f.inertia, centre=f.centre, shoulder=s.shoulder_flexion, guide=s.guide,
        loop=s.loop, through=s.through, pulley=s.pulley, low=s.stop.low, high=s.stop.high,
        stiffness=s.stop.stiffness, loss=s.stop.loss, gravity=s.gravity, pull=s.pull,
        assist=s.assist,
    )  # fmt: skip
