"""Chains of components by homogeneous matrices, and every setting of a hardware one by one."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator

import numpy as np

from simgait.transfer.geometry import Chain, Pose
from simgait.transfer.hardware import Hardware

Matrix = np.ndarray


def moved(x: float, y: float) -> Matrix:
    """The transformation that moves by x and y."""
    return np.array([[1.0, 0.0, x], [0.0, 1.0, y], [0.0, 0.0, 1.0]])


def turned(angle: float) -> Matrix:
    """The transformation that turns counter-clockwise, which is toe up."""
    c, s = math.cos(angle), math.sin(angle)
    return np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])


def place_of_foot(chain: Chain) -> Matrix:
    """The foot's frame in the socket's: parts one after the other, each in the frame above it."""
    parts = (
        moved(chain.offset, 0.0),
        moved(0.0, -chain.socket_adapter),
        turned(chain.upper_tilt),
        moved(0.0, -chain.span),
        turned(chain.lower_tilt),
        moved(chain.foot_shift, 0.0),
        moved(0.0, -chain.foot_adapter),
    )
    return np.linalg.multi_dot(parts)


def pose_of_matrix(place: Matrix) -> Pose:
    """Read the pose off a transformation."""
    return Pose(
        forward=float(place[0, 2]),
        below=float(-place[1, 2]),
        turn=math.atan2(place[1, 0], place[0, 0]),
    )


def steps(low: float, high: float, step: float) -> list[float]:
    return [low + k * step for k in range(math.floor((high - low) / step + 1e-6) + 1)]


def every_chain(hardware: Hardware, offset: float) -> Iterator[tuple[float, float, float]]:
    """Every upper tilt, tube and lower tilt that a hardware in steps can be set to."""
    tilts = []
    for tilt in (hardware.upper, hardware.lower):
        count = math.floor(tilt.most / tilt.step + 1e-6)
        tilts.append([k * tilt.step for k in range(-count, count + 1)])
    tubes = steps(hardware.tube.least, hardware.tube.most, hardware.tube.step)
    return itertools.product(tilts[0], tubes, tilts[1])
