"""Pushes and errors of measurement, drawn: in what share of them does the wearer not stay?"""

from __future__ import annotations

import math
import os
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, replace

import numpy as np

from simgait.alignment import Alignment
from simgait.case import Case
from simgait.errors import RangeError
from simgait.library.strengths import read_strength, standing_figures
from simgait.limb import limb_of
from simgait.standing.posture import STANDS
from simgait.tipping.names import BY_NAME, STAYS
from simgait.tipping.playing import play, ready
from simgait.tipping.result import processes, stood_on_both
from simgait.units import metres_from_mm, radians_from_degrees

CANNOT_BE_BUILT = "cannot_be_built"
SURE = 1.959964  # [1] standard deviations to either side of a 95 per cent interval
LEAST_SHARE = 0.2  # [1] of a stiffness or a strength; less is not drawn


@dataclass(frozen=True, kw_only=True)
class Draw:
    """One push and one set of errors, the same for every alignment that is compared."""

    push: float  # [N s] + forward
    height: float  # [m] above the floor
    mass: float  # [kg] errors, to be added
    residual_limb: float  # [m]
    foot_forward: float  # [m]
    dorsiflexion: float  # [rad]
    stiffness: float  # [1] factor on heel and forefoot
    strength: float  # [1] factor on knee and hip


@dataclass(frozen=True, kw_only=True)
class Share:
    """How often one alignment did not stay."""

    alignment: Alignment
    endings: dict[str, int]
    stayed: tuple[bool | None, ...]  # draw by draw; None: it could not be built

    @property
    def count(self) -> int:
        """Draws in which the limb could be built."""
        return sum(number for name, number in self.endings.items() if name != CANNOT_BE_BUILT)

    @property
    def tips(self) -> int:
        """Draws in which it did not stay, or could not stand at all."""
        return self.count - self.endings.get(STAYS, 0)

    @property
    def tip_share(self) -> float:
        """Share of the draws in which it did not stay [1]; NaN without any."""
        return self.tips / self.count if self.count else math.nan

    def against(self, base: Share) -> tuple[int, int]:
        """Return in how many draws only this alignment did not stay, and only the base [1]."""
        pairs = list(zip(self.stayed, base.stayed, strict=True))
        return pairs.count((False, True)), pairs.count((True, False))

    @property
    def interval(self) -> tuple[float, float]:
        """95 per cent interval of that share by `wilson_interval` [1]."""
        return wilson_interval(self.tips, self.count)


def wilson_interval(hits: int, count: int) -> tuple[float, float]:
    """Return the 95 per cent interval of a share by Wilson's score [1].

    (p + z²/2n ± z sqrt(p (1 - p)/n + z²/4n²)) / (1 + z²/n) with p = hits / n (Wilson 1927, J Am
    Stat Assoc 22:209; from memory, and held against scipy in the tests).

    >>> [round(bound, 3) for bound in wilson_interval(5, 10)]
    [0.237, 0.763]
    """
    if count == 0:
        return 0.0, 1.0
    share, z = hits / count, SURE
    middle = share + z * z / (2.0 * count)
    half = z * math.sqrt(share * (1.0 - share) / count + z * z / (4.0 * count * count))
    below = 1.0 + z * z / count
    return max((middle - half) / below, 0.0), min((middle + half) / below, 1.0)


def push_spread(case: Case, push: float | None) -> float:
    """Return the standard deviation of drawn pushes: as asked, or the usual one [N s]."""
    usual = standing_figures()["drawn_push_ns_kg"].number * case.person.mass
    return usual if push is None else push


def drawn(case: Case, seed: int, number: int, push: float | None = None) -> Draw:
    """Return one draw; it depends on nothing but the case, the seed and its number.

    push: standard deviation of the pushes [N s]; by default the usual one for the body's mass.
    """
    rng = np.random.Generator(np.random.Philox(key=[seed, number]))
    normal = rng.standard_normal(7)
    figure = {name: each.number for name, each in standing_figures().items()}
    low, high = figure["drawn_height_low"], figure["drawn_height_high"]
    return Draw(
        push=push_spread(case, push) * float(normal[0]),
        height=case.person.stature * (low + (high - low) * float(rng.random())),
        mass=figure["error_mass_kg"] * float(normal[1]),
        residual_limb=metres_from_mm(figure["error_residual_limb_mm"]) * float(normal[2]),
        foot_forward=metres_from_mm(figure["error_foot_forward_mm"]) * float(normal[3]),
        dorsiflexion=radians_from_degrees(figure["error_dorsiflexion_deg"]) * float(normal[4]),
        stiffness=max(1.0 + figure["error_stiffness_share"] * float(normal[5]), LEAST_SHARE),
        strength=max(1.0 + figure["error_strength_share"] * float(normal[6]), LEAST_SHARE),
    )


def case_with(case: Case, draw: Draw) -> Case:
    """Return the case as it is if it was measured with a draw's errors.

    Raises:
        RangeError: no such person, limb or foot can be.
    """
    return replace(
        case,
        person=replace(case.person, mass=case.person.mass + draw.mass),
        residual_limb=case.residual_limb + draw.residual_limb,
        foot=replace(
            case.foot,
            heel_stiffness=case.foot.heel_stiffness * draw.stiffness,
            forefoot_stiffness=case.foot.forefoot_stiffness * draw.stiffness,
        ),
    )


def ending_of_draw(case: Case, alignment: Alignment, draw: Draw) -> str:
    """Return how one alignment of a case ends under a draw."""
    own = read_strength(case.wearer)
    strength = replace(own, knee=own.knee * draw.strength, hip=own.hip * draw.strength)
    try:
        setting = replace(
            alignment,
            foot_forward=alignment.foot_forward + draw.foot_forward,
            dorsiflexion=alignment.dorsiflexion + draw.dorsiflexion,
        )
        standing = stood_on_both(limb_of(case_with(case, draw), setting), strength)
        if standing.ending != STANDS:
            return standing.ending
        trial = BY_NAME["forward_push_ns" if draw.push > 0.0 else "backward_push_ns"]
        return play(ready(standing, draw.height), trial, abs(draw.push)).ending
    except RangeError:
        return CANNOT_BE_BUILT


def endings_of_draw(case: Case, draw: Draw) -> tuple[str, ...]:
    """Return how every alignment of a case ends under one draw, in the case's order."""
    return tuple(ending_of_draw(case, alignment, draw) for alignment in case.alignments())


def played(case: Case, draws: Sequence[Draw]) -> Iterator[tuple[str, ...]]:
    """Yield the endings of each draw in their order, worked out on all processors.

    Closing the generator stops what is not yet done.
    """
    pool = processes(min(len(os.sched_getaffinity(0)), max(len(draws), 1)))
    waiting: list[Future[tuple[str, ...]]] = []
    try:
        waiting = [pool.submit(endings_of_draw, case, draw) for draw in draws]
        for future in waiting:
            yield future.result()
    finally:
        for future in waiting:
            future.cancel()
        pool.shutdown(wait=True, cancel_futures=True)


def tally(case: Case, rows: Sequence[tuple[str, ...]]) -> tuple[Share, ...]:
    """Return the shares of all alignments from the endings of the draws so far."""
    shares = []
    for place, alignment in enumerate(case.alignments()):
        found = [row[place] for row in rows]
        shares.append(
            Share(
                alignment=alignment,
                endings=dict(Counter(found)),
                stayed=tuple(None if e == CANNOT_BE_BUILT else e == STAYS for e in found),
            )
        )
    return tuple(shares)


def play_draws(
    case: Case, draws: Sequence[Draw], done: Callable[[int, tuple[str, ...]], None]
) -> tuple[list[tuple[str, ...]], bool]:
    """Return the endings of all draws, and whether the person let them be finished.

    done: called after each draw with its number and endings.  A person's stop (ctrl-C) keeps what
    is done.
    """
    rows: list[tuple[str, ...]] = []
    try:
        for row in played(case, draws):
            rows.append(row)
            done(len(rows) - 1, row)
    except KeyboardInterrupt:
        return rows, False
    return rows, True
