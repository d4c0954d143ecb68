"""What wearers complain of, in the trade's words, and which measures it stands for.

Which measures belong to a complaint is common practice; by how much they are to change is the
project's own and assumed: about what 5 to 10 mm of foot shift does in the library's walking cases.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, kw_only=True)
class Relief:
    """By how much a measure is to change from what it is now."""

    measure: str
    sense: Literal["below", "above"]
    share: float = 0.0  # [1] of its present size
    amount: float = 0.0  # in the unit of its name


@dataclass(frozen=True, kw_only=True)
class Complaint:
    """A complaint, what is to change, and what it means for someone who is no engineer."""

    reliefs: tuple[Relief, ...]
    sentence: str


def _less(measure: str, share: float = 0.0, amount: float = 0.0) -> Relief:
    return Relief(measure=measure, sense="below", share=share, amount=amount)


def _more(measure: str, share: float = 0.0, amount: float = 0.0) -> Relief:
    return Relief(measure=measure, sense="above", share=share, amount=amount)


COMPLAINTS = {
    "knee pushed forward at loading": Complaint(
        reliefs=(
            _less("knee_flexion_moment_peak_nm_kg", share=0.15),
            _less("forward_thrust", share=0.02),
        ),
        sentence="At heel contact the shank is driven forward and the thigh must work to hold it.",
    ),
    "knee forced back late": Complaint(
        reliefs=(_less("knee_extension_moment_peak_nm_kg", share=0.20),),
        sentence="Before the heel rises the toe presses the knee back.",
    ),
    "drops off the toe": Complaint(
        reliefs=(_less("drop_off", share=0.15),),
        sentence="Late in the step the toe gives no support and the body drops onto the other leg.",
    ),
    "hard to get over the toe": Complaint(
        reliefs=(
            _more("speed_change_m_s", amount=0.015),
            _less("knee_extension_moment_peak_nm_kg", share=0.10),
        ),
        sentence="The wearer has to climb over the forefoot and loses pace on it.",
    ),
    "hip hikes": Complaint(
        reliefs=(_less("hip_rise_mm", amount=8.0),),
        sentence="The hip is lifted to bring the body over the prosthesis.",
    ),
    "limb feels long": Complaint(
        reliefs=(_less("hip_rise_mm", amount=5.0),),
        sentence="The prosthesis feels too long while it stands.",
    ),
    "limb feels short": Complaint(
        reliefs=(_more("hip_rise_mm", amount=5.0),),
        sentence="The prosthesis feels too short while it stands.",
    ),
}
