"""A standing limb in MuJoCo: its own hinges, joint springs and tendons, left to come to rest.

Nothing of the package's mechanics runs here; it gives lengths, masses, stiffnesses. Every element
of the sole is a bundle of tendons to a hook far above it, slack until the element is a little below
the floor: together they pull up by the element's law, drawn as a line of chords, and never down.
Hip and knee are joint springs that aim as far beyond the pose to be judged as they yield under the
moments that it claims; if it claims the wrong ones, the limb comes to rest elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import mujoco
import numpy as np
import numpy.typing as npt

from mujoco_chain import HALF, MODEL, absolute, built
from simgait.limb import limb_columns
from simgait.physics import layout as rows
from simgait.standing import Standing

Array = npt.NDArray[np.float64]
BENDS = 1e-3 * np.array([0, 0.3, 0.6, 1, 1.5, 2, 3, 4, 6, 8, 11, 15, 20])  # [m] ends of the chords
HOOK = 200.0  # [m] above the floor: the pull stays upright to a ten-thousandth
FIRM = 5000.0  # [N m/rad] hip and knee
DAMPING = (300.0, 3000.0, 40.0, 40.0, 4.0)  # hip along, hip up [N s/m]; hip, knee, socket [N m s]
FROM_POSE = (0.0, 0.004, 0.01, 0.02, 0.03)  # where it is let go: [m], [rad]
STEP, SECONDS = 5e-4, 4.0  # [s]
STILL = 1e-5  # [m/s], [rad/s]
HIP, KNEE, SOCKET = 2, 3, 4  # MuJoCo's hinges
PROSTHESIS = '<body name="prosthesis" pos="0 0 {LENGTH_RESIDUAL:.17g}">'


@dataclass(frozen=True, kw_only=True)
class Rest:
    """A limb at rest: external moments [N m] as the package counts them, the sole's forces [N]."""

    force: Array  # [elements] up
    x: Array  # [elements] [m]
    knee: tuple[float, float]  # [m]
    hip_moment: float
    knee_moment: float
    socket_moment: float
    leans: Array  # [rad] thigh, residual limb, prosthesis


def law(stiffness: float, onset: float) -> Array:
    """Return the force of an element at BENDS: k d^3 / (d + a)^2, as the model's page has it."""
    return np.asarray(stiffness * BENDS**3 / (BENDS + onset) ** 2)


def tendons(way: Standing) -> str:
    """Return the tendons of all elements, as MuJoCo reads them."""
    text, pieces = [], way.stance.pieces
    for element, stiffness in enumerate(pieces.stiffness):
        slopes = np.diff(law(stiffness, pieces.onset)) / np.diff(BENDS)
        for slack, more in zip(BENDS, np.diff(slopes, prepend=0.0), strict=False):
            text.append(
                f'<spatial stiffness="{more:.12g}" springlength="0 {HOOK + slack:.12g}">'
                f'<site site="sole{element}"/><site site="hook{element}"/></spatial>'
            )
    return "<tendon>" + "".join(text) + "</tendon>"


def model_text(way: Standing) -> str:
    """Return the chain's model with the tendons of the sole, for `mujoco_chain.built`."""
    pieces, pose = way.stance.pieces, way.pose
    hooks = "".join(
        f'<site name="hook{element}" pos="{x:.12g} 0 {HOOK}"/>'
        for element, x in enumerate(pose.footing.points[:, 0] + pose.pivot[0])
    )
    sites = "".join(
        f'<site name="sole{element}" pos="{ahead:.12g} 0 {up:.12g}"/>'
        for element, (ahead, up) in enumerate(zip(pieces.forward, pieces.up, strict=True))
    )
    text = MODEL.replace('integrator="RK4"', 'integrator="implicitfast"')
    text = text.replace("<worldbody>", "<worldbody>" + hooks)
    text = text.replace("</worldbody>", "</worldbody>" + tendons(way))
    return text.replace(PROSTHESIS, PROSTHESIS + sites)


def standing_in_mujoco(way: Standing) -> Rest:
    """Return where MuJoCo lets a standing limb come to rest."""
    pose, pieces = way.pose, way.stance.pieces
    columns = limb_columns(way.stance.limb)
    state = np.zeros(rows.STATES)
    state[:HALF] = (*pose.hip, pose.thigh_lean, pose.residual_lean, pose.prosthesis_lean)
    model, data = built(replace(columns, state=state), STEP, model_text(way))
    held = data.qpos.copy()
    other_limb = (1.0 - way.share) * way.stance.limb.body_weight
    model.dof_damping[:] = DAMPING
    model.jnt_stiffness[HIP : KNEE + 1] = FIRM
    # MuJoCo's knee hinge is straight at 0 and turns as the residual limb's lean less the thigh's
    model.qpos_spring[HIP] = held[HIP] + pose.hip_moment / FIRM
    model.qpos_spring[KNEE] = held[KNEE] - pose.knee_moment / FIRM
    data.qpos[:] = held + FROM_POSE
    data.qfrc_applied[1] = other_limb
    for _ in range(round(SECONDS / STEP)):
        mujoco.mj_step(model, data)
    mujoco.mj_forward(model, data)
    assert np.abs(data.qvel).max() < STILL
    spring = model.jnt_stiffness * (model.qpos_spring - data.qpos)  # what the joints' springs give
    stretch = data.ten_length - model.tendon_lengthspring[:, 1]
    pull = model.tendon_stiffness * np.maximum(stretch, 0.0)
    leans = absolute(data.qpos)[2:]
    return Rest(
        force=pull.reshape(len(pieces.stiffness), -1).sum(axis=1),
        x=data.site_xpos[-len(pieces.stiffness) :, 0].copy(),
        knee=(float(data.body("residual").xpos[0]), float(data.body("residual").xpos[2])),
        hip_moment=float(spring[HIP]),
        knee_moment=-float(spring[KNEE]),
        socket_moment=-float(spring[SOCKET]),
        leans=leans,
    )
