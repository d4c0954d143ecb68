"""Whether a wearer can work a position: margins to each limit, with and without tiring."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.arm.lifting import Column, Setting, column
from simgait.arm.result import LiftCurves
from simgait.arm.statics import (
    excursion_margin,
    opening_for,
    pull_for,
    pull_margin,
    share_asked,
    travel_wanted,
)
from simgait.arrays import Array, Flags
from simgait.parts.cable import Cable, Harness

LIMITS = {
    "pull": "the greatest pull while lifting against what the wearer can pull at that excursion",
    "excursion": "the cable drawn to bend the elbow against what the wearer can draw",
    "device_excursion": "what is left of the excursion at the mouth against what the device needs",
    "device_pull": "the pull that works the device against what the wearer can pull there",
    "axis": "the cable passes the elbow's axis in the range, where it has no lever",
}
ROUNDING = 1e-12  # [1] of a margin


@dataclass(frozen=True, kw_only=True)
class Judgement:
    """Margins by limit, one entry a position, each as a share of the limit; - exceeds it.

    A limit about which nothing is known (the device's, where no device was measured) is not there.
    """

    margins: dict[str, Array]
    excursion_left: Array  # [m]
    opening_left: Array  # [1] share of the device's excursion; nan if that is unknown
    works_device: Flags  # whether lifting works the device

    @property
    def least(self) -> Array:
        """The smallest margin of each position."""
        return np.asarray(np.min(list(self.margins.values()), axis=0))

    @property
    def balance(self) -> Array:
        """The smallest margin of each position, without that of the pull that works the device,
        which is the same at most of them."""
        own = [each for name, each in self.margins.items() if name != "device_pull"]
        return np.asarray(np.min(own, axis=0))

    @property
    def feasible(self) -> Flags:
        """Whether no limit is exceeded, one true or false a position."""
        return self.least >= -ROUNDING


def judge(
    setting: Setting, curves: LiftCurves, cable: Cable, harness: Harness, share: float = 1.0
) -> Judgement:
    """Return the margins of every position.

    cable: for what the device needs; harness: for the share of its travel wanted at the mouth;
    share: of the wearer's greatest pull that may be used, such as the one that does not tire [1].
    """
    allowed = share * curves.capacity
    asked = np.max(share_asked(curves.pull, allowed), axis=1)
    axis = np.where(np.isnan(asked), -np.inf, np.inf)
    limit = np.ravel(column(setting.max_excursion))
    lifted = curves.drawn[:, -1]
    left = limit - lifted
    margins = {
        "pull": clean(pull_margin(asked)),
        "excursion": clean(excursion_margin(left, 0.0, limit)),
        "axis": axis,
    }
    pulley = np.ravel(column(setting.pulley))
    opening = np.full(len(lifted), np.nan)
    works = np.zeros(len(lifted), dtype=bool)
    if cable.device_excursion is not None:
        wanted = travel_wanted(harness.opening_share, cable.device_excursion, pulley)
        margins["device_excursion"] = clean(excursion_margin(left, wanted, limit))
        if cable.device_excursion > 0.0:
            opening = np.asarray(opening_for(left, cable.device_excursion, pulley))
        if cable.device_pull is not None:
            there = lifted + wanted
            can = share * np.ravel(column(setting.capacity_share)) * setting.capacity.at(there)
            asked = share_asked(device_pull(setting, cable.device_pull), can)
            margins["device_pull"] = clean(pull_margin(asked))
    if cable.device_start_pull is not None:
        works = np.max(np.nan_to_num(curves.tension), axis=1) > cable.device_start_pull
    return Judgement(
        margins={name: np.broadcast_to(each, lifted.shape) for name, each in margins.items()},
        excursion_left=left,
        opening_left=opening,
        works_device=works,
    )


def device_pull(setting: Setting, at_device: Column) -> Array:
    """Return the pull at the harness that makes a pull at the device [N].

    at_device: [N].
    """
    through, pulley = column(setting.through), column(setting.pulley)
    return np.ravel(pull_for(column(at_device), through, pulley))


def clean(margin: Column) -> Array:
    """Return margins with nan, where a cable cannot pull at all, as minus infinity."""
    return np.where(np.isnan(margin), -np.inf, margin)
