"""The equations of motion agree with a derivation by Kane's method, which shares nothing."""

from collections.abc import Callable

import numpy as np
import pytest

import kane_chain
from sign_faults import faulty_copies
from simgait.engines import plain
from simgait.physics import layout as rows
from worked_limb import W, filled, walking

STATES = 25
SIZES = {  # spread of the random states and loads: far beyond walking
    "HIP_X": 1.0, "HIP_Y": 1.0, "THIGH": 0.9, "RESIDUAL": 1.2, "PROSTHESIS": 1.2, "HIP_VX": 3.0,
    "HIP_VY": 3.0, "THIGH_RATE": 8.0, "RESIDUAL_RATE": 12.0, "PROSTHESIS_RATE": 12.0,
    "TORQUE_HIP": 200.0, "TORQUE_KNEE": 200.0, "PUSH_X": 300.0, "PUSH_Y": 900.0,
    "TRUNK_PUSH": 100.0, "SUM_FORWARD": 300.0, "SUM_UP": 1500.0, "ahead": 0.2,
}  # fmt: skip


def drawn(seed: int) -> dict[str, float]:
    """A random state; every mass, length and stiffness up to a third off the invented limb."""
    random = np.random.default_rng(seed)
    numbers = {name: size * random.uniform(-1.0, 1.0) for name, size in SIZES.items()}
    made = walking().parameter
    for name in kane_chain.PARAMETERS:
        numbers[name] = float(made[getattr(rows, name)]) * random.uniform(0.67, 1.33)
    numbers["CENTRE_FORWARD"] = random.uniform(-0.1, 0.1)
    return numbers


def accelerations(numbers: dict[str, float], accelerate: Callable[..., None]) -> np.ndarray:
    """Return what `accelerate` makes of the numbers: hip x and y, the three leans."""
    state = {name: numbers[name] for name in (*kane_chain.COORDINATES, *kane_chain.SPEEDS)}
    changed = {name: numbers[name] for name in kane_chain.PARAMETERS}
    block = filled(walking().changed(**changed).at(**state), 1)
    plain.kernel().place_chain(1, block.state, block.parameter, block.scratch)
    for name in kane_chain.LOADS[:-1]:
        block.scratch[getattr(rows, name) * W] = numbers[name]
    block.scratch[rows.SUM_MOMENT * W] = numbers["SUM_UP"] * numbers["ahead"]
    accelerate(1, block.state, block.parameter, block.scratch, block.rate)
    return np.array([block.rate[getattr(rows, name) * W] for name in kane_chain.SPEEDS])


def expected(numbers: dict[str, float]) -> np.ndarray:
    groups = (
        kane_chain.COORDINATES, kane_chain.SPEEDS, kane_chain.PARAMETERS, kane_chain.LOADS,
    )  # fmt: skip
    matrix, force = kane_chain.motion()(*([numbers[name] for name in group] for group in groups))
    return np.linalg.solve(matrix, np.ravel(force))


def disagreement(seed: int, accelerate: Callable[..., None]) -> float:
    """Return the largest difference, relative to the largest translation or turn."""
    numbers = drawn(seed)
    wanted, got = expected(numbers), accelerations(numbers, accelerate)
    scale = np.repeat([np.abs(wanted[:2]).max(), np.abs(wanted[2:]).max()], [2, 3])
    return float(np.max(np.abs(got - wanted) / scale))


@pytest.mark.parametrize("seed", range(STATES))
def test_accelerations_agree_with_kane(seed):
    assert disagreement(seed, plain.kernel().accelerate) < 1e-10


def test_every_sign_of_the_equations_matters():
    copies = faulty_copies("accelerate")
    assert len(copies) > 60
    unseen = [text for text, wrong in copies if disagreement(1, wrong) < 1e-6]
    assert unseen == []


def test_the_kinematics_are_those_of_a_hanging_chain():
    """The socket pivot's speed is the rate of its place, by a central difference."""
    kernel, h = plain.kernel(), 1e-6
    numbers = drawn(3)
    places = {}
    for side in (-1, 0, 1):
        state = {
            name: numbers[name] + side * h * numbers[speed]
            for name, speed in zip(kane_chain.COORDINATES, kane_chain.SPEEDS, strict=True)
        } | {speed: numbers[speed] for speed in kane_chain.SPEEDS}
        block = filled(walking().at(**state), 1)
        kernel.place_chain(1, block.state, block.parameter, block.scratch)
        places[side] = block.scratch.reshape(-1, W)[:, 0].copy()
    moved = (places[1] - places[-1]) / (2 * h)
    assert moved[rows.PIVOT_X] == pytest.approx(places[0][rows.PIVOT_VX], rel=1e-7)
    assert moved[rows.PIVOT_Y] == pytest.approx(places[0][rows.PIVOT_VY], rel=1e-7)
    # the prosthesis' point at floor level below the pivot: v - omega x height
    turn = numbers["PROSTHESIS_RATE"]
    slide = moved[rows.PIVOT_X] - turn * places[0][rows.PIVOT_Y]
    assert slide == pytest.approx(places[0][rows.SLIDE_SPEED], rel=1e-7)
