"""What shifts and angles do to a wearer who keeps the strategy, and to one who adapts."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from simgait.case import read_case
from simgait.library import models_folder, names
from simgait.limb import Limb, limb_of, limb_run, many_alignments
from simgait.stance import StanceResult, simulate_stances
from simgait.stance.adapting import adapted
from simgait.stance.kept_walk import USUAL, Yardsticks, kept_walk
from walkers import WEARERS, aligned, walker

CASES = tuple(sorted(path.stem for path in (models_folder() / "cases").glob("*.toml")))
WALKING_CASES = tuple(name for name in CASES if name not in names("wearers"))
SHIFTS = (0.005, 0.010)  # [m] to each side, as Kobayashi et al. 2014
ANGLES = (math.radians(3.0), math.radians(6.0))  # [rad]
STEPS = {"foot_forward": SHIFTS, "dorsiflexion": ANGLES}

Read = Callable[[StanceResult], float]


def socket_impulse(result: StanceResult) -> float:
    """Return the impulse of the socket moment over stance, + flexing [N m s]."""
    curves = result.curves
    return float(np.trapezoid(curves.socket_flexion_moment, curves.time))


def load_impulse(result: StanceResult) -> float:
    """Return the impulse of the vertical force over stance [N s]."""
    return float(np.trapezoid(result.curves.force_up, result.curves.time))


def measure(name: str) -> Read:
    """Return the reader of a measure."""
    return lambda result: result.measures[name]


READS: Mapping[str, Read] = {
    "impulse of the socket moment": socket_impulse,
    **{
        name: measure(name)
        for name in (
            "socket_flexion_moment_peak_nm",
            "socket_extension_moment_peak_nm",
            "knee_flexion_moment_peak_nm",
            "knee_extension_moment_peak_nm",
            "knee_flexion_impulse_nms",
            "knee_extension_impulse_nms",
        )
    },
}


@cache
def limb_named(name: str) -> Limb:
    """Return a library wearer in the limb of its calibration, or a case at its own alignment."""
    if name in WEARERS:
        return walker(name)
    case = read_case(models_folder() / "cases" / f"{name}.toml")
    return limb_of(case, case.baseline)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """One alignment, with the strategy kept and with it adapted."""

    keeps: StanceResult
    adapts: StanceResult


@cache
def pairs(name: str, yardsticks: Yardsticks = USUAL) -> Mapping[tuple[str, float], Pair]:
    """Return both stances for every step to either side, by what is changed and by how much."""
    limb = limb_named(name)
    keys = [(what, side * by) for what, sizes in STEPS.items() for by in sizes for side in (-1, 1)]
    limbs = [aligned(limb, **{what: by}) for what, by in keys]
    together = replace(limb, alignment=many_alignments([each.alignment for each in limbs]))
    moved = adapted(together, kept_walk(limb, yardsticks))
    after = simulate_stances([limb_run(moved, run) for run in range(len(keys))])
    before = simulate_stances(limbs)
    return {key: Pair(keeps=k, adapts=a) for key, k, a in zip(keys, before, after, strict=True)}


def changes(
    name: str, what: str, by: float, read: Read, yardsticks: Yardsticks = USUAL
) -> tuple[float, float]:
    """Return what changes from -by to +by: strategy kept, adapted [unit of what is read]."""
    found = pairs(name, yardsticks)
    low, high = found[what, -by], found[what, by]
    return read(high.keeps) - read(low.keeps), read(high.adapts) - read(low.adapts)


def removed(
    name: str, what: str, by: float, read: Read = socket_impulse, yardsticks: Yardsticks = USUAL
) -> float:
    """Return the share of the change with the strategy kept that adapting takes away [1]."""
    keeps, adapts = changes(name, what, by, read, yardsticks)
    return 1.0 - adapts / keeps
