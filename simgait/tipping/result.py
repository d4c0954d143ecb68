"""What tips a standing wearer: the thresholds of all trials, by name."""

from __future__ import annotations

import math
import multiprocessing
import signal
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial

from simgait.case import Case
from simgait.library.strengths import Strength, read_strength
from simgait.limb import Limb, limb_of
from simgait.standing.loading import level
from simgait.standing.posture import STANDS, stood
from simgait.standing.result import EQUAL, Standing, share_held, stance_of
from simgait.tipping.filming import Pair, pair_of
from simgait.tipping.names import STAYS, TRIALS
from simgait.tipping.playing import Stand, Threshold, play, ready, threshold


@dataclass(frozen=True, kw_only=True, eq=False)
class Tipping:
    """A wearer on both feet, and what is too much; no thresholds if nobody could stand so."""

    standing: Standing
    ending: str  # "stands", or why nobody could; or how the undisturbed scene ends
    stand: Stand | None
    thresholds: Mapping[str, Threshold]  # by the trial's name

    @property
    def values(self) -> dict[str, float]:
        """The thresholds by name, in the unit that the name says; NaN where there is none."""
        found = self.thresholds
        return {
            trial.name: found[trial.name].value if trial.name in found else math.nan
            for trial in TRIALS
        }

    def pairs(self) -> tuple[Pair, ...]:
        """The scenes just below and just above each threshold, for whoever draws them."""
        if self.stand is None:
            return ()
        return tuple(pair_of(self.stand, each) for each in self.thresholds.values())


def stood_on_both(limb: Limb, strength: Strength) -> Standing:
    """Return a limb standing on both feet, without its quantities and limits.

    Raises:
        RangeError: the limb cannot be built.
    """
    stance = stance_of(limb, strength, EQUAL)
    share = share_held(stance)
    pose, ending = stood(stance, level(share * limb.body_weight))
    return Standing(stance=stance, share=share, ending=ending, pose=pose, limits={}, measures={})


def tip_limb(
    limb: Limb, strength: Strength, push_height: float | None = None, *, jobs: int = 1
) -> Tipping:
    """Return what tips a limb's wearer who stands on both feet.

    push_height: of pushes above the floor [m]; the body's centre if none is given; jobs: processes
    that look for the thresholds.

    Raises:
        RangeError: the limb cannot be built.
    """
    standing = stood_on_both(limb, strength)
    if standing.ending != STANDS:
        return Tipping(standing=standing, ending=standing.ending, stand=None, thresholds={})
    stand = ready(standing, push_height)
    quiet = play(stand, TRIALS[0], 0.0)
    if quiet.ending != STAYS:
        return Tipping(standing=standing, ending=quiet.ending, stand=None, thresholds={})
    look = partial(threshold, stand)
    if jobs == 1:
        found = [look(trial) for trial in TRIALS]
    else:
        with processes(jobs) as pool:
            found = list(pool.map(look, sorted(TRIALS, key=lambda trial: trial.unit != "deg")))
    named = {each.trial.name: each for each in found}
    thresholds = {trial.name: named[trial.name] for trial in TRIALS}
    return Tipping(standing=standing, ending=STANDS, stand=stand, thresholds=thresholds)


def tip(case: Case, push_height: float | None = None, *, jobs: int = 1) -> Tipping:
    """Return what tips the wearer of a case at its own alignment, standing on both feet.

    push_height: of pushes above the floor [m]; the body's centre if none is given; jobs: processes
    that look for the thresholds.

    Raises:
        RangeError: the limb cannot be built.
    """
    limb = limb_of(case, case.baseline)
    return tip_limb(limb, read_strength(case.wearer), push_height, jobs=jobs)


def processes(jobs: int) -> ProcessPoolExecutor:
    """Return so many processes that scenes are played in, deaf to ctrl-C."""
    spawned = multiprocessing.get_context("spawn")
    return ProcessPoolExecutor(max_workers=jobs, mp_context=spawned, initializer=deaf)


def deaf() -> None:
    """Leave the key that stops a run (ctrl-C) to the process that asked for the work."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
