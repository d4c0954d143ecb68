"""What tips a standing wearer: the thresholds of all trials, by name."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from simgait.case import Case
from simgait.library.strengths import Strength, read_strength
from simgait.limb import Limb, limb_of
from simgait.standing.loading import level
from simgait.standing.posture import STANDS, stood
from simgait.standing.result import EQUAL, Standing, share_held, stance_of
from simgait.tipping.filming import Pair, pair_of
from simgait.tipping.names import TRIALS
from simgait.tipping.playing import Stand, Threshold, ready, threshold


@dataclass(frozen=True, kw_only=True, eq=False)
class Tipping:
    """A wearer on both feet, and what is too much; no thresholds if nobody could stand so."""

    standing: Standing
    stand: Stand | None
    thresholds: Mapping[str, Threshold]  # by the trial's name

    @property
    def ending(self) -> str:
        """ "stands", or the reason why nobody could stand so."""
        return self.standing.ending

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


def tip_limb(limb: Limb, strength: Strength, push_height: float | None = None) -> Tipping:
    """Return what tips a limb's wearer who stands on both feet.

    push_height: of pushes above the floor [m]; the body's centre if none is given.

    Raises:
        RangeError: the limb cannot be built.
    """
    standing = stood_on_both(limb, strength)
    if standing.ending != STANDS:
        return Tipping(standing=standing, stand=None, thresholds={})
    stand = ready(standing, push_height)
    found = {trial.name: threshold(stand, trial) for trial in TRIALS}
    return Tipping(standing=standing, stand=stand, thresholds=found)


def tip(case: Case, push_height: float | None = None) -> Tipping:
    """Return what tips the wearer of a case at its own alignment, standing on both feet.

    push_height: of pushes above the floor [m]; the body's centre if none is given.

    Raises:
        RangeError: the limb cannot be built.
    """
    return tip_limb(limb_of(case, case.baseline), read_strength(case.wearer), push_height)
