"""What a fitter may change at the bench: an axis for each number of the alignment that moves."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.alignment import WRITTEN_NAMES
from simgait.arrays import Array
from simgait.case import Case
from simgait.case.entries import AlignmentEntry, number_range
from simgait.case.goals import TILTS, Adjustment
from simgait.library import read_defaults
from simgait.parts.pylon import screw_turns
from simgait.units import degrees_from_radians, radians_from_degrees

ROUNDED = 9  # decimals of a level [mm, deg]


@dataclass(frozen=True, kw_only=True, eq=False)
class Axis:
    """The values that one number of the alignment may take, in the unit of its name."""

    name: str
    levels: Array  # rising; the present value is among them
    now: float
    turn: float | None  # [deg] tilt for one turn of a screw, if screws set it

    @property
    def span(self) -> float:
        """Farthest that the present value may be moved; the measure of an adjustment's size."""
        return float(np.abs(self.levels - self.now).max())

    def turns(self, change: float) -> float | None:
        """Return a change in turns of a screw [1]; None if no screw sets it."""
        if self.turn is None:
            return None
        return screw_turns(radians_from_degrees(change), radians_from_degrees(self.turn))


def axes_of(case: Case) -> tuple[tuple[Axis, ...], tuple[str, ...]]:
    """Return what may be changed in a case, and sentences on what was taken where it says nothing.

    Heel rise belongs to the shoe and is changed only if the case says so.
    """
    stated = {each.name: each for each in case.wanted.adjustments}
    found, filled = [], []
    for name in WRITTEN_NAMES:
        adjustment = stated.get(name)
        if adjustment is None:
            adjustment = usual_adjustment(case, name)
            if adjustment is not None:
                filled.append(f"adjust.{name}: {told(adjustment)}; invented, say what yours allows")
        if adjustment is not None:
            axis = axis_of(case, adjustment)
            if len(axis.levels) > 1:
                found.append(axis)
    return tuple(found), tuple(filled)


def usual_adjustment(case: Case, name: str) -> Adjustment | None:
    """Return what may be changed of a number that ``[adjust]`` does not name; None: nothing."""
    if name == "heel_rise_mm":
        return None
    figures = {key: figure.number for key, figure in read_defaults().items()}
    now = case.baseline.as_written()[name]
    reach = figures[
        "adjust_tilt_deg"
        if name in TILTS
        else "adjust_foot_mm"
        if name == "foot_forward_mm"
        else "adjust_length_mm"
    ]
    low, high = number_range(AlignmentEntry, name) or (-math.inf, math.inf)
    low, high = max(low, now - reach), min(high, now + reach)
    if name in TILTS:
        return Adjustment(name=name, low=low, high=high, turns=figures["adjust_turns"])
    return Adjustment(name=name, low=low, high=high, step=figures["adjust_step_mm"])


def told(adjustment: Adjustment) -> str:
    """Return a range in words.

    >>> told(Adjustment(name="foot_forward_mm", low=-15.0, high=15.0, step=1.0))
    '-15 to 15, in steps of 1'
    """
    by = (
        f"{adjustment.step:g}"
        if math.isfinite(adjustment.step)
        else f"{adjustment.turns:g} turns of a screw"
    )
    return f"{adjustment.low:g} to {adjustment.high:g}, in steps of {by}"


def axis_of(case: Case, adjustment: Adjustment) -> Axis:
    """Return the axis of an adjustment: steps from the present value on, within its range."""
    name = adjustment.name
    now = case.baseline.as_written()[name]
    turn = degrees_from_radians(case.pylon.turn) if name in TILTS else None
    if adjustment.levels:
        levels = np.array([level for level in adjustment.levels if math.isfinite(level)])
    else:
        step = (
            adjustment.step
            if math.isfinite(adjustment.step)
            else adjustment.turns * degrees_from_radians(case.pylon.turn)
        )
        first, last = (adjustment.low - now) / step, (adjustment.high - now) / step
        levels = now + step * np.arange(math.ceil(first - 1e-9), math.floor(last + 1e-9) + 1)
    every = np.unique(np.round(np.append(levels, now), ROUNDED))
    return Axis(name=name, levels=every, now=now, turn=turn)
