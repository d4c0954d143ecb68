"""Free scenes against closed forms: toppling, sliding, swinging, flying, and the laws by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

import blocks
from blocks import AHEAD, BEHIND, HEIGHT, INERTIA, MASS, G
from simgait.engines import plain
from simgait.engines.scene import Scene
from simgait.engines.setting import SceneBody
from simgait.physics import scene as law

EDGES = ((1.0, AHEAD), (-1.0, BEHIND))  # sense of falling, lever to the edge [m]


def needed_share(sense: float, lever: float, sunk: float) -> float:
    """Return the smallest toppling impulse of the scene over that of energy [1].

    A push J at the height h gives angular momentum J h about the edge, which the floor's impulse
    at the edge does not change: omega = J h / I_edge.  The block topples if the energy
    I_edge omega^2 / 2 lifts the centre over the edge, from its height to the distance R.  The
    push is at the centre of percussion, where the edge needs no friction to take it.
    """
    around, distance = INERTIA + MASS * (lever**2 + HEIGHT**2), math.hypot(lever, HEIGHT)
    omega = math.sqrt(2.0 * MASS * G * (distance - HEIGHT) / around)
    height = around / (MASS * HEIGHT)
    impulse = around * omega / height
    critical = math.atan(lever / HEIGHT)

    def topples(size: float) -> bool:
        act = blocks.once(sense * size * impulse, height)
        return blocks.toppled(blocks.block(sunk), act, critical)

    return blocks.smallest(topples, 0.9, 1.05, 7)


@pytest.mark.parametrize(("sense", "lever"), EDGES)
def test_a_push_topples_a_block_as_energy_says(sense: float, lever: float) -> None:
    # measured: 0.3 % less on edges that sink 4 mm, 1 % at 16 mm, 3 % at 64 mm, of 470 mm lift
    assert needed_share(sense, lever, 0.004) == pytest.approx(1.0, abs=0.005)


def test_what_energy_misses_is_the_sole_that_gives() -> None:
    misses = [1.0 - needed_share(1.0, AHEAD, sunk) for sunk in (0.064, 0.016, 0.004)]
    assert misses[0] > 1.8 * misses[1] > 3.6 * misses[2] > 0.0


@pytest.mark.parametrize(("sense", "lever"), EDGES)
@pytest.mark.parametrize(("share", "falls"), [(0.99, False), (1.01, True)])
def test_a_block_topples_where_its_line_leaves_the_edge(
    sense: float, lever: float, share: float, falls: bool
) -> None:
    # Statics: tan(slope) = lever / height, friction being plenty (2.0).
    critical = math.atan(lever / HEIGHT)
    act = blocks.raised(sense * share * critical, 4.0)
    fell = blocks.toppled(blocks.block(0.004), act, 0.2, quiet=20.0, until=10.0)
    assert fell == falls


@pytest.mark.parametrize("friction", [0.1, 0.3])
@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_a_block_slides_where_friction_is_used_up(friction: float, sense: float) -> None:
    # Coulomb: holds up to tan(slope) = friction; beyond, g (sin - friction cos) along the floor.
    for share, slides in ((0.98, False), (1.02, True), (1.5, True)):
        slope = share * math.atan(friction)
        act = blocks.raised(sense * slope, 2.0)
        course = Scene(blocks.block(0.008, friction)).play(blocks.never, act, until=4.0)
        speed, late = sense * course.body[:, 0, law.BODY_VX], course.time >= 2.5
        wanted = G * (math.sin(slope) - friction * math.cos(slope)) if slides else 0.0
        gained = (speed[-1] - speed[late][0]) / (course.time[-1] - course.time[late][0])
        # the block still rocks a little on its edges: 1e-3 m/s2
        assert gained == pytest.approx(wanted, rel=0.005, abs=1.5e-3)
        assert abs(course.body[-1, 0, law.BODY_ANGLE]) < 0.01


@pytest.mark.parametrize("slope", [-0.05, 0.0, 0.05])
def test_the_floor_carries_a_block_as_statics_says(slope: float) -> None:
    # Up m g cos, along -m g sin; their moment about the centre is nothing, so the pressure is
    # where the line of gravity through the centre meets the floor.
    course = Scene(blocks.block(0.004)).play(blocks.never, blocks.raised(slope, 1.0), until=3.0)
    along, up, moment = course.loads[-1, 0]
    assert up == pytest.approx(MASS * G * math.cos(slope), rel=1e-4)
    assert along == pytest.approx(-MASS * G * math.sin(slope), abs=1e-4 * MASS * G)
    centre = course.body[-1, 0, law.BODY_Y]
    assert moment / up == pytest.approx(centre * math.tan(slope), abs=1e-4)


def pendulum_period(offset: float, lean: float, muscle: float) -> float:
    return blocks.period(Scene(blocks.hung(offset, lean, muscle)).play(blocks.never, until=8.0), 1)


def test_a_pendulum_swings_with_its_period() -> None:
    # Small swings of a rigid body: 2 pi sqrt(I / (m g c)), I about the pivot.
    mass, inertia, hang = 5.0, 0.3, 0.4
    wanted = 2.0 * math.pi * math.sqrt((inertia + mass * hang**2) / (mass * G * hang))
    assert pendulum_period(-hang, 0.02, 0.0) == pytest.approx(wanted, rel=1e-3)


@pytest.mark.parametrize("muscle", [60.0, 200.0])
def test_a_muscle_holds_an_inverted_pendulum(muscle: float) -> None:
    # A spring K above a body whose centre is c over its pivot: 2 pi sqrt(I / (K - m g c)); it
    # falls where K < m g c = 19.6 N m/rad.
    mass, inertia, above = 5.0, 0.3, 0.4
    around = inertia + mass * above**2
    wanted = 2.0 * math.pi * math.sqrt(around / (muscle - mass * G * above))
    assert pendulum_period(above, 0.02, muscle) == pytest.approx(wanted, rel=1e-3)


def test_a_muscle_weaker_than_gravity_lets_it_fall() -> None:
    course = Scene(blocks.hung(0.4, 0.02, 15.0)).play(blocks.never, until=4.0)
    assert -course.body[-1, 1, law.BODY_ANGLE] > 0.3


def momenta(bodies: np.ndarray, setting) -> tuple[float, float, float]:
    """Return momentum along and up [N s], and about the common centre, + top forward [N m s]."""
    mass = np.array([each.mass for each in setting.bodies])
    inertia = np.array([each.inertia for each in setting.bodies])
    x, y, _, vx, vy, spin = bodies.T
    along, up = float(mass @ vx), float(mass @ vy)
    x, y = x - mass @ x / mass.sum(), y - mass @ y / mass.sum()
    return along, up, float(mass @ (y * vx - x * vy) - inertia @ spin)


@pytest.mark.parametrize("impulse", [12.0, -12.0])
def test_a_push_in_flight_gives_its_momentum_and_no_more(impulse: float) -> None:
    # Newton: muscle and pivot act between the bodies, so the linkage as a whole gains J along, J
    # times the height over the common centre about it, and otherwise only falls.
    setting = blocks.linkage()
    act = blocks.once(impulse, 50.5, at=0.2)
    course = Scene(setting).play(blocks.never, act, until=0.6)
    mass = np.array([each.mass for each in setting.bodies])
    total = float(mass.sum())
    first = next(n for n, time in enumerate(course.time) if time >= 0.2)
    height = 50.5 - float(mass @ course.body[first, :, law.BODY_Y]) / total
    for n in (first - 1, first, len(course.time) - 1):
        along, up, about = momenta(course.body[n], setting)
        given = impulse if n >= first else 0.0
        assert along == pytest.approx(given, abs=1e-9)
        assert up == pytest.approx(-total * G * course.time[n], rel=1e-9)
        # what is left is the pivot's drift: it is put right by moving bodies, not by forces
        assert about == pytest.approx(given * height, abs=2e-3 * abs(impulse))
    turning = np.abs(np.diff(course.body[:, 0, law.BODY_ANGLE] - course.body[:, 1, law.BODY_ANGLE]))
    assert turning.max() > 1e-3


@pytest.mark.parametrize(("loss", "least", "most"), [(0.0, 0.97, 1.0), (0.8, -0.5, 0.1)])
def test_a_dropped_block_gets_back_no_more_than_it_brought(
    loss: float, least: float, most: float
) -> None:
    # Energy: a sole without loss gives the fall back, one with loss less; never more.
    even = replace(blocks.block(0.02, loss=loss), bodies=(_lifted(0.05),))
    sole = replace(even.soles[0], forward=even.soles[0].forward - (AHEAD - BEHIND) / 2.0)
    course = Scene(replace(even, soles=(sole,))).play(blocks.never, until=0.6)
    height = course.body[:, 0, law.BODY_Y] - HEIGHT
    deepest = int(np.argmin(height[:60]))
    assert height[deepest] < -0.02
    assert least < height[deepest:].max() / 0.05 < most


def _lifted(height: float) -> SceneBody:
    return SceneBody(mass=MASS, inertia=INERTIA, centre=(0.0, HEIGHT + height), lean=0.0)


# ---- the laws by hand ---------------------------------------------------------------------------


def test_the_extrapolated_centre_is_hofs() -> None:
    # Hof, Gazendam, Sinke 2005: x + v / sqrt(g / l), by hand for two bodies on the level and on
    # a slope, where gravity's line through the centre meets the floor l tan(slope) farther.
    mass = np.array([3.0, 1.0])
    body = np.array([0.1, 1.2, 0.3, 0.5, 9.0, 9.0, -0.3, 0.4, 0.0, -0.7, 9.0, 9.0])
    x, height, speed = 0.0, 1.0, 0.2  # (0.3 - 0.3)/4, (3.6 + 0.4)/4, (1.5 - 0.7)/4
    for slope in (0.0, 0.1, -0.1):
        balance = np.zeros(law.BALANCE)
        balance[law.GRAVITY_ALONG], balance[law.GRAVITY_DOWN] = (
            G * math.sin(slope),
            G * math.cos(slope),
        )
        plain.kernel().find_centre(2, body, mass, balance)
        got = balance[[law.CENTRE_X, law.CENTRE_Y, law.CENTRE_VX, law.EXTRAPOLATED]]
        reach = height * math.tan(slope) + speed / math.sqrt(G * math.cos(slope) / height)
        assert got == pytest.approx([x, height, speed, x + reach], abs=1e-12)


# lean of the lower body less the upper's [rad], its rate [rad/s], and by hand with aim 0.1, feed
# 5, stiffness 100, damping 2, bounds -20 to 30, stops at -0.1 and 0.4 of 1000 N m/rad
PULLS = (
    (0.1, 0.0, 5.0),
    (0.0, 1.0, 5.0 + 10.0 - 2.0),
    (0.2, -0.5, 5.0 - 10.0 + 1.0),
    (-0.05, -10.0, 30.0),
    (0.38, 3.0, -20.0),
    (-0.15, 0.0, 30.0 + 50.0),
    (0.45, 0.0, -20.0 - 50.0),
)


@pytest.mark.parametrize(("turned", "turning", "wanted"), PULLS)
def test_a_muscle_pulls_as_by_hand(turned: float, turning: float, wanted: float) -> None:
    muscle = np.array([0.0, 1.0, 0.1, 5.0, 100.0, 2.0, -20.0, 30.0, -0.1, 0.4, 1000.0, 0.0])
    body = np.zeros(2 * law.BODY)
    body[law.BODY_ANGLE], body[law.BODY_SPIN] = -0.7, -0.3  # the upper one leans forward 0.7
    body[law.BODY + law.BODY_ANGLE] = -0.7 - turned
    body[law.BODY + law.BODY_SPIN] = -0.3 - turning
    load = np.zeros(2 * law.LOAD)
    plain.kernel().pull_muscles(1, body, muscle, load)
    assert muscle[law.GIVEN] == pytest.approx(wanted, abs=1e-9)
    # + turns the lower body's top forward: its angle, which counts backward, down
    assert load == pytest.approx([0.0, 0.0, wanted, 0.0, 0.0, -wanted], abs=1e-9)
