"""How far off the measures of a report may be because its inputs are known only so well.

The errors are those of `simgait.tipping.draws`: mass, residual limb, foot shift, dorsiflexion and
the foot's stiffness, normal, their sizes in models/standing.toml.  All alignments of a draw share
its errors, so that a difference between two is freed of what both have in common (paired draws).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, fields, replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri

from simgait.alignment import Alignment
from simgait.arrays import Array, many
from simgait.case import Case
from simgait.case.many import case_of_many, stated
from simgait.errors import RangeError
from simgait.library.strengths import standing_figures
from simgait.limb import Limb, limb_of
from simgait.physics import layout
from simgait.stance.batch import Batch, batch_of_many
from simgait.stance.naming import MEASURE_ROWS
from simgait.stance.running import run_batch
from simgait.symbols import BY_NAME
from simgait.units import metres_from_mm, radians_from_degrees

LEVELS = 25  # of the foot's stiffness, equally likely: each takes a sole of its own
LEAST_SHARE = 0.2  # [1] of a stiffness; less is not drawn
TAILS = (0.025, 0.975)
LEAST_DRAWS = 20  # under which nothing is said of a spread


@dataclass(frozen=True, kw_only=True)
class Spread:
    """What the draws say of one measure of one alignment against the baseline, in its unit."""

    difference: float  # mean of the paired changes; NaN with too few draws
    low: float  # central 95 per cent of the changes
    high: float
    unknown: float  # half of the central 95 per cent of the measure itself, at the baseline
    pairs: int

    @property
    def known(self) -> bool:
        """Whether there were draws enough."""
        return self.pairs >= LEAST_DRAWS

    @property
    def sense_sure(self) -> bool:
        """Whether the change keeps its sign in the central 95 per cent of the draws."""
        return self.known and (self.low > 0.0 or self.high < 0.0)

    @property
    def told_apart(self) -> bool:
        """Whether, besides, it is larger than what is unknown of the measure itself."""
        return self.sense_sure and abs(self.difference) > self.unknown


@dataclass(frozen=True, kw_only=True, eq=False)
class Draws:
    """Measures of every alignment under the same draws of the errors."""

    asked: int
    not_built: tuple[int, ...]  # one an alignment: draws out of range, or that cannot be built
    not_ended: tuple[int, ...]  # one an alignment: draws that ended otherwise than with toe-off
    values: Mapping[str, Array]  # by measure [alignments, draws]; NaN unless toe-off

    def spread(self, measure: str, base: int, other: int) -> Spread:
        """Return the spread of a measure's change from one alignment to another.

        base, other: places among the alignments drawn.
        """
        start, end = self.values[measure][base], self.values[measure][other]
        return spread_of(start, end)

    def unknown(self, measure: str, place: int) -> tuple[float, float]:
        """Return the central 95 per cent of a measure at an alignment; NaN with too few draws."""
        column = self.values[measure][place]
        known = column[np.isfinite(column)]
        if len(known) < LEAST_DRAWS:
            return float("nan"), float("nan")
        low, high = np.quantile(known, TAILS)
        return float(low), float(high)


def spread_of(start: Array, end: Array) -> Spread:
    """Return the spread of the changes from one column of draws to another of the same draws.

    >>> spread_of(np.arange(100.0), np.arange(100.0) + 3.0).difference
    3.0
    """
    both = np.isfinite(start) & np.isfinite(end)
    if both.sum() < LEAST_DRAWS:
        none = float("nan")
        return Spread(difference=none, low=none, high=none, unknown=none, pairs=int(both.sum()))
    change = end[both] - start[both]
    low, high = np.quantile(change, TAILS)
    first, last = np.quantile(start[both], TAILS)
    return Spread(
        difference=float(change.mean()),
        low=float(low),
        high=float(high),
        unknown=float(last - first) / 2.0,
        pairs=int(both.sum()),
    )


@dataclass(frozen=True, kw_only=True)
class Errors:
    """Standard deviations of the errors, as models/standing.toml states them."""

    mass_kg: float
    residual_limb_mm: float
    foot_forward_mm: float
    dorsiflexion_deg: float
    stiffness_share: float

    @property
    def sentence(self) -> str:
        """The errors in words."""
        return (
            f"body mass {self.mass_kg:g} kg, residual limb {self.residual_limb_mm:g} mm, foot "
            f"shift {self.foot_forward_mm:g} mm, dorsiflexion {self.dorsiflexion_deg:g} deg, "
            f"stiffness of heel and forefoot {100.0 * self.stiffness_share:g} %"
        )


def usual_errors() -> Errors:
    """Return the errors of measurement of models/standing.toml."""
    figures = standing_figures()
    return Errors(**{field.name: figures[f"error_{field.name}"].number for field in fields(Errors)})


def as_it_is(limb: Limb, alignment: Alignment) -> Limb:
    """Return the limb: its wearer keeps the strategy."""
    return limb


def drawn_measures(
    case: Case,
    alignments: Sequence[Alignment],
    measures: Sequence[str],
    draws: int,
    seed: int,
    taking: Callable[[Limb, Alignment], Limb] = as_it_is,
) -> Draws:
    """Return measures of alignments of a case under errors of measurement.

    The stiffness takes `LEVELS` equally likely values, the middle of each by the inverse of the
    normal distribution; the other errors are drawn anew each time (Philox, by seed).

    alignments: of the case; measures: names; draws: rounded up to a multiple of `LEVELS`; taking:
    gives a limb of many the wearer who believes in an alignment.
    """
    each = max(-(-draws // LEVELS), 1)
    errors, noise = usual_errors(), np.random.Generator(np.random.Philox(seed))
    soft = ndtri((np.arange(LEVELS) + 0.5) / LEVELS) * errors.stiffness_share
    groups: list[Group] = []
    for level, change in enumerate(soft):
        normal = noise.standard_normal((4, each))
        drawn = _with_stiffness(case, max(1.0 + float(change), LEAST_SHARE))
        for place, alignment in enumerate(alignments):
            group = _built(drawn, alignment, errors, normal, taking)
            if group is not None:
                shift = level * each + place * LEVELS * each
                groups.append(replace(group, place=group.place + shift))
    return _run(groups, len(alignments), LEVELS * each, measures)


@dataclass(frozen=True, kw_only=True, eq=False)
class Group:
    """The draws of one alignment at one stiffness, as far as they can be built."""

    place: NDArray[np.intp]  # among all draws of all alignments, one alignment after the other
    batch: Batch
    mass: Array  # [kg]


def _with_stiffness(case: Case, factor: float) -> Case:
    foot = case.foot
    stiffer = replace(
        foot,
        heel_stiffness=foot.heel_stiffness * factor,
        forefoot_stiffness=foot.forefoot_stiffness * factor,
    )
    return replace(case, foot=stiffer)


def _built(
    case: Case,
    alignment: Alignment,
    errors: Errors,
    normal: Array,
    taking: Callable[[Limb, Alignment], Limb],
) -> Group | None:
    """Return the draws of an alignment that can be built; None if there are none."""
    left = np.arange(normal.shape[1])
    while left.size:
        drawn = normal[:, left]
        limb_mm = stated(case, "limb.residual_limb_mm") or 0.0
        own = {
            "person.mass_kg": case.person.mass + errors.mass_kg * drawn[0],
            "limb.residual_limb_mm": limb_mm + errors.residual_limb_mm * drawn[1],
        }
        try:
            spread = case_of_many(case, own, len(left))
            limb = taking(limb_of(spread, _with_errors(alignment, errors, drawn)), alignment)
            return Group(place=left, batch=batch_of_many(limb), mass=own["person.mass_kg"])
        except RangeError as refusal:
            left = left[:0] if refusal.rows is None else left[~refusal.rows]
    return None


def _with_errors(alignment: Alignment, errors: Errors, drawn: Array) -> Alignment:
    """Return an alignment as many, with errors of the foot's shift and tilt."""
    ones = np.ones(drawn.shape[1])
    shift = metres_from_mm(errors.foot_forward_mm) * drawn[2]
    tilt = radians_from_degrees(errors.dorsiflexion_deg) * drawn[3]
    return Alignment(
        foot_forward=many(alignment.foot_forward + shift),
        dorsiflexion=many(alignment.dorsiflexion + tilt),
        socket_flexion=many(alignment.socket_flexion * ones),
        length_change=many(alignment.length_change * ones),
        heel_rise=many(alignment.heel_rise * ones),
    )


def _run(groups: Sequence[Group], count: int, each: int, measures: Sequence[str]) -> Draws:
    """Run all groups at once, and put the measures back under alignment and draw.

    count: of alignments; each: draws of every one.
    """
    values = np.full((count * each, layout.MEASURES), np.nan)
    mass, ended = np.full(count * each, np.nan), np.zeros(count * each, bool)
    built = np.zeros(count * each, bool)
    if groups:
        place = np.concatenate([group.place for group in groups])
        batches = [group.batch for group in groups]
        whole = Batch(
            **{
                field.name: np.concatenate([getattr(batch, field.name) for batch in batches])
                for field in fields(Batch)
            }
        )
        outcome = run_batch(whole)
        values[place], built[place] = outcome.measures, True
        mass[place] = np.concatenate([group.mass for group in groups])
        ended[place] = outcome.ends[:, layout.ENDING] == layout.TOE_OFF
    named = {
        name: np.asarray(
            BY_NAME[name].shown(many(values[:, MEASURE_ROWS[name]]), many(mass)), dtype=np.float64
        ).reshape(count, each)
        for name in measures
    }
    tally = [part.reshape(count, each).sum(axis=1).tolist() for part in (~built, built & ~ended)]
    return Draws(asked=each, not_built=tuple(tally[0]), not_ended=tuple(tally[1]), values=named)
