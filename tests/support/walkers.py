"""The calibrated wearers in the limbs they were fitted in, and variations of those limbs."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

from simgait.library import read_calibration, read_wearer
from simgait.limb import Limb
from simgait.stance import StanceResult, simulate_stance
from simgait.stance.calibration import calibration_limb

WEARERS = ("able-bodied-like", "steady-transtibial", "weak-kneed-slow")


@cache
def walker(name: str) -> Limb:
    """Return the limb in which a wearer was calibrated, with the wearer as it ships."""
    return replace(calibration_limb(read_calibration(name)), wearer=read_wearer(name))


def aligned(limb: Limb, **changes: float) -> Limb:
    """Return the limb with alignment values changed by (not to) the given SI amounts."""
    old = limb.alignment
    return replace(
        limb,
        alignment=replace(old, **{name: getattr(old, name) + by for name, by in changes.items()}),
    )


def footed(limb: Limb, **values: float) -> Limb:
    """Return the limb with figures of its foot replaced."""
    return replace(limb, foot=replace(limb.foot, **values))


@cache
def stance_of(name: str, change: str = "as fitted") -> StanceResult:
    """Return the stance of a wearer with one change, by the name of the change."""
    limb = walker(name)
    foot = limb.foot
    three = math.radians(3.0)
    changed = {
        "as fitted": lambda: limb,
        "foot forward": lambda: aligned(limb, foot_forward=0.010),
        "foot back": lambda: aligned(limb, foot_forward=-0.010),
        "toe up": lambda: aligned(limb, dorsiflexion=three),
        "toe down": lambda: aligned(limb, dorsiflexion=-three),
        "heel high": lambda: aligned(limb, heel_rise=0.010),
        "longer": lambda: aligned(limb, length_change=0.010),
        "socket flexed": lambda: aligned(limb, socket_flexion=three),
        "long toe": lambda: footed(
            limb, toe_lever=foot.toe_lever + 0.015, length=foot.length + 0.02
        ),
        "short toe": lambda: footed(limb, toe_lever=foot.toe_lever - 0.015),
        "stiff heel": lambda: footed(limb, heel_stiffness=foot.heel_stiffness * 1.3),
        "stiff forefoot": lambda: footed(limb, forefoot_stiffness=foot.forefoot_stiffness * 1.3),
        "short residual limb": lambda: replace(limb, residual_limb_length=0.110),
    }[change]()
    return simulate_stance(changed)
