"""How far a modelled stance is from the curves that a wearer is calibrated to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from simgait.arrays import Array
from simgait.limb import Limb
from simgait.physics import layout as rows
from simgait.physics.layout import NODES
from simgait.stance.batch import batch_of
from simgait.stance.running import STEP, run_batch
from simgait.stance.steps import stable_steps
from simgait.stance.targets import Targets, targets_at
from simgait.stance.unknowns import SCALES, START_FIELDS, unknowns, with_unknowns

SAMPLES = 70  # instants of stance at which the curves are compared
FIRST_SAMPLE = 0.012  # [1] share of stance of the first one: touch-down itself carries nothing yet
# What counts as one unit of misfit; smaller is held more firmly.
TOLERANCE = {
    "force_up": 0.026,  # [body weights]
    "force_forward": 0.008,  # [body weights]
    "knee_flexion_moment": 0.025,  # [N m/kg]
    "knee_flexion": np.radians(2.0),
    "shank_lean": np.radians(2.0),
}
SMOOTHNESS = 0.015  # weight of the pull towards smooth and plausible references
START = 0.3  # weight of the pull towards the start as published
RETURN = 0.3  # weight of the pull towards steady walking
LARGEST_SUPPORT = 1.15  # [body weights] of the other limb before it is pulled down
LARGEST_PUSH = 0.25  # [body weights] of its fore-aft force
DIFFERENCE = 1e-5  # step of the difference quotients, in scaled unknowns
START_SPREAD = np.array([0.05, 0.05, 0.7, 0.7, 0.04, 0.1])
RETURN_SPREAD = np.array([0.05, 0.05, 0.10])  # [m/s], [m/s], [m/s]
FORCE_SPREAD = np.append(np.repeat([1.0, 0.2, 1.0, 0.2], 4), 0.05)


class Misfit:
    """The residuals of a fit and their difference quotients, many runs side by side."""

    def __init__(self, limb: Limb, recipe: Mapping[str, Any]) -> None:
        self.limb = limb
        self.stance = limb.wearer.stance_time
        self.step = float(stable_steps(batch_of([limb]), STEP)[0])
        last = int(self.stance / self.step)
        first = max(int(FIRST_SAMPLE * self.stance / self.step), 1)
        self.instants = np.unique(np.linspace(first, last, SAMPLES).astype(int))
        self.targets = targets_at(self.instants * self.step / self.stance, recipe)
        self.start = unknowns(limb.wearer)

    def runs(self, vectors: Sequence[Array]) -> list[Array]:
        """Return the channels of the runs of several vectors, past toe-off to the last instant."""
        wearers = [with_unknowns(self.limb.wearer, vector) for vector in vectors]
        batch = batch_of([replace(self.limb, wearer=wearer) for wearer in wearers])
        batch.parameter[:, rows.RUN_ON] = 1.0
        return list(run_batch(batch, step=self.step, keep_curves=True, forced=True).curves)

    def modelled(self, channels: Array) -> dict[str, Array]:
        """Return the five curves of a run at the compared instants (NaN where it ended early)."""
        whole = np.full((self.instants[-1] + 1, rows.CHANNELS), np.nan)
        length = min(len(whole), len(channels))
        whole[:length] = channels[:length]
        c = whole[self.instants]
        weight, mass = self.limb.body_weight, self.limb.person.mass
        return {
            "force_up": c[:, rows.FORCE_UP] / weight,
            "force_forward": c[:, rows.FORCE_FORWARD] / weight,
            "knee_flexion_moment": -c[:, rows.MOMENT_KNEE] / mass,
            "knee_flexion": c[:, rows.RESIDUAL] - c[:, rows.THIGH],
            "shank_lean": c[:, rows.RESIDUAL],
        }

    def residual(self, vector: Array, channels: Array) -> Array:
        """Return what is squared and summed: curves, smoothness, start, support."""
        curves = self.modelled(channels)
        parts = [
            (curves[name] - aim) / TOLERANCE[name] / np.sqrt(SAMPLES)
            for name, aim in self.targets.curves.items()
        ]
        x, x0 = vector * SCALES, self.start * SCALES
        n, s = 2 * NODES, 2 * NODES + len(START_FIELDS)
        parts += [
            (x[:n] - x0[:n]) / 0.2 * SMOOTHNESS,
            np.diff(x[:NODES], 2) / 0.1 * SMOOTHNESS,
            np.diff(x[NODES:n], 2) / 0.15 * SMOOTHNESS,
            (x[n:s] - x0[n:s]) / START_SPREAD * START,
            (x[s:] - x0[s:]) / FORCE_SPREAD * SMOOTHNESS,
            self.excess_support(channels),
            self.return_misfit(channels),
        ]
        return np.asarray(np.clip(np.nan_to_num(np.concatenate(parts), nan=1e3), -1e3, 1e3))

    def excess_support(self, channels: Array) -> Array:
        """Return how far the other limb carries too much, pulls, or pushes too hard."""
        c = channels[: self.instants[-1] : 6] / self.limb.body_weight
        up, forward = c[:, rows.OTHER_FORCE_UP], np.abs(c[:, rows.OTHER_FORCE_FORWARD])
        push = c[:, rows.OTHER_FORCE_FORWARD]
        excess = np.zeros((4, self.instants[-1] // 6 + 1))
        early = np.arange(len(up)) * 6 * self.step < 0.5 * self.stance
        excess[3, : len(up)] = np.maximum(np.where(early, -push, push), 0.0)
        excess[0, : len(up)] = np.maximum(up - LARGEST_SUPPORT, 0.0)
        excess[1, : len(up)] = np.maximum(-up, 0.0)
        excess[2, : len(up)] = np.maximum(forward - LARGEST_PUSH, 0.0)
        return excess.ravel() * 2.0

    def return_misfit(self, channels: Array) -> Array:
        """Return how far the hip is from steady walking.

        Its mean forward speed against the pace, and its velocity when the other foot lands against
        that at touch-down.
        """
        landing = int(self.limb.wearer.arrives * self.stance / self.step)
        if len(channels) <= self.instants[-1]:
            return np.full(3, 1e3)
        speed = channels[: self.instants[-1], rows.HIP_VX]
        drop = channels[:, rows.HIP_VY]
        gap = np.array(
            [
                np.mean(speed) - self.limb.wearer.speed,
                speed[landing] - speed[0],
                drop[landing] - drop[0],
            ]
        )
        return np.asarray(gap / RETURN_SPREAD * RETURN)

    def value(self, vector: Array) -> Array:
        """Return the residuals at a vector."""
        return self.residual(vector, self.runs([vector])[0])

    def slope(self, vector: Array) -> Array:
        """Return the Jacobian by difference quotients, all runs in one batch."""
        moved = [vector + DIFFERENCE * unit for unit in np.eye(len(vector))]
        here, *there = self.runs([vector, *moved])
        base = self.residual(vector, here)
        columns = [
            (self.residual(x, run) - base) / DIFFERENCE for x, run in zip(moved, there, strict=True)
        ]
        return np.array(columns).T


def residuals_of(misfit: Misfit, targets: Targets, channels: Array) -> dict[str, float]:
    """Return the root mean squares of a run against its targets, by curve and unit.

    channels: of a run that went on to the last instant [n, CHANNELS].
    """
    curves = misfit.modelled(channels)
    mean = {
        name: float(np.sqrt(np.mean((curves[name] - aim) ** 2)))
        for name, aim in targets.curves.items()
    }
    return {
        "force_up_bw": mean["force_up"],
        "force_forward_bw": mean["force_forward"],
        "knee_flexion_moment_nm_kg": mean["knee_flexion_moment"],
        "knee_flexion_deg": float(np.degrees(mean["knee_flexion"])),
        "shank_lean_deg": float(np.degrees(mean["shank_lean"])),
    }
