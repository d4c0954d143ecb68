"""The sole against closed forms: statics, the press cycle, onset, stick and slide."""

import math

import numpy as np
import pytest

from simgait.engines import compiled, plain
from simgait.physics import layout as rows
from worked_limb import Columns, rate_and_scratch, run, standing, walking

K, ETA, ONSET = 12000.0, 0.3, 0.002  # [N/m], [1], [m] of one invented element
DEPTH = 0.008  # [m]
STEP = 5e-4  # [s]
MU = 0.1  # [1] a slippery floor
TRUNK = 400.0  # [N s/m]


def test_the_pressure_under_a_standing_foot_is_where_statics_says():
    """Moments about the origin: the weights and the torque that the trunk gives the thigh."""
    limb = standing()
    p = limb.parameter
    last = run(compiled.kernel(), limb, 9.0, STEP).curves[-1]
    thigh, shank, foot = last[rows.THIGH], last[rows.RESIDUAL], last[rows.PROSTHESIS]
    knee = last[rows.HIP_X] - p[rows.LENGTH_THIGH] * math.sin(thigh)
    pivot = knee - p[rows.LENGTH_RESIDUAL] * math.sin(shank)
    ahead = p[rows.CENTRE_FORWARD] * math.cos(foot) + p[rows.CENTRE_UP] * math.sin(foot)
    carried = (
        p[rows.MASS_HIP] * last[rows.HIP_X]
        + p[rows.MASS_THIGH] * (last[rows.HIP_X] - p[rows.CENTRE_THIGH] * math.sin(thigh))
        + p[rows.MASS_RESIDUAL] * (knee - p[rows.CENTRE_RESIDUAL] * math.sin(shank))
        + p[rows.MASS_PROSTHESIS] * (pivot + ahead)
    )
    moment = p[rows.GRAVITY] * carried + last[rows.MOMENT_HIP]
    assert last[rows.FORCE_MOMENT] == pytest.approx(moment, abs=1e-5)
    pressure = last[rows.FORCE_MOMENT] / last[rows.FORCE_UP]
    sole = pivot + limb.sole[rows.SOLE_FORWARD :: 4] * math.cos(foot) - 0.41 * math.sin(foot)
    assert sole.min() < pressure < sole.max()


@pytest.mark.parametrize("tilt", [-0.02, 0.0, 0.01, 0.03])
def test_a_flat_foot_pressed_deep_is_a_strip_on_springs(tilt):
    """Without onset: force k n d, pressure centre off the middle by tilt x sum(x^2) / (n d)."""
    limb = walking().changed(SOLE_ONSET=1e-12, SOLE_QUICKNESS=0.0)
    x = np.linspace(-0.1, 0.1, rows.ELEMENTS)
    limb.sole[rows.SOLE_FORWARD :: 4] = x
    limb.sole[rows.SOLE_UP :: 4] = -0.41
    limb.sole[rows.SOLE_STIFFNESS :: 4] = K
    limb.state[:] = 0.0
    knee = limb.parameter[rows.LENGTH_THIGH] + limb.parameter[rows.LENGTH_RESIDUAL]
    limb = limb.at(PROSTHESIS=tilt, HIP_Y=knee + 0.41 * math.cos(tilt) - DEPTH)
    curves = rate_and_scratch(plain.kernel(), limb).scratch.reshape(-1, 16)[:, 0]
    deep = DEPTH + x * math.sin(tilt)
    assert deep.min() > 0.0
    up = K * rows.ELEMENTS * DEPTH
    centre = math.sin(tilt) * math.cos(tilt) * np.sum(x**2) / (rows.ELEMENTS * DEPTH)
    assert curves[rows.SUM_UP] == pytest.approx(up, rel=1e-8)
    lever = curves[rows.SUM_MOMENT] / curves[rows.SUM_UP] + 0.41 * math.sin(tilt)
    assert lever == pytest.approx(centre, abs=1e-9)


@pytest.mark.parametrize(("sinking", "share"), [(0.5, ETA), (0.1, ETA), (0.0, 0.0), (-0.5, -ETA)])
def test_the_ground_pushes_a_quick_foot_harder_by_eta_and_no_more(sinking, share):
    """Fully developed from 0.1 m/s on: N = k d^3 / (d + a)^2 (1 +- eta)."""
    limb = walking().changed(SOLE_ONSET=ONSET, SOLE_QUICKNESS=30.0)
    limb.sole[rows.SOLE_UP :: 4] = -0.41
    limb.sole[rows.SOLE_STIFFNESS :: 4] = K
    limb.sole[rows.SOLE_LOSS :: 4] = ETA
    limb.state[:] = 0.0
    knee = limb.parameter[rows.LENGTH_THIGH] + limb.parameter[rows.LENGTH_RESIDUAL]
    limb = limb.at(HIP_Y=knee + 0.41 - DEPTH, HIP_VY=-sinking)
    up = rate_and_scratch(plain.kernel(), limb).scratch[rows.SUM_UP * 16]
    elastic = rows.ELEMENTS * K * DEPTH**3 / (DEPTH + ONSET) ** 2
    assert up == pytest.approx(elastic * (1.0 + share), rel=1e-10)


def elastic_energy(depth: float) -> float:
    """Integral of k d^3 / (d + a)^2 from 0 to depth [J], in closed form."""
    a, u = ONSET, depth + ONSET
    high = u * u / 2.0 - 3.0 * a * u + 3.0 * a * a * math.log(u) + a**3 / u
    low = a * a / 2.0 - 3.0 * a * a + 3.0 * a * a * math.log(a) + a * a
    return K * (high - low)


def cycle(quickness: float) -> tuple[float, float, float]:
    """Work taken and given in one press and release (1 - cos, 1 s), and of the lost force [J]."""
    kernel = plain.kernel()
    nodes, weights = np.polynomial.legendre.leggauss(400)
    taken = given = lost = 0.0
    for half in (0.0, math.pi):
        for node, weight in zip(half + (nodes + 1.0) * math.pi / 2.0, weights, strict=True):
            depth = DEPTH * (1.0 - math.cos(node)) / 2.0
            speed = DEPTH * math.sin(node) * math.pi
            y = min(max(speed * quickness, -3.0), 3.0)
            path = weight * math.pi / 2.0 * DEPTH * math.sin(node) / 2.0
            work = kernel.normal_force(K, ETA, depth, ONSET, y) * path
            lost += kernel.lost_force(K, ETA, depth, ONSET, y) * path
            taken += work if half == 0.0 else 0.0
            given -= work if half > 0.0 else 0.0
    return taken, given, lost


@pytest.mark.parametrize("quickness", [1.0, 30.0, 1e9])
def test_a_press_cycle_loses_what_the_lost_force_says(quickness):
    taken, given, lost = cycle(quickness)
    assert 0.0 < given < taken
    assert taken - given == pytest.approx(lost, rel=1e-9)
    assert taken - given < 2.0 * ETA * elastic_energy(DEPTH) * (1.0 + 1e-12)


def test_a_quick_press_loses_the_share_eta_each_way():
    """Taken (1 + eta) E, given (1 - eta) E, with the elastic energy E in closed form."""
    taken, given, _ = cycle(1e9)
    assert taken == pytest.approx((1.0 + ETA) * elastic_energy(DEPTH), rel=1e-9)
    assert given == pytest.approx((1.0 - ETA) * elastic_energy(DEPTH), rel=1e-9)


def test_no_element_ever_pulls():
    random = np.random.default_rng(5)
    depth, y = random.uniform(0.0, 0.05, 20000), random.uniform(-3.0, 3.0, 20000)
    force = plain.kernel().normal_force(K, random.uniform(0.0, 0.95, 20000), depth, ONSET, y)
    assert force.min() >= 0.0
    assert force.max() > 100.0


def test_the_onset_has_two_derivatives():
    """At touch-down force, slope and curvature begin at nothing: the second difference is O(h)."""
    force = plain.kernel().normal_force

    def bend(h: float) -> float:
        at = [force(K, ETA, max(d, 0.0), ONSET, 2.0) for d in (-h, 0.0, h)]
        return (at[0] - 2.0 * at[1] + at[2]) / h**2

    bends = [bend(h) for h in (1e-5, 5e-6, 2.5e-6)]
    assert bends[0] / bends[1] == pytest.approx(2.0, rel=0.02)
    assert bends[1] / bends[2] == pytest.approx(2.0, rel=0.01)
    assert bends[2] > 0.0


def test_the_loss_has_two_derivatives_where_it_is_fully_developed():
    """The force falls short of its bound by the cube of the distance from y = 3."""
    force = plain.kernel().normal_force
    bound = force(K, ETA, DEPTH, ONSET, 3.0)
    short = [bound - force(K, ETA, DEPTH, ONSET, 3.0 - h) for h in (0.04, 0.02, 0.01)]
    assert short[0] / short[1] == pytest.approx(8.0, rel=0.03)
    assert short[1] / short[2] == pytest.approx(8.0, rel=0.02)
    elastic = K * DEPTH**3 / (DEPTH + ONSET) ** 2
    assert bound == pytest.approx(elastic * (1.0 + ETA), rel=1e-12)


def pulled(share: float) -> Columns:
    """A standing limb on a slippery floor, its hip pulled forward by a share of mu N.

    The trunk is a damper about a speed: on a foot at rest it is a constant pull.
    """
    limb = standing().changed(FRICTION=MU)
    pull = share * MU * limb.parameter[rows.BODY_WEIGHT]
    return limb.changed(TRUNK_SPEED=pull / TRUNK, TRUNK_DAMPING=TRUNK)


@pytest.mark.parametrize("share", [0.3, 0.6, 0.9])
def test_nothing_creeps_under_a_pull_that_friction_holds(share):
    """Over the last five seconds of fourteen the foot stays where it is, and nothing has slid."""
    limb = pulled(share)
    curves = run(compiled.kernel(), limb, 14.0, STEP).curves
    p = limb.parameter
    foot = (
        curves[:, rows.HIP_X]
        - p[rows.LENGTH_THIGH] * np.sin(curves[:, rows.THIGH])
        - p[rows.LENGTH_RESIDUAL] * np.sin(curves[:, rows.RESIDUAL])
    )
    late = round(5.0 / STEP)
    assert len(foot) > 2 * late
    assert np.ptp(foot[-late:]) < 1e-8
    assert np.ptp(curves[-late:, rows.SLIDING]) == 0.0
    pull = share * MU * p[rows.BODY_WEIGHT]
    assert curves[-1, rows.FORCE_FORWARD] == pytest.approx(-pull, rel=1e-6)


def test_beyond_friction_the_foot_slides_and_the_force_is_mu_times_the_load():
    """It slides at the speed at which the trunk's pull has fallen to mu N."""
    limb = pulled(1.3)
    curves = run(compiled.kernel(), limb, 14.0, STEP).curves
    use = -curves[:, rows.FORCE_FORWARD] / (MU * curves[:, rows.FORCE_UP])
    assert np.abs(use).max() <= 1.0 + 1e-12
    late = slice(-round(2.0 / STEP), None)
    assert use[late] == pytest.approx(1.0, abs=1e-5)
    speed = 0.3 * MU * limb.parameter[rows.BODY_WEIGHT] / TRUNK
    assert curves[late, rows.HIP_VX] == pytest.approx(speed, rel=1e-3)
    slid = np.diff(curves[late, rows.SLIDING]) / STEP
    assert slid == pytest.approx(speed, rel=1e-2)


def test_friction_never_gives_more_than_mu_times_the_load():
    curves = run(compiled.kernel(), walking().changed(FRICTION=0.15), 0.6, STEP).curves
    loaded = curves[:, rows.FORCE_UP] > 1e-6
    use = np.abs(curves[loaded, rows.FORCE_FORWARD]) / curves[loaded, rows.FORCE_UP]
    assert use.max() <= 0.15 * (1.0 + 1e-12)
    assert use.max() > 0.149
