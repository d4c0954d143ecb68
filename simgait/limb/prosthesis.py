"""The prosthesis as it is set up: its sole's elements and its mass, in its own frame."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.arrays import Array
from simgait.engines.at_hand import kernel_at_hand
from simgait.engines.setting_up import set_up_columns
from simgait.limb.columns import bench_columns
from simgait.limb.geometry import Limb
from simgait.physics import layout as rows


@dataclass(frozen=True, kw_only=True)
class Bodies:
    """Mass, centre of mass from the socket pivot in the prosthesis' frame, inertia about it."""

    mass: float  # [kg]
    forward: float  # [m]
    up: float  # [m]
    inertia: float  # [kg m2]


def sole_in_prosthesis(limb: Limb) -> tuple[Array, Array]:
    """Return the unloaded sole's elements in the prosthesis' frame: forward and up [m].

    See :func:`simgait.physics.bench.place_sole`.

    Raises:
        RangeError: no sole has the foot's bench figures.
    """
    _, sole, _ = set_up_columns(kernel_at_hand(), bench_columns(limb))
    return sole[rows.SOLE_FORWARD :: 4], sole[rows.SOLE_UP :: 4]


def prosthesis_bodies(limb: Limb) -> Bodies:
    """Return socket, pylon and foot as one rigid body.

    See :func:`simgait.physics.bench.weigh_prosthesis`.

    Raises:
        RangeError: socket's end and ankle are closer than the pylon allows, or too far apart.
    """
    limb.require_pylon()
    parameter, _, _ = set_up_columns(kernel_at_hand(), bench_columns(limb))
    mass, forward, up, inertia = parameter[rows.MASS_PROSTHESIS : rows.INERTIA_PROSTHESIS + 1]
    return Bodies(mass=mass, forward=forward, up=up, inertia=inertia)
