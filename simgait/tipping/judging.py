"""How a scene of tipping ends."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from simgait.engines.scene import Instant
from simgait.engines.setting import SceneSole, Setting
from simgait.library.strengths import TippingHabit
from simgait.tipping.anatomy import (
    KNEE,
    PROSTHESIS,
    RESIDUAL,
    SOUND_FOOT,
    SOUND_KNEE,
    SOUND_SHANK,
    SOUND_THIGH,
    THIGH,
)
from simgait.tipping.names import BACKWARD, FOLDS, FORWARD, SLIDES, STAYS, STEPS

MOST_SLID = 0.03  # [m] of a foot along the floor (assumed)
CALM_TIME = 1.0  # [s] for which the body must be calm: a balance that fails grows e-fold in 0.3 s
CALM_SPEED = 0.01  # [m/s] of the body's centre: slower than this,
CALM_PLACE = 0.005  # [m] with the extrapolated centre this near to the pressure, it stays
KNEES = ((THIGH, RESIDUAL, KNEE), (SOUND_THIGH, SOUND_SHANK, SOUND_KNEE))
ANGLE = 2  # column of a body's angle, which is minus its lean


def sole_ends(instant: Instant, sole: SceneSole) -> tuple[float, float]:
    """Return where a sole's heel end and toe end are along the floor [m]."""
    x, _, angle = instant.body[sole.body, :3]
    c, s = math.cos(angle), -math.sin(angle)
    half = (sole.forward[1] - sole.forward[0]) / 2.0
    heel = x + (sole.forward[0] - half) * c + sole.up[0] * s
    toe = x + (sole.forward[-1] + half) * c + sole.up[-1] * s
    return float(heel), float(toe)


def beyond_feet(instant: Instant, soles: tuple[SceneSole, ...]) -> float:
    """Return how far the extrapolated centre is beyond the feet [m], + ahead; 0 over them.

    Margin of stability (Hof, Gazendam, Sinke 2005), its sign turned: the feet together reach from
    the hindmost heel end to the foremost toe end.
    """
    ends = [sole_ends(instant, sole) for sole in soles]
    heel, toe = min(each[0] for each in ends), max(each[1] for each in ends)
    place = float(instant.centre[3])
    return max(place - toe, 0.0) + min(place - heel, 0.0)


@dataclass(kw_only=True)
class Judge:
    """Says at every instant whether a scene has ended; keeps when the centre left the feet."""

    setting: Setting
    habit: TippingHabit
    leg_length: float  # [m]
    calm_after: float  # [s] the disturbance is over
    left: float | None = field(default=None, init=False)  # [s]
    calm_since: float = field(default=math.inf, init=False)  # [s]

    def __call__(self, instant: Instant) -> str | None:
        """Return the ending, or None while there is none.

        A centre that has been beyond the feet for as long as a step takes needs one; if it is then
        farther away than a step reaches, one would not have done.
        """
        if self.bent_beyond_aim(instant) > self.habit.folded_knee:
            return FOLDS
        if instant.slid.max() > MOST_SLID:
            return SLIDES
        beyond = beyond_feet(instant, self.setting.soles)
        if beyond == 0.0:
            self.left = None
            if not self.calm(instant):
                self.calm_since = math.inf
                return None
            self.calm_since = min(self.calm_since, instant.time)
            return STAYS if instant.time >= self.calm_since + CALM_TIME else None
        self.calm_since = math.inf
        if self.left is None:
            self.left = instant.time
        if instant.time < self.left + self.habit.step_time:
            return None
        if abs(beyond) <= self.habit.step_reach * self.leg_length:
            return STEPS
        return FORWARD if beyond > 0.0 else BACKWARD

    def bent_beyond_aim(self, instant: Instant) -> float:
        """Return how far a knee is bent beyond what its muscles aim at [rad]."""
        lean = -instant.body[:, ANGLE]
        return max(
            float(lean[lower] - lean[upper] - instant.aims[muscle])
            for upper, lower, muscle in KNEES
        )

    def calm(self, instant: Instant) -> bool:
        """Whether the body has come to rest over its pressure."""
        if instant.time < self.calm_after or abs(instant.centre[2]) > CALM_SPEED:
            return False
        up = instant.loads[:, 1]
        if up.sum() <= 0.0:
            return False
        places = instant.loads[:, 2] + up * instant.body[[PROSTHESIS, SOUND_FOOT], 0]
        return bool(abs(places.sum() / up.sum() - instant.centre[3]) < CALM_PLACE)
