"""All positions side by side: rows, trade-off front, and the one to recommend."""

from __future__ import annotations

import math

import numpy as np

from simgait.arm.geometry import working_flexions
from simgait.arm.judging import Judgement, judge
from simgait.arm.lifting import Setting, column, lever_of, lift, needed_moment, pull_at
from simgait.arm.result import LiftCurves, Position, WorkLedger
from simgait.arm.statics import load_gain, lost_in_housing, surplus_moment
from simgait.arrays import Array, Flags
from simgait.parts.cable import Cable, Harness

RIGHT_ANGLE = math.pi / 2.0


def front_of(pulls: Array, excursions: Array) -> tuple[int, ...]:
    """Return the places of the trade-off front, by rising excursion.

    A place is on it if no other has less or equal of both and less of one.  nan is never on it.

    pulls: [N]; excursions: [m].

    >>> front_of(np.array([3.0, 2.0, 2.5]), np.array([1.0, 2.0, 3.0]))
    (0, 1)
    """
    found: list[int] = []
    lowest = math.inf
    for place in np.lexsort((pulls, excursions)).tolist():
        if pulls[place] < lowest and math.isfinite(excursions[place]):
            found.append(place)
            lowest = float(pulls[place])
    return tuple(found)


def ledgers(setting: Setting, curves: LiftCurves) -> list[WorkLedger]:
    """Return where the work of each position goes [J].

    The load's gain is W x (cos of the lean at the start - cos at the end) and the spring's share
    the integral of its curve, both closed forms; cable, housing and surplus are summed over the
    flexions.  Derived.
    """
    start, end = setting.flexion[0], setting.flexion[-1]
    moment = needed_moment(setting, setting.flexion)
    spare = np.trapezoid(surplus_moment(moment), setting.flexion, axis=1)
    kept = np.asarray(lost_in_housing(curves.pull, column(setting.through)))
    lost = np.trapezoid(kept, curves.drawn, axis=1)
    lean = np.ravel(column(setting.shoulder_flexion))
    load = load_gain(np.ravel(column(setting.weight_moment)), lean, start, end)
    more = np.ravel(column(setting.assist_more)) * (end - start)
    spring = more + setting.assist.integral(float(start), float(end))
    every = np.broadcast_arrays(curves.work, load, spring, lost, spare)
    return [
        WorkLedger(cable=cable, load=gained, spring=given, housing=housing, surplus=surplus)
        for cable, gained, given, housing, surplus in zip(
            *(each.tolist() for each in every), strict=True
        )
    ]


def turning_flexion(setting: Setting, guide: float, loop: float) -> float | None:
    """Return the flexion in the range at which the cable passes the elbow's axis [rad], or None.

    guide, loop: of one position [m].
    """
    ends = working_flexions(
        guide=guide,
        guide_offset=float(np.ravel(column(setting.guide_offset))[0]),
        loop=loop,
        loop_offset=float(np.ravel(column(setting.loop_offset))[0]),
    )
    low, high = float(setting.flexion[0]), float(setting.flexion[-1])
    return next((float(end) for end in ends if low <= end <= high), None)


def positions_of(
    setting: Setting, cable: Cable, harness: Harness
) -> tuple[LiftCurves, tuple[Position, ...], tuple[int, ...]]:
    """Return the curves of all positions, a row for each, and the places of the front."""
    curves = lift(setting)
    fit = judge(setting, curves, cable, harness)
    easy = judge(setting, curves, cable, harness, harness.fatigue_free_share)
    peaks = np.max(curves.pull, axis=1)
    front = front_of(peaks, curves.drawn[:, -1])
    at_right_angle = pull_at(setting, RIGHT_ANGLE)
    levers = lever_of(setting, np.array([RIGHT_ANGLE]))[:, 0]
    accounts = ledgers(setting, curves)
    rows = tuple(
        Position(
            guide=float(curves.guide[k]),
            loop=float(curves.loop[k]),
            peak_pull=float(peaks[k]),
            peak_flexion=float(curves.flexion[int(np.argmax(curves.pull[k]))]),
            pull_at_right_angle=float(at_right_angle[k]) if np.isfinite(peaks[k]) else math.nan,
            excursion=float(curves.drawn[k, -1]) if np.isfinite(peaks[k]) else math.nan,
            excursion_left=float(fit.excursion_left[k]) if np.isfinite(peaks[k]) else math.nan,
            opening_left=float(fit.opening_left[k]) if np.isfinite(peaks[k]) else math.nan,
            lever_at_right_angle=float(levers[k]),
            ledger=accounts[k],
            turns_over=None
            if np.isfinite(peaks[k])
            else turning_flexion(setting, float(curves.guide[k]), float(curves.loop[k])),
            margins={name: float(each[k]) for name, each in fit.margins.items() if name != "axis"},
            feasible=bool(fit.feasible[k]),
            fatigue_free=bool(easy_pull(fit, easy)[k]),
            opens_while_lifting=bool(fit.works_device[k]),
            on_front=k in front,
        )
        for k in range(len(peaks))
    )
    return curves, rows, front


def easy_pull(fit: Judgement, easy: Judgement) -> Flags:
    """Return which positions are feasible with a lift that does not tire.

    fit: against all of the wearer's pull; easy: against the share of it that does not tire.  The
    pull that works the device does not depend on the position and is judged with the device.
    """
    return np.asarray(fit.feasible & (easy.margins["pull"] >= 0.0))


def best_place(fit: Judgement, easy: Judgement) -> int | None:
    """Return the place to recommend: the feasible one whose smallest margin is largest
    (:attr:`~simgait.arm.judging.Judgement.balance`).

    Positions in which lifting does not work the device come first, then those that do not tire;
    among these the pull's margin is that to what does not tire.  None if nothing is feasible.
    """
    chosen, margin = fit.feasible, fit.balance
    if not chosen.any():
        return None
    if (chosen & ~fit.works_device).any():
        chosen = chosen & ~fit.works_device
    tireless = chosen & easy_pull(fit, easy)
    if tireless.any():
        chosen, margin = tireless, easy.balance
    return int(np.argmax(np.where(chosen, margin, -np.inf)))
