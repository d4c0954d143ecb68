"""One case of an arm, worked out whole."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arm.device import device_cable
from simgait.arm.drawing_errors import DRAWS, SEED, stands_share
from simgait.arm.judging import judge
from simgait.arm.lifting import setting_of
from simgait.arm.reaching import best_length, length_row, longest_change
from simgait.arm.remedies import Fitted, bindings_of, remedies_for
from simgait.arm.result import ArmResult, Binding, LiftCurves, Position, Remedy
from simgait.arm.search import best_place, positions_of
from simgait.arrays import Array
from simgait.case.arm_case import ArmCase
from simgait.library.arms import read_arm_habit
from simgait.parts.arm import Level

SAME = 1e-9  # [m] places closer than this are one


def usual_minimum(level: Level) -> float:
    """Return the least efficiency that is usual at a level, device over harness [1].

    Forearm level 0.80, single control (quoted); above the elbow 0.70 (memory).

    >>> usual_minimum("forearm")
    0.8
    """
    habit = read_arm_habit()
    forearm = level == "forearm"
    return habit.least_efficiency_forearm if forearm else habit.least_efficiency_above_elbow


def grid(case: ArmCase) -> tuple[Array, Array]:
    """Return guide and loop of every position [m]; the loop varies fastest."""
    guides, loops = np.meshgrid(np.array(case.guides), np.array(case.loops), indexing="ij")
    return guides.ravel(), loops.ravel()


@dataclass(frozen=True, kw_only=True)
class Lifts:
    """What the search of positions found; nothing on a forearm-level arm."""

    curves: LiftCurves | None = None
    positions: tuple[Position, ...] = ()
    front: tuple[int, ...] = ()
    best: int | None = None
    stands: float | None = None
    binding: tuple[Binding, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    own: int | None = None


def searched(case: ArmCase, draws: int, seed: int) -> Lifts:
    """Return everything about the positions of a case's search.

    draws: of errors of measurement, none if 0; seed: of them.
    """
    if case.arm.level == "forearm":
        return Lifts()
    guides, loops = grid(case)
    fitted = Fitted(arm=case.arm, cable=case.cable, harness=case.harness, guide=guides, loop=loops)
    setting = setting_of(case.arm, case.cable, case.harness, guides, loops)
    curves, positions, front = positions_of(setting, case.cable, case.harness)
    fit = judge(setting, curves, case.cable, case.harness)
    easy = judge(setting, curves, case.cable, case.harness, case.harness.fatigue_free_share)
    best = best_place(fit, easy)
    stands = None
    if best is not None and draws > 0:
        stands = stands_share(case, float(guides[best]), float(loops[best]), draws, seed)
    own = None
    if case.own_loop is not None:
        same = np.flatnonzero(np.abs(loops - case.own_loop) < SAME)
        own = int(same[0]) if len(same) else None
    return Lifts(
        curves=curves,
        positions=positions,
        front=front,
        best=best,
        stands=stands,
        binding=bindings_of(fit),
        remedies=remedies_for(fitted, read_arm_habit().forearm_step),
        own=own,
    )


def work_arm(case: ArmCase, draws: int = DRAWS, seed: int = SEED) -> ArmResult:
    """Return everything about an arm: positions, lengths, and the cable to its device.

    draws: of errors of measurement, in which the recommendation is tried; none if 0.  seed: of the
    draws.

    >>> from simgait.case.arm_case import read_arm_case
    >>> from simgait.library import models_folder
    >>> case = read_arm_case(models_folder() / "cases" / "arms" / "above-elbow.toml")
    >>> result = work_arm(case, draws=10)
    >>> result.positions[result.recommended].feasible
    True
    """
    lifts = searched(case, draws, seed)
    loop = case.own_loop
    if lifts.best is not None:
        loop = lifts.positions[lifts.best].loop
    rows = tuple(length_row(case, change, loop) for change in case.forearm_changes)
    return ArmResult(
        title=case.title,
        arm=case.arm,
        cable=case.cable,
        harness=case.harness,
        flexion_pull=lifts.curves,
        positions=lifts.positions,
        recommended=lifts.best,
        stands_share=lifts.stands,
        front=lifts.front,
        binding=lifts.binding,
        remedies=lifts.remedies,
        lengths=rows,
        recommended_length=best_length(rows),
        longest_change=longest_change(case),
        device=device_cable(case.cable, case.harness, usual_minimum(case.arm.level)),
        own_position=lifts.own,
    )
