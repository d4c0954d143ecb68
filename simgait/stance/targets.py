"""What a wearer is calibrated to: published curves, reshaped as a calibration file says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from scipy.interpolate import CubicSpline, PchipInterpolator

from simgait.arrays import Array
from simgait.library import level_walking

LOADING_ENDS = 0.60  # [1] share of stance up to which the knee's loading flexion is reshaped
SWING_BEGINS = 0.85  # [1] share of stance from which the knee is left as published


@dataclass(frozen=True, kw_only=True, eq=False)
class Targets:
    """Five curves at instants of stance, given as shares of the stance time."""

    share: Array  # [n] 1
    force_up: Array  # [n] body weights
    force_forward: Array  # [n] body weights
    knee_flexion_moment: Array  # [n] N m/kg external, + bends
    knee_flexion: Array  # [n] rad
    shank_lean: Array  # [n] rad

    @property
    def curves(self) -> dict[str, Array]:
        """The five curves by name."""
        return {f.name: getattr(self, f.name) for f in fields(self) if f.name != "share"}


def targets_at(share: Array, recipe: Mapping[str, Any]) -> Targets:
    """Return the target curves at given shares of stance.

    The published curves (fukuchi-2018) on the cycle are read up to toe-off.  Shares of the recipe's
    [targets] then scale: the knee flexion of the first 60 % of stance (fading out by 85 %; the
    shank follows), the positive and the negative knee moment, the negative and the positive
    fore-aft force, the vertical force's swing about its mean from 20 to 80 % of stance (about one
    body weight if no share lies there), and the shank's lean.

    share: [1]; recipe: a calibration file's content.
    """
    walking = level_walking()
    wanted = recipe["targets"]
    toe_off = float(recipe["pace"]["toe_off_percent_cycle"])
    motion = walking.kinematics_percent / toe_off
    force = walking.kinetics_percent / toe_off

    def at_rest_after(values: Array, when: Array = share) -> Array:
        curve = PchipInterpolator(np.append(force, 1.0), np.append(values, 0.0))
        return np.asarray(curve(when))

    flexion = CubicSpline(motion, walking.knee_flexion)(share)
    lean = CubicSpline(motion, walking.shank_lean)(share) * wanted["shank_swing_share"]
    u = np.clip((share - LOADING_ENDS) / (SWING_BEGINS - LOADING_ENDS), 0.0, 1.0)
    keep = 1.0 - (1.0 - wanted["knee_flexion_share"]) * (1.0 - u * u * (3.0 - 2.0 * u))
    moment = at_rest_after(walking.knee_flexion_moment)
    forward = at_rest_after(walking.force_forward)
    up = at_rest_after(walking.force_up)
    middle = (share > 0.2) & (share < 0.8)
    level = float(np.mean(up[middle])) if middle.any() else 1.0
    flatter = level + (up - level) * wanted["up_swing_share"]
    near = np.clip(np.minimum(share / 0.2, (1.0 - share) / 0.2), 0.0, 1.0)
    near = near * near * (3.0 - 2.0 * near)
    return Targets(
        share=share,
        force_up=up + near * (flatter - up),
        force_forward=np.where(
            forward < 0.0, forward * wanted["braking_share"], forward * wanted["propulsive_share"]
        ),
        knee_flexion_moment=np.where(
            moment > 0.0,
            moment * wanted["knee_flexion_moment_share"],
            moment * wanted["knee_extension_moment_share"],
        ),
        knee_flexion=keep * flexion,
        shank_lean=lean - (1.0 - keep) * flexion,
    )
