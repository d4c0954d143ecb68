"""Calibrated wearers: between a file of ``models/wearers/`` and a :class:`Wearer`."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from simgait.errors import CaseError, Fault, RangeError
from simgait.library.figures import read_model
from simgait.library.folder import path_of
from simgait.units import radians_from_degrees
from simgait.wearer import Wearer

DEGREE_CURVES = ("thigh", "knee")
SINGLE_DEGREES = ("start_thigh", "start_flexion")
SINGLE_DEGREE_RATES = ("start_thigh_rate", "start_flexion_rate")
PLAIN = {
    "mass": "mass_kg",
    "leg_length": "leg_length_m",
    "speed": "speed_m_s",
    "stance_time": "stance_time_s",
    "leaves": "leaves_share",
    "arrives": "arrives_share",
    "hip_stiffness": "hip_stiffness_nm_rad",
    "hip_damping": "hip_damping_nms_rad",
    "knee_stiffness": "knee_stiffness_nm_rad",
    "knee_damping": "knee_damping_nms_rad",
    "trunk_damping": "trunk_damping_ns_m",
    "trunk_speed": "trunk_speed_m_s",
    "start_forward_speed": "start_forward_speed_m_s",
    "start_upward_speed": "start_upward_speed_m_s",
    "arriving_stiffness": "arriving_stiffness_n_m",
    "arriving_damping": "arriving_damping_ns_m",
    "arriving_height": "arriving_height_m",
}
FORCES = ("leaving_up", "leaving_forward", "arriving_up", "arriving_forward")


def wearer_fields(values: Mapping[str, Any]) -> dict[str, Any]:
    """Return the arguments of :class:`Wearer` from the [wearer] table of a file.

    Raises:
        KeyError: a value is missing.
    """
    fields: dict[str, Any] = {name: float(values[key]) for name, key in PLAIN.items()}
    for name in FORCES:
        fields[name] = tuple(float(value) for value in values[f"{name}_bw"])
    for name in DEGREE_CURVES:
        fields[name] = tuple(radians_from_degrees(value) for value in values[f"{name}_deg"])
    for name in SINGLE_DEGREES:
        fields[name] = radians_from_degrees(values[f"{name}_deg"])
    for name in SINGLE_DEGREE_RATES:
        fields[name] = radians_from_degrees(values[f"{name}_deg_s"])
    return fields


@cache
def read_wearer(name: str) -> Wearer:
    """Return a calibrated wearer by name.

    Raises:
        CaseError: no such wearer, or its file is incomplete or impossible.
    """
    path = path_of("wearers", name)
    data = read_model(path)
    try:
        return Wearer(name=name, **wearer_fields(data["wearer"]))
    except KeyError as trouble:
        problem = f"has no value {trouble.args[0]!r}"
    except (RangeError, TypeError) as trouble:
        problem = f"cannot be: {trouble}"
    raise CaseError(
        [Fault(file=path.name, field="wearer", value="", allowed="", nearest=None, problem=problem)]
    )
