"""Limits of the stance that have closed forms, read off whole runs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from simgait.physics import layout as rows
from simgait.stance import StanceResult, simulate_stance
from simgait.stance.batch import batch_of
from simgait.stance.running import run_batch
from walkers import stance_of, walker


def ground_moment_about_pivot(result: StanceResult) -> np.ndarray:
    """Return the ground force's flexing moment about the socket pivot [N m], by hand."""
    c = result.curves
    arm = np.nan_to_num(c.pressure_x - c.socket_pivot[:, 0])
    return -arm * c.force_up - c.socket_pivot[:, 1] * c.force_forward


def test_without_mass_the_prosthesis_only_hands_the_ground_force_on() -> None:
    # A massless prosthesis is in balance at every instant: the socket moment is the ground force's
    # moment about the pivot. What is left over must shrink in proportion to the mass.
    limb = walker("steady-transtibial")

    def lighter(share: float) -> float:
        light = replace(
            limb,
            socket=replace(limb.socket, mass=limb.socket.mass * share),
            foot=replace(limb.foot, mass=limb.foot.mass * share),
            pylon=replace(
                limb.pylon,
                mass_per_length=limb.pylon.mass_per_length * share,
                adapter_mass=limb.pylon.adapter_mass * share,
            ),
        )
        result = simulate_stance(light)
        loaded = (result.curves.percent > 10.0) & (result.curves.percent < 80.0)
        gap = result.curves.socket_flexion_moment - ground_moment_about_pivot(result)
        return float(np.abs(gap[loaded]).max())

    whole, part = lighter(1.0), lighter(0.25)
    assert part < 0.35 * whole
    assert whole < 3.0  # [N m] a 2 kg prosthesis turning as fast as a shank


def test_impulse_equals_change_of_momentum() -> None:
    # Newton: all outer forces on the body over stance = its change of momentum, in both directions.
    limb = walker("steady-transtibial")
    batch = batch_of([limb])
    outcome = run_batch(batch, keep_curves=True)
    c, step = outcome.curves[0], float(outcome.steps[0])
    p = batch.parameter[0]
    window = slice(len(c) // 10, len(c) * 9 // 10)  # instants well inside stance

    def momentum(n: int) -> np.ndarray:
        lean = c[n, [rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS]]
        rate = c[n, [rows.THIGH_RATE, rows.RESIDUAL_RATE, rows.PROSTHESIS_RATE]]
        m1, m2, m3 = p[rows.MASS_THIGH], p[rows.MASS_RESIDUAL], p[rows.MASS_PROSTHESIS]
        first = (
            (0.0, -(m1 * p[rows.CENTRE_THIGH] + (m2 + m3) * p[rows.LENGTH_THIGH])),
            (0.0, -(m2 * p[rows.CENTRE_RESIDUAL] + m3 * p[rows.LENGTH_RESIDUAL])),
            (m3 * p[rows.CENTRE_FORWARD], m3 * p[rows.CENTRE_UP]),
        )
        total = p[rows.MASS_HIP] + m1 + m2 + m3
        result = total * c[n, [rows.HIP_VX, rows.HIP_VY]]
        for (a, b), t, w in zip(first, lean, rate, strict=True):
            result += w * np.array([b * np.cos(t) - a * np.sin(t), -a * np.cos(t) - b * np.sin(t)])
        return result

    inside = c[window]
    total = p[rows.MASS_HIP] + p[rows.MASS_THIGH] + p[rows.MASS_RESIDUAL] + p[rows.MASS_PROSTHESIS]
    trunk = p[rows.TRUNK_DAMPING] * (p[rows.TRUNK_SPEED] - inside[:, rows.HIP_VX])
    forward = inside[:, rows.FORCE_FORWARD] + inside[:, rows.OTHER_FORCE_FORWARD] + trunk
    up = inside[:, rows.FORCE_UP] + inside[:, rows.OTHER_FORCE_UP] - total * 9.81
    impulse = np.array([np.trapezoid(forward, dx=step), np.trapezoid(up, dx=step)])
    change = momentum(window.stop - 1) - momentum(window.start)
    assert impulse == pytest.approx(change, abs=0.01)  # [N s] trapezia of a whole stance


def test_brim_and_end_forces_are_in_balance_with_the_socket_moment() -> None:
    # Two forces across the limb, a depth apart, make the moment and the shear: when the moment is
    # largest, the larger of the two is no less than the couple's force.
    for wearer in ("able-bodied-like", "steady-transtibial", "weak-kneed-slow"):
        m = stance_of(wearer).measures
        depth = walker(wearer).socket_depth
        largest = max(m["socket_flexion_moment_peak_nm"], m["socket_extension_moment_peak_nm"])
        assert m["socket_couple_force_n"] == pytest.approx(largest / depth, rel=1e-12)
        highest = max(m["brim_force_peak_n"], m["limb_end_force_peak_n"])
        assert highest >= m["socket_couple_force_n"] * 0.999


def test_runs_of_one_body_scaled_in_mass_are_the_same() -> None:
    # Hof 1996 (from memory): with every mass and stiffness in proportion, all motion is the same
    # and every force grows with mass; the sole's stiffness is scaled with the rest.
    limb = walker("steady-transtibial")
    batch = batch_of([limb, limb])
    p, s = batch.parameter, batch.sole
    heavier = (
        rows.MASS_HIP, rows.MASS_THIGH, rows.INERTIA_THIGH, rows.MASS_RESIDUAL,
        rows.INERTIA_RESIDUAL, rows.MASS_PROSTHESIS, rows.INERTIA_PROSTHESIS,
        rows.SOCKET_STIFFNESS, rows.SOCKET_DAMPING, rows.HIP_STIFFNESS, rows.HIP_DAMPING,
        rows.KNEE_STIFFNESS, rows.KNEE_DAMPING, rows.TRUNK_DAMPING, rows.NEXT_STIFFNESS,
        rows.NEXT_DAMPING, rows.BODY_WEIGHT, *range(rows.OTHER_UP, rows.NEXT_FORWARD + 4),
    )  # fmt: skip
    p[1, list(heavier)] *= 1.5
    s[1, rows.SOLE_STIFFNESS :: 4] *= 1.5
    light, heavy = run_batch(batch).measures
    for row in (rows.KNEE_FLEXION_PEAK, rows.SOCKET_EXTENSION_PEAK, rows.BRAKING_IMPULSE):
        assert heavy[row] == pytest.approx(1.5 * light[row], rel=1e-9)
    for row in (rows.STANCE_LENGTH, rows.HEEL_OFF, rows.UP_PEAK_FIRST, rows.TOE_LEVER):
        assert heavy[row] == pytest.approx(light[row], rel=1e-9)


def test_no_friction_slips_and_says_so() -> None:
    # With next to no friction the foot must slide away; the run is a result with its ending.
    result = simulate_stance(replace(walker("steady-transtibial"), friction=0.05))
    assert result.ending in ("foot_slipped", "fell_backward", "fell_forward")
    assert all(np.isnan(value) for name, value in result.measures.items() if "ledger" not in name)
