"""Rigid blocks on two stiff edges, pendulums and linkages: scenes whose answers are known."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from simgait.engines.scene import Course, Instant, Scene
from simgait.engines.setting import Muscle, Pivot, SceneBody, SceneSole, Setting
from simgait.physics.layout import ELEMENTS
from simgait.physics.scene import BODY_ANGLE, BODY_SPIN

G = 9.81  # [m/s2]
MASS, HEIGHT = 1000.0, 4.0  # [kg], [m] of the centre: a block as tall as a house
AHEAD, BEHIND = 2.0, 1.4  # [m] from the centre to the edges
INERTIA = MASS * (3.4**2 + 8.0**2) / 12.0  # [kg m2] of a uniform block of those sides


def edged_sole(sunk: float, friction: float = 2.0, loss: float = 0.8) -> SceneSole:
    """Return a sole that carries on its two end elements, each sunk so far under all weight [m]."""
    stiffness = np.zeros(ELEMENTS)
    stiffness[[0, -1]] = MASS * G / sunk
    return SceneSole(
        body=0,
        forward=np.linspace(-BEHIND, AHEAD, ELEMENTS),
        up=np.full(ELEMENTS, -HEIGHT),
        stiffness=stiffness,
        loss=np.full(ELEMENTS, loss),
        onset=1e-5,
        quickness=30.0,
        friction=friction,
        sharpness=1000.0,
        shear_damping=0.8,
    )


def edge_loads() -> tuple[float, float]:
    """Return the shares of a resting block's weight on its hind and front edge: levers [1]."""
    return AHEAD / (AHEAD + BEHIND), BEHIND / (AHEAD + BEHIND)


def block(sunk: float, friction: float = 2.0, loss: float = 0.8) -> Setting:
    """Return the block at rest on a floor into which one edge sinks so far under all of it [m]."""
    hind, front = (share * sunk for share in edge_loads())
    lean = (front - hind) / (AHEAD + BEHIND)
    height = HEIGHT - hind - BEHIND * lean
    body = SceneBody(mass=MASS, inertia=INERTIA, centre=(0.0, height), lean=lean)
    return Setting(
        bodies=(body,),
        pivots=(),
        muscles=(),
        soles=(edged_sole(sunk, friction, loss),),
        balance=None,
        gravity=G,
    )


def never(_: Instant) -> None:
    """Look on and end nothing."""
    return None


def once(
    impulse: float, height: float, body: int = 0, at: float = 0.05
) -> Callable[[Scene, float], None]:
    """Return what gives a body one push along the floor. impulse [N s]; height [m]; at [s]."""
    given: list[float] = []

    def act(scene: Scene, time: float) -> None:
        if time >= at and not given:
            given.append(time)
            scene.push(body, impulse, height)

    return act


def raised(slope: float, within: float) -> Callable[[Scene, float], None]:
    """Return what lets the floor fall away ahead by a slope [rad], smoothly within a time [s]."""

    def act(scene: Scene, time: float) -> None:
        share = min(time / within, 1.0)
        scene.tilt(slope * share * share * (3.0 - 2.0 * share))

    return act


def toppled(
    setting: Setting,
    act: Callable[[Scene, float], None],
    critical: float,
    quiet: float = 0.3,
    until: float = 12.0,
) -> bool:
    """Whether the block falls over an edge: leans a tenth more than critical [rad].

    It is over when the block turns back after it has leant, or the time is out [s].
    """

    def look(instant: Instant) -> str | None:
        lean, spin = -instant.body[0, BODY_ANGLE], -instant.body[0, BODY_SPIN]
        if abs(lean) > 1.1 * critical:
            return "falls"
        turned_back = instant.time > quiet and abs(lean) > 0.02 and lean * spin < 0.0
        return "stays" if turned_back else None

    return Scene(setting).play(look, act, until=until).ending == "falls"


def smallest(topples: Callable[[float], bool], low: float, high: float, rounds: int) -> float:
    """Return the smallest size that topples, by halving a bracket that is first seen to hold it."""
    assert not topples(low)
    assert topples(high)
    for _ in range(rounds):
        middle = (low + high) / 2.0
        low, high = (low, middle) if topples(middle) else (middle, high)
    return (low + high) / 2.0


def far_sole(body: int) -> SceneSole:
    """Return a sole under a body that flies too high to touch."""
    return SceneSole(
        body=body,
        forward=np.linspace(-0.1, 0.1, ELEMENTS),
        up=np.zeros(ELEMENTS),
        stiffness=np.full(ELEMENTS, 1e4),
        loss=np.zeros(ELEMENTS),
        onset=1e-4,
        quickness=10.0,
        friction=0.5,
        sharpness=300.0,
        shear_damping=0.8,
    )


def linkage() -> Setting:
    """Return two bodies joined high above the floor, with a muscle between them."""
    return Setting(
        bodies=(
            SceneBody(mass=40.0, inertia=2.0, centre=(0.1, 50.3), lean=0.1),
            SceneBody(mass=8.0, inertia=0.2, centre=(0.0, 49.8), lean=-0.2),
        ),
        pivots=(Pivot(upper=0, lower=1, at=(0.05, 50.0)),),
        muscles=(
            Muscle(
                upper=0,
                lower=1,
                aim=0.3,
                feed=4.0,
                stiffness=60.0,
                damping=1.0,
                stop_low=-0.1,
                stop_high=0.2,
                stop_stiffness=200.0,
            ),
        ),
        soles=(far_sole(1),),
        balance=None,
        gravity=G,
    )


def hung(above: float, lean: float, muscle: float = 0.0) -> Setting:
    """Return a rigid body on a pivot in a block far too heavy to be moved by it.

    above: height of the body's centre over the pivot when it leans by nothing, negative if it hangs
    [m]; lean: [rad]; muscle: stiffness that turns it upright [N m/rad].
    """
    heavier = 1000.0
    rest = block(0.004)
    (rock,), (sole,) = rest.bodies, rest.soles
    pivot = (0.0, HEIGHT)
    centre = (above * math.sin(lean), HEIGHT + above * math.cos(lean))
    held = Muscle(upper=0, lower=1, aim=-rock.lean, feed=0.0, stiffness=muscle, damping=0.0)
    return replace(
        rest,
        bodies=(
            replace(rock, mass=heavier * rock.mass, inertia=heavier * rock.inertia),
            SceneBody(mass=5.0, inertia=0.3, centre=centre, lean=lean),
        ),
        pivots=(Pivot(upper=0, lower=1, at=pivot),),
        muscles=(held,),
        soles=(replace(sole, stiffness=heavier * sole.stiffness),),
    )


def period(course: Course, body: int) -> float:
    """Return the period of a body's lean [s]: from the first to the last crossing of nothing."""
    lean = -course.body[:, body, BODY_ANGLE]
    at = np.flatnonzero(np.diff(np.sign(lean)) != 0)
    crossing = course.time[at] - lean[at] * np.diff(course.time)[at] / np.diff(lean)[at]
    return float(2.0 * (crossing[-1] - crossing[0]) / (len(crossing) - 1))
