"""Calibrating a wearer: the reference curves and forces with which the model walks as published.

Least squares (`scipy.optimize.least_squares`) on the compiled equations: the five curves of
:mod:`simgait.stance.targets` are held at once, with a mild pull towards smooth references, towards
a plausible start, and away from an other limb that carries more than a body or pulls.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from scipy.optimize import least_squares

from simgait.alignment import Alignment
from simgait.library import (
    read_calibration,
    read_foot,
    read_pylon,
    read_shoe,
    read_socket,
    segment_table,
)
from simgait.limb import Limb, sound_lift
from simgait.parts.shoe import foot_in_shoe
from simgait.people import Person
from simgait.physics.bench import BASE_FLEXION
from simgait.physics.layout import NODES
from simgait.stance.misfit import Misfit, residuals_of
from simgait.stance.targets import targets_at
from simgait.stance.unknowns import with_unknowns
from simgait.units import metres_from_mm
from simgait.wearer import REFERENCE_SPAN, Wearer

MOST_EVALUATIONS = 120


@dataclass(frozen=True, kw_only=True)
class Calibration:
    """A fitted wearer and how well it fits."""

    wearer: Wearer
    limb: Limb  # in which it was fitted
    residuals: Mapping[str, float]  # root mean square, by curve, with its unit
    evaluations: int


def first_guess(recipe: Mapping[str, Any], person: Person) -> Wearer:
    """Return the wearer from which the fit starts.

    The target angles, those of the knee shifted by moment over stiffness so that the spring gives
    the target moments.

    recipe: a calibration file's content; person: in whom it is fitted.
    """
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
    """Return the limb in which a recipe's wearer is fitted, with the first guess as its wearer.

    recipe: a calibration file's content.

    Raises:
        CaseError: a part that the library does not have.
        RangeError: a body or a part that cannot be.
    """
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
        level_lift=lift,
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
