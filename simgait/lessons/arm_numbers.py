"""The numbers of the lessons on arms: invented arms, put into the formulas of `simgait.arm`.

The functions use only what can be said in a browser too, where the same text runs.
"""

from __future__ import annotations

import math

from simgait.arm.geometry import cable_length, lever_arm
from simgait.arm.lengths import reach_between, socket_couple, tube_inertia
from simgait.wearer import GRAVITY

GUIDE = 0.075  # [m] of the cable, above the elbow
FLEXION_FROM = 0.17453292519943295  # [rad] 10 degrees
FLEXION_TO = 2.356194490192345  # [rad] 135 degrees
LEVEL = 1.5707963267948966  # [rad] 90 degrees
FOREARM_WEIGHT = 5.5  # [N] of forearm, hook and what it holds
FOREARM_CENTRE = 0.20  # [m] of that weight, from the elbow's axis
HOUSING = 0.85  # [1] pull that leaves the housing over pull that goes in
TRAVEL_LIMIT = 0.105  # [m] that the shoulders can draw
HOOK_TRAVEL = 0.038  # [m] of cable to open the hook

UPPER_ARM = 0.30  # [m] shoulder's axis to the elbow's
UPPER_MASS = 0.55  # [kg]
UPPER_CENTRE = 0.17  # [m]
FOREARM = 0.255  # [m] as it came
SHELL_MASS = 0.40  # [kg] of a forearm of that length
SHELL_CENTRE = 0.12  # [m] of the same
HOOK_MASS = 0.25  # [kg] with what it holds
HOOK_BEYOND = 0.06  # [m] its centre, beyond the end of the shell
TIP_BEYOND = 0.11  # [m] its tip, beyond the end of the shell
SOCKET_DEPTH = 0.14  # [m] of the shoulder's socket, brim to end
SHOULDER_HOLDS = 3.7  # [N m] without tiring


def loop_numbers(loop: float) -> tuple[float, ...]:
    """Return what one slow lift of a forearm by its cable asks for.

    Mean pull [N], cable drawn [m], weight [N], its rise [m], work of the shoulders, work that
    arrives and work lost [J], pull and lever with the forearm level [N, m], cable left for the
    hook [m], and 1 where that is enough to open it, else 0.

    The weight rises by its distance from the elbow times (cos a - cos b); derived.

    loop: from the elbow's axis along the forearm [m].

    >>> [round(value, 3) for value in loop_numbers(0.035)[:2]]
    [40.833, 0.054]
    """
    start = float(cable_length(FLEXION_FROM, guide=GUIDE, loop=loop))
    drawn = start - float(cable_length(FLEXION_TO, guide=GUIDE, loop=loop))
    lever = float(lever_arm(LEVEL, guide=GUIDE, loop=loop))
    rise = FOREARM_CENTRE * (math.cos(FLEXION_FROM) - math.cos(FLEXION_TO))
    useful = FOREARM_WEIGHT * rise
    given = useful / HOUSING
    pull = FOREARM_WEIGHT * FOREARM_CENTRE / (lever * HOUSING)
    left = TRAVEL_LIMIT - drawn
    opens = 1.0 if left >= HOOK_TRAVEL else 0.0
    mean = given / drawn
    return (
        mean, drawn, FOREARM_WEIGHT, rise, given, useful, given - useful, pull, lever, left, opens,
    )  # fmt: skip


def length_numbers(forearm: float) -> tuple[float, ...]:
    """Return what an arm held straight out asks of the shoulder, and how far it reaches.

    Moment about the shoulder [N m], inertia about it [kg m^2], reach [m], forces at the socket's
    brim and end [N], moment over what the shoulder holds [1], 1 where it can be held without
    tiring, else 0, and the weights of upper arm, forearm and hook with its load [N].

    M = g sum(m x), I = sum(I_i + m x^2), as in `simgait.arm.lengths`.

    forearm: elbow's axis to the end of the shell [m].

    >>> [round(value, 3) for value in length_numbers(0.255)[:3]]
    [4.074, 0.187, 0.665]
    """
    share = forearm / FOREARM
    shell = SHELL_MASS * share
    at_shell = UPPER_ARM + SHELL_CENTRE * share
    at_hook = UPPER_ARM + forearm + HOOK_BEYOND
    first = UPPER_MASS * UPPER_CENTRE + shell * at_shell + HOOK_MASS * at_hook
    moment = GRAVITY * first
    inertia = (
        UPPER_MASS * UPPER_CENTRE**2
        + tube_inertia(UPPER_MASS, UPPER_ARM)
        + shell * at_shell**2
        + tube_inertia(shell, forearm)
        + HOOK_MASS * at_hook**2
    )
    reach = reach_between(UPPER_ARM, forearm + TIP_BEYOND, 0.0)
    brim, end = socket_couple(moment, GRAVITY * (UPPER_MASS + shell + HOOK_MASS), SOCKET_DEPTH)
    holds = 1.0 if moment <= SHOULDER_HOLDS else 0.0
    upper_weight, shell_weight = GRAVITY * UPPER_MASS, GRAVITY * shell
    hook_weight = GRAVITY * HOOK_MASS
    return (
        moment, inertia, reach, brim, end, moment / SHOULDER_HOLDS, holds,
        upper_weight, shell_weight, hook_weight,
    )  # fmt: skip
