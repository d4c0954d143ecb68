"""The shape of a case file: its tables, its keys, and the range of each number."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from simgait.parts.foot import LARGEST_LOSS


class Entry(BaseModel):
    """One table of a case file; unknown keys and values of another type are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


def needed(low: float, high: float) -> Any:
    """A finite number that must be there, low to high, in the unit of the key's name."""
    return Field(ge=low, le=high, allow_inf_nan=False)


def optional(low: float, high: float) -> Any:
    """A finite number that may be left out."""
    return Field(default=None, ge=low, le=high, allow_inf_nan=False)


class PersonEntry(Entry):
    """``[person]``; mass as weighed, wearing prosthesis and shoes; heights barefoot."""

    sex: Literal["female", "male"]
    mass_kg: float = needed(25, 200)
    stature_mm: float = needed(1200, 2200)
    segment_table: str | None = None
    thigh_mm: float | None = optional(200, 650)
    knee_height_mm: float | None = optional(250, 750)
    hip_height_mm: float | None = optional(500, 1300)


class LimbEntry(Entry):
    """``[limb]``; the residual limb is measured from the knee axis to its end."""

    residual_limb_mm: float = needed(60, 300)
    side: Literal["left", "right"] | None = None


class FootEntry(Entry):
    """``[foot]``: either a model of the library or all bench figures of a foot of one's own."""

    model: str | None = None
    heel_stiffness_n_mm: float | None = optional(5, 500)
    forefoot_stiffness_n_mm: float | None = optional(5, 500)
    heel_loss: float | None = optional(0, LARGEST_LOSS)
    forefoot_loss: float | None = optional(0, LARGEST_LOSS)
    heel_lever_mm: float | None = optional(10, 120)
    toe_lever_mm: float | None = optional(30, 250)
    sole_height_mm: float | None = optional(20, 250)
    heel_rise_mm: float | None = optional(0, 100)
    mass_kg: float | None = optional(0.05, 3)
    length_mm: float | None = optional(100, 360)
    toe_spring_mm: float | None = optional(0, 50)
    heel_round_mm: float | None = optional(0, 50)


class ModelEntry(Entry):
    """``[shoe]``, ``[socket]``, ``[pylon]``, ``[wearer]``: a model of the library."""

    model: str | None = None


class WalkingEntry(Entry):
    """``[walking]``."""

    speed_m_s: float | None = optional(0.3, 2.2)


class GroundEntry(Entry):
    """``[ground]``."""

    friction: float | None = optional(0.05, 1.5)


class SoundSideEntry(Entry):
    """``[sound_side]``: the shoe on the other foot, which sets how long the sound leg stands."""

    shoe_heel_rise_mm: float | None = optional(0, 100)
    shoe_thickness_mm: float | None = optional(0, 100)


class AlignmentEntry(Entry):
    """``[alignment]``: the baseline setting."""

    foot_forward_mm: float | None = optional(-60, 60)
    dorsiflexion_deg: float | None = optional(-15, 15)
    socket_flexion_deg: float | None = optional(-5, 25)
    length_change_mm: float | None = optional(-60, 60)
    heel_rise_mm: float | None = optional(0, 100)


TABLES: dict[str, type[Entry]] = {
    "person": PersonEntry,
    "limb": LimbEntry,
    "foot": FootEntry,
    "shoe": ModelEntry,
    "socket": ModelEntry,
    "pylon": ModelEntry,
    "wearer": ModelEntry,
    "walking": WalkingEntry,
    "ground": GroundEntry,
    "sound_side": SoundSideEntry,
    "alignment": AlignmentEntry,
}
COMPARE = "compare"  # lists of AlignmentEntry values; read by simgait.case.grid
OTHER_TABLES = ("goal", "adjust", "seen", "unit", "finished")  # goals, seen, transfer_entries
TOP_KEYS = ("title", *TABLES, COMPARE, *OTHER_TABLES)

INLINE_FOOT = tuple(name for name in FootEntry.model_fields if name != "model")
FILLABLE_FOOT = ("toe_spring_mm", "heel_round_mm")
NEEDED_FOOT = tuple(name for name in INLINE_FOOT if name not in FILLABLE_FOOT)


def number_range(entry: type[Entry], name: str) -> tuple[float, float] | None:
    """Return the range of a number of a table, or None if the key is no number."""
    field = entry.model_fields.get(name)
    if field is None:
        return None
    low = [float(mark.ge) for mark in field.metadata if hasattr(mark, "ge")]
    high = [float(mark.le) for mark in field.metadata if hasattr(mark, "le")]
    return (low[0], high[0]) if low and high else None
