"""One stance by four engines, each at the largest step that reaches 0.1 % of both knee peaks.

The same limb, the same sole, the same wearer: the baseline of the everyday case.  Every engine
runs on one core.
"""

import functools
import sys
from collections.abc import Mapping

import numpy as np
from knee_peaks import EVERY, Curve, baseline, filled_block, largest, standard
from stance_jobs import ROOT, batch

sys.path.insert(0, str(ROOT / "tests" / "support"))

LANES = 1024


# ---- compiled lanes --------------------------------------------------------------------------


@functools.cache
def lanes_error() -> float:
    """Return the error of the package's own default step."""
    from simgait.physics import layout as rows
    from simgait.stance.running import run_batch

    measures = run_batch(baseline(), jobs=1).measures[0]
    _, flexion, extension = standard()
    return float(
        max(
            abs(measures[rows.KNEE_FLEXION_PEAK] - flexion) / flexion,
            abs(measures[rows.KNEE_EXTENSION_PEAK] - extension) / extension,
        )
    )


def lanes() -> Mapping[str, int]:
    """Run LANES stances with all measures on one core."""
    from simgait.stance.running import run_batch

    run_batch(batch().part(np.arange(LANES)), jobs=1)
    return {"stances": LANES, "error_ppm": round(1e6 * lanes_error())}


# ---- MuJoCo ----------------------------------------------------------------------------------


def mujoco_model(step: float):
    """Return MuJoCo's model of the same chain, and data.

    Its own integrator of order one: forces are held for a step, so that its Runge-Kutta method
    gains less (twice the step for 3.5 times the time).
    """
    import mujoco

    from mujoco_chain import built
    from worked_limb import Columns

    b = baseline()
    columns = Columns(
        parameter=b.parameter[0], sole=b.sole[0], reference=b.reference[0], state=b.state[0]
    )
    model, data = built(columns, step=step)
    model.opt.integrator = mujoco.mjtIntegrator.mjINT_EULER
    return model, data


def mujoco_curve(step: float) -> Curve:
    """Return the knee moment of a stance stepped by MuJoCo, the laws of sole and wearer ours."""
    import mujoco

    from mujoco_chain import HALF, absolute, joint_loads
    from simgait.engines import compiled
    from simgait.engines.blocks import W
    from simgait.physics import layout as rows

    kernel, block = compiled.kernel(), filled_block(2)
    state, rate, s = (
        getattr(block, name).reshape(-1, W)[:, 0] for name in ("state", "rate", "scratch")
    )
    model, data = mujoco_model(step)
    count = int(standard()[0] / step)
    keep = max(int(EVERY / step), 1)
    time, moment = [], []
    for n in range(count + 1):
        state[:HALF] = absolute(data.qpos)
        state[HALF : 2 * HALF] = absolute(data.qvel)
        kernel.move(
            1, n * step, block.state, block.parameter, block.sole, block.reference,
            block.scratch, block.rate,
        )  # fmt: skip
        if n % keep == 0:
            time.append(n * step)
            moment.append(-s[rows.TORQUE_KNEE])
        loads = joint_loads(
            s[rows.TORQUE_HIP],
            s[rows.TORQUE_KNEE],
            s[rows.PUSH_X] + s[rows.TRUNK_PUSH],
            s[rows.PUSH_Y],
        )
        data.qfrc_applied[:] = loads + ground_loads(block)
        state[rows.ANCHOR :] += step * rate[rows.ANCHOR :]
        mujoco.mj_step(model, data)
    return np.array(time), np.array(moment)


def ground_loads(block) -> np.ndarray:
    """Return the ground's generalized forces on MuJoCo's relative coordinates [N], [N m]."""
    from simgait.engines.blocks import W
    from simgait.physics import layout as rows

    s, p = block.scratch.reshape(-1, W)[:, 0], block.parameter.reshape(-1, W)[:, 0]
    fx, fy = s[rows.SUM_FORWARD], s[rows.SUM_UP]
    l1, l2 = p[rows.LENGTH_THIGH], p[rows.LENGTH_RESIDUAL]
    thigh = l1 * (fy * s[rows.S_THIGH] - fx * s[rows.C_THIGH])
    residual = l2 * (fy * s[rows.S_RESIDUAL] - fx * s[rows.C_RESIDUAL])
    prosthesis = -fx * s[rows.PIVOT_Y] - s[rows.SUM_MOMENT]
    return np.array([fx, fy, thigh + residual + prosthesis, residual + prosthesis, prosthesis])


@functools.cache
def mujoco_step() -> tuple[float, float]:
    """Return the largest step with which MuJoCo reaches what is allowed, and its error."""
    return largest((1e-3, 5e-4, 2e-4, 1e-4, 6e-5, 5e-5, 4.5e-5, 4e-5, 2e-5, 1e-5), mujoco_curve)


@functools.cache
def law_loop():
    """Return a compiled loop over the right-hand side of one run: the laws without Python."""
    import numba

    from simgait.engines import compiled

    move = compiled.kernel().move

    @numba.njit(nogil=True)
    def loop(count, state, parameter, sole, reference, scratch, rate):
        for n in range(count):
            move(1, 0.0005 * n, state, parameter, sole, reference, scratch, rate)

    return loop


def mujoco() -> Mapping[str, int]:
    """Step MuJoCo as often as a stance needs, in its own C loop, and the laws in a compiled one.

    No Python between the steps is counted: this is the least that MuJoCo can take.
    """
    import mujoco as engine

    step, error = mujoco_step()
    model, data = mujoco_model(step)
    count = round(standard()[0] / step)
    engine.mj_step(model, data, nstep=count)
    b = filled_block(2)
    law_loop()(count, b.state, b.parameter, b.sole, b.reference, b.scratch, b.rate)
    return {"stances": 1, "steps": count, "error_ppm": round(1e6 * error)}


# ---- pymunk ----------------------------------------------------------------------------------


def pymunk_curve(step: float) -> Curve:
    """Return the knee moment of a stance whose chain is moved by pymunk."""
    from simgait.engines import bodies
    from simgait.engines.blocks import W
    from simgait.physics import layout as rows

    usual = bodies.STEP, bodies.RECORD_EVERY
    bodies.STEP, bodies.RECORD_EVERY = step, max(round(EVERY / step), 1)
    try:
        block = filled_block(int(1.3 * standard()[0] / EVERY) + 3)
        every = bodies.run_bodies(block)
    finally:
        bodies.STEP, bodies.RECORD_EVERY = usual
    last = int(block.ends.reshape(-1, W)[rows.END_STEP, 0]) + 1
    moment = -block.curves.reshape(-1, rows.CHANNELS, W)[:last, rows.MOMENT_KNEE, 0]
    return every * np.arange(last), moment


@functools.cache
def pymunk_step() -> tuple[float, float]:
    """Return the largest step with which pymunk reaches what is allowed, and its error."""
    return largest((1e-3, 5e-4, 2e-4, 1.5e-4, 1e-4, 5e-5, 2e-5), pymunk_curve)


def pymunk() -> Mapping[str, int]:
    """Run one stance with pymunk."""
    step, error = pymunk_step()
    pymunk_curve(step)
    return {"stances": 1, "steps": round(standard()[0] / step), "error_ppm": round(1e6 * error)}


# ---- solve_ivp -------------------------------------------------------------------------------


def solved_curve(tolerance: float) -> Curve:
    """Return the knee moment of a stance by SciPy's solve_ivp on the plain right-hand side."""
    from scipy.integrate import solve_ivp

    from simgait.engines import plain
    from simgait.engines.blocks import W
    from simgait.physics import layout as rows

    kernel, block = plain.kernel(), filled_block(2)
    state, rate, scratch = (
        getattr(block, name).reshape(-1, W)[:, 0] for name in ("state", "rate", "scratch")
    )

    def slope(time: float, now: np.ndarray) -> np.ndarray:
        state[:] = now
        kernel.move(
            1, time, block.state, block.parameter, block.sole, block.reference, block.scratch,
            block.rate,
        )  # fmt: skip
        return rate.copy()

    end = standard()[0]
    solved = solve_ivp(
        slope, (0.0, end), baseline().state[0], method="RK45", rtol=tolerance,
        atol=1e-2 * tolerance, t_eval=np.arange(0.0, end, EVERY),
    )  # fmt: skip
    moment = []
    for time, now in zip(solved.t, solved.y.T, strict=True):
        state[:] = now
        kernel.follow_curves(1, time, block.parameter, block.reference, block.scratch)
        kernel.joint_torques(1, block.state, block.parameter, block.scratch)
        moment.append(-scratch[rows.TORQUE_KNEE])
    return solved.t, np.array(moment)


@functools.cache
def solved_tolerance() -> tuple[float, float]:
    """Return the loosest tolerance with which solve_ivp reaches what is allowed, and its error."""
    return largest((1e-2, 8e-3, 6e-3, 3e-3, 1e-3, 3e-4, 1e-4), solved_curve)


def solve_ivp_python() -> Mapping[str, int]:
    """Run one stance with solve_ivp and a Python right-hand side."""
    tolerance, error = solved_tolerance()
    solved_curve(tolerance)
    return {"stances": 1, "rtol_ppm": round(1e6 * tolerance), "error_ppm": round(1e6 * error)}
