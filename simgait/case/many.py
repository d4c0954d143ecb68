"""A case of many runs: numbers of a case file replaced by many, checked as the reader checks one.

Every number of a case may be many (see `simgait.arrays`) but those of the foot, whose sole has to
be solved for each set of bench figures, and what is no number at all.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.arrays import Array, many
from simgait.case import Case
from simgait.case.building import LARGEST_DISAGREEMENT, height_between
from simgait.case.entries import TABLES, number_range
from simgait.case.room import longest_limbs
from simgait.errors import refuse, require
from simgait.people import Person, residual_limb
from simgait.units import metres_from_mm, mm_from_metres, si_from_written

PERSON_FIELDS = {
    "mass_kg": "mass",
    "stature_mm": "stature",
    "thigh_mm": "measured_thigh",
    "knee_height_mm": "measured_knee_height",
    "hip_height_mm": "measured_hip_height",
}
SOUND_FIELDS = {"shoe_heel_rise_mm": "shoe_heel_rise", "shoe_thickness_mm": "shoe_thickness"}
MANY_NAMES = (
    *(f"person.{name}" for name in PERSON_FIELDS),
    "limb.residual_limb_mm",
    "walking.speed_m_s",
    "ground.friction",
    *(f"sound_side.{name}" for name in SOUND_FIELDS),
    *(f"alignment.{name}" for name in WRITTEN_NAMES),
)


def case_of_many(case: Case, values: Mapping[str, Array], runs: int | None = None) -> Case:
    """Return a case with many numbers in place of those it states; its alignment is many.

    Only the baseline is kept: the lists of ``[compare]`` play no part.

    case: as read; values: by dotted name, one of MANY_NAMES, in the unit of the name; runs: how
    many, which may be left out where there are values.

    Raises:
        RangeError: the reader would refuse some runs; its `rows` say which.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> case_of_many(case, {"person.mass_kg": np.array([70.0, 90.0])}).person.mass
    array([70., 90.])
    """
    for name, column in values.items():
        table, _, key = name.partition(".")
        low, high = number_range(TABLES[table], key) or (-np.inf, np.inf)
        require(low, many(column), high, name)
    if runs is None:
        runs = len(next(iter(values.values())))
    limb = values.get("limb.residual_limb_mm")
    speed, friction = values.get("walking.speed_m_s"), values.get("ground.friction")
    changed = replace(
        case,
        person=replace(case.person, **_fields(values, "person", PERSON_FIELDS)),
        residual_limb=case.residual_limb if limb is None else metres_from_mm(many(limb)),
        speed=case.speed if speed is None else many(speed),
        friction=case.friction if friction is None else many(friction),
        sound_side=replace(case.sound_side, **_fields(values, "sound_side", SOUND_FIELDS)),
        settings=(_alignment(case.baseline, values, runs),),
        baseline_index=0,
    )
    check_lengths(changed.person)
    check_room_of_many(changed)
    return changed


def _fields(values: Mapping[str, Array], table: str, names: Mapping[str, str]) -> dict[str, Any]:
    """Return the fields of a table that are many, in SI, by the names of its object."""
    return {
        field: si_from_written(name, many(values[f"{table}.{name}"]))[1]
        for name, field in names.items()
        if f"{table}.{name}" in values
    }


def _alignment(base: Alignment, values: Mapping[str, Array], runs: int) -> Alignment:
    """Return the alignment as many, all five numbers of it."""
    fields = {}
    for name in WRITTEN_NAMES:
        given = values.get(f"alignment.{name}")
        field, value = si_from_written(name, many(np.ones(runs) if given is None else given))
        fields[field] = many(np.full(runs, getattr(base, field))) if given is None else value
    return Alignment(**fields)


def stated(case: Case, name: str) -> float | None:
    """Return a number of a case in the unit of its name, filled where the file leaves it out.

    name: one of MANY_NAMES.  None for a walking speed that the case leaves to the wearer, and for
    a sound shoe's heel that it leaves to follow the prosthesis'.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> stated(read_case(models_folder() / "cases" / "everyday.toml"), "person.knee_height_mm")
    501.6
    """
    person, (table, _, key) = case.person, name.partition(".")
    if table == "alignment":
        return case.baseline.as_written()[key]
    in_si = {
        "person.mass_kg": person.mass,
        "person.stature_mm": person.stature,
        "person.thigh_mm": person.thigh_length,
        "person.knee_height_mm": person.knee_height,
        "person.hip_height_mm": person.hip_height,
        "limb.residual_limb_mm": case.residual_limb,
        "walking.speed_m_s": case.speed,
        "ground.friction": case.friction,
        "sound_side.shoe_heel_rise_mm": case.sound_side.shoe_heel_rise,
        "sound_side.shoe_thickness_mm": case.sound_side.shoe_thickness,
    }[name]
    if in_si is None:
        return None
    return round(mm_from_metres(in_si), 9) if key.endswith("_mm") else in_si


def check_lengths(person: Person) -> None:
    """Refuse persons whose measured lengths contradict each other, as the reader does.

    Raises:
        RangeError: thigh, and hip less knee height, differ too much.
    """
    between = height_between(person)
    if between is not None and person.measured_thigh is not None:
        refuse(
            abs(between - person.measured_thigh) > LARGEST_DISAGREEMENT,
            "the thigh contradicts the heights of hip and knee",
        )


def check_room_of_many(case: Case) -> None:
    """Refuse residual limbs that leave no room for foot and unit, or fill no socket.

    Raises:
        RangeError: as the reader would refuse them.
    """
    length, setting = case.residual_limb, case.baseline
    for longest in longest_limbs(
        length,
        case.person,
        (case.shod_foot, case.socket, case.pylon),
        case.sound_side.shoe_thickness,
        setting.length_change,
    ):
        refuse(length > longest, "the residual limb leaves no room for foot and unit below it")
    case.socket.enclosed_length(length)
    residual_limb(case.person, length)
