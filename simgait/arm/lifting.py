"""Bending the elbow slowly with the cable: pull, travel, work, and what of the wearer is left.

Statics: at every flexion the cable's tension times its lever, and the lift assist, balance the
weight of forearm, device and what is held.  A cable cannot push: where the assist lifts alone the
tension is nothing, and what the assist has to spare is counted as surplus.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arm.geometry import cable_length, lever_arm
from simgait.arm.monotone import MonotoneCurve
from simgait.arm.result import LiftCurves
from simgait.arm.statics import (
    NO_LEVER,
    cable_drawn,
    moment_to_give,
    pull_for,
    pull_that_lets_down,
    tension_for,
)
from simgait.arrays import Array
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness

FLEXIONS = 181  # at which pull and travel are worked out
LEAST_LEVER = 1e-6  # [m] below it the cable counts as passing the elbow's axis; NO_LEVER at an end
NO_MOMENT = 1e-9  # [N m]
NUDGE = 1e-5  # [rad] into the range, where lever and moment both begin at nothing
Column = float | Array  # one number, or one for each position


@dataclass(frozen=True, kw_only=True)
class Setting:
    """All that a lift depends on; every number may be one for each position or draw."""

    flexion: Array  # [rad] rising
    guide: Column  # [m]
    guide_offset: Column  # [m]
    loop: Column  # [m]
    loop_offset: Column  # [m]
    shoulder_flexion: Column  # [rad]
    weight_moment: Column  # [N m] of the forearm held level
    assist: MonotoneCurve  # [N m] over flexion
    assist_more: Column  # [N m] beside that curve
    through: Column  # [1] pull out of the housing over pull into it
    pulley: Column  # [1]
    capacity: MonotoneCurve  # [N] greatest pull over the cable drawn [m]
    capacity_share: Column  # [1] of that curve
    max_excursion: Column  # [m]


def greatest_pull(harness: Harness) -> MonotoneCurve:
    """Return the wearer's greatest pull over the cable drawn [N over m]; level if one was measured.

    >>> greatest_pull(Harness(max_pull=200.0, max_excursion=0.1, fatigue_free_share=0.2,
    ...     excursions=(), pulls=())).at(np.array([0.0, 0.1]))
    array([200., 200.])
    """
    if not harness.excursions:
        return MonotoneCurve(places=(0.0,), values=(harness.max_pull,))
    return MonotoneCurve(places=harness.excursions, values=harness.pulls)


def setting_of(arm: Arm, cable: Cable, harness: Harness, guide: Column, loop: Column) -> Setting:
    """Return the setting of an arm for places of guide and loop.

    guide, loop: along upper arm and forearm from the elbow's axis [m], one or many.
    """
    return Setting(
        flexion=np.linspace(arm.flexion_from, arm.flexion_to, FLEXIONS),
        guide=guide,
        guide_offset=cable.guide_offset,
        loop=loop,
        loop_offset=cable.loop_offset,
        shoulder_flexion=arm.shoulder_flexion,
        weight_moment=arm.weight_moment(),
        assist=MonotoneCurve(places=cable.assist_at, values=cable.assist),
        assist_more=0.0,
        through=cable.share_through,
        pulley=cable.pulley,
        capacity=greatest_pull(harness),
        capacity_share=1.0,
        max_excursion=harness.max_excursion,
    )


def column(value: Column) -> Array:
    """Return a number, or many, as a column that meets a row of flexions.

    >>> column(np.arange(3.0)).shape, column(1.0).shape
    ((3, 1), (1, 1))
    """
    return np.atleast_1d(np.asarray(value, dtype=float)).reshape(-1, 1)


def lever_of(setting: Setting, flexion: Array) -> Array:
    """Return the cable's lever [m] at flexions [rad]."""
    return lever_arm(
        flexion,
        guide=column(setting.guide),
        guide_offset=column(setting.guide_offset),
        loop=column(setting.loop),
        loop_offset=column(setting.loop_offset),
    )


def needed_moment(setting: Setting, flexion: Array) -> Array:
    """Return the moment about the elbow that the cable has to give [N m]; + bends it.

    :func:`~simgait.arm.statics.moment_to_give` with the forearm's lean and the assist there.
    """
    lean = column(setting.shoulder_flexion) + flexion
    helped = setting.assist.at(flexion) + column(setting.assist_more)
    return moment_to_give(column(setting.weight_moment), lean, helped)


def needed_tension(setting: Setting) -> Array:
    """Return the tension at the loop [positions, flexions, N]; nan where none can do it.

    Moment over lever.  Where both begin at nothing, as at a straight hanging arm, their ratio just
    inside the range.  A position whose cable passes the elbow's axis in the range is nan all over.
    """
    flexion = setting.flexion
    lever, moment = lever_of(setting, flexion), needed_moment(setting, flexion)
    lever, moment = (np.array(each) for each in np.broadcast_arrays(lever, moment))
    for end, inward in ((0, NUDGE), (-1, -NUDGE)):
        both = (np.abs(lever[:, end]) < LEAST_LEVER) & (np.abs(moment[:, end]) < NO_MOMENT)
        if both.any():
            near = flexion[[end]] + inward
            inside = np.broadcast_to(lever_of(setting, near)[:, 0], both.shape)
            wanted = np.broadcast_to(needed_moment(setting, near)[:, 0], both.shape)
            lever[both, end], moment[both, end] = inside[both], wanted[both]
    stuck = (lever < NO_LEVER) & (moment > NO_MOMENT)
    passes = stuck.any(axis=1) | (lever[:, 1:-1] < LEAST_LEVER).any(axis=1)
    tension = tension_for(moment, lever)
    tension[passes] = np.nan
    return np.asarray(tension)


def lift(setting: Setting) -> LiftCurves:
    """Return pull, travel and work for every position of a setting.

    Harness and arm differ by housing and pulley: pull = tension / (share through x pulley), and
    share through x tension / pulley when the arm is let down, because friction then helps to hold.
    """
    flexion = setting.flexion
    tension = needed_tension(setting)
    place = {
        "guide": column(setting.guide),
        "guide_offset": column(setting.guide_offset),
        "loop": column(setting.loop),
        "loop_offset": column(setting.loop_offset),
    }
    length = cable_length(flexion, **place)
    through, pulley = column(setting.through), column(setting.pulley)
    drawn = np.array(np.broadcast_to(cable_drawn(length[:, :1], length, pulley), tension.shape))
    pull = np.asarray(pull_for(tension, through, pulley))
    count = len(tension)
    return LiftCurves(
        flexion=flexion,
        guide=np.broadcast_to(np.atleast_1d(setting.guide), count),
        loop=np.broadcast_to(np.atleast_1d(setting.loop), count),
        lever=np.broadcast_to(lever_arm(flexion, **place), tension.shape),
        tension=tension,
        pull=pull,
        lowering=np.asarray(pull_that_lets_down(tension, through, pulley)),
        drawn=drawn,
        capacity=column(setting.capacity_share) * setting.capacity.at(drawn),
        work=np.asarray(np.trapezoid(pull, drawn, axis=1)),
    )


def pull_at(setting: Setting, flexion: float) -> Array:
    """Return pull at the harness at one flexion of the range [positions, N]; nan outside it.

    flexion: of the elbow, from straight [rad].
    """
    where = np.array([flexion])
    if not setting.flexion[0] <= flexion <= setting.flexion[-1]:
        return np.full(len(column(setting.loop)), np.nan)
    lever = lever_of(setting, where)
    moment = np.maximum(needed_moment(setting, where), 0.0)
    lever = np.where(lever > LEAST_LEVER, lever, np.nan)
    pull = pull_for(moment / lever, column(setting.through), column(setting.pulley))
    return np.asarray(pull)[:, 0]
