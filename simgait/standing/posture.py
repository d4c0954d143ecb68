"""How the wearer stands: a place over the foot that is kept, a hip at rest, a knee that follows.

The rule, an assumption like any other: on the bench alignment the wearer stands on level floor with
the knee nearly straight, and that puts the body's line over some place of the foot.  Whatever is
then changed (alignment, heel, slope), the body stays over that place of the foot, because that is
where the wearer is safe from tipping, and the rest of the body balances above the hip without
effort.  Foot and socket yield, and the knee goes where they take it.  Only where the moments that
can be held for minutes do not suffice does the wearer give the place up, for the nearest at which
they do.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from simgait.alignment import Alignment
from simgait.library.strengths import StandingHabit, Strength
from simgait.limb import Limb
from simgait.physics.bench import BASE_FLEXION
from simgait.standing.footing import settled
from simgait.standing.loading import Loading, level
from simgait.standing.pieces import Pieces, pieces_of
from simgait.standing.pose import Pose, pose_at
from simgait.standing.roots import root_between

FARTHEST = math.radians(50.0)  # lean of the prosthesis from the sole lying flat that is looked at
STEP = math.radians(1.0)
NEAR_END = 0.03  # [1] of the carrying sole: nearer to an end element than this is at the end
STANDS, KNEE_GIVES_WAY, HIP_GIVES_WAY = "stands", "knee_gives_way", "hip_gives_way"
KNEE_TOO_BENT = "knee_too_bent"


@dataclass(frozen=True, kw_only=True, eq=False)
class Stance:
    """A limb, its wearer's strength and habit, and the share of the body that it carries."""

    limb: Limb
    pieces: Pieces
    strength: Strength
    habit: StandingHabit
    place: float  # [m] of the body's line over the foot, along the sole, ahead of the ankle axis

    def knee_effort(self, pose: Pose) -> float:
        """Extending moment of the knee's muscles over their greatest [1]; 0 if ligaments hold."""
        return max(pose.knee_moment, 0.0) / (self.strength.knee * self.limb.person.mass)

    def hip_effort(self, pose: Pose) -> float:
        """Size of the hip's moment over its greatest [1]."""
        return abs(pose.hip_moment) / (self.strength.hip * self.limb.person.mass)

    def effort(self, pose: Pose) -> float:
        """The larger of both [1]."""
        return max(self.knee_effort(pose), self.hip_effort(pose))

    def strain(self, pose: Pose) -> float:
        """How far a pose is beyond what can be held for minutes; nothing or less is held.

        The larger of effort over the share that is held [1], and of the knee's flexion over the
        farthest that anybody stands on [rad].
        """
        bent = pose.knee_flexion - self.habit.deepest_knee
        return max(self.effort(pose) - self.strength.held, bent)

    def at_end(self, pose: Pose) -> bool:
        """Whether the foot carries on one of its ends only."""
        near = NEAR_END * self.limb.foot.carrying_length
        ends = float(self.pieces.along[0]), float(self.pieces.along[-1])
        return min(abs(end - pose.place) for end in ends) < near

    def pose(self, loading: Loading, lean: float) -> Pose:
        """The limb at rest with the prosthesis at a lean against the floor [rad]."""
        return pose_at(self.pieces, loading, lean, -self.habit.knee_past_straight)


def flat_lean(pieces: Pieces) -> float:
    """Return the lean of the prosthesis at which the sole lies as its foot was built to lie [rad].

    The turn of the sole in the prosthesis' frame, from its two end elements as built and as placed.
    """
    ahead = float(pieces.forward[-1] - pieces.forward[0])
    above = float(pieces.up[-1] - pieces.up[0])
    built = math.atan2(pieces.rise, float(pieces.along[-1] - pieces.along[0]))
    return math.atan2(above, ahead) - built


def bench_limb(limb: Limb) -> Limb:
    """Return the limb at its bench alignment, in a shoe whose heel its foot was built for."""
    bench = Alignment(
        foot_forward=0.0,
        dorsiflexion=0.0,
        socket_flexion=BASE_FLEXION,
        length_change=0.0,
        heel_rise=limb.foot.heel_rise,
    )
    return replace(limb, alignment=bench)


def body_place(limb: Limb, habit: StandingHabit, carried: float) -> float:
    """Return the place of the foot over which the wearer's body stands [m].

    Where, at bench alignment on level floor, the knee is at the chosen flexion; of several such
    places the one nearest to standing flat; the flat one if there is none. ``carried`` [N].
    """
    pieces, loading = pieces_of(bench_limb(limb)), level(carried)

    def excess(lean: float) -> float:
        pose = pose_at(pieces, loading, lean, -math.pi)
        return pose.knee_flexion - habit.knee_flexion

    flat = flat_lean(pieces)
    lean = nearest_change(excess, flat)
    return pose_at(pieces, loading, flat if lean is None else lean, -math.pi).place


def nearest_change(function: Callable[[float], float], start: float) -> float | None:
    """Return the lean nearest to ``start`` [rad] at which a function changes sign; None if nowhere.

    Looked for in steps of a degree to both sides, up to FARTHEST.

    >>> round(nearest_change(lambda lean: lean - 0.3, 0.0), 9)
    0.3
    """
    before = {1.0: (start, function(start)), -1.0: (start, function(start))}
    for number in range(1, round(FARTHEST / STEP) + 1):
        for sense, (last, at_last) in before.items():
            lean = start + sense * number * STEP
            value = function(lean)
            if value * at_last <= 0.0:
                return root_between(function, last, lean)
            before[sense] = (lean, value)
    return None


def lean_over(stance: Stance, loading: Loading) -> float:
    """Return the lean of the prosthesis at which the foot carries at the stance's place [rad].

    A place that the foot cannot reach under this loading is taken as the farthest it can.
    """
    flat = flat_lean(stance.pieces)

    def beyond(lean: float) -> float:
        return settled(stance.pieces, loading.normal, lean).place - stance.place

    low, high = flat - FARTHEST, flat + FARTHEST
    if beyond(low) >= 0.0:
        return low
    return high if beyond(high) <= 0.0 else root_between(beyond, low, high)


def stood(stance: Stance, loading: Loading) -> tuple[Pose, str]:
    """Return the pose of standing, and "stands" or the reason why nobody could.

    The body stands over the stance's place; where that asks more of knee or hip than can be held,
    or bends the knee farther than anybody stands on, over the nearest place that does not.
    Balancing on an end of the sole is not standing.
    """
    lean = lean_over(stance, loading)
    pose = stance.pose(loading, lean)
    if stance.strain(pose) <= 0.0:
        return pose, STANDS
    lean_eased = nearest_change(lambda lean: stance.strain(stance.pose(loading, lean)), lean)
    if lean_eased is not None:
        eased = stance.pose(loading, lean_eased)
        if not stance.at_end(eased):
            return eased, STANDS
    if stance.effort(pose) <= stance.strength.held:
        return pose, KNEE_TOO_BENT
    weaker = stance.knee_effort(pose) >= stance.hip_effort(pose)
    return pose, KNEE_GIVES_WAY if weaker else HIP_GIVES_WAY
