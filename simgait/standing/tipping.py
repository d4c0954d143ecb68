"""The slope and the push at which a standing wearer tips, by `simgait.physics.balance`."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from simgait.physics import rest_layout as rows
from simgait.physics.balance import tip_over
from simgait.standing.flat import flat
from simgait.standing.loading import Loading, on_slope, pushed
from simgait.standing.pose import Pose
from simgait.standing.posture import Stance

REASONS = {
    rows.KNEE_GIVES_WAY: "knee_gives_way",
    rows.HIP_GIVES_WAY: "hip_gives_way",
    rows.SLIDES: "slides",
    rows.SOLE_END: "sole_end",
}
Disturbance = Callable[[float, float], Loading]  # weight carried [N], ratio [1] -> loading


@dataclass(frozen=True, kw_only=True)
class Limit:
    """Where standing ends in one direction."""

    ratio: float  # [1] tangent of the slope, or push over weight; a size, never negative
    reason: str  # "sole_end", "knee_gives_way", "hip_gives_way" or "slides"
    place: float  # [m] where the prosthesis' foot then carries, along the sole


@dataclass(frozen=True, kw_only=True)
class Ground:
    """What carries the body: a share of it on the prosthesis, the rest on a foot with an ankle."""

    share: float  # [1] of the weight on the prosthesis
    forward_reach: float  # [m] of the other foot's line, to the end where it still carries
    backward_reach: float  # [m] the same behind

    def reach(self, sense: float) -> float:
        """The other foot's part in moving the load line [m]: with sign, weighed by its share."""
        reach = self.forward_reach if sense > 0.0 else -self.backward_reach
        return (1.0 - self.share) * reach


def slope_of(carried: float, ratio: float) -> Loading:
    """Return the loading on a slope whose tangent is ``ratio``. ``carried`` [N]."""
    return on_slope(carried, math.atan(ratio))


def tipping_limit(
    stance: Stance, ground: Ground, base: Pose, sense: float, disturbance: Disturbance
) -> Limit:
    """Return where standing ends, forward (sense = 1) or backward (-1).

    ``base``: the undisturbed pose; ``disturbance``: `slope_of` or `pushed`.
    """
    trial, pose = flat(rows.TRIAL_ROWS), flat(rows.POSE_ROWS)
    trial[rows.TRIAL_SENSE] = sense
    trial[rows.TRIAL_PUSHED] = 1.0 if disturbance is pushed else 0.0
    trial[rows.TRIAL_SHARE] = ground.share
    trial[rows.TRIAL_REACH] = ground.reach(sense)
    trial[rows.TRIAL_PLACE] = base.place
    trial[rows.TRIAL_LEAN] = base.prosthesis_lean
    load, room = flat(rows.LOAD_ROWS), flat(rows.BRACKET_ROWS)
    reason = tip_over(trial, load, stance.rest, pose, room)
    return Limit(
        ratio=max(sense * trial[rows.TRIAL_RATIO], 0.0),
        reason=REASONS[reason],
        place=pose[rows.POSE_PLACE],
    )


def centre_height(stance: Stance) -> float:
    """Return the height of the body's centre above the floor [m]: a share of stature, and the shoe.

    The extrapolation: the legs are straight and level in both shoes, so the sole lifts all of it.
    """
    return float(stance.rest[rows.REST_CENTRE_HEIGHT])
