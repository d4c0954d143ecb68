"""A limb set up at its alignment, against points of mass, numbers turned by hand, and scipy."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.linalg import eigh

from simgait.engines import plain
from simgait.engines.setting_up import beginning, set_up_columns, steps_of
from simgait.limb import Limb, bench_columns
from simgait.parts.sole import solved_sole
from simgait.physics import bench_rows
from simgait.physics import layout as rows
from walkers import aligned, walker

BENCH_FLEXION = math.radians(5.0)
CHANGES = {
    "as it is": {},
    "foot moved": {"foot_forward": 0.02, "dorsiflexion": 0.05, "length_change": 0.01},
    "socket and heel": {"socket_flexion": 0.08, "heel_rise": 0.012},
}


def parts_of(limb: Limb):
    """Return parameters, sole, references and state at touch-down by the plain engine."""
    before = bench_columns(limb)
    parts = set_up_columns(plain.kernel(), before)
    return (*parts, beginning(plain.kernel(), before, *parts))


@pytest.fixture(params=CHANGES)
def limb(request: pytest.FixtureRequest) -> Limb:
    return aligned(walker("steady-transtibial"), **CHANGES[request.param])


def turned(points, angle: float):
    """Return points turned by an angle, + forward to up."""
    c, s = math.cos(angle), math.sin(angle)
    return np.asarray(points) @ np.array([[c, s], [-s, c]])


def test_the_prosthesis_weighs_as_points_of_mass_along_its_parts(limb: Limb) -> None:
    end, ankle = np.array([0.0, -limb.end_below_pivot]), np.array(limb.ankle)
    foot = limb.foot
    # the foot's rod at half its height, a quarter of its length behind the ankle axis
    ends = [[along * foot.length, -foot.sole_height / 2] for along in (-0.25, 0.75)]
    heel, toe = ankle + turned(ends, limb.sole_slope)
    tube = limb.pylon.adapter_mass + limb.pylon.mass_per_length * float(np.hypot(*(ankle - end)))
    rods = (
        (limb.socket.mass, np.array([0.0, limb.socket_depth / 2]), end),
        (tube, end, ankle),
        (foot.mass, heel, toe),
    )
    share = ((np.arange(4000) + 0.5) / 4000)[:, None]
    points = np.concatenate([a + share * (b - a) for _, a, b in rods])
    masses = np.concatenate([np.full(4000, mass / 4000) for mass, _, _ in rods])
    centre = masses @ points / masses.sum()
    p, *_ = parts_of(limb)
    assert p[rows.MASS_PROSTHESIS] == pytest.approx(masses.sum(), rel=1e-12)
    found = (p[rows.CENTRE_FORWARD], p[rows.CENTRE_UP])
    assert found == pytest.approx(tuple(centre), abs=1e-12)
    inertia = masses @ ((points - centre) ** 2).sum(axis=1)
    assert p[rows.INERTIA_PROSTHESIS] == pytest.approx(inertia, rel=1e-6)


def test_all_parts_together_weigh_what_the_person_weighs(limb: Limb) -> None:
    p, *_ = parts_of(limb)
    parts = (rows.MASS_HIP, rows.MASS_THIGH, rows.MASS_RESIDUAL, rows.MASS_PROSTHESIS)
    assert sum(p[row] for row in parts) == pytest.approx(limb.person.mass, rel=1e-12)


def test_a_heel_turns_the_sole_about_the_forefoots_contact() -> None:
    # the ground under the forefoot, 0.70 of the foot ahead of the heel's contact, stays as far
    # below the ankle; the ground under the heel goes down by the rise
    own = walker("steady-transtibial")
    flat = np.flatnonzero(np.abs(solved_sole(own.foot).up + own.foot.sole_height) < 1e-12)
    little = 1e-6

    def under_ankle(limb: Limb, ahead: float) -> np.ndarray:
        """A point of the sole's flat line, so far ahead of the ankle axis as built [m]."""
        p, sole, *_ = parts_of(limb)
        points = np.stack((sole[rows.SOLE_FORWARD :: 4], sole[rows.SOLE_UP :: 4]), axis=1)
        ankle = (p[rows.ANKLE_FORWARD], p[rows.ANKLE_UP])
        room = turned(points - ankle, -limb.alignment.socket_flexion)[flat[[0, -1]]]
        along = solved_sole(limb.foot).forward[flat[[0, -1]]]
        return room[0] + (room[1] - room[0]) / (along[1] - along[0]) * (ahead - along[0])

    heel, forefoot = -own.foot.heel_lever, 0.70 * own.foot.length - own.foot.heel_lever
    raised = aligned(own, heel_rise=little)
    for ahead, down in ((forefoot, 0.0), (heel, 1.0)):
        before = under_ankle(own, ahead)
        moved = (under_ankle(raised, ahead) - before) / little
        # along the floor it moves only by the turn about the ankle axis
        turn = 1.0 / (0.70 * own.foot.length)
        assert moved[0] == pytest.approx(-before[1] * turn, abs=1e-3)
        assert moved[1] == pytest.approx(-down, abs=0.05)


def test_the_wearer_makes_of_it_what_is_said(limb: Limb) -> None:
    extra = limb.alignment.socket_flexion - BENCH_FLEXION
    p, _, reference, state = parts_of(limb)
    wearer, before = limb.wearer, bench_columns(limb)
    assert p[rows.LEG_LENGTH] == pytest.approx(limb.person.hip_height + limb.sound_lift)
    assert p[rows.NEXT_HEIGHT] == pytest.approx(wearer.arriving_height + limb.sound_lift)
    raised = reference - before.reference
    knee = slice(rows.KNEE_CURVE, rows.KNEE_CURVE + rows.COEFFICIENTS)
    assert raised[knee] == pytest.approx(np.full(rows.COEFFICIENTS, extra), abs=1e-12)
    assert np.delete(raised, np.r_[knee]) == pytest.approx(0.0, abs=0.0)
    assert state[rows.THIGH] == wearer.start_thigh
    lean = wearer.start_thigh + wearer.start_flexion + extra
    assert state[rows.RESIDUAL] == pytest.approx(lean, abs=1e-12)
    turning = wearer.start_thigh_rate + wearer.start_flexion_rate
    assert state[rows.THIGH_RATE] == wearer.start_thigh_rate
    assert state[rows.RESIDUAL_RATE] == state[rows.PROSTHESIS_RATE] == pytest.approx(turning)
    speed = (state[rows.HIP_VX], state[rows.HIP_VY])
    assert speed == (wearer.start_forward_speed, wearer.start_upward_speed)


def places(p, leans, hip=(0.0, 0.0)):
    """Return the socket pivot and the centres of thigh, residual limb and prosthesis."""
    one, two = (turned([0.0, 1.0], -lean) for lean in leans[:2])
    knee = np.array(hip) - p[rows.LENGTH_THIGH] * one
    pivot = knee - p[rows.LENGTH_RESIDUAL] * two
    own = turned([p[rows.CENTRE_FORWARD], p[rows.CENTRE_UP]], -leans[2])
    return pivot, (
        np.array(hip) - p[rows.CENTRE_THIGH] * one,
        knee - p[rows.CENTRE_RESIDUAL] * two,
        pivot + own,
    )


def test_the_sole_just_touches_the_floor_with_the_ankle_at_nothing(limb: Limb) -> None:
    p, sole, _, state = parts_of(limb)
    leans = state[[rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS]]
    pivot, _ = places(p, leans, state[[rows.HIP_X, rows.HIP_Y]])
    points = np.stack((sole[rows.SOLE_FORWARD :: 4], sole[rows.SOLE_UP :: 4]), axis=1)
    assert (pivot + turned(points, -leans[2]))[:, 1].min() == pytest.approx(0.0, abs=1e-12)
    ankle = pivot + turned([p[rows.ANKLE_FORWARD], p[rows.ANKLE_UP]], -leans[2])
    assert ankle[0] == pytest.approx(0.0, abs=1e-12)


def lean_matrices(p, state):
    """Return mass, damping and stiffness of the three leans, the hip free, from differences."""
    leans = state[[rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS]]
    bodies = ("THIGH", "RESIDUAL", "PROSTHESIS")
    masses = [p[getattr(rows, f"MASS_{body}")] for body in bodies]
    little = 1e-6
    moves = np.zeros((3, 2, 3))  # body, direction, lean
    for place in range(3):
        step = np.eye(3)[place] * little
        ahead, behind = places(p, leans + step)[1], places(p, leans - step)[1]
        for body in range(3):
            moves[body, :, place] = (ahead[body] - behind[body]) / (2 * little)
    whole = sum(m * j for m, j in zip(masses, moves, strict=True))
    mass = sum(m * j.T @ j for m, j in zip(masses, moves, strict=True))
    mass = mass - whole.T @ whole / (p[rows.MASS_HIP] + sum(masses))
    mass += np.diag([p[getattr(rows, f"INERTIA_{body}")] for body in bodies])
    # a spring or damper between two leans turns one forward and the other back
    tied = [
        sum(
            p[getattr(rows, f"{joint}_{kind}")] * np.outer(arm, arm)
            for joint, arm in (("HIP", (1, 0, 0)), ("KNEE", (-1, 1, 0)), ("SOCKET", (0, -1, 1)))
        )
        for kind in ("DAMPING", "STIFFNESS")
    ]
    return mass, *tied


def test_the_leans_weigh_as_their_bodies_move(limb: Limb) -> None:
    p, _, _, state = parts_of(limb)
    lanes = np.zeros((rows.PARAMETERS, rows.W)), np.zeros((rows.STATES, rows.W))
    for block, column in zip(lanes, (p, state), strict=True):
        block[:, 0] = column
    leans = np.zeros(bench_rows.LEANS * rows.W)
    plain.kernel().weigh_leans(1, lanes[1].reshape(-1), lanes[0].reshape(-1), leans)
    found = leans.reshape(-1, rows.W)[bench_rows.LEAN_MASS : bench_rows.LEAN_MASS + 6, 0]
    mass, *_ = lean_matrices(p, state)
    wanted = [mass[place] for place in ((0, 0), (1, 1), (2, 2), (0, 1), (0, 2), (1, 2))]
    assert found == pytest.approx(wanted, rel=1e-7, abs=1e-9)


@pytest.mark.parametrize("asked", [1e-2, 3e-3])
def test_the_step_is_the_largest_half_that_the_light_parts_allow(limb: Limb, asked: float) -> None:
    short = replace(limb, residual_limb_length=limb.residual_limb_length * 0.7)
    # with dampers that hardly act it is the swing that asks for small steps
    dampers = [rows.HIP_DAMPING, rows.KNEE_DAMPING, rows.SOCKET_DAMPING]
    for one, damped in ((limb, 1.0), (short, 1.0), (limb, 1e-3)):
        p, _, _, state = parts_of(one)
        p[dampers] *= damped
        mass, damping, stiffness = lean_matrices(p, state)
        decay = eigh(damping, mass, eigvals_only=True)[-1] / 1.25
        swing = math.sqrt(eigh(stiffness, mass, eigvals_only=True)[-1])
        (taken,) = steps_of(plain.kernel(), p[None], state[None], asked)
        halvings = math.log2(asked / taken)
        assert halvings == round(halvings)
        assert taken * max(decay, swing) <= 1.0
        assert taken == asked or 2.0 * taken * max(decay, swing) > 1.0
