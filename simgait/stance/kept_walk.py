"""What a wearer who adapts keeps: walking speed, and how the shank progresses through stance."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.alignment import Alignment
from simgait.arrays import Array, Flags
from simgait.errors import refuse
from simgait.limb import Limb, as_many, stands_for_many
from simgait.physics import layout as rows
from simgait.stance.batch import Batch, batch_of_many
from simgait.stance.running import run_batch

# Shares of the nominal stance time at which the shank's lean is compared [1] (assumed).
SHARES = (0.15, 0.30, 0.45, 0.60, 0.75)
SPEEDS = 2  # the first entries of a walk: mean forward speed of the hip, and its change [m/s]
LEANS = slice(SPEEDS, SPEEDS + len(SHARES))


@dataclass(frozen=True, kw_only=True)
class Yardsticks:
    """What counts as one unit in the sum of squares that an adapting wearer makes small.

    Larger is held, or spared, less firmly.  All are assumed: no publication states them.
    """

    hip: float  # [rad] change of the reference of thigh lean, constant or linear part
    knee: float  # [rad] change of the reference of knee flexion, constant or linear part
    speed: float  # [m/s] of the hip: its mean over stance, and its change from start to end
    lean: float  # [rad] of the shank: its mean over `SHARES`
    progress: float  # [rad] of the shank: its lean less that mean, root mean square over `SHARES`


USUAL = Yardsticks(
    hip=math.radians(3.0),
    knee=math.radians(3.0),
    speed=0.02,
    lean=math.radians(1.0),
    progress=math.radians(1.0),
)


@dataclass(frozen=True, kw_only=True, eq=False)
class KeptWalk:
    """The walk that is to be kept: of one run, or of many, one row a run."""

    alignment: Alignment  # at which it was walked
    walk: Array  # [2 + SHARES] or [runs, 2 + SHARES]; see `walks`
    yardsticks: Yardsticks

    def misfit(self, walk: Array) -> Array:
        """Return r: how far walks are from the kept one, in what counts as one.

        Speeds over the yardstick of speed; the mean difference of lean over that of lean; what each
        lean differs beyond that mean over that of progress times the root of their number.  With
        equal yardsticks of lean and progress, |r|^2 of the leans is their mean square over that.

        walk: [runs, 2 + SHARES]; returned: [runs, 3 + SHARES].
        """
        y, off = self.yardsticks, walk - self.walk
        leans = off[:, LEANS]
        mean = leans.mean(axis=1, keepdims=True)
        bends = (leans - mean) / (y.progress * math.sqrt(len(SHARES)))
        return np.concatenate((off[:, :SPEEDS] / y.speed, mean / y.lean, bends), axis=1)


def walks(limb: Limb) -> tuple[Array, Flags]:
    """Return what is kept of the walk of each run [runs, 2 + SHARES], and whether it walks.

    The hip's mean forward speed over stance and its change from touch-down to toe-off [m/s]; then
    the shank's lean at `SHARES` of the nominal stance time [rad].  The shank is taken as it stands
    with the socket flexion of the bench: that of the alignment is subtracted, since it turns the
    residual limb against the pylon.  A run that does not end with toe-off does not walk, and its
    row is NaN.

    limb: of one run or of many.

    Raises:
        RangeError: a limb cannot be built.
    """
    limb = as_many(limb)
    return walks_of(batch_of_many(limb), np.asarray(limb.extra_flexion))


def walks_of(batch: Batch, extra: Array) -> tuple[Array, Flags]:
    """Return `walks` of a batch.  extra: socket flexion beyond the bench's [runs] [rad]."""
    outcome = run_batch(batch, keep_curves=True)
    ends = outcome.ends
    found = np.full((len(batch), SPEEDS + len(SHARES)), np.nan)
    walked: Flags = ends[:, rows.ENDING] == rows.TOE_OFF
    state = ends[:, rows.END_STATE :]
    begun = batch.state
    way = state[:, rows.HIP_X] - begun[:, rows.HIP_X]
    gained = state[:, rows.HIP_VX] - begun[:, rows.HIP_VX]
    found[walked, 0] = (way / ends[:, rows.END_TIME])[walked]
    found[walked, 1] = gained[walked]
    times = batch.parameter[:, rows.STANCE_TIME, None] * SHARES / outcome.steps[:, None]
    for run in np.flatnonzero(walked):
        lean = outcome.curves[run][:, rows.RESIDUAL]
        at = np.minimum(times[run], len(lean) - 1.000001)
        before = at.astype(int)
        part = at - before
        found[run, LEANS] = (1.0 - part) * lean[before] + part * lean[before + 1] - extra[run]
    return found, walked


def kept_walk(limb: Limb, yardsticks: Yardsticks = USUAL) -> KeptWalk:
    """Return what a wearer keeps of the walk at the case's own alignment.

    limb: at that alignment, with the wearer's own strategy; of one run, or of many, of which each
    then keeps its own; yardsticks: what counts as one.

    Raises:
        RangeError: the limb cannot be built, or there is no walk to keep: it does not end with
            toe-off.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> from simgait.limb import limb_of
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> kept = kept_walk(limb_of(case, case.baseline))
    >>> bool(1.0 < kept.walk[0] < 1.4)
    True
    """
    walk, walked = walks(limb)
    many = stands_for_many(limb)
    lost = ~walked
    refuse(lost if many else bool(lost[0]), "there is no walk to keep: it ends before toe-off")
    return KeptWalk(alignment=limb.alignment, walk=walk if many else walk[0], yardsticks=yardsticks)
