"""How strong wearers are, and how people stand: ``strengths.toml`` and ``standing.toml``."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

from simgait.errors import CaseError, Fault, RangeError, require
from simgait.library.figures import figures_of, read_model
from simgait.library.folder import models_folder
from simgait.sources import Figure
from simgait.units import newton_per_metre_from_newton_per_mm

FALLBACK = "any"  # the entry for wearers that have none of their own


@dataclass(frozen=True, kw_only=True)
class Strength:
    """Greatest moments of a wearer's muscles about knee and hip, on the prosthesis' side.

    >>> Strength(knee=1.3, hip=1.3, held=0.25).held
    0.25
    """

    knee: float  # [N m/kg] extending the knee
    hip: float  # [N m/kg] bending or extending the hip
    held: float  # [1] share of them that can be held for minutes

    def __post_init__(self) -> None:
        require(0.01, self.knee, 6.0, "Strength.knee [N m/kg]")
        require(0.01, self.hip, 6.0, "Strength.hip [N m/kg]")
        require(0.01, self.held, 1.0, "Strength.held [1]")


@dataclass(frozen=True, kw_only=True)
class StandingHabit:
    """How people stand, as far as the statics must assume it.

    >>> StandingHabit(knee_flexion=0.04, knee_past_straight=0.09, deepest_knee=0.5,
    ...     hip_spacing=0.185, centre_height=0.55, sound_effective_length=0.83).hip_spacing
    0.185
    """

    knee_flexion: float  # [rad] chosen at bench alignment
    knee_past_straight: float  # [rad] beyond which ligaments hold the knee
    deepest_knee: float  # [rad] flexion beyond which nobody stands for minutes
    hip_spacing: float  # [m] between the hip axes
    centre_height: float  # [1] of the body's centre, share of stature
    sound_effective_length: float  # [1] share of its length that a natural foot can carry on

    def __post_init__(self) -> None:
        require(0.0, self.knee_flexion, math.radians(20.0), "StandingHabit.knee_flexion [rad]")
        require(0.0, self.knee_past_straight, math.radians(20.0), "knee_past_straight [rad]")
        require(0.1, self.deepest_knee, 2.0, "StandingHabit.deepest_knee [rad]")
        require(0.10, self.hip_spacing, 0.30, "StandingHabit.hip_spacing [m]")
        require(0.45, self.centre_height, 0.65, "StandingHabit.centre_height [1]")
        require(0.4, self.sound_effective_length, 1.0, "sound_effective_length [1]")


@dataclass(frozen=True, kw_only=True)
class TippingHabit:
    """How people who are pushed or put on a slope hold themselves, as far as it must be assumed.

    >>> TippingHabit(eagerness=1.0, rise_time=0.05, step_time=0.6, step_reach=0.6, folded_knee=1.0,
    ...     sound_sole_stiffness=2e5, sound_sole_loss=0.4).step_time
    0.6
    """

    eagerness: float  # [1] how much farther than needed the sound ankle moves the pressure
    rise_time: float  # [s] in which its muscles follow
    step_time: float  # [s] from needing a step to having made it
    step_reach: float  # [m per m of leg] beyond the foot's end that one step recovers
    folded_knee: float  # [rad] beyond its aim at which a knee counts as folded
    sound_sole_stiffness: float  # [N/m] of the natural foot in its shoe
    sound_sole_loss: float  # [1] share by which it differs between loading and unloading

    def __post_init__(self) -> None:
        require(0.0, self.eagerness, 10.0, "TippingHabit.eagerness [1]")
        require(0.005, self.rise_time, 0.5, "TippingHabit.rise_time [s]")
        require(0.1, self.step_time, 2.0, "TippingHabit.step_time [s]")
        require(0.1, self.step_reach, 1.5, "TippingHabit.step_reach [1]")
        require(0.3, self.folded_knee, 2.0, "TippingHabit.folded_knee [rad]")
        require(2e4, self.sound_sole_stiffness, 2e6, "TippingHabit.sound_sole_stiffness [N/m]")
        require(0.0, self.sound_sole_loss, 0.9, "TippingHabit.sound_sole_loss [1]")


def _strengths() -> dict[str, Any]:
    return dict(read_model(models_folder() / "strengths.toml")["wearers"])


def strength_entry(wearer: str) -> str:
    """Return the entry of ``models/strengths.toml`` that serves a wearer: its own or the fallback.

    >>> strength_entry("nobody of that name")
    'any'
    """
    return wearer if wearer in _strengths() else FALLBACK


@cache
def read_strength(wearer: str) -> Strength:
    """Return a wearer's strength, or the fallback for a wearer that has no entry.

    Raises:
        CaseError: the file is faulty.
    """
    entry = strength_entry(wearer)
    figures = figures_of(_strengths()[entry], "strengths.toml")
    try:
        return Strength(
            knee=figures["knee_nm_kg"].number,
            hip=figures["hip_nm_kg"].number,
            held=standing_figures()["held_share"].number,
        )
    except (KeyError, RangeError) as trouble:
        raise _faulty("strengths.toml", f"wearers.{entry}", trouble) from trouble


@cache
def standing_figures() -> dict[str, Figure]:
    """Return the figures of ``models/standing.toml`` by their written names."""
    path = models_folder() / "standing.toml"
    return figures_of(read_model(path), path.name)


@cache
def read_standing_habit() -> StandingHabit:
    """Return how people stand, in SI.

    Raises:
        CaseError: the file is faulty.
    """
    figures = standing_figures()
    try:
        return StandingHabit(
            knee_flexion=math.radians(figures["knee_flexion_deg"].number),
            knee_past_straight=math.radians(figures["knee_past_straight_deg"].number),
            deepest_knee=math.radians(figures["deepest_knee_deg"].number),
            hip_spacing=figures["hip_spacing_mm"].number / 1000.0,
            centre_height=figures["centre_height_of_stature"].number,
            sound_effective_length=figures["sound_effective_length"].number,
        )
    except (KeyError, RangeError) as trouble:
        raise _faulty("standing.toml", "figures", trouble) from trouble


@cache
def read_tipping_habit() -> TippingHabit:
    """Return how people hold themselves when pushed, in SI.

    Raises:
        CaseError: the file is faulty.
    """
    figures = standing_figures()
    try:
        return TippingHabit(
            eagerness=figures["eagerness"].number,
            rise_time=figures["rise_time_s"].number,
            step_time=figures["step_time_s"].number,
            step_reach=figures["step_reach_of_leg"].number,
            folded_knee=math.radians(figures["folded_knee_deg"].number),
            sound_sole_stiffness=newton_per_metre_from_newton_per_mm(
                figures["sound_sole_stiffness_n_mm"].number
            ),
            sound_sole_loss=figures["sound_sole_loss"].number,
        )
    except (KeyError, RangeError) as trouble:
        raise _faulty("standing.toml", "figures", trouble) from trouble


def standing_sources(wearer: str) -> Iterator[str]:
    """Yield the source keys that standing rests on beside those of the case, each maybe twice."""
    for figure in standing_figures().values():
        yield figure.source
    for figure in figures_of(_strengths()[strength_entry(wearer)], "strengths.toml").values():
        yield figure.source


def _faulty(file: str, field: str, trouble: Exception) -> CaseError:
    problem = f"cannot be used: {trouble}"
    fault = Fault(file=file, field=field, value="", allowed="", nearest=None, problem=problem)
    return CaseError([fault])
