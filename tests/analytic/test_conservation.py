"""What must stay the same whatever the numbers: energy, the fall of the centre of mass, mirror and
scale."""

from dataclasses import replace

import numpy as np
import pytest

from simgait.engines import compiled, plain
from simgait.physics import layout as rows
from worked_limb import MOVING, Columns, lane, passive, rate_and_scratch, run, walking

HALF = MOVING // 2
STEP = 5e-4  # [s]


def tossed() -> Columns:
    """The limb without a wearer, tumbling in the air."""
    limb = passive(walking()).changed(CENTRE_FORWARD=0.05)
    limb = limb.at(HIP_Y=4.0, THIGH=0.2, RESIDUAL=0.0, PROSTHESIS=-0.2, HIP_VX=1.0, HIP_VY=0.5)
    return limb.at(THIGH_RATE=-2.0, RESIDUAL_RATE=1.0, PROSTHESIS_RATE=3.0)


def energy(columns: Columns, state: np.ndarray) -> float:
    """Mechanical energy [J]."""
    now = replace(columns, state=state)
    block = rate_and_scratch(plain.kernel(), now)
    return float(plain.kernel().mechanical_energy(0, block.state, 0, block.parameter))


def centre(columns: Columns, state: np.ndarray) -> np.ndarray:
    """Centre of mass of the chain: forward and up [m], from the bodies' own places."""
    p = columns.parameter
    axes = [np.array([np.sin(lean), np.cos(lean)]) for lean in state[2:HALF]]
    across = np.array([axes[2][1], -axes[2][0]])
    hip = state[:2]
    knee = hip - p[rows.LENGTH_THIGH] * axes[0]
    pivot = knee - p[rows.LENGTH_RESIDUAL] * axes[1]
    places = [
        (p[rows.MASS_HIP], hip),
        (p[rows.MASS_THIGH], hip - p[rows.CENTRE_THIGH] * axes[0]),
        (p[rows.MASS_RESIDUAL], knee - p[rows.CENTRE_RESIDUAL] * axes[1]),
        (
            p[rows.MASS_PROSTHESIS],
            pivot + p[rows.CENTRE_FORWARD] * across + p[rows.CENTRE_UP] * axes[2],
        ),
    ]
    return sum(mass * place for mass, place in places) / sum(mass for mass, _ in places)


def test_energy_in_the_air_is_kept_with_the_order_of_the_method():
    limb = tossed()
    start = energy(limb, limb.state)
    drift = [
        abs(energy(limb, run(compiled.kernel(), limb, 0.4, step).state) - start)
        for step in (2e-3, 1e-3, 5e-4, 2.5e-4)
    ]
    orders = np.log2(np.array(drift[:-1]) / np.array(drift[1:]))
    assert drift[-1] > 1e-10 * start  # above rounding
    assert orders.min() > 3.8
    fine = energy(limb, run(compiled.kernel(), limb, 0.4, 1e-4).state)
    assert fine == pytest.approx(start, rel=1e-8)


def test_the_centre_of_mass_falls_as_a_stone():
    limb, span = tossed(), 0.4
    ended = run(compiled.kernel(), limb, span, 1e-4).state
    h = 1e-4
    speed = limb.state[HALF:MOVING]
    ahead, behind = limb.state.copy(), limb.state.copy()
    ahead[:HALF] += h * speed
    behind[:HALF] -= h * speed
    pace = (centre(limb, ahead) - centre(limb, behind)) / (2 * h)
    fallen = np.array([0.0, -0.5 * limb.parameter[rows.GRAVITY] * span**2])
    assert centre(limb, ended) == pytest.approx(
        centre(limb, limb.state) + span * pace + fallen, abs=1e-7
    )


@pytest.mark.parametrize("span", [0.05, 0.2, 0.4, 0.6])
def test_the_ledger_closes_through_a_walk(span):
    """Change of mechanical energy = work of hip, knee, other limb, trunk, ground - socket loss."""
    limb = walking().changed(RUN_ON=1.0)
    ended = run(compiled.kernel(), limb, span, STEP / 2).state
    works = ("WORK_HIP", "WORK_KNEE", "WORK_OTHER", "WORK_TRUNK", "WORK_SOLE", "WORK_FRICTION")
    work = sum(ended[getattr(rows, name)] for name in works) - ended[rows.LOSS_SOCKET]
    change = energy(limb, ended) - energy(limb, limb.state)
    assert ended[rows.EXCHANGED] > 30.0
    assert abs(change - work) < 1e-6 * ended[rows.EXCHANGED]
    sizes = sum(abs(ended[getattr(rows, name)]) for name in works) + ended[rows.LOSS_SOCKET]
    assert ended[rows.EXCHANGED] >= sizes
    assert ended[rows.LOSS_SOCKET] > 0.0
    assert ended[rows.LOSS_SOLE] > 0.0


def mirrored(limb: Columns) -> Columns:
    """The same limb walking the other way: x and every lean change sign."""
    turned = limb.copied()
    turned.reference[:] *= -1.0
    turned.sole[rows.SOLE_FORWARD :: 4] *= -1.0
    turned.parameter[[rows.CENTRE_FORWARD, rows.TRUNK_SPEED]] *= -1.0
    for first in (rows.OTHER_FORWARD, rows.NEXT_FORWARD):
        turned.parameter[first : first + 4] *= -1.0
    turned.state[MIRRORED] *= -1.0
    return turned


MIRRORED = np.array(
    [
        *(rows.HIP_X, rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS, rows.HIP_VX),
        *(rows.THIGH_RATE, rows.RESIDUAL_RATE, rows.PROSTHESIS_RATE),
        *range(rows.ANCHOR, rows.STATES),
    ]
)


@pytest.mark.parametrize("friction", [0.8, 0.12])
@pytest.mark.parametrize("time", [0.01, 0.08, 0.3, 0.5, 0.6])
def test_a_mirrored_limb_moves_as_in_a_mirror(time, friction):
    """On a firm and on a slippery floor, where the foot slides."""
    limb = walking().changed(FRICTION=friction, RUN_ON=1.0)
    walked = run(compiled.kernel(), limb, time, STEP)
    limb = replace(limb, state=walked.state)
    rate = lane(rate_and_scratch(plain.kernel(), limb, time).rate).copy()
    image = lane(rate_and_scratch(plain.kernel(), mirrored(limb), time).rate)
    rate[MIRRORED] *= -1.0
    assert np.abs(rate[HALF:MOVING]).max() > 1.0
    assert image == pytest.approx(rate, rel=1e-12, abs=1e-12)


# rows that grow with the mass when everything else stays: masses, inertias, stiffnesses, forces
HEAVY = (
    "MASS_HIP", "MASS_THIGH", "MASS_RESIDUAL", "MASS_PROSTHESIS", "INERTIA_THIGH",
    "INERTIA_RESIDUAL", "INERTIA_PROSTHESIS", "SOCKET_STIFFNESS", "SOCKET_DAMPING",
    "HIP_STIFFNESS", "HIP_DAMPING", "KNEE_STIFFNESS", "KNEE_DAMPING", "TRUNK_DAMPING",
    "NEXT_STIFFNESS", "NEXT_DAMPING", "BODY_WEIGHT",
)  # fmt: skip


@pytest.mark.parametrize(("factor", "tolerance"), [(2.0, 0.0), (1.7, 1e-8), (0.25, 0.0)])
def test_a_heavier_limb_with_all_forces_in_proportion_moves_the_same(factor, tolerance):
    """With a power of two to the last bit."""
    limb = walking().changed(RUN_ON=1.0)
    heavy = limb.changed(**{name: factor * limb.parameter[getattr(rows, name)] for name in HEAVY})
    heavy.parameter[rows.OTHER_UP : rows.NEXT_FORWARD + 4] *= factor
    heavy.sole[rows.SOLE_STIFFNESS :: 4] *= factor
    one = run(compiled.kernel(), limb, 0.6, STEP)
    other = run(compiled.kernel(), heavy, 0.6, STEP)
    assert other.state[:MOVING] == pytest.approx(one.state[:MOVING], rel=tolerance, abs=tolerance)
    assert other.curves[:, rows.FORCE_UP] == pytest.approx(
        factor * one.curves[:, rows.FORCE_UP], rel=tolerance, abs=1e4 * tolerance
    )


LENGTHS = (
    "LENGTH_THIGH", "CENTRE_THIGH", "LENGTH_RESIDUAL", "CENTRE_RESIDUAL", "CENTRE_FORWARD",
    "CENTRE_UP", "SOLE_ONSET", "LEG_LENGTH", "NEXT_HEIGHT",
)  # fmt: skip
POWERS = dict.fromkeys(LENGTHS, 1.0) | {  # of the length; weights stay, gravity stays
    "INERTIA_THIGH": 2.0, "INERTIA_RESIDUAL": 2.0, "INERTIA_PROSTHESIS": 2.0,
    "SOCKET_STIFFNESS": 1.0, "HIP_STIFFNESS": 1.0, "KNEE_STIFFNESS": 1.0, "SOCKET_DAMPING": 1.5,
    "HIP_DAMPING": 1.5, "KNEE_DAMPING": 1.5, "TRUNK_DAMPING": -0.5, "TRUNK_SPEED": 0.5,
    "SOLE_QUICKNESS": -0.5, "REFERENCE_TIME": 0.5, "STANCE_TIME": 0.5, "LEAVES_TIME": 0.5,
    "ARRIVES_TIME": 0.5, "NEXT_STIFFNESS": -1.0, "NEXT_DAMPING": -0.5,
}  # fmt: skip


def test_a_longer_limb_moves_as_its_scale_model():
    """Four times as long, half as quick (equal Froude number), on a frictionless floor: the
    friction has a depth and a time of its own (`FULL_TOUCH`, `RELEASE`)."""
    small, size = walking().changed(RUN_ON=1.0, FRICTION=0.0), 4.0
    tall = small.changed(
        **{
            name: small.parameter[getattr(rows, name)] * size**power
            for name, power in POWERS.items()
        }
    )
    for row, power in ((rows.SOLE_FORWARD, 1), (rows.SOLE_UP, 1), (rows.SOLE_STIFFNESS, -1)):
        tall.sole[row::4] *= size**power
    tall.state[:2] *= size
    tall.state[HALF : HALF + 2] *= size**0.5
    tall.state[HALF + 2 : MOVING] /= size**0.5
    one = run(compiled.kernel(), small, 0.3, STEP)
    other = run(compiled.kernel(), tall, 0.6, 2.0 * STEP)
    assert other.state[2:HALF] == pytest.approx(one.state[2:HALF], rel=1e-9, abs=1e-9)
    assert other.curves[-1, rows.FORCE_UP] == pytest.approx(one.curves[-1, rows.FORCE_UP], rel=1e-8)
