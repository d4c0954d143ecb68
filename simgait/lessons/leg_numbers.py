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
from simgait.stance import StanceResult, simulate_stance
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
    """Return the invented case that all lessons on legs begin with."""
    return read_case(models_folder() / "cases" / CASE)


@cache
def foot_moved(forward: float) -> Limb:
    """Return the case's limb with its foot moved; forward: [m], + ahead."""
    case = everyday()
    return limb_of(case, replace(case.baseline, foot_forward=forward))


@cache
def keel_ended(lever: float) -> Limb:
    """Return the case's limb with a keel of another end; lever: ahead of the ankle [m]."""
    case = everyday()
    return limb_of(replace(case, foot=replace(case.foot, toe_lever=lever)), case.baseline)


@cache
def limb_cut(length: float) -> Limb:
    """Return the case's limb with a residual limb of another length [m]."""
    case = everyday()
    return limb_of(replace(case, residual_limb=length), case.baseline)


@cache
def stance_of(limb: Limb) -> StanceResult:
    """Return the simulated stance of a limb, computed once."""
    return simulate_stance(limb)


def foot_numbers(forward: float) -> tuple[float, ...]:
    """Return FOOT_MEASURES of a stance; forward: [m].

    >>> round(foot_numbers(0.0)[0])
    18
    """
    measures = stance_of(foot_moved(forward)).measures
    return tuple(measures[name] for name in FOOT_MEASURES)


def keel_numbers(lever: float) -> tuple[float, ...]:
    """Return KEEL_MEASURES of a stance; lever: end of the keel ahead of the ankle [m]."""
    measures = stance_of(keel_ended(lever)).measures
    return tuple(measures[name] for name in KEEL_MEASURES)


def limb_numbers(length: float) -> tuple[float, ...]:
    """Return late socket moment [N m], enclosed limb [mm] and LIMB_MEASURES; length: [m]."""
    limb = limb_cut(length)
    measures = stance_of(limb).measures
    return (
        measures["socket_extension_moment_peak_nm"],
        mm_from_metres(limb.socket_depth),
        *(measures[name] for name in LIMB_MEASURES),
    )
