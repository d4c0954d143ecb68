"""How safe a recommendation is: errors of measurement drawn, and the share in which it stands."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from simgait.arm.judging import judge
from simgait.arm.lifting import Setting, lift, setting_of
from simgait.arrays import Array
from simgait.case.arm_case import ArmCase
from simgait.wearer import GRAVITY

DRAWS = 1000  # unless another number is asked for
SEED = 1


def drawn_setting(
    case: ArmCase, guide: float, loop: float, draws: int, random: np.random.Generator
) -> Setting:
    """Return the lift at one position with every measurement off by a normal error, many times.

    Masses, the wearer's pull and the housing's friction err by a share, lengths and the excursion
    by an amount; all independent.  What would fall below nothing is nothing.

    guide, loop: [m]; draws: how many [1]; random: where the draws come from.
    """
    arm, errors = case.arm, case.errors

    def share(size: float) -> Array:
        return np.asarray(np.maximum(1.0 + size * random.standard_normal(draws), 1e-6))

    def place(value: float) -> Array:
        return np.asarray(value + errors.length * random.standard_normal(draws))

    weight = GRAVITY * (
        arm.forearm_mass * share(errors.mass_share) * place(arm.forearm_centre)
        + arm.device_mass * share(errors.mass_share) * place(arm.device_centre)
        + arm.held_mass * share(errors.mass_share) * place(arm.device_centre)
    )
    through = case.cable.share_through
    start = setting_of(arm, case.cable, case.harness, guide, loop)
    return replace(
        start,
        guide=np.maximum(place(guide), 1e-3),
        guide_offset=place(case.cable.guide_offset),
        loop=np.maximum(place(loop), 1e-3),
        loop_offset=place(case.cable.loop_offset),
        weight_moment=np.maximum(weight, 0.0),
        through=np.clip(through ** share(errors.friction_share), 1e-3, 1.0),
        capacity_share=share(errors.pull_share),
        max_excursion=np.maximum(
            start.max_excursion + errors.excursion * random.standard_normal(draws), 1e-3
        ),
    )


def stands_share(case: ArmCase, guide: float, loop: float, draws: int, seed: int) -> float:
    """Return the share of draws in which a position stays feasible [1].

    guide, loop: of the position [m]; draws: at least 1; seed: of the random numbers.
    """
    setting = drawn_setting(case, guide, loop, draws, np.random.default_rng(seed))
    found = judge(setting, lift(setting), case.cable, case.harness)
    return float(np.mean(found.feasible))
