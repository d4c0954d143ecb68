"""A person as measured, and the segments of the person's legs.

Masses, centres and inertias come from one published table per person; lengths from measurements
or, where there are none, from stature. The fractions of a table are applied to the mass of the
person **as weighed, wearing the prosthesis and both shoes**; what the lost part of the leg would
have weighed more than the prosthesis (about 2 kg) is neglected in that.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from simgait.arrays import whole_power
from simgait.errors import RangeError, refuse, require

Sex = Literal["female", "male"]

# Fractions of stature [1]. Quoted: Drillis & Contini 1966 in Winter 2009, figure 4.1.
ANKLE_HEIGHT_FRACTION = 0.039
KNEE_HEIGHT_FRACTION = 0.285
HIP_HEIGHT_FRACTION = 0.530
THIGH_FRACTION = 0.245
FOOT_FRACTION = 0.152
THIGH_SPAN = (0.18, 0.32)  # [1] of stature; beyond it a measurement is wrong (assumed)


@dataclass(frozen=True, kw_only=True)
class SegmentRow:
    """One line of a published table: fractions of body mass and of segment length [1].

    ``centre`` runs from the proximal (first named) end; ``gyration`` is the radius of gyration
    about the centre of mass, for turning in the sagittal plane, or None where none is printed.
    """

    name: str
    ends: str
    mass: float
    centre: float
    gyration: float | None

    def __post_init__(self) -> None:
        require(0.0, self.mass, 1.0, f"mass fraction of {self.name} [1]")
        require(0.0, self.centre, 1.0, f"centre of {self.name} [1]")
        if self.gyration is not None:
            require(0.05, self.gyration, 1.0, f"radius of gyration of {self.name} [1]")


@dataclass(frozen=True, kw_only=True)
class SegmentTable:
    """A published table of body segments, whole, with the rows that make the leg."""

    name: str
    title: str
    source: str  # key of a Source
    rows: tuple[SegmentRow, ...]
    thigh: str  # names of the rows that are the leg's segments
    shank: str
    foot: str

    def row(self, name: str) -> SegmentRow:
        """Return the row with that name.

        Raises:
            KeyError: the table has none.
        """
        for row in self.rows:
            if row.name == name:
                return row
        raise KeyError(f"{self.name} has no segment {name!r}")


@dataclass(frozen=True, kw_only=True)
class Person:
    """A person: sex, mass as weighed with prosthesis and shoes, stature, table, measurements.

    A measurement that was not taken is None; the length then follows from stature.
    """

    sex: Sex
    mass: float  # [kg] as weighed, wearing prosthesis and shoes
    stature: float  # [m]
    segment_table: SegmentTable
    measured_thigh: float | None = None  # [m] hip axis to knee axis
    measured_knee_height: float | None = None  # [m] knee axis above the floor, barefoot
    measured_hip_height: float | None = None  # [m] hip axis above the floor, barefoot

    def __post_init__(self) -> None:
        require(25.0, self.mass, 200.0, "Person.mass [kg]")
        require(1.2, self.stature, 2.2, "Person.stature [m]")
        if self.measured_thigh is not None:
            require(0.20, self.measured_thigh, 0.65, "Person.measured_thigh [m]")
        if self.measured_knee_height is not None:
            require(0.25, self.measured_knee_height, 0.75, "Person.measured_knee_height [m]")
        if self.measured_hip_height is not None:
            require(0.50, self.measured_hip_height, 1.30, "Person.measured_hip_height [m]")
        require(0.15, self.shank_length, 0.70, "knee height less ankle height [m]")
        refuse(self.knee_height >= self.hip_height, "Person: knee height is not below hip height")
        low, high = (share * self.stature for share in THIGH_SPAN)
        require(low, self.thigh_length, high, "thigh, hip axis to knee axis, for the stature [m]")

    @property
    def thigh_length(self) -> float:
        """Hip axis to knee axis [m]: measured; or hip height less knee height if either of those
        was measured; or 0.245 of stature (Drillis & Contini 1966, quoted)."""
        if self.measured_thigh is not None:
            return self.measured_thigh
        if self.measured_hip_height is None and self.measured_knee_height is None:
            return THIGH_FRACTION * self.stature
        return self.hip_height - self.knee_height

    @property
    def knee_height(self) -> float:
        """Knee axis above the floor, barefoot [m]: measured or 0.285 of stature."""
        if self.measured_knee_height is not None:
            return self.measured_knee_height
        return KNEE_HEIGHT_FRACTION * self.stature

    @property
    def hip_height(self) -> float:
        """Hip axis above the floor, barefoot [m]: measured; or knee height plus measured thigh;
        or 0.530 of stature."""
        if self.measured_hip_height is not None:
            return self.measured_hip_height
        if self.measured_thigh is not None:
            return self.knee_height + self.measured_thigh
        return HIP_HEIGHT_FRACTION * self.stature

    @property
    def ankle_height(self) -> float:
        """Ankle axis of the natural foot above the floor, barefoot [m]: 0.039 of stature."""
        return ANKLE_HEIGHT_FRACTION * self.stature

    @property
    def shank_length(self) -> float:
        """Knee axis to ankle axis of the natural leg [m]: knee height less ankle height."""
        return self.knee_height - self.ankle_height

    @property
    def foot_length(self) -> float:
        """Heel to toe of the natural foot [m]: 0.152 of stature."""
        return FOOT_FRACTION * self.stature


@dataclass(frozen=True, kw_only=True)
class Segment:
    """A rigid piece of a leg."""

    length: float  # [m] proximal end to distal end
    mass: float  # [kg]
    centre: float  # [m] centre of mass from the proximal end
    inertia: float  # [kg m²] about the centre of mass, turning in the sagittal plane

    def __post_init__(self) -> None:
        require(0.0, self.length, 1.0, "Segment.length [m]")
        require(0.0, self.mass, 60.0, "Segment.mass [kg]")
        require(0.0, self.centre, self.length, "Segment.centre [m]")
        require(0.0, self.inertia, 20.0, "Segment.inertia [kg m²]")


def natural_segment(row: SegmentRow, length: float, body_mass: float) -> Segment:
    """Return the segment that a row of a table gives for a length [m] and a body mass [kg].

    Inertia m (k L)², k the radius of gyration over length.

    Raises:
        RangeError: the row has no radius of gyration.
    """
    if row.gyration is None:
        raise RangeError(f"the table prints no radius of gyration for {row.name}")
    mass = row.mass * body_mass
    return Segment(
        length=length,
        mass=mass,
        centre=row.centre * length,
        inertia=mass * whole_power(row.gyration * length, 2),
    )


def thigh(person: Person) -> Segment:
    """Return the thigh, hip axis to knee axis, from the person's table."""
    row = person.segment_table.row(person.segment_table.thigh)
    return natural_segment(row, person.thigh_length, person.mass)


def shank(person: Person) -> Segment:
    """Return the whole natural shank, knee axis to ankle axis, from the person's table."""
    row = person.segment_table.row(person.segment_table.shank)
    return natural_segment(row, person.shank_length, person.mass)


def foot_mass(person: Person) -> float:
    """Return the mass of the natural foot [kg].

    Only the mass: the tables measure the foot between different ends (one from ankle to the
    second metatarsal head, one from heel to toe), so one length would not serve both.
    """
    table = person.segment_table
    return table.row(table.foot).mass * person.mass


def density_coefficients(centre: float, gyration: float) -> tuple[float, float, float]:
    """Return a, b, c of the density a + b s + c s² of a segment of unit mass and length [1].

    Derived: the one quadratic whose integrals of 1, s and s² over 0..1 are 1, ``centre`` and
    ``centre``² + ``gyration``² (mass, first and second moment); the coefficients are the inverse
    of the 3 x 3 Hilbert matrix. ``centre``, ``gyration``: fractions of the length.

    >>> [round(value, 9) + 0.0 for value in density_coefficients(0.5, (1 / 12) ** 0.5)]
    [1.0, 0.0, 0.0]
    """
    second = centre**2 + gyration**2
    a = 9.0 - 36.0 * centre + 30.0 * second
    b = -36.0 + 192.0 * centre - 180.0 * second
    c = 30.0 - 180.0 * centre + 180.0 * second
    return a, b, c


def least_density(coefficients: tuple[float, float, float]) -> float:
    """Return the smallest value of a + b s + c s² for s in 0..1 [1]."""
    a, b, c = coefficients
    places = [0.0, 1.0]
    if c > 0.0 and 0.0 < -b / (2.0 * c) < 1.0:
        places.append(-b / (2.0 * c))
    return min(a + b * s + c * s**2 for s in places)


def density_moment(coefficients: tuple[float, float, float], cut: float, power: int) -> float:
    """Return the integral of (a + b s + c s²) s^power over 0..cut [1]."""
    return sum(
        value * whole_power(cut, order + power + 1) / (order + power + 1)
        for order, value in enumerate(coefficients)
    )


def residual_limb(person: Person, length: float) -> Segment:
    """Return the part of the natural shank that is left above a cut.

    Derived: the shank's mass is spread along it as :func:`density_coefficients` says, so that
    the whole has the table's mass, centre and inertia, and integrated from the knee to the cut.
    What surgery reshapes and what shrinks afterwards is not modelled.

    ``length``: knee axis to the end of the residual limb [m].

    Raises:
        RangeError: longer than the natural shank, or the table's spread is negative somewhere.
    """
    whole = shank(person)
    require(0.02, length, whole.length, "length of the residual limb [m]")
    row = person.segment_table.row(person.segment_table.shank)
    coefficients = density_coefficients(row.centre, row.gyration or 0.0)
    require(0.0, least_density(coefficients), 1e3, "least density of the shank [1]")
    cut = length / whole.length
    share = density_moment(coefficients, cut, 0)
    centre = density_moment(coefficients, cut, 1) / share
    spread = density_moment(coefficients, cut, 2) / share - whole_power(centre, 2)
    mass = whole.mass * share
    return Segment(
        length=length,
        mass=mass,
        centre=centre * whole.length,
        inertia=mass * spread * whole_power(whole.length, 2),
    )
