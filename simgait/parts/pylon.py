"""The pylon between socket and foot, with its adapters and its adjustable unit."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.errors import require
from simgait.physics.bench import tube_and_adapters

LONGEST_PYLON = 0.60  # [m] socket end to ankle axis; no leg has room for more


@dataclass(frozen=True, kw_only=True)
class Pylon:
    """A tube, what clamps it, and the screws that tilt it; cut to the length a limb needs.

    >>> pylon = Pylon(name="example", mass_per_length=0.30, adapter_mass=0.38, turn=0.0489,
    ...     shortest=0.05)
    >>> round(pylon.mass(0.20), 2)
    0.44
    """

    name: str
    mass_per_length: float  # [kg/m] of the tube
    adapter_mass: float  # [kg] all adapters and clamps together
    turn: float  # [rad] tilt for one whole turn of a screw of the adjustable unit
    shortest: float  # [m] least distance from socket end to ankle axis that the unit needs

    def __post_init__(self) -> None:
        require(0.0, self.mass_per_length, 3.0, "Pylon.mass_per_length [kg/m]")
        require(0.0, self.adapter_mass, 2.0, "Pylon.adapter_mass [kg]")
        require(math.radians(0.2), self.turn, math.radians(10.0), "Pylon.turn [rad]")
        require(0.0, self.shortest, 0.20, "Pylon.shortest [m]")

    def mass(self, length: float) -> float:
        """Mass of tube and adapters for a distance from socket end to ankle axis [kg].

        The adapters' own length is counted as tube, which is a little too heavy.
        ``length``: [m].

        Raises:
            RangeError: shorter than the unit allows, or longer than any leg.
        """
        require(self.shortest, length, LONGEST_PYLON, "length from socket end to ankle axis [m]")
        return tube_and_adapters(self.adapter_mass, self.mass_per_length, length)


def screw_turns(angle: float, turn: float) -> float:
    """Return how many whole turns of a screw make an angle, with the sign of the angle [1].

    angle / turn: near the middle of the travel the unit tilts in proportion to its screws.
    ``angle``: [rad]; ``turn``: tilt for one whole turn [rad].

    Raises:
        RangeError: ``turn`` is not positive.

    >>> import math
    >>> round(screw_turns(math.radians(7.0), math.radians(2.8)), 3)
    2.5
    """
    require(math.radians(0.2), turn, math.radians(10.0), "tilt for one turn [rad]")
    return angle / turn
