"""The cable of an arm prosthesis: where it runs, what its housing loses, what it works."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from simgait.errors import require

DeviceAction = Literal["opens", "closes"]  # what a pull at the device's cable does


def capstan_efficiency(friction: float, bends: Iterable[float]) -> float:
    """Return the pull that leaves a bent housing over the pull that goes in [1].

    exp(-friction times the sum of all bends): each bend loses its share of what reaches it, and
    how sharp it is does not matter.  Capstan equation, quoted.

    friction: coefficient of cable on housing [1]; bends: angles [rad].

    >>> round(capstan_efficiency(0.04, [math.pi / 2.0]), 3)
    0.939
    """
    return math.exp(-friction * math.fsum(bends))


@dataclass(frozen=True, kw_only=True)
class Cable:
    """Cable, housing, lift assist and the device at its end.

    Guide and loop are places as :mod:`simgait.arm.geometry` has them.  The device's pull and
    excursion are measured at the device; None where they are not known.

    >>> cable = Cable(guide=0.075, guide_offset=0.0, loop_offset=0.0, bends=(math.pi / 2.0,),
    ...     friction=0.04, efficiency=None, pulley=1.0, assist=(0.0,), assist_at=(0.0,),
    ...     device_action="opens", device_excursion=0.05, device_pull=40.0, device_start_pull=40.0)
    >>> round(cable.share_through, 3)
    0.939
    """

    guide: float  # [m] above the elbow's axis
    guide_offset: float  # [m] in front of it
    loop_offset: float  # [m] in front of the forearm's line
    bends: tuple[float, ...]  # [rad] of the housing, each
    friction: float | None  # [1] of cable on housing; None: the efficiency was measured
    efficiency: float | None  # [1] pull out over pull in, measured
    pulley: float  # [1] cable drawn at the harness over cable drawn at the arm
    assist: tuple[float, ...]  # [N m] about the elbow, + bends it, at the flexions of assist_at
    assist_at: tuple[float, ...]  # [rad]; one entry: the same at every flexion
    device_action: DeviceAction
    device_excursion: float | None  # [m] of cable for all of the device's opening or closing
    device_pull: float | None  # [N] at the end of that
    device_start_pull: float | None  # [N] at its beginning

    def __post_init__(self) -> None:
        require(0.005, self.guide, 0.50, "Cable.guide [m]")
        require(-0.10, self.guide_offset, 0.10, "Cable.guide_offset [m]")
        require(-0.10, self.loop_offset, 0.10, "Cable.loop_offset [m]")
        for bend in self.bends:
            require(0.0, bend, 4.0 * math.pi, "Cable.bends [rad]")
        if self.friction is not None:
            require(0.0, self.friction, 1.0, "Cable.friction [1]")
        if self.efficiency is not None:
            require(0.05, self.efficiency, 1.0, "Cable.efficiency [1]")
        require(1.0, self.pulley, 4.0, "Cable.pulley [1]")
        require(1, len(self.assist), 40, "number of Cable.assist [1]")
        require(len(self.assist), len(self.assist_at), len(self.assist), "Cable.assist_at [1]")
        for moment in self.assist:
            require(0.0, moment, 30.0, "Cable.assist [N m]")
        if self.device_excursion is not None:
            require(0.0, self.device_excursion, 0.15, "Cable.device_excursion [m]")
        if self.device_pull is not None:
            require(0.0, self.device_pull, 500.0, "Cable.device_pull [N]")
        if self.device_start_pull is not None:
            require(0.0, self.device_start_pull, 500.0, "Cable.device_start_pull [N]")

    @property
    def share_through(self) -> float:
        """Pull that leaves the housing over the pull that goes in [1]."""
        if self.efficiency is not None:
            return self.efficiency
        return capstan_efficiency(self.friction or 0.0, self.bends)


@dataclass(frozen=True, kw_only=True)
class Harness:
    """What a wearer can pull through the harness, as measured on the wearer.

    ``pulls`` at ``excursions`` say how the greatest pull falls the farther the cable is drawn; both
    are empty where only one pull was measured.

    >>> Harness(max_pull=200.0, max_excursion=0.1, fatigue_free_share=0.2, excursions=(),
    ...     pulls=()).fatigue_free_pull
    40.0
    """

    max_pull: float  # [N]
    max_excursion: float  # [m]
    fatigue_free_share: float  # [1] of the greatest pull that does not tire
    excursions: tuple[float, ...]  # [m] rising
    pulls: tuple[float, ...]  # [N] not rising
    opening_share: float = 1.0  # [1] of the device's excursion that is wanted at the mouth
    max_shoulder_moment: float | None = None  # [N m] held with the arm straight out

    def __post_init__(self) -> None:
        require(1.0, self.max_pull, 1000.0, "Harness.max_pull [N]")
        require(0.005, self.max_excursion, 0.30, "Harness.max_excursion [m]")
        require(0.01, self.fatigue_free_share, 1.0, "Harness.fatigue_free_share [1]")
        require(0.0, self.opening_share, 1.0, "Harness.opening_share [1]")
        if self.max_shoulder_moment is not None:
            require(0.1, self.max_shoulder_moment, 100.0, "Harness.max_shoulder_moment [N m]")

    @property
    def fatigue_free_pull(self) -> float:
        """The pull that does not tire, with the cable not yet drawn [N]."""
        return self.fatigue_free_share * self.max_pull
