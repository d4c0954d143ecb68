"""Arms that tests share: made by hand, every number invented unless its place says otherwise."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from simgait.arm.lifting import Setting, setting_of
from simgait.arm.monotone import MonotoneCurve
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness
from simgait.wearer import GRAVITY

TABLE_MOMENT = 1.353  # [N m] weight moment of the exact geometry table
LOOPS = np.array([0.025, 0.032, 0.038, 0.044, 0.051])  # [m] within what is in use


def arm(**changed: object) -> Arm:
    """Return an upper-arm-level arm whose elbow bends from 10 to 135 degrees."""
    usual = Arm(
        level="upper_arm", forearm=0.25, upper_arm=0.31, forearm_mass=0.45, forearm_centre=0.115,
        device_mass=0.13, device_centre=0.31, held_mass=0.0, tip=0.36, shoulder_flexion=0.0,
        flexion_from=math.radians(10.0), flexion_to=math.radians(135.0),
    )  # fmt: skip
    return replace(usual, **changed)  # type: ignore[arg-type]


def light_arm() -> Arm:
    """Return an arm with shell and hook at the light end of what is recalled of them."""
    return arm(forearm_mass=0.25, forearm_centre=0.10, device_mass=0.12, device_centre=0.28)


def cable(**changed: object) -> Cable:
    """Return a straight cable without friction, loop and guide on the sections' lines."""
    usual = Cable(
        guide=0.075, guide_offset=0.0, loop_offset=0.0, bends=(), friction=0.0, efficiency=None,
        pulley=1.0, assist=(0.0,), assist_at=(0.0,), device_action="opens", device_excursion=0.038,
        device_pull=70.0, device_start_pull=60.0,
    )  # fmt: skip
    return replace(usual, **changed)  # type: ignore[arg-type]


def harness(**changed: object) -> Harness:
    """Return a wearer of 250 N and 105 mm."""
    usual = Harness(
        max_pull=250.0, max_excursion=0.105, fatigue_free_share=0.2, excursions=(), pulls=()
    )
    return replace(usual, **changed)  # type: ignore[arg-type]


def weighing(moment: float, **changed: object) -> Arm:
    """Return an arm whose weight moment is a given one [N m]."""
    mass = moment / (GRAVITY * 0.2)
    return arm(forearm_mass=0.0, device_mass=mass, device_centre=0.2, held_mass=0.0, **changed)


def setting(loop: object = LOOPS, **changed: object) -> Setting:
    """Return the setting of a usual arm at loops [m]."""
    made = setting_of(arm(), cable(), harness(), np.float64(0.075), np.asarray(loop, dtype=float))
    return replace(made, **changed)  # type: ignore[arg-type]


def constant(value: float) -> MonotoneCurve:
    """Return a curve that is the same everywhere."""
    return MonotoneCurve(places=(0.0,), values=(value,))
