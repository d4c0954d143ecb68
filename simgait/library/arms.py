"""What an arm case may leave out, and the body's proportions behind reach: ``arm.toml``."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from simgait.errors import CaseError, Fault, RangeError, require
from simgait.library.figures import figures_of, read_model
from simgait.library.folder import models_folder
from simgait.sources import Figure
from simgait.units import metres_from_mm, radians_from_degrees

FILE = "arm.toml"


@dataclass(frozen=True, kw_only=True)
class MeasurementErrors:
    """Standard deviations of what is measured on arm and wearer."""

    mass_share: float  # [1] of each mass
    length: float  # [m] of each length on the arm
    pull_share: float  # [1] of the wearer's pull
    excursion: float  # [m] of the wearer's excursion
    friction_share: float  # [1] of friction, or of what a measured efficiency loses

    def __post_init__(self) -> None:
        require(0.0, self.mass_share, 0.5, "MeasurementErrors.mass_share [1]")
        require(0.0, self.length, 0.03, "MeasurementErrors.length [m]")
        require(0.0, self.pull_share, 0.5, "MeasurementErrors.pull_share [1]")
        require(0.0, self.excursion, 0.05, "MeasurementErrors.excursion [m]")
        require(0.0, self.friction_share, 1.0, "MeasurementErrors.friction_share [1]")


@dataclass(frozen=True, kw_only=True)
class ArmHabit:
    """What is usual on arms, and where mouth and midline are, in SI."""

    fatigue_free_share: float  # [1]
    flexion_from: float  # [rad]
    flexion_to: float  # [rad]
    least_efficiency_forearm: float  # [1]
    least_efficiency_dual: float  # [1]
    least_efficiency_above_elbow: float  # [1]
    upper_arm: float  # [1] shares of stature from here
    to_midline: float
    mouth_up: float
    mouth_ahead: float
    trunk_ahead: float
    forearm_step: float  # [m]
    errors: MeasurementErrors


@cache
def arm_figures() -> dict[str, Figure]:
    """Return the figures of ``models/arm.toml`` by their written names."""
    return figures_of(read_model(models_folder() / FILE), FILE)


@cache
def read_arm_habit() -> ArmHabit:
    """Return what is usual on arms.

    Raises:
        CaseError: the file is faulty.

    >>> read_arm_habit().fatigue_free_share
    0.2
    """
    try:
        number = {name: figure.number for name, figure in arm_figures().items()}
        return ArmHabit(
            fatigue_free_share=number["fatigue_free_share"],
            flexion_from=radians_from_degrees(number["flexion_from_deg"]),
            flexion_to=radians_from_degrees(number["flexion_to_deg"]),
            least_efficiency_forearm=number["least_efficiency_forearm"],
            least_efficiency_dual=number["least_efficiency_dual"],
            least_efficiency_above_elbow=number["least_efficiency_above_elbow"],
            upper_arm=number["upper_arm_of_stature"],
            to_midline=number["shoulder_to_midline_of_stature"],
            mouth_up=number["shoulder_to_mouth_up_of_stature"],
            mouth_ahead=number["shoulder_to_mouth_ahead_of_stature"],
            trunk_ahead=number["trunk_ahead_of_stature"],
            forearm_step=metres_from_mm(number["forearm_step_mm"]),
            errors=MeasurementErrors(
                mass_share=number["error_mass_share"],
                length=metres_from_mm(number["error_length_mm"]),
                pull_share=number["error_pull_share"],
                excursion=metres_from_mm(number["error_excursion_mm"]),
                friction_share=number["error_friction_share"],
            ),
        )
    except (KeyError, RangeError) as trouble:
        problem = f"cannot be used: {trouble}"
        fault = Fault(
            file=FILE, field="figures", value="", allowed="", nearest=None, problem=problem
        )
        raise CaseError([fault]) from trouble


def arm_sources() -> Iterator[str]:
    """Yield the source keys of the figures of arms, each maybe twice."""
    for figure in arm_figures().values():
        yield figure.source
