"""Finding the finished chains: closed form for what can be set freely, every step for what cannot.

For each plate the closed form of `span_and_tilt` gives the one chain that keeps the pose exactly.
Tilts in steps are tried one by one, within their limits and the tolerances; for each pair the tube
that comes closest is a projection on its own direction, and a cut in steps is one of its two
neighbours.  So of chains in steps none that fits is missed; a tilt that can be set freely is set
by the closed form for the turn that the other leaves.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from simgait.transfer.geometry import Chain, Pose, distance, span_and_tilt
from simgait.transfer.hardware import NEAR, Hardware

ROUNDING = 1e-9  # [m], [rad] within which a tolerance of nothing is kept


@dataclass(frozen=True, kw_only=True)
class Found:
    """One chain within the tolerances, and what it leaves."""

    chain: Chain
    pylon: float  # [m] length of the tube
    error: float  # [m] of the ankle axis
    turn_error: float  # [rad] + toe up
    cut_from: float  # [m] shortest tube with which the pose is still kept
    cut_to: float  # [m] longest


def share_of(error: float, tolerance: float) -> float:
    """Return an error over its tolerance [1]; infinite where nothing is tolerated and it is more.

    >>> share_of(0.5, 1.0), share_of(0.0, 0.0), share_of(0.1, 0.0)
    (0.5, 0.0, inf)
    """
    if abs(error) <= ROUNDING:
        return 0.0
    return abs(error) / tolerance if tolerance > 0.0 else math.inf


def tolerance_used(pose: Pose, kept: Pose, hardware: Hardware) -> float:
    """Return the larger of both errors over its tolerance [1]; up to 1 the pose is kept."""
    return max(
        share_of(distance(pose, kept), hardware.tolerance),
        share_of(kept.turn - pose.turn, hardware.turn_tolerance),
    )


def tilts_tried(pose: Pose, offset: float, hardware: Hardware) -> Iterator[tuple[float, float]]:
    """Yield the pairs of tilts [rad] that may keep a pose with a plate's shift [m]."""
    upper, lower = hardware.upper, hardware.lower
    slack = hardware.turn_tolerance
    if upper.step > 0.0:
        for first in upper.settings(-upper.most, upper.most):
            wanted = pose.turn - first
            if lower.step > 0.0:
                for second in lower.settings(wanted - slack, wanted + slack):
                    yield first, second
            else:
                yield first, min(max(wanted, -lower.most), lower.most)
        return
    adapters = hardware.socket_adapter, hardware.foot_adapter
    free = span_and_tilt(pose, offset, *adapters, pose.turn)[1]
    if lower.step == 0.0:
        first = min(max(free, -upper.most), upper.most)
        for turn in (pose.turn, pose.turn - slack, pose.turn + slack):
            yield first, min(max(turn - first, -lower.most), lower.most)
        return
    for second in lower.settings(-lower.most, lower.most):
        turned = pose.turn - second  # keeps the turn; `free` keeps the place
        nearest = min(max(free, turned - slack), turned + slack)
        for first in (turned, free, nearest, (turned + nearest) / 2.0):
            yield min(max(first, -upper.most), upper.most), second


def chains_with(
    pose: Pose, offset: float, hardware: Hardware
) -> Iterator[tuple[float, Chain, float]]:
    """Yield what of the tolerances it uses, chain and tube [m] of every chain that is tried."""
    for upper, lower in tilts_tried(pose, offset, hardware):
        turn = upper + lower
        foot = hardware.foot_adapter
        ahead = pose.forward - offset - foot * math.sin(turn)
        down = pose.below - hardware.socket_adapter - foot * math.cos(turn)
        along = ahead * math.sin(upper) + down * math.cos(upper)
        for tube in hardware.tube.nearest(along - hardware.clamps):
            chain = Chain(
                socket_adapter=hardware.socket_adapter,
                offset=offset,
                upper_tilt=upper,
                span=tube + hardware.clamps,
                lower_tilt=lower,
                foot_shift=0.0,
                foot_adapter=foot,
            )
            yield tolerance_used(pose, chain.pose, hardware), chain, tube


def best_with(pose: Pose, offset: float, hardware: Hardware) -> tuple[float, Chain, float] | None:
    """Return the chain with a plate that uses least of the tolerances; None if none can be set.

    Of chains that use the same the one with the smallest tilts.
    """

    def rank(tried: tuple[float, Chain, float]) -> tuple[float, float]:
        used, chain, _ = tried
        return round(used, 9), abs(chain.upper_tilt) + abs(chain.lower_tilt)

    return min(chains_with(pose, offset, hardware), key=rank, default=None)


def cut_span(pose: Pose, chain: Chain, hardware: Hardware) -> tuple[float, float]:
    """Return the shortest and the longest tube with which a chain keeps the pose, tilts as set [m].

    A longer tube moves the ankle along the tube: the ends of a chord of the circle of tolerance.
    """
    kept = chain.pose
    off = (kept.forward - pose.forward, pose.below - kept.below)
    along = off[0] * math.sin(chain.upper_tilt) - off[1] * math.cos(chain.upper_tilt)
    across = off[0] * math.cos(chain.upper_tilt) + off[1] * math.sin(chain.upper_tilt)
    half = math.sqrt(max(hardware.tolerance**2 - across**2, 0.0))
    tube = chain.span - hardware.clamps
    low, high = tube - along - half, tube - along + half
    return max(min(low, tube), hardware.tube.least), min(max(high, tube), hardware.tube.most)


def found_chains(pose: Pose, hardware: Hardware) -> tuple[Found, ...]:
    """Return the best chain of every plate with which the pose is kept, the best first."""
    fits = []
    for offset in hardware.offsets:
        best = best_with(pose, offset, hardware)
        if best is not None and best[0] <= 1.0 + NEAR:
            fits.append(best)
    fits.sort(key=lambda tried: (round(tried[0], 9), abs(tried[1].offset)))
    return tuple(
        Found(
            chain=chain,
            pylon=tube,
            error=distance(pose, chain.pose),
            turn_error=chain.turn - pose.turn,
            cut_from=cut_span(pose, chain, hardware)[0],
            cut_to=cut_span(pose, chain, hardware)[1],
        )
        for _, chain, tube in fits
    )
