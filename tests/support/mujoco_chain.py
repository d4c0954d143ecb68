"""The chain in MuJoCo: two slides and three hinges, no contact; a general-purpose engine's opinion.

MuJoCo's z is up; a hinge about +y leans a body as the package counts it (proximal end ahead is +).
Its hinges are relative: thigh; residual limb less thigh; prosthesis less residual limb.
"""

import mujoco
import numpy as np
import numpy.typing as npt

from simgait.physics import layout as rows
from worked_limb import MOVING, Columns

Array = npt.NDArray[np.float64]
HALF = len(("x", "y", "thigh", "residual", "prosthesis"))
RELATIVE = np.array(  # package's coordinates to MuJoCo's
    [[1, 0, 0, 0, 0], [0, 1, 0, 0, 0], [0, 0, 1, 0, 0], [0, 0, -1, 1, 0], [0, 0, 0, -1, 1]], float
)

MODEL = """
<mujoco>
  <compiler angle="radian" inertiafromgeom="false"/>
  <option gravity="0 0 {GRAVITY:.17g}" timestep="{step:.17g}" integrator="RK4">
    <flag contact="disable"/>
  </option>
  <worldbody>
    <body name="rest">
      <joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 0 1"/>
      <inertial pos="0 0 0" mass="{MASS_HIP:.17g}" diaginertia="1 1 1"/>
      <body name="thigh">
        <joint type="hinge" axis="0 1 0"/>
        <inertial pos="0 0 {CENTRE_THIGH:.17g}" mass="{MASS_THIGH:.17g}"
          diaginertia="{INERTIA_THIGH:.17g} {INERTIA_THIGH:.17g} {INERTIA_THIGH:.17g}"/>
        <body name="residual" pos="0 0 {LENGTH_THIGH:.17g}">
          <joint type="hinge" axis="0 1 0"/>
          <inertial pos="0 0 {CENTRE_RESIDUAL:.17g}" mass="{MASS_RESIDUAL:.17g}"
            diaginertia="{INERTIA_RESIDUAL:.17g} {INERTIA_RESIDUAL:.17g} {INERTIA_RESIDUAL:.17g}"/>
          <body name="prosthesis" pos="0 0 {LENGTH_RESIDUAL:.17g}">
            <joint type="hinge" axis="0 1 0" stiffness="{SOCKET_STIFFNESS:.17g}"
              damping="{SOCKET_DAMPING:.17g}"/>
            <inertial pos="{CENTRE_FORWARD:.17g} 0 {CENTRE_UP:.17g}" mass="{MASS_PROSTHESIS:.17g}"
              diaginertia="{i:.17g} {i:.17g} {i:.17g}"/>
          </body>
        </body>
      </body>
    </body>
  </worldbody>
</mujoco>
"""
BELOW = ("GRAVITY", "CENTRE_THIGH", "LENGTH_THIGH", "CENTRE_RESIDUAL", "LENGTH_RESIDUAL")


def built(
    columns: Columns, step: float = 1e-4, text: str = MODEL
) -> tuple[mujoco.MjModel, mujoco.MjData]:
    """Return MuJoCo's model of the same bodies, in the same state; ``text``: MODEL with more."""
    numbers = {
        name: float(columns.parameter[place])
        for name, place in vars(rows).items()
        if isinstance(place, int) and f"{{{name}:" in MODEL
    }
    numbers |= {name: -numbers[name] for name in BELOW}
    inertia = float(columns.parameter[rows.INERTIA_PROSTHESIS])
    model = mujoco.MjModel.from_xml_string(text.format(**numbers, step=step, i=inertia))
    data = mujoco.MjData(model)
    data.qpos[:] = RELATIVE @ columns.state[:HALF]
    data.qvel[:] = RELATIVE @ columns.state[HALF:MOVING]
    return model, data


def absolute(relative: Array) -> Array:
    """Return MuJoCo's coordinates, speeds or accelerations as the package counts them."""
    return np.linalg.solve(RELATIVE, relative)


def joint_loads(hip: float, knee: float, push_x: float, push_y: float) -> Array:
    """Return the generalized forces of the wearer on MuJoCo's coordinates [N], [N m]."""
    return np.array([push_x, push_y, hip, knee, 0.0])


def ground_load(model, data, force: tuple[float, float], x: float) -> Array:
    """Return the generalized forces of a ground force (forward, up) [N] at (x, 0) [m]."""
    mujoco.mj_kinematics(model, data)
    mujoco.mj_comPos(model, data)
    loads = np.zeros(model.nv)
    body = mujoco.mj_name2id(model, mujoco.mjtObj.mjOBJ_BODY, "prosthesis")
    mujoco.mj_applyFT(
        model, data, np.array([force[0], 0.0, force[1]]), np.zeros(3), np.array([x, 0.0, 0.0]),
        body, loads,
    )  # fmt: skip
    return loads


def force_on_prosthesis(model, data) -> tuple[float, float]:
    """Return the force of the residual limb on the prosthesis [N], after mj_forward."""
    mujoco.mj_rnePostConstraint(model, data)
    body = mujoco.mj_name2id(model, mujoco.mjtObj.mjOBJ_BODY, "prosthesis")
    return float(data.cfrc_int[body, 3]), float(data.cfrc_int[body, 5])
