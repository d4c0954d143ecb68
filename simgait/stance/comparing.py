"""Several alignments of one case, side by side."""

from __future__ import annotations

from simgait.case import Case
from simgait.limb import limbs_of
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.stance.result import Comparison
from simgait.stance.running import STEP, simulate_stances


def compare(case: Case, *, step: float = STEP) -> Comparison:
    """Return the stances of all alignments of a case.

    case: as read by `simgait.read_case`; step: of the Runge-Kutta method [s].

    Raises:
        RangeError: an alignment cannot be built.
    """
    return Comparison(
        title=case.title,
        results=simulate_stances(limbs_of(case), step=step),
        baseline=case.baseline_index,
        cautions=case_cautions(case),
        filled=case.filled,
        sources=case_sources(case),
        version=model_version(),
    )
