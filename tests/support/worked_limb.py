"""One invented limb and walk as plain columns, and how the tests run an engine on them.

All numbers are invented (grade: illustrative), rounded, of the size of a below-knee wearer of 70 kg
who walks at 1.25 m/s; they set nothing in the package and claim nothing about anybody.
"""

from dataclasses import dataclass
from types import ModuleType

import numpy as np
import numpy.typing as npt
from scipy.interpolate import CubicSpline

from simgait.engines.blocks import Block, new_block, run_block
from simgait.physics import layout as rows

Array = npt.NDArray[np.float64]
W = rows.W
MOVING = rows.WORK_HIP  # the first rows of the state: coordinates and speeds

NUMBERS = {
    "GRAVITY": 9.81, "MASS_HIP": 59.8, "MASS_THIGH": 7.0, "LENGTH_THIGH": 0.42,
    "CENTRE_THIGH": 0.182, "INERTIA_THIGH": 0.13, "MASS_RESIDUAL": 1.5, "LENGTH_RESIDUAL": 0.085,
    "CENTRE_RESIDUAL": 0.068, "INERTIA_RESIDUAL": 0.0028, "MASS_PROSTHESIS": 1.7,
    "CENTRE_FORWARD": 0.0094, "CENTRE_UP": -0.19, "INERTIA_PROSTHESIS": 0.049,
    "SOCKET_STIFFNESS": 1430.0, "SOCKET_DAMPING": 4.0, "FRICTION": 0.8, "SHEAR_SHARPNESS": 300.0,
    "SHEAR_DAMPING": 0.8, "SOLE_QUICKNESS": 30.0, "SOLE_ONSET": 0.002, "HIP_STIFFNESS": 500.0,
    "HIP_DAMPING": 20.0, "KNEE_STIFFNESS": 400.0, "KNEE_DAMPING": 3.0, "TRUNK_DAMPING": 100.0,
    "TRUNK_SPEED": 1.25, "REFERENCE_TIME": 0.74, "STANCE_TIME": 0.67, "LEAVES_TIME": 0.134,
    "ARRIVES_TIME": 0.536, "ANKLE_FORWARD": -0.024, "ANKLE_UP": -0.331, "SOLE_SLOPE": -0.087,
    "HEEL_END": -0.05, "TOE_END": 0.15, "LEG_LENGTH": 0.91, "SOCKET_DEPTH": 0.13,
    "BODY_WEIGHT": 686.7, "NEXT_STIFFNESS": 15000.0, "NEXT_DAMPING": 500.0, "NEXT_HEIGHT": 0.92,
}  # fmt: skip
SUPPORT = {
    "OTHER_UP": (773.0, 3134.0, 1489.0, 2648.0),
    "OTHER_FORWARD": (-161.0, -918.0, -905.0, -602.0),
    "NEXT_UP": (0.0, 0.0, 0.0, 0.0),
    "NEXT_FORWARD": (-100.0, 0.0, 0.0, 0.0),
}
# control values, evenly spaced over the reference time, and one beyond each end
THIGH_CURVE = (
    0.155, -0.012, -0.179, -0.231, -0.257, -0.197, -0.137, -0.056, 0.021, 0.095,
    0.166, 0.216, 0.255, 0.238, 0.191, 0.150, 0.180, 0.045, -0.090,
)  # fmt: skip
KNEE_CURVE = (
    -0.521, -0.138, 0.245, 0.216, 0.211, 0.222, 0.190, 0.150, 0.097, 0.064,
    0.037, 0.026, 0.034, 0.064, 0.226, 0.551, 0.780, 0.456, 0.132,
)  # fmt: skip
START = {
    "THIGH": -0.183, "RESIDUAL": -0.467, "PROSTHESIS": -0.467, "HIP_VX": 1.10, "HIP_VY": -0.18,
    "THIGH_RATE": -7.3, "RESIDUAL_RATE": 7.5, "PROSTHESIS_RATE": 7.5,
}  # fmt: skip


@dataclass(frozen=True, kw_only=True, eq=False)
class Columns:
    """One run as the engines take it."""

    parameter: Array
    sole: Array
    reference: Array
    state: Array

    def copied(self) -> "Columns":
        """Return a copy that shares nothing."""
        return Columns(
            parameter=self.parameter.copy(),
            sole=self.sole.copy(),
            reference=self.reference.copy(),
            state=self.state.copy(),
        )

    def changed(self, **numbers: float) -> "Columns":
        """Return a copy with some parameters changed, by the names of their rows."""
        copy = self.copied()
        for name, number in numbers.items():
            copy.parameter[getattr(rows, name)] = number
        return copy

    def at(self, **numbers: float) -> "Columns":
        """Return a copy with some of the state changed, by the names of its rows."""
        copy = self.copied()
        for name, number in numbers.items():
            copy.state[getattr(rows, name)] = number
        return copy


def invented_sole() -> Array:
    """A rockered strip, softer towards the toe, in the prosthesis' frame [SOLE_ROWS]."""
    sole = np.zeros((rows.ELEMENTS, 4))
    x = np.linspace(-0.076, 0.116, rows.ELEMENTS)
    bent = 2.2 * np.clip(x - 0.03, 0.0, None) ** 2 + 8.0 * np.clip(-0.045 - x, 0.0, None) ** 2
    sole[:, rows.SOLE_FORWARD] = x
    sole[:, rows.SOLE_UP] = -0.410 - 0.087 * x + bent
    sole[:, rows.SOLE_STIFFNESS] = np.interp(
        x, [-0.076, -0.045, 0.006, 0.03, 0.116], [3200.0, 3200.0, 15500.0, 12500.0, 6500.0]
    )
    sole[:, rows.SOLE_LOSS] = np.where(x < -0.02, 0.3, 0.15)
    return sole.ravel()


def coefficients(curve: tuple[float, ...]) -> Array:
    """Return a listed curve at the places of the engine's coefficients, however many it has."""
    last = len(curve) - 3
    listed = np.arange(-1, last + 2) / last
    asked = np.arange(-1, rows.NODES + 1) / (rows.NODES - 1)
    return np.asarray(CubicSpline(listed, curve)(asked))


def walking() -> Columns:
    """Return the invented walk: touch-down by the heel, roll-over, toe-off."""
    parameter = np.zeros(rows.PARAMETERS)
    for name, number in NUMBERS.items():
        parameter[getattr(rows, name)] = number
    for name, numbers in SUPPORT.items():
        first = getattr(rows, name)
        parameter[first : first + 4] = numbers
    state = np.zeros(rows.STATES)
    for name, number in START.items():
        state[getattr(rows, name)] = number
    made = Columns(
        parameter=parameter,
        sole=invented_sole(),
        reference=np.concatenate([coefficients(THIGH_CURVE), coefficients(KNEE_CURVE)]),
        state=state,
    )
    return made.at(HIP_Y=hip_height(made), HIP_X=-0.242)


def hip_height(columns: Columns, depth: float = 0.0) -> float:
    """Return the hip height [m] at which the sole's lowest element is `depth` deep."""
    p, q = columns.parameter, columns.state
    sole = columns.sole.reshape(-1, 4)
    lean = q[rows.PROSTHESIS]
    height = sole[:, rows.SOLE_UP] * np.cos(lean) - sole[:, rows.SOLE_FORWARD] * np.sin(lean)
    thigh = p[rows.LENGTH_THIGH] * np.cos(q[rows.THIGH])
    limb = p[rows.LENGTH_RESIDUAL] * np.cos(q[rows.RESIDUAL])
    return float(thigh + limb - height.min() - depth)


def passive(columns: Columns) -> Columns:
    """Return the limb without a wearer: no torques, no support, a socket without loss."""
    quiet = {name: 0.0 for name in NUMBERS if name.startswith(("HIP_", "KNEE_", "TRUNK_", "NEXT_"))}
    made = columns.changed(**quiet, SOCKET_DAMPING=0.0, RUN_ON=1.0, STANCE_TIME=100.0)
    made.parameter[rows.OTHER_UP : rows.NEXT_FORWARD + 4] = 0.0
    return made


def standing() -> Columns:
    """The limb on a stiff flat sole, held by constant references: knee a little bent, still."""
    made = walking()
    sole = made.sole.reshape(-1, 4)
    sole[:, rows.SOLE_UP] = -0.41
    sole[:, rows.SOLE_STIFFNESS] = 1e5
    sole[:, rows.SOLE_LOSS] = 0.2
    made.reference[: rows.KNEE_CURVE] = 0.05
    made.reference[rows.KNEE_CURVE :] = 0.1
    made.parameter[rows.OTHER_UP : rows.NEXT_FORWARD + 4] = 0.0
    made = made.changed(
        HIP_STIFFNESS=3000.0, HIP_DAMPING=100.0, KNEE_STIFFNESS=2000.0, KNEE_DAMPING=8.0,
        TRUNK_SPEED=0.0, TRUNK_DAMPING=300.0, RUN_ON=1.0, STANCE_TIME=100.0, ARRIVES_TIME=99.0,
    )  # fmt: skip
    made.state[:] = 0.0
    made = made.at(THIGH=-0.05, RESIDUAL=0.02)
    return made.at(HIP_Y=hip_height(made, depth=1e-3))


def filled(columns: Columns | list[Columns], steps: int, lanes: list[int] | None = None) -> Block:
    """Return a block that holds these runs, in these lanes (the first ones if not said)."""
    runs = [columns] if isinstance(columns, Columns) else columns
    block = new_block(steps)
    for each, place in zip(runs, lanes or range(len(runs)), strict=True):
        for name in ("parameter", "sole", "reference", "state"):
            lane(getattr(block, name), place)[:] = getattr(each, name)
    return block


@dataclass(frozen=True, kw_only=True, eq=False)
class Run:
    """What one run left behind."""

    state: Array  # [STATES] when the loop stopped
    curves: Array  # [instants, CHANNELS]
    ends: Array  # [ENDS]


def run(kernel: ModuleType, columns: Columns, span: float, step: float) -> Run:
    """Run one stance alone for `span` [s], or to its ending."""
    block = filled(columns, round(span / step) + 1)
    count = run_block(kernel, block, 1, step)
    return Run(
        state=block.state.reshape(-1, W)[:, 0].copy(),
        curves=block.curves.reshape(-1, rows.CHANNELS, W)[:count, :, 0].copy(),
        ends=block.ends.reshape(-1, W)[:, 0].copy(),
    )


def rate_and_scratch(kernel: ModuleType, columns: Columns, time: float = 0.0) -> Block:
    """Return a block in which the right-hand side has been filled once."""
    block = filled(columns, 1)
    kernel.move(
        1, time, block.state, block.parameter, block.sole, block.reference, block.scratch,
        block.rate,
    )  # fmt: skip
    return block


def lane(flat: Array, which: int = 0) -> Array:
    """Return one lane's rows of a flat array."""
    return flat.reshape(-1, W)[:, which]
