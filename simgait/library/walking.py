"""Published curves of walking: between the tables of ``models/curves/`` and arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.library.folder import models_folder


@dataclass(frozen=True, kw_only=True, eq=False)
class WalkingCurves:
    """Level walking through one gait cycle, as published; see the head of each table."""

    kinematics_percent: Array  # [n] % of the cycle
    knee_flexion: Array  # [n] rad
    shank_lean: Array  # [n] rad, + knee ahead of the ankle
    thigh_lean: Array  # [n] rad, + hip ahead of the knee
    kinetics_percent: Array  # [m] % of the cycle
    knee_flexion_moment: (
        Array  # [m] N m/kg external, + bends the knee (the internal extensor moment)
    )
    force_forward: Array  # [m] body weights
    force_up: Array  # [m] body weights


def read_table(name: str) -> dict[str, Array]:
    """Return the columns of a table of ``models/curves/`` by name."""
    path = models_folder() / "curves" / f"{name}.csv"
    lines = [
        line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#")
    ]
    heads = lines[0].split(",")
    values = np.array([[float(cell) for cell in line.split(",")] for line in lines[1:] if line])
    return {head: values[:, place] for place, head in enumerate(heads)}


def level_walking() -> WalkingCurves:
    """Return the curves of level walking at comfortable speed (fukuchi-2018).

    >>> curves = level_walking()
    >>> round(float(curves.force_up.max()), 2)
    1.06
    """
    motion = read_table("level_walking_kinematics")
    force = read_table("level_walking_kinetics")
    return WalkingCurves(
        kinematics_percent=motion["percent_cycle"],
        knee_flexion=np.radians(motion["knee_flexion_deg"]),
        shank_lean=np.radians(motion["shank_lean_deg"]),
        thigh_lean=-np.radians(motion["thigh_lean_knee_ahead_deg"]),
        kinetics_percent=force["percent_cycle"],
        knee_flexion_moment=force["knee_nm_kg"],
        force_forward=force["force_forward_bw"],
        force_up=force["force_up_bw"],
    )
