"""The wearer in dense batches: keeps the strategy, or adapts as a fitted quadratic says."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.advice.axes import Axis
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.arrays import Array, many
from simgait.case import Case
from simgait.limb import Limb, limb_of
from simgait.stance.adaptation_model import AdaptationModel, adaptation_model
from simgait.stance.adapting import adapted, with_moved
from simgait.stance.kept_walk import kept_walk
from simgait.units import metres_from_mm, radians_from_degrees

SAMPLED = 120  # alignments to whose adaptations the quadratic is fitted
SEED = 11


@dataclass(frozen=True, kw_only=True, eq=False)
class Walker:
    """How a wearer takes an alignment; without a model the strategy is kept."""

    model: AdaptationModel | None

    @property
    def assumption(self) -> str:
        """Its name."""
        return "keeps" if self.model is None else "adapts"

    @property
    def told(self) -> tuple[str, ...]:
        """Sentences on what stands in for the search of every adaptation."""
        if self.model is None:
            return ()
        off = max(self.model.error_as_written().values())
        return (
            f"adapting: a quadratic fitted to {self.model.fitted_to} alignments, off by up to "
            f"{off:.2f} deg (root mean square)",
        )

    def taking(self, limb: Limb) -> Limb:
        """Return a limb of many with its wearer as taken at each alignment."""
        return limb if self.model is None else self.model.applied(limb)

    def taking_as(self, limb: Limb, alignment: Alignment) -> Limb:
        """Return a limb with its wearer as taken at an alignment, whatever its own is.

        limb: of many; alignment: one: what is believed, where the limb's own differ by errors.
        """
        if self.model is None:
            return limb
        unknowns = self.model.unknowns(alignment)
        runs = np.size(limb.alignment.foot_forward)
        return with_moved(limb, np.tile(unknowns, (runs, 1)))


KEEPING = Walker(model=None)


def adapting_walker(case: Case, axes: tuple[Axis, ...], now: Array) -> Walker:
    """Return the wearer who adapts, for all that the axes allow.

    now: the present setting in millimetres and degrees [5].

    Raises:
        RangeError: no walk at the case's own alignment, or too few alignments walk.
    """
    draw = np.random.Generator(np.random.PCG64(SEED))
    settings = np.tile(now, (SAMPLED, 1))
    for axis in axes:
        column = WRITTEN_NAMES.index(axis.name)
        settings[:, column] = draw.uniform(axis.levels.min(), axis.levels.max(), SAMPLED)
    limb = limb_of(case, case.baseline)
    sample = limb_of(case, alignments(settings))
    return Walker(model=adaptation_model(sample, kept_walk(limb)))


def exactly_adapted(case: Case, settings: Array) -> Limb:
    """Return the limb at some settings, its wearer adapted to each by the search itself.

    settings: [runs, 5] in millimetres and degrees.
    """
    kept = kept_walk(limb_of(case, case.baseline))
    return adapted(limb_of(case, alignments(settings)), kept)


def alignments(settings: Array) -> Alignment:
    """Return the alignment that stands for many settings [runs, 5] in millimetres and degrees."""
    forward, tilt, flexion, longer, heel = (many(column) for column in settings.T.copy())
    return Alignment(
        foot_forward=metres_from_mm(forward),
        dorsiflexion=radians_from_degrees(tilt),
        socket_flexion=radians_from_degrees(flexion),
        length_change=metres_from_mm(longer),
        heel_rise=metres_from_mm(heel),
    )
