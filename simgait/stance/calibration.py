"""Calibrating a wearer: the reference curves and forces with which the model walks as published.

Least squares (`scipy.optimize.least_squares`) on the compiled equations: the five curves of
:mod:`simgait.stance.targets` are held at once, with a mild pull towards smooth references, towards
a plausible start, and away from an other limb that carries more than a body or pulls.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from scipy.optimize import least_squares

from simgait.alignment import Alignment
from simgait.arrays import Array
from simgait.library import (
    read_calibration,
    read_foot,
    read_pylon,
    read_shoe,
    read_socket,
    segment_table,
)
from simgait.limb import Limb, sound_lift
from simgait.limb.geometry import BASE_FLEXION
from simgait.parts.shoe import foot_in_shoe
from simgait.people import Person
from simgait.physics import layout as rows
from simgait.physics.layout import NODES
from simgait.stance.batch import batch_of
from simgait.stance.running import STEP, run_batch
from simgait.stance.targets import Targets, targets_at
from simgait.units import metres_from_mm
from simgait.wearer import REFERENCE_SPAN, Wearer

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
MOST_EVALUATIONS = 120
DIFFERENCE = 1e-5  # step of the difference quotients, in scaled unknowns

FORCE_FIELDS = ("leaving_up", "leaving_forward", "arriving_up", "arriving_forward")
START_FIELDS = (
    "start_thigh",
    "start_flexion",
    "start_thigh_rate",
    "start_flexion_rate",
    "start_forward_speed",
    "start_upward_speed",
)
SCALES = np.concatenate(
    (
        np.full(2 * NODES, 0.1),
        [0.1, 0.1, 1.0, 1.0, 0.1, 0.1],
        np.repeat([0.3, 0.1, 0.3, 0.1], 4),
        [0.05],
    )
)
START_SPREAD = np.array([0.05, 0.05, 0.7, 0.7, 0.04, 0.1])
RETURN_SPREAD = np.array([0.05, 0.05, 0.10])  # [m/s], [m/s], [m/s]
FORCE_SPREAD = np.append(np.repeat([1.0, 0.2, 1.0, 0.2], 4), 0.05)


@dataclass(frozen=True, kw_only=True)
class Calibration:
    """A fitted wearer and how well it fits."""

    wearer: Wearer
    limb: Limb  # in which it was fitted
    residuals: Mapping[str, float]  # root mean square, by curve, with its unit
    evaluations: int


def unknowns(wearer: Wearer) -> Array:
    """Return a wearer's fitted numbers as one scaled vector."""
    values = [*wearer.thigh, *wearer.knee, *(getattr(wearer, name) for name in START_FIELDS)]
    for name in FORCE_FIELDS:
        values.extend(getattr(wearer, name))
    return np.array([*values, wearer.arriving_height]) / SCALES


def with_unknowns(wearer: Wearer, vector: Array) -> Wearer:
    """Return the wearer with its fitted numbers replaced by those of a scaled vector."""
    values = [float(value) for value in vector * SCALES]
    taken: dict[str, Any] = {
        "thigh": tuple(values[:NODES]),
        "knee": tuple(values[NODES : 2 * NODES]),
    }
    place = 2 * NODES
    for name in START_FIELDS:
        taken[name] = values[place]
        place += 1
    for name in FORCE_FIELDS:
        taken[name] = tuple(values[place : place + 4])
        place += 4
    return replace(wearer, **taken, arriving_height=values[place])


def first_guess(recipe: Mapping[str, Any], person: Person) -> Wearer:
    """Return the wearer from which the fit starts: the target angles, shifted by moment over
    stiffness so that the springs give the target moments."""
    pace, strategy = recipe["pace"], recipe["strategy"]
    grid = np.linspace(0.0, REFERENCE_SPAN, NODES)
    aim = targets_at(np.minimum(grid, 1.0), recipe)
    knee = (
        aim.knee_flexion - aim.knee_flexion_moment * person.mass / strategy["knee_stiffness_nm_rad"]
    )
    thigh = aim.shank_lean - aim.knee_flexion
    early = targets_at(np.array([0.0, 0.02]), recipe)
    rate = np.diff(early.shank_lean)[0] / (0.02 * pace["stance_time_s"])
    return Wearer(
        name="first-guess",
        mass=person.mass,
        leg_length=person.hip_height,
        speed=pace["speed_m_s"],
        stance_time=pace["stance_time_s"],
        leaves=pace["leaves_share"],
        arrives=pace["arrives_share"],
        thigh=tuple(map(float, thigh)),
        knee=tuple(map(float, knee)),
        hip_stiffness=strategy["hip_stiffness_nm_rad"],
        hip_damping=strategy["hip_damping_nms_rad"],
        knee_stiffness=strategy["knee_stiffness_nm_rad"],
        knee_damping=strategy["knee_damping_nms_rad"],
        trunk_damping=strategy["trunk_damping_ns_m"],
        trunk_speed=pace["speed_m_s"],
        start_thigh=float(thigh[0]),
        start_flexion=float(early.knee_flexion[0]),
        start_thigh_rate=0.0,
        start_flexion_rate=float(rate),
        start_forward_speed=pace["speed_m_s"] + 0.1,
        start_upward_speed=-0.2,
        leaving_up=(0.95, -0.5, 0.0, 0.0),
        leaving_forward=(0.12, 0.0, 0.0, 0.0),
        arriving_up=(1.0, 0.0, 0.0, 0.0),
        arriving_forward=(-0.12, 0.5, 0.0, 0.0),
        arriving_stiffness=strategy["arriving_stiffness_n_m"],
        arriving_damping=strategy["arriving_damping_ns_m"],
        arriving_height=0.955 * person.hip_height,
    )


def calibration_limb(recipe: Mapping[str, Any]) -> Limb:
    """Return the limb in which a recipe's wearer is fitted, with the first guess as its wearer."""
    body, parts = recipe["body"], recipe["parts"]
    person = Person(
        sex=body["sex"],
        mass=body["mass_kg"],
        stature=metres_from_mm(body["stature_mm"]),
        segment_table=segment_table(body["segment_table"]),
    )
    foot, lift = read_foot(parts["foot"]), 0.0
    if parts["shoe"] != "none":
        shoe = read_shoe(parts["shoe"])
        foot = foot_in_shoe(foot, shoe)
        lift = sound_lift(person, shoe.sole_thickness, shoe.heel_rise)
    return Limb(
        person=person,
        residual_limb_length=metres_from_mm(body["residual_limb_mm"]),
        socket=read_socket(parts["socket"]),
        pylon=read_pylon(parts["pylon"]),
        foot=foot,
        sound_lift=lift,
        alignment=Alignment(
            foot_forward=0.0,
            dorsiflexion=0.0,
            socket_flexion=BASE_FLEXION,
            length_change=0.0,
            heel_rise=foot.heel_rise,
        ),
        wearer=first_guess(recipe, person),
        friction=parts["friction"],
    )


class Misfit:
    """The residuals of a fit and their difference quotients, many runs side by side."""

    def __init__(self, limb: Limb, recipe: Mapping[str, Any]) -> None:
        self.limb = limb
        self.stance = limb.wearer.stance_time
        last = int(self.stance / STEP)
        first = max(int(FIRST_SAMPLE * self.stance / STEP), 1)
        self.instants = np.unique(np.linspace(first, last, SAMPLES).astype(int))
        self.targets = targets_at(self.instants * STEP / self.stance, recipe)
        self.start = unknowns(limb.wearer)

    def runs(self, vectors: Sequence[Array]) -> list[Array]:
        """Return the channels of the runs of several vectors, past toe-off to the last instant."""
        wearers = [with_unknowns(self.limb.wearer, vector) for vector in vectors]
        batch = batch_of([replace(self.limb, wearer=wearer) for wearer in wearers])
        batch.parameter[:, rows.RUN_ON] = 1.0
        return list(run_batch(batch, keep_curves=True).curves)

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
        return np.clip(np.nan_to_num(np.concatenate(parts), nan=1e3), -1e3, 1e3)

    def excess_support(self, channels: Array) -> Array:
        """Return how far the other limb carries too much, pulls, or pushes too hard."""
        c = channels[: self.instants[-1] : 6] / self.limb.body_weight
        up, forward = c[:, rows.OTHER_FORCE_UP], np.abs(c[:, rows.OTHER_FORCE_FORWARD])
        push = c[:, rows.OTHER_FORCE_FORWARD]
        excess = np.zeros((4, self.instants[-1] // 6 + 1))
        early = np.arange(len(up)) * 6 * STEP < 0.5 * self.stance
        excess[3, : len(up)] = np.maximum(np.where(early, -push, push), 0.0)
        excess[0, : len(up)] = np.maximum(up - LARGEST_SUPPORT, 0.0)
        excess[1, : len(up)] = np.maximum(-up, 0.0)
        excess[2, : len(up)] = np.maximum(forward - LARGEST_PUSH, 0.0)
        return excess.ravel() * 2.0

    def return_misfit(self, channels: Array) -> Array:
        """Return how far the hip is from steady walking: its mean forward speed against the pace,
        and its velocity when the other foot lands against that at touch-down."""
        landing = int(self.limb.wearer.arrives * self.stance / STEP)
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
        return gap / RETURN_SPREAD * RETURN

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
    """Return the root mean squares of a run against its targets, by curve and unit."""
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


def calibrate(name: str) -> Calibration:
    """Return the wearer fitted by a recipe of ``models/calibrations/``.

    Raises:
        CaseError: no such recipe.
    """
    recipe = read_calibration(name)
    misfit = Misfit(calibration_limb(recipe), recipe)
    fit = least_squares(
        misfit.value, misfit.start, jac=misfit.slope, max_nfev=MOST_EVALUATIONS, x_scale=1.0
    )
    wearer = replace(with_unknowns(misfit.limb.wearer, fit.x), name=name)
    channels = misfit.runs([fit.x])[0]
    return Calibration(
        wearer=wearer,
        limb=replace(misfit.limb, wearer=wearer),
        residuals=residuals_of(misfit, misfit.targets, channels),
        evaluations=int(fit.nfev),
    )
