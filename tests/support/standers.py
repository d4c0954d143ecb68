"""Limbs that stand, and variations of them, for the tests of standing."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

from simgait.case import read_case
from simgait.library import models_folder, names, read_foot
from simgait.library.strengths import Strength, read_strength
from simgait.limb import Limb, limb_of
from simgait.parts.shoe import foot_in_shoe
from simgait.standing.posture import Stance
from simgait.standing.result import Standing, stance_of, stand_limb, standing
from simgait.standing.tipping import Limit

FEET = names("feet")
ENDLESS = Strength(knee=6.0, hip=6.0, held=1.0)  # nothing in these tests ever asks for as much


@cache
def stander(foot: str = "carbon-leaf") -> Limb:
    """Return an invented man's limb at bench alignment on a foot of the library."""
    case = read_case(models_folder() / "cases" / "everyday.toml")
    assert case.shoe is not None
    limb, shod = limb_of(case, case.baseline), foot_in_shoe(read_foot(foot), case.shoe)
    alignment = replace(limb.alignment, heel_rise=shod.heel_rise)
    return replace(limb, foot=shod, alignment=alignment)


def aligned(limb: Limb, **changes: float) -> Limb:
    """Return the limb with alignment values changed by (not to) the given SI amounts."""
    old = limb.alignment
    return replace(
        limb,
        alignment=replace(old, **{name: getattr(old, name) + by for name, by in changes.items()}),
    )


CHANGES = {
    "as it is": {},
    "foot forward": {"foot_forward": 0.010},
    "foot back": {"foot_forward": -0.010},
    "toe up": {"dorsiflexion": math.radians(3.0)},
    "toe down": {"dorsiflexion": -math.radians(3.0)},
    "heel high": {"heel_rise": 0.010},
    "socket flexed": {"socket_flexion": math.radians(3.0)},
}


@cache
def stands(
    foot: str, change: str = "as it is", wearer: str = "steady-transtibial"
) -> tuple[Standing, Standing]:
    """Return both ways of standing on a foot of the library after one change, by its name."""
    return stand_limb(aligned(stander(foot), **CHANGES[change]), read_strength(wearer))


def stiffened(limb: Limb, factor: float) -> Stance:
    """Return a limb on a flat sole, foot and socket stiffer by a factor, the wearer very strong.

    The depth over which an element comes up shrinks alike, so that the sole becomes a hard plate.
    """
    foot = replace(limb.foot, toe_spring=0.0, heel_round=0.0)
    stance = stance_of(replace(limb, foot=foot), ENDLESS, 1.0)
    old = stance.pieces
    pieces = replace(
        old,
        stiffness=old.stiffness * factor,
        socket_stiffness=old.socket_stiffness * factor,
        onset=old.onset / factor,
    )
    return replace(stance, pieces=pieces, place=0.045)


def tips(stance: Stance, sense: float, disturbance: str, share: float = 1.0) -> Limit:
    """Return where a limb tips.

    sense: + forward; disturbance: "slope" or "push"; share: of the weight on the prosthesis [1].
    """
    found = standing(stance, share)
    assert found.ending == "stands"
    return found.limits[f"{'forward' if sense > 0.0 else 'backward'} {disturbance}"]
