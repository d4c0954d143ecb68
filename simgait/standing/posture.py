"""How the wearer stands: a place over the foot that is kept, a hip at rest, a knee that follows.

The rule is in `simgait.physics.posture`; here it is asked of a limb and its wearer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from simgait.alignment import Alignment
from simgait.arrays import Array
from simgait.library.strengths import StandingHabit, Strength
from simgait.limb import Limb
from simgait.physics import posture as rule
from simgait.physics import rest_layout as rows
from simgait.physics.bench import BASE_FLEXION
from simgait.physics.resting import rest_limb
from simgait.standing.flat import flat
from simgait.standing.loading import Loading, level
from simgait.standing.numbers import put_limb, put_wearer
from simgait.standing.pieces import Pieces, pieces_of
from simgait.standing.pose import Pose, pose_of

STANDS, KNEE_GIVES_WAY, HIP_GIVES_WAY = "stands", "knee_gives_way", "hip_gives_way"
KNEE_TOO_BENT = "knee_too_bent"
ENDINGS = {
    rows.STANDS: STANDS,
    rows.KNEE_GIVES_WAY: KNEE_GIVES_WAY,
    rows.HIP_GIVES_WAY: HIP_GIVES_WAY,
    rows.KNEE_TOO_BENT: KNEE_TOO_BENT,
}


@dataclass(frozen=True, kw_only=True, eq=False)
class Stance:
    """A limb, its wearer's strength and habit, and the share of the body that it carries."""

    limb: Limb
    pieces: Pieces
    strength: Strength
    habit: StandingHabit
    place: float  # [m] of the body's line over the foot, along the sole, ahead of the ankle axis

    @cached_property
    def rest(self) -> Array:
        """The flat array that the equations take, `simgait.physics.rest_layout`."""
        rest = flat(rows.REST_ROWS)
        put_wearer(self.limb, self.strength, self.habit, rest)
        put_limb(self.limb, self.pieces, flat_lean(self.pieces), rest)
        rest[rows.REST_PLACE] = self.place
        return rest

    def knee_effort(self, pose: Pose) -> float:
        """Extending moment of the knee's muscles over their greatest [1]; 0 if ligaments hold."""
        return rule.knee_effort(self.rest, pose.numbers)

    def hip_effort(self, pose: Pose) -> float:
        """Size of the hip's moment over its greatest [1]."""
        return rule.hip_effort(self.rest, pose.numbers)

    def pose(self, loading: Loading, lean: float) -> Pose:
        """The limb at rest with the prosthesis at a lean against the floor [rad]."""
        pose, straightest = flat(rows.POSE_ROWS), self.rest[rows.REST_STRAIGHTEST]
        room = flat(rows.BRACKET_ROWS)
        rest_limb(lean, straightest, loading.numbers, self.rest, pose, room)
        return pose_of(loading, self.rest, pose)


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

    That of the bench alignment on level floor, `simgait.physics.posture.body_place`. ``carried``
    [N].
    """
    bench, rest = bench_limb(limb), flat(rows.REST_ROWS)
    pieces = pieces_of(bench)
    put_limb(bench, pieces, flat_lean(pieces), rest)
    rest[rows.REST_CHOSEN] = habit.knee_flexion
    pose, room = flat(rows.POSE_ROWS), flat(rows.BRACKET_ROWS)
    return rule.body_place(level(carried).numbers, rest, pose, room)


def lean_over(stance: Stance, loading: Loading) -> float:
    """Return the lean of the prosthesis at which the foot carries at the stance's place [rad].

    A place that the foot cannot reach under this loading is taken as the farthest it can.
    """
    pose, room = flat(rows.POSE_ROWS), flat(rows.BRACKET_ROWS)
    return rule.lean_over(loading.numbers, stance.rest, pose, room)


def stood(stance: Stance, loading: Loading) -> tuple[Pose, str]:
    """Return the pose of standing, and "stands" or the reason why nobody could.

    By the rule of `simgait.physics.posture.stand_still`.
    """
    pose, room = flat(rows.POSE_ROWS), flat(rows.BRACKET_ROWS)
    ending = rule.stand_still(loading.numbers, stance.rest, pose, room)
    return pose_of(loading, stance.rest, pose), ENDINGS[ending]
