"""The slope and the push at which a standing wearer tips.

The wearer holds the body's centre where it stood over the feet.  A slope of angle a then moves the
line of the load by height x tan a along the floor, a level push at the centre by height x push /
weight, so that the two are one question (statics).  The foot must carry at the moved place: it
yields and leans until it does, and takes the shank along.  Whatever the wearer does above the knee,
the moment at the knee is then determined; so no equilibrium is left when the load reaches the end
of the sole, or the knee's or the hip's greatest moment holds no more, or the shoe slides.  On a
stiff foot under a strong wearer only the first is left: slope = atan(lever / height), push =
weight x lever / height.

Standing on both feet, the sides keep their shares, and both are loaded up to their own ends.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from simgait.standing.loading import Loading, on_slope
from simgait.standing.pose import Pose
from simgait.standing.posture import FARTHEST, Stance
from simgait.standing.roots import root_between

STRIDE = math.radians(2.0)  # between leans that are looked at
ROUNDS = 3  # a slope changes the load on the floor by its cosine, which hardly changes the slope

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
    trial = Trial(stance=stance, ground=ground, base=base, sense=sense, disturbance=disturbance)
    lean = trial.last_lean()
    pose, ratio = trial.at(lean)
    return Limit(ratio=max(sense * ratio, 0.0), reason=trial.reason(lean), place=pose.place)


@dataclass(frozen=True, kw_only=True, eq=False)
class Trial:
    """One direction of tipping, by the lean of the prosthesis."""

    stance: Stance
    ground: Ground
    base: Pose
    sense: float
    disturbance: Disturbance

    def last_lean(self) -> float:
        """The farthest lean at which everything holds [rad].

        Looked for from the undisturbed lean on; backwards, if with the other foot at its end the
        prosthesis would fail there already.
        """
        last = self.base.prosthesis_lean
        holds = self.margin(last) >= 0.0
        step = STRIDE if holds else -STRIDE
        for _ in range(round(FARTHEST / STRIDE)):
            lean = last + self.sense * step
            if (self.margin(lean) >= 0.0) != holds:
                return root_between(self.margin, last, lean, within=1e-8)
            last = lean
        return last

    def at(self, lean: float) -> tuple[Pose, float]:
        """The pose at a lean [rad], and the disturbance with sign [1] that it balances."""
        limb = self.stance.limb
        ratio = 0.0
        for _ in range(ROUNDS):
            loading = self.disturbance(self.ground.share * limb.body_weight, ratio)
            pose = self.stance.pose(loading, lean)
            moved = self.ground.share * (pose.place - self.base.place)
            ratio = (moved + self.ground.reach(self.sense)) / centre_height(self.stance)
        return pose, ratio

    def margins(self, lean: float) -> dict[str, float]:
        """What is left of knee, hip and friction at a lean [1]; negative is too little."""
        pose, ratio = self.at(lean)
        return {
            "knee_gives_way": 1.0 - self.stance.knee_effort(pose),
            "hip_gives_way": 1.0 - self.stance.hip_effort(pose),
            "slides": self.stance.limb.friction - abs(ratio),
        }

    def margin(self, lean: float) -> float:
        """The least of them."""
        return min(self.margins(lean).values())

    def reason(self, lean: float) -> str:
        """What ends standing at a lean."""
        margins = self.margins(lean)
        if self.stance.at_end(self.at(lean)[0]) or min(margins.values()) > 1e-3:
            return "sole_end"
        return min(margins, key=margins.__getitem__)


def centre_height(stance: Stance) -> float:
    """Return the height of the body's centre above the floor [m]: a share of stature, and the shoe.

    The extrapolation: the legs are straight and level in both shoes, so the sole lifts all of it.
    """
    limb = stance.limb
    return stance.habit.centre_height * limb.person.stature + limb.sound_lift
