"""The chain in the air, standing and walking agrees with MuJoCo, a general-purpose engine."""

import mujoco
import numpy as np
import pytest

from mujoco_chain import (
    HALF,
    absolute,
    built,
    force_on_prosthesis,
    ground_load,
    joint_loads,
)
from simgait.engines import compiled, plain
from simgait.physics import layout as rows
from worked_limb import (
    MOVING,
    Columns,
    lane,
    passive,
    rate_and_scratch,
    run,
    standing,
    walking,
)

HIGH = 3.0  # [m] hip height at which the foot is far from the floor
SPREAD = np.array([1.0, 0.5, 0.9, 1.2, 1.2, 3.0, 3.0, 8.0, 12.0, 12.0])


def tossed(seed: int) -> Columns:
    """The limb without a wearer, in the air, in a random state."""
    random = np.random.default_rng(seed)
    made = passive(walking()).changed(SOCKET_DAMPING=4.0, CENTRE_FORWARD=random.uniform(-0.1, 0.1))
    made.state[:MOVING] = SPREAD * random.uniform(-1.0, 1.0, MOVING)
    return made.at(HIP_Y=HIGH)


@pytest.mark.parametrize("seed", range(10))
def test_accelerations_without_contact(seed):
    limb = tossed(seed)
    model, data = built(limb)
    mujoco.mj_forward(model, data)
    got = lane(rate_and_scratch(plain.kernel(), limb).rate)[HALF:MOVING]
    assert got == pytest.approx(absolute(data.qacc), rel=1e-8, abs=1e-8)


def test_a_fall_of_the_chain():
    """0.3 s, both by Runge and Kutta's method at 0.1 ms."""
    limb = passive(walking()).at(HIP_Y=HIGH, THIGH=0.3, RESIDUAL=-0.2, PROSTHESIS=-0.1)
    limb = limb.at(THIGH_RATE=-1.0, RESIDUAL_RATE=2.0, PROSTHESIS_RATE=1.0)
    limb = limb.changed(SOCKET_DAMPING=1.0)
    model, data = built(limb, step=1e-4)
    for _ in range(3000):
        mujoco.mj_step(model, data)
    fallen = run(compiled.kernel(), limb, 0.3, 1e-4)
    assert len(fallen.curves) == 3001
    assert np.abs(fallen.state[rows.THIGH : rows.PROSTHESIS + 1]).max() < 1.6
    assert fallen.state[rows.HIP_Y] < HIGH - 0.4
    assert fallen.state[:HALF] == pytest.approx(absolute(data.qpos), rel=1e-9, abs=1e-9)
    assert fallen.state[HALF:MOVING] == pytest.approx(absolute(data.qvel), rel=1e-8, abs=1e-8)


def test_standing_still_carries_the_weight_and_the_static_moments():
    limb = standing()
    stood = run(compiled.kernel(), limb, 9.0, 5e-4)
    last = stood.curves[-1]
    p = limb.parameter
    masses = ("MASS_HIP", "MASS_THIGH", "MASS_RESIDUAL", "MASS_PROSTHESIS")
    weight = p[rows.GRAVITY] * sum(p[getattr(rows, name)] for name in masses)
    assert np.abs(last[HALF:MOVING]).max() < 1e-9
    assert last[rows.FORCE_UP] == pytest.approx(weight, rel=1e-9)
    assert last[rows.FORCE_FORWARD] == pytest.approx(0.0, abs=1e-6)
    assert abs(last[rows.MOMENT_KNEE]) > 10.0  # a pose that asks something of the knee
    assert_inverse_dynamics(limb, last, np.zeros(HALF))


def assert_inverse_dynamics(limb: Columns, now: np.ndarray, acceleration: np.ndarray) -> None:
    """MuJoCo's inverse dynamics, given the ground force at the pressure point, ask for the loads
    that were recorded: moments of hip, knee and socket, force on the hip, force in the socket.
    """
    state = dict(zip(STATE, now[:MOVING], strict=True))
    model, data = built(limb.at(**state).changed(SOCKET_STIFFNESS=0.0, SOCKET_DAMPING=0.0))
    data.qacc[:] = absolute_to_relative(acceleration)
    mujoco.mj_inverse(model, data)
    force = (now[rows.FORCE_FORWARD], now[rows.FORCE_UP])
    pressure = now[rows.FORCE_MOMENT] / now[rows.FORCE_UP]
    ground = ground_load(model, data, force, pressure)
    trunk = limb.parameter[rows.TRUNK_DAMPING] * (
        limb.parameter[rows.TRUNK_SPEED] - now[rows.HIP_VX]
    )
    wanted = joint_loads(
        now[rows.MOMENT_HIP],
        now[rows.MOMENT_KNEE],
        now[rows.OTHER_FORCE_FORWARD] + trunk,
        now[rows.OTHER_FORCE_UP],
    )
    wanted[-1] = -now[rows.MOMENT_SOCKET]
    assert wanted == pytest.approx(data.qfrc_inverse - ground, rel=1e-8, abs=1e-6)
    data.qfrc_applied[:] = wanted + ground
    body = mujoco.mj_name2id(model, mujoco.mjtObj.mjOBJ_BODY, "prosthesis")
    mujoco.mj_forward(model, data)
    assert data.qacc == pytest.approx(absolute_to_relative(acceleration), rel=1e-6, abs=1e-6)
    # the same with the ground's force as a force on the body, for the force in the socket
    data.qfrc_applied[:] = wanted
    data.xfrc_applied[body, :3] = force[0], 0.0, force[1]
    arm = np.array([pressure, 0.0, 0.0]) - data.xipos[body]
    data.xfrc_applied[body, 3:] = np.cross(arm, data.xfrc_applied[body, :3])
    mujoco.mj_forward(model, data)
    x, y = force_on_prosthesis(model, data)
    lean = now[rows.RESIDUAL]
    across = -x * np.cos(lean) + y * np.sin(lean)
    along = -x * np.sin(lean) - y * np.cos(lean)
    assert now[rows.SOCKET_SHEAR] == pytest.approx(across, rel=1e-7, abs=1e-5)
    assert now[rows.SOCKET_THRUST] == pytest.approx(along, rel=1e-7, abs=1e-5)


def absolute_to_relative(values: np.ndarray) -> np.ndarray:
    """Return accelerations as MuJoCo counts them."""
    return np.concatenate([values[:3], np.diff(values[2:])])


STATE = (
    "HIP_X", "HIP_Y", "THIGH", "RESIDUAL", "PROSTHESIS",
    "HIP_VX", "HIP_VY", "THIGH_RATE", "RESIDUAL_RATE", "PROSTHESIS_RATE",
)  # fmt: skip


@pytest.mark.parametrize("time", [0.02, 0.07, 0.15, 0.30, 0.45, 0.55, 0.62])
def test_the_loads_of_a_walk(time):
    """At instants of a whole stance: what was recorded is what inverse dynamics ask for."""
    limb, step = walking(), 5e-4
    walked = run(compiled.kernel(), limb, time, step)
    again = Columns(
        parameter=limb.parameter, sole=limb.sole, reference=limb.reference, state=walked.state
    )
    rate = lane(rate_and_scratch(compiled.kernel(), again, time).rate)
    assert walked.curves[-1, rows.FORCE_UP] > 100.0
    assert_inverse_dynamics(limb, walked.curves[-1], rate[HALF:MOVING])
