"""The wearer against other words for the same: splines from SciPy, forces from their definition."""

import numpy as np
import pytest
from numpy.polynomial import Polynomial
from scipy.interpolate import BSpline

from simgait.engines import plain
from simgait.physics import layout as rows
from worked_limb import Columns, W, rate_and_scratch, walking

P = rows  # the rows, by a short name


def supported() -> Columns:
    """The invented limb with every coefficient of the other limb's support at work."""
    limb = walking()
    random = np.random.default_rng(11)
    for first in (P.OTHER_UP, P.OTHER_FORWARD, P.NEXT_UP, P.NEXT_FORWARD):
        limb.parameter[first : first + 4] = random.uniform(-500.0, 500.0, 4)
    return limb


def reference(limb: Columns, first: int, time: float) -> tuple[float, float]:
    """Value [rad] and slope [rad/s] of a reference curve: a uniform cubic spline, then straight."""
    last = float(limb.parameter[P.REFERENCE_TIME])
    span = last / (P.NODES - 1)
    knots = span * np.arange(-3, P.NODES + 3)
    spline = BSpline(knots, limb.reference[first : first + P.COEFFICIENTS], 3)
    at = min(time, last)
    slope = float(spline.derivative()(at))
    return float(spline(at)) + slope * (time - at), slope


@pytest.mark.parametrize("time", [0.0, 0.01, 0.123, 0.37, 0.61, 0.739, 0.74, 0.8])
def test_torques_are_springs_and_dampers_about_the_references(time):
    limb = walking()
    p, q = limb.parameter, limb.state
    scratch = rate_and_scratch(plain.kernel(), limb, time).scratch
    thigh, thigh_slope = reference(limb, P.THIGH_CURVE, time)
    knee, knee_slope = reference(limb, P.KNEE_CURVE, time)
    flexion, flexing = q[P.RESIDUAL] - q[P.THIGH], q[P.RESIDUAL_RATE] - q[P.THIGH_RATE]
    hip = p[P.HIP_STIFFNESS] * (thigh - q[P.THIGH])
    hip += p[P.HIP_DAMPING] * (thigh_slope - q[P.THIGH_RATE])
    bend = p[P.KNEE_STIFFNESS] * (knee - flexion) + p[P.KNEE_DAMPING] * (knee_slope - flexing)
    assert scratch[P.TORQUE_HIP * W] == pytest.approx(hip, rel=1e-10, abs=1e-9)
    assert scratch[P.TORQUE_KNEE * W] == pytest.approx(bend, rel=1e-10, abs=1e-9)


def leaving(limb: Columns, first: int, time: float) -> float:
    """(1 - a)^3 times a cubic in a = t / t_leaves, then nothing [N]."""
    a = time / limb.parameter[P.LEAVES_TIME]
    return 0.0 if a >= 1.0 else (1.0 - a) ** 3 * Polynomial(limb.parameter[first : first + 4])(a)


def arriving(limb: Columns, first: int, time: float) -> tuple[float, float]:
    """How far the arriving limb stands (0 to 1), and its force [N] without the strut."""
    p = limb.parameter
    b = (time - p[P.ARRIVES_TIME]) / (p[P.STANCE_TIME] - p[P.ARRIVES_TIME])
    b = float(np.clip(b, 0.0, 1.0))
    firm = Polynomial([0.0, 0.0, 0.0, 10.0, -15.0, 6.0])(b)
    c = p[first : first + 4]
    return firm, firm * (c[0] + (1.0 - b) ** 3 * Polynomial(c[1:])(1.0 - b))


@pytest.mark.parametrize("time", [0.0, 0.03, 0.1, 0.134, 0.3, 0.54, 0.6, 0.66, 0.67, 0.75])
def test_the_other_limb_supports_as_defined(time):
    limb = supported().at(HIP_Y=0.86, HIP_VY=-0.3)
    p, q = limb.parameter, limb.state
    scratch = rate_and_scratch(plain.kernel(), limb, time).scratch
    firm, up = arriving(limb, P.NEXT_UP, time)
    _, forward = arriving(limb, P.NEXT_FORWARD, time)
    strut = p[P.NEXT_STIFFNESS] * (p[P.NEXT_HEIGHT] - q[P.HIP_Y]) - p[P.NEXT_DAMPING] * q[P.HIP_VY]
    wanted_up = leaving(limb, P.OTHER_UP, time) + up + firm * strut
    wanted_forward = leaving(limb, P.OTHER_FORWARD, time) + forward
    assert scratch[P.PUSH_Y * W] == pytest.approx(wanted_up, rel=1e-10, abs=1e-9)
    assert scratch[P.PUSH_X * W] == pytest.approx(wanted_forward, rel=1e-10, abs=1e-9)
    trunk = p[P.TRUNK_DAMPING] * (p[P.TRUNK_SPEED] - q[P.HIP_VX])
    assert scratch[P.TRUNK_PUSH * W] == pytest.approx(trunk, rel=1e-12)


@pytest.mark.parametrize("instant", ["LEAVES_TIME", "ARRIVES_TIME", "STANCE_TIME"])
def test_the_support_does_not_kink(instant):
    """Where a limb leaves, arrives or stands, the curvatures before and across approach each other
    with the step, as they do for a force with two continuous derivatives."""
    limb = supported().at(HIP_Y=0.86, HIP_VY=-0.3)
    middle = float(limb.parameter[getattr(P, instant)])

    def bend(h: float) -> float:
        times = (middle - h, middle, middle + h)
        force = [rate_and_scratch(plain.kernel(), limb, t).scratch[P.PUSH_Y * W] for t in times]
        left = rate_and_scratch(plain.kernel(), limb, middle - 2 * h).scratch[P.PUSH_Y * W]
        before = (left - 2.0 * force[0] + force[1]) / h**2
        return abs((force[0] - 2.0 * force[1] + force[2]) / h**2 - before)

    assert bend(1e-3) / bend(2e-3) == pytest.approx(0.5, abs=0.1)
    assert bend(5e-4) / bend(1e-3) == pytest.approx(0.5, abs=0.1)
