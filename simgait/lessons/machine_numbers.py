"""The numbers of the lessons on simple machines: each scene's figures, put into `simgait.levers`.

All figures of the scenes are invented. The functions use only what can be said in a browser too,
where the same text runs. Each returns effort [N], its travel [m], load [N], its travel [m], work
put in, work that arrives and work lost [J], and then what its own docstring adds.
"""

from __future__ import annotations

import math

from simgait.levers.bar import lever_advantage
from simgait.levers.pulleys import block_efficiency, pulley_advantage, pulley_effort, support_force
from simgait.levers.slopes import (
    holds_by_itself,
    ramp_advantage,
    ramp_efficiency,
    screw_advantage,
    screw_efficiency,
)
from simgait.levers.wheels import gear_ratio, wheel_advantage

POLE = 3.0  # [m]
CAN_WEIGHT = 98.1  # [N] 10 kg
CAN_RISE = 0.4  # [m]
FORK_EFFICIENCY = 0.95  # [1]

LID = 1.2  # [m] hinge to hand
SACK_WEIGHT = 196.2  # [N] 20 kg
LID_ANGLE = 0.5235987755982988  # [rad] 30 degrees
HINGE_EFFICIENCY = 0.9  # [1]

BAG_PLACE = 0.33  # [m] from the bin's hinge
BAG_WEIGHT = 11.772  # [N] 1.2 kg
BIN_ANGLE = 0.6981317007977318  # [rad] 40 degrees
BIN_EFFICIENCY = 0.85  # [1]

BASKET_WEIGHT = 117.72  # [N] 12 kg
BASKET_RISE = 0.6  # [m]
SHEAVE_EFFICIENCY = 0.92  # [1]

COMPOST_WEIGHT = 245.25  # [N] 25 kg
BED_HEIGHT = 0.5  # [m]
TRAY_FRICTION = 0.25  # [1]

TANK_LOAD = 600.0  # [N] on one foot
TANK_RISE = 0.002  # [m]
SPANNER = 0.12  # [m]
THREAD_DIAMETER = 0.009  # [m] mean
THREAD_FRICTION = 0.15  # [1]

FOREST_WEIGHT = 392.4  # [N] 40 kg
FOREST_RISE = 1.0  # [m]
CRANK = 0.25  # [m]
DRUM = 0.05  # [m]
PINION_TEETH = 12
WINCH_EFFICIENCY = 0.8  # [1]


def effort_of(load: float, motion_ratio: float, efficiency: float) -> float:
    """Return the effort that moves a load [N]: load / (motion ratio x efficiency).

    OpenStax Physics 9.3, as `simgait.levers.Machine`. load: [N]; the others: [1].

    >>> effort_of(40.0, 2.0, 0.8)
    25.0
    """
    return load / (motion_ratio * efficiency)


def stroke(
    load: float, load_travel: float, motion_ratio: float, efficiency: float
) -> tuple[float, ...]:
    """Return effort, its travel, load, its travel [N, m], work in, work out and work lost [J].

    Travel of the effort = motion ratio x load's travel (OpenStax Physics 9.3, as
    `simgait.levers.work_ledger`).

    load: [N]; load_travel: [m]; motion_ratio, efficiency: [1].

    >>> [round(value, 6) for value in stroke(40.0, 0.1, 2.0, 0.8)]
    [25.0, 0.2, 40.0, 0.1, 5.0, 4.0, 1.0]
    """
    effort = effort_of(load, motion_ratio, efficiency)
    travel = motion_ratio * load_travel
    work_in = effort * travel
    work_out = load * load_travel
    return effort, travel, load, load_travel, work_in, work_out, work_in - work_out


def pole_numbers(fork: float) -> tuple[float, ...]:
    """Return the stroke of a pole in a fork, and your side over the can's side [1].

    fork: from the can's end [m].

    >>> round(pole_numbers(1.5)[0], 1)
    103.3
    """
    ratio = lever_advantage(POLE - fork, fork)
    return *stroke(CAN_WEIGHT, CAN_RISE, ratio, FORK_EFFICIENCY), ratio


def lid_numbers(place: float) -> tuple[float, ...]:
    """Return the stroke of a lid with a sack on it, the hand's place over the sack's [1], what the
    hinge carries [N] and the share of the weight in the hand [1].

    place: of the sack from the hinge [m].

    >>> [round(value, 2) for value in lid_numbers(0.6)[7:]]
    [2.0, 87.2, 0.56]
    """
    ratio = lever_advantage(LID, place)
    rise = place * math.sin(LID_ANGLE)
    effort = effort_of(SACK_WEIGHT, ratio, HINGE_EFFICIENCY)
    hinge = support_force(SACK_WEIGHT, effort, True)
    share = effort / SACK_WEIGHT
    return *stroke(SACK_WEIGHT, rise, ratio, HINGE_EFFICIENCY), ratio, hinge, share


def bin_numbers(rod: float) -> tuple[float, ...]:
    """Return the stroke of a bin's lid lifted by a rod, the bag's place over the rod's [1], and
    the push over the bag's weight [1].

    rod: from the hinge [m].

    >>> [round(value, 2) for value in bin_numbers(0.11)[7:]]
    [3.0, 3.53]
    """
    ratio = lever_advantage(rod, BAG_PLACE)
    rise = BAG_PLACE * math.sin(BIN_ANGLE)
    more = effort_of(BAG_WEIGHT, ratio, BIN_EFFICIENCY) / BAG_WEIGHT
    return *stroke(BAG_WEIGHT, rise, ratio, BIN_EFFICIENCY), 1.0 / ratio, more


def pulley_numbers(strands: float) -> tuple[float, ...]:
    """Return the stroke of a block of pulleys, the strands [1], the efficiency [1], what the
    branch carries [N], and what the pull would be without loss [N].

    strands: that carry the basket, a whole number [1].

    >>> [round(value, 2) for value in pulley_numbers(2.0)[7:]]
    [2.0, 0.88, 184.36, 58.86]
    """
    count = int(strands)
    ratio = pulley_advantage(count)
    share = block_efficiency(count, SHEAVE_EFFICIENCY)
    branch = support_force(BASKET_WEIGHT, pulley_effort(BASKET_WEIGHT, count, share), False)
    ideal = pulley_effort(BASKET_WEIGHT, count, 1.0)
    return *stroke(BASKET_WEIGHT, BASKET_RISE, ratio, share), ratio, share, branch, ideal


def ramp_numbers(plank: float) -> tuple[float, ...]:
    """Return the stroke of a tray on a plank, length over height [1], the efficiency [1], the
    slope [rad], and 1 where the tray rests by itself, else 0.

    plank: its length [m].

    >>> [round(value, 2) for value in ramp_numbers(1.0)[7:]]
    [2.0, 0.7, 0.52, 0.0]
    """
    ratio = ramp_advantage(plank, BED_HEIGHT)
    slope = math.asin(BED_HEIGHT / plank)
    share = ramp_efficiency(slope, TRAY_FRICTION)
    rests = 1.0 if holds_by_itself(math.tan(slope), TRAY_FRICTION) else 0.0
    return *stroke(COMPOST_WEIGHT, BED_HEIGHT, ratio, share), ratio, share, slope, rests


def screw_numbers(lead: float) -> tuple[float, ...]:
    """Return the stroke of a screw under a spanner, its advantage [1], its efficiency [1], the
    turns [1], and 1 where it stays by itself, else 0.

    lead: rise in one turn [m].

    >>> [round(value, 2) for value in screw_numbers(0.0015)[7:]]
    [502.65, 0.26, 1.33, 1.0]
    """
    ratio = screw_advantage(SPANNER, lead)
    share = screw_efficiency(lead, THREAD_DIAMETER, THREAD_FRICTION)
    slope = lead / (math.pi * THREAD_DIAMETER)
    stays = 1.0 if holds_by_itself(slope, THREAD_FRICTION) else 0.0
    return *stroke(TANK_LOAD, TANK_RISE, ratio, share), ratio, share, TANK_RISE / lead, stays


def winch_numbers(teeth: float) -> tuple[float, ...]:
    """Return the stroke of a crank with gears, the ratio of the gears [1], the crank's turns [1],
    and the rise in one turn of the crank [m].

    teeth: of the wheel on the drum, a whole number [1].

    >>> [round(value, 3) for value in winch_numbers(48.0)[7:]]
    [4.0, 12.732, 0.079]
    """
    gears = gear_ratio(PINION_TEETH, int(teeth))
    ratio = wheel_advantage(CRANK, DRUM) * gears
    turns = ratio * FOREST_RISE / (2.0 * math.pi * CRANK)
    rise = FOREST_RISE / turns
    return *stroke(FOREST_WEIGHT, FOREST_RISE, ratio, WINCH_EFFICIENCY), gears, turns, rise
