"""The five things a person can set on a below-knee prosthesis in the sagittal plane."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from simgait.errors import require
from simgait.units import (
    degrees_from_radians,
    metres_from_mm,
    mm_from_metres,
    radians_from_degrees,
)

# As people write them, in the order in which everything lists them.
WRITTEN_NAMES = (
    "foot_forward_mm",
    "dorsiflexion_deg",
    "socket_flexion_deg",
    "length_change_mm",
    "heel_rise_mm",
)


@dataclass(frozen=True, kw_only=True)
class Alignment:
    """One setting of the prosthesis.

    >>> setting = Alignment(foot_forward=0.010, dorsiflexion=0.0, socket_flexion=0.0873,
    ...     length_change=0.0, heel_rise=0.010)
    >>> setting.foot_forward
    0.01
    """

    foot_forward: float  # [m] + foot ahead of the socket
    dorsiflexion: float  # [rad] + toe up
    socket_flexion: float  # [rad] + socket tipped so that the knee starts bent
    length_change: float  # [m] + longer than level
    heel_rise: float  # [m] heel height of the shoe less its forefoot height

    def __post_init__(self) -> None:
        require(-0.06, self.foot_forward, 0.06, "Alignment.foot_forward [m]")
        tilt = math.radians(15.0)
        require(-tilt, self.dorsiflexion, tilt, "Alignment.dorsiflexion [rad]")
        low, high = math.radians(-5.0), math.radians(25.0)
        require(low, self.socket_flexion, high, "Alignment.socket_flexion [rad]")
        require(-0.06, self.length_change, 0.06, "Alignment.length_change [m]")
        require(0.0, self.heel_rise, 0.10, "Alignment.heel_rise [m]")

    def as_written(self) -> dict[str, float]:
        """The five values in millimetres and degrees, under the names of a case file.

        Rounded to 1e-9 so that 3 degrees reads 3.

        >>> Alignment.from_written({"foot_forward_mm": 10.0, "dorsiflexion_deg": 3.0,
        ...     "socket_flexion_deg": 5.0, "length_change_mm": 0.0,
        ...     "heel_rise_mm": 10.0}).as_written()["dorsiflexion_deg"]
        3.0
        """
        values = (
            mm_from_metres(self.foot_forward),
            degrees_from_radians(self.dorsiflexion),
            degrees_from_radians(self.socket_flexion),
            mm_from_metres(self.length_change),
            mm_from_metres(self.heel_rise),
        )
        return {
            name: round(value, 9) + 0.0 for name, value in zip(WRITTEN_NAMES, values, strict=True)
        }

    @staticmethod
    def from_written(values: Mapping[str, float]) -> Alignment:
        """Return the alignment of five values in millimetres and degrees, named as in a case.

        Raises:
            KeyError: one of the five is missing.
            RangeError: one is out of range.
        """
        return Alignment(
            foot_forward=metres_from_mm(values["foot_forward_mm"]),
            dorsiflexion=radians_from_degrees(values["dorsiflexion_deg"]),
            socket_flexion=radians_from_degrees(values["socket_flexion_deg"]),
            length_change=metres_from_mm(values["length_change_mm"]),
            heel_rise=metres_from_mm(values["heel_rise_mm"]),
        )
