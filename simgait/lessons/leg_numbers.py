"""The numbers of the lessons on legs: the stance of one invented case, one part of it changed.

Measures come in the unit of their name, as everywhere (`simgait.symbols`).
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from simgait.case import Case, read_case
from simgait.library import models_folder
from simgait.limb import Limb
from simgait.limb.assembly import limb_of
from simgait.stance import simulate_stance
from simgait.units import mm_from_metres

CASE = "everyday.toml"
FOOT_MEASURES = (
    "heel_lever_mm",
    "knee_flexion_moment_peak_nm",
    "forward_thrust",
    "toe_lever_mm",
    "knee_extension_moment_peak_nm",
)
KEEL_MEASURES = (
    "toe_lever_mm",
    "knee_extension_moment_peak_nm",
    "drop_off",
    "knee_flexion_moment_peak_nm",
)
LIMB_MEASURES = (
    "socket_couple_force_n",
    "brim_force_peak_n",
    "limb_end_force_peak_n",
    "knee_extension_moment_peak_nm",
)


@cache
def everyday() -> Case:
    """Return the invented case that all lessons on legs begin with.

    >>> everyday().title
    'Everyday walker, foot moved and tilted (invented)'
    """
    return read_case(models_folder() / "cases" / CASE)


def keel_case(lever: float) -> Case:
    """Return the case with a foot whose keel ends elsewhere; lever: ahead of the ankle [m].

    >>> keel_case(0.12).foot.toe_lever
    0.12
    """
    case = everyday()
    return replace(case, foot=replace(case.foot, toe_lever=lever))


def limb_case(length: float) -> Case:
    """Return the case with a residual limb of another length [m].

    >>> limb_case(0.09).residual_limb
    0.09
    """
    return replace(everyday(), residual_limb=length)


def measures_of(limb: Limb, names: tuple[str, ...]) -> tuple[float, ...]:
    """Return some measures of a limb's stance, each in the unit of its name."""
    measures = simulate_stance(limb).measures
    return tuple(measures[name] for name in names)


def foot_numbers(forward: float) -> tuple[float, ...]:
    """Return FOOT_MEASURES of a stance; forward: of the foot under the socket [m].

    >>> round(foot_numbers(0.0)[0])
    18
    """
    case = everyday()
    return measures_of(limb_of(case, replace(case.baseline, foot_forward=forward)), FOOT_MEASURES)


def keel_numbers(lever: float) -> tuple[float, ...]:
    """Return KEEL_MEASURES of a stance; lever: end of the keel ahead of the ankle [m].

    >>> round(keel_numbers(0.15)[0])
    127
    """
    case = keel_case(lever)
    return measures_of(limb_of(case, case.baseline), KEEL_MEASURES)


def limb_numbers(length: float) -> tuple[float, ...]:
    """Return late socket moment [N m], enclosed limb [mm] and LIMB_MEASURES; length: [m].

    >>> [round(value) for value in limb_numbers(0.15)[:2]]
    [29, 130]
    """
    case = limb_case(length)
    limb = limb_of(case, case.baseline)
    moment, *others = measures_of(limb, ("socket_extension_moment_peak_nm", *LIMB_MEASURES))
    return moment, mm_from_metres(limb.socket_depth), *others
