"""The chain once more, from Kane's method in SymPy: nothing is shared with the package's equations.

Three bodies hang below a point mass; room: x forward, y up.  A frame with lean t is the room turned
about -z by t.  Arguments and results are arrays named by the rows of the layout.
"""

import functools
from collections.abc import Callable

import numpy as np
import numpy.typing as npt
import sympy
from sympy.physics import mechanics

Array = npt.NDArray[np.float64]

COORDINATES = ("HIP_X", "HIP_Y", "THIGH", "RESIDUAL", "PROSTHESIS")
SPEEDS = ("HIP_VX", "HIP_VY", "THIGH_RATE", "RESIDUAL_RATE", "PROSTHESIS_RATE")
PARAMETERS = (
    "GRAVITY", "MASS_HIP", "MASS_THIGH", "LENGTH_THIGH", "CENTRE_THIGH", "INERTIA_THIGH",
    "MASS_RESIDUAL", "LENGTH_RESIDUAL", "CENTRE_RESIDUAL", "INERTIA_RESIDUAL", "MASS_PROSTHESIS",
    "CENTRE_FORWARD", "CENTRE_UP", "INERTIA_PROSTHESIS", "SOCKET_STIFFNESS", "SOCKET_DAMPING",
)  # fmt: skip
LOADS = (
    "TORQUE_HIP", "TORQUE_KNEE", "PUSH_X", "PUSH_Y", "TRUNK_PUSH", "SUM_FORWARD", "SUM_UP", "ahead",
)  # fmt: skip


def _body(
    name: str, place: mechanics.Point, frame: mechanics.ReferenceFrame
) -> mechanics.RigidBody:
    mass, inertia = (sympy.Symbol(f"{kind}_{name}") for kind in ("MASS", "INERTIA"))
    spin = mechanics.inertia(frame, 0, 0, inertia)
    return mechanics.RigidBody(name, place, frame, mass, (spin, place))


@functools.cache
def motion() -> Callable[..., tuple[Array, Array]]:
    """Return the function of (coordinates, speeds, parameters, loads) that gives M and F, M a = F.

    The ground force acts at the point of the prosthesis that is at floor level, `ahead` of the
    socket pivot.
    """
    q = mechanics.dynamicsymbols(" ".join(COORDINATES))
    u = mechanics.dynamicsymbols(" ".join(SPEEDS))
    value = {name: sympy.Symbol(name) for name in (*PARAMETERS, *LOADS)}
    room, origin = mechanics.ReferenceFrame("room"), mechanics.Point("origin")
    origin.set_vel(room, 0)
    frames = []
    for lean, rate in zip(q[2:], u[2:], strict=True):
        frame = room.orientnew(f"lean{len(frames)}", "Axis", [-lean, room.z])
        frame.set_ang_vel(room, -rate * room.z)
        frames.append(frame)
    hip = origin.locatenew("hip", q[0] * room.x + q[1] * room.y)
    hip.set_vel(room, u[0] * room.x + u[1] * room.y)

    def hung(name: str, top: mechanics.Point, vector: mechanics.Vector, which: int):
        point = top.locatenew(name, vector)
        point.v2pt_theory(top, room, frames[which])
        return point

    knee = hung("knee", hip, -value["LENGTH_THIGH"] * frames[0].y, 0)
    pivot = hung("pivot", knee, -value["LENGTH_RESIDUAL"] * frames[1].y, 1)
    offset = value["CENTRE_FORWARD"] * frames[2].x + value["CENTRE_UP"] * frames[2].y
    bodies = [
        mechanics.Particle("rest", hip, value["MASS_HIP"]),
        _body("THIGH", hung("c1", hip, -value["CENTRE_THIGH"] * frames[0].y, 0), frames[0]),
        _body("RESIDUAL", hung("c2", knee, -value["CENTRE_RESIDUAL"] * frames[1].y, 1), frames[1]),
        _body("PROSTHESIS", hung("c3", pivot, offset, 2), frames[2]),
    ]
    height = pivot.pos_from(origin).dot(room.y)
    arm = value["ahead"] * room.x - height * room.y
    touch = pivot.locatenew("touch", arm)
    touch.set_vel(room, pivot.vel(room) + frames[2].ang_vel_in(room).cross(arm))
    loads = _loads(value, q, u, room, frames, bodies, hip, touch)
    rates = [c.diff() - s for c, s in zip(q, u, strict=True)]
    kane = mechanics.KanesMethod(room, q_ind=q, u_ind=u, kd_eqs=rates)
    kane.kanes_equations(bodies, loads)
    names = (q, u, [value[name] for name in PARAMETERS], [value[name] for name in LOADS])
    return sympy.lambdify(names, (kane.mass_matrix, kane.forcing), "numpy", cse=True)


def _loads(value, q, u, room, frames, bodies, hip, touch):
    """Gravity, the ground, the rest of the body on the hip, and the torques of the joints."""
    turn = value["SOCKET_STIFFNESS"] * (q[4] - q[3]) + value["SOCKET_DAMPING"] * (u[4] - u[3])
    at_hip = (value["PUSH_X"] + value["TRUNK_PUSH"]) * room.x + value["PUSH_Y"] * room.y
    pull = -value["GRAVITY"] * room.y
    points = [getattr(body, "masscenter", hip) for body in bodies]
    return [
        *((point, body.mass * pull) for point, body in zip(points, bodies, strict=True)),
        (hip, at_hip),
        (touch, value["SUM_FORWARD"] * room.x + value["SUM_UP"] * room.y),
        (frames[0], -(value["TORQUE_HIP"] - value["TORQUE_KNEE"]) * room.z),
        (frames[1], -(value["TORQUE_KNEE"] + turn) * room.z),
        (frames[2], turn * room.z),
    ]
