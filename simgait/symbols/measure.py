"""What is known about an outcome measure beside its value."""

from __future__ import annotations

from dataclasses import dataclass

MM_PER_METRE = 1000.0
PERCENT = 100.0
ONE_DECIMAL = frozenset(
    {"mm", "deg", "deg/s", "N m", "N s", "%", "% of stance", "J", "body weights/s"}
)  # units shown with one decimal


@dataclass(frozen=True, kw_only=True)
class Measure:
    """One outcome measure.  ``name`` ends in the unit where it has one."""

    name: str
    scale: float  # from SI to the unit shown
    unit: str
    title: str  # a few words, for tables and pictures
    definition: str
    source: str  # key of a Source, or "definition" where it is the project's own
    sentence: str  # for someone who is no engineer
    per_mass: bool = False  # divided by body mass

    @property
    def digits(self) -> int:
        """How many decimals a value is shown with, by its unit.

        >>> from simgait.symbols import BY_NAME
        >>> BY_NAME["knee_flexion_moment_peak_nm_kg"].digits, BY_NAME["hip_rise_mm"].digits
        (3, 1)
        """
        return 0 if self.unit == "N" else 1 if self.unit in ONE_DECIMAL else 3

    def shown(self, value: float, mass: float) -> float:
        """Return a value in the unit shown: value times `scale`, over body mass if `per_mass`.

        value: [SI]; mass: of the body [kg].

        >>> from simgait.symbols import BY_NAME
        >>> BY_NAME["hip_rise_mm"].shown(0.02, 80.0)
        20.0
        >>> BY_NAME["knee_flexion_moment_peak_nm_kg"].shown(40.0, 80.0)
        0.5
        """
        return value * self.scale / (mass if self.per_mass else 1.0)


def measure(
    name: str,
    scale: float,
    unit: str,
    title: str,
    definition: str,
    sentence: str,
    source: str = "definition",
    per_mass: bool = False,
) -> Measure:
    """Return a measure; its words in the order in which the lists of this room give them."""
    return Measure(
        name=name,
        scale=scale,
        unit=unit,
        title=title,
        definition=definition,
        sentence=sentence,
        source=source,
        per_mass=per_mass,
    )
