"""The few conversions made where people read and write; inside, everything is SI and radians.

Each function says its units in its name. Division is used where it is exact, so that 60 mm is the
very number 0.06 m.
"""

from __future__ import annotations

import math

DEGREES_PER_RADIAN = 180.0 / math.pi
RADIANS_PER_DEGREE = math.pi / 180.0

# What the end of a written name says, and the factor to SI; the longest endings come first.
WRITTEN_ENDINGS = (
    ("_nm_s_deg", DEGREES_PER_RADIAN),  # N m s per degree -> N m s/rad
    ("_nm_deg", DEGREES_PER_RADIAN),  # N m per degree -> N m/rad
    ("_n_mm", 1000.0),  # N/mm -> N/m
    ("_kg_m", 1.0),  # kg/m
    ("_m_s", 1.0),  # m/s
    ("_kg", 1.0),  # kg
)


def metres_from_mm(length: float) -> float:
    """Return a length [m] from one in millimetres.

    >>> metres_from_mm(60.0)
    0.06
    """
    return length / 1000.0


def mm_from_metres(length: float) -> float:
    """Return a length in millimetres from one in metres [m].

    >>> mm_from_metres(0.25)
    250.0
    """
    return length * 1000.0


def radians_from_degrees(angle: float) -> float:
    """Return an angle [rad] from one in degrees.

    >>> round(radians_from_degrees(180.0), 6)
    3.141593
    """
    return angle * RADIANS_PER_DEGREE


def degrees_from_radians(angle: float) -> float:
    """Return an angle in degrees from one in radians [rad].

    >>> round(degrees_from_radians(0.05), 4)
    2.8648
    """
    return math.degrees(angle)


def newton_per_metre_from_newton_per_mm(stiffness: float) -> float:
    """Return a stiffness [N/m] from one in newton per millimetre.

    >>> newton_per_metre_from_newton_per_mm(45.0)
    45000.0
    """
    return stiffness * 1000.0


def newton_per_mm_from_newton_per_metre(stiffness: float) -> float:
    """Return a stiffness in newton per millimetre from one in [N/m].

    >>> newton_per_mm_from_newton_per_metre(45000.0)
    45.0
    """
    return stiffness / 1000.0


def si_from_written(name: str, value: float) -> tuple[str, float]:
    """Return a name without its unit and the value in SI, as the end of the name says.

    Endings: _mm, _deg, _n_mm, _nm_deg, _nm_s_deg, _kg, _kg_m, _m_s; a name without one of these
    is a pure number.

    >>> si_from_written("heel_lever_mm", 60.0)
    ('heel_lever', 0.06)
    >>> si_from_written("heel_stiffness_n_mm", 45.0)
    ('heel_stiffness', 45000.0)
    >>> si_from_written("heel_loss", 0.4)
    ('heel_loss', 0.4)
    """
    for ending, factor in WRITTEN_ENDINGS:
        if name.endswith(ending):
            return name.removesuffix(ending), value * factor
    if name.endswith("_mm"):
        return name.removesuffix("_mm"), metres_from_mm(value)
    if name.endswith("_deg"):
        return name.removesuffix("_deg"), radians_from_degrees(value)
    return name, value
