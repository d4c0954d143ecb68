"""The shoe on the sound foot, which sets how long the sound leg stands."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.alignment import Alignment
from simgait.case.entries import SoundSideEntry
from simgait.case.findings import Findings
from simgait.errors import require
from simgait.parts import Shoe
from simgait.units import metres_from_mm, mm_from_metres


@dataclass(frozen=True, kw_only=True)
class SoundSide:
    """The shoe on the sound foot.

    >>> SoundSide(shoe_thickness=0.012, shoe_heel_rise=0.02).shoe_heel_rise
    0.02
    """

    shoe_thickness: float  # [m] under the forefoot
    shoe_heel_rise: float | None  # [m]; None: the same as on the prosthesis, in each setting

    def __post_init__(self) -> None:
        require(0.0, self.shoe_thickness, 0.10, "SoundSide.shoe_thickness [m]")
        if self.shoe_heel_rise is not None:
            require(0.0, self.shoe_heel_rise, 0.10, "SoundSide.shoe_heel_rise [m]")

    def heel_rise(self, alignment: Alignment) -> float:
        """Heel rise of the sound side's shoe beside a setting of the prosthesis [m]."""
        return alignment.heel_rise if self.shoe_heel_rise is None else self.shoe_heel_rise


def filled_sound_side(
    entry: SoundSideEntry | None, shoe: Shoe | None, findings: Findings
) -> SoundSide:
    """Return the sound side's shoe; what is left out is as on the prosthesis, and it says so."""
    entry = entry or SoundSideEntry()
    thickness = 0.0 if shoe is None else shoe.sole_thickness
    if entry.shoe_thickness_mm is None:
        findings.fill(
            f"sound_side.shoe_thickness_mm: {mm_from_metres(thickness):g}, as on the prosthesis"
        )
    else:
        thickness = metres_from_mm(entry.shoe_thickness_mm)
    rise = entry.shoe_heel_rise_mm
    if rise is None:
        findings.fill("sound_side.shoe_heel_rise_mm: as on the prosthesis, in each setting")
    return SoundSide(
        shoe_thickness=thickness, shoe_heel_rise=None if rise is None else metres_from_mm(rise)
    )
