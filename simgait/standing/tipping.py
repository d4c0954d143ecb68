"""Where standing ends, on a slope or under a push, by `simgait.physics.balance`."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.physics import rest_layout as rows
from simgait.standing.posture import Stance

REASONS = {
    rows.KNEE_GIVES_WAY: "knee_gives_way",
    rows.HIP_GIVES_WAY: "hip_gives_way",
    rows.SLIDES: "slides",
    rows.SOLE_END: "sole_end",
}


@dataclass(frozen=True, kw_only=True)
class Limit:
    """Where standing ends in one direction."""

    ratio: float  # [1] tangent of the slope, or push over weight; a size, never negative
    reason: str  # "sole_end", "knee_gives_way", "hip_gives_way" or "slides"
    place: float  # [m] where the prosthesis' foot then carries, along the sole


def centre_height(stance: Stance) -> float:
    """Return the height of the body's centre above the floor [m]: a share of stature, and the shoe.

    The extrapolation: the legs are straight and level in both shoes, so the sole lifts all of it.
    """
    return float(stance.rest[rows.REST_CENTRE_HEIGHT])
