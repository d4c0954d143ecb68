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
        TypeError: `case` is not a case.
    """
    if not isinstance(case, Case):
        raise TypeError("compare takes a Case: see simgait.read_case(path)")
    results = simulate_stances(limbs_of(case), step=step)
    doubted = [str(number) for number, run in enumerate(results, start=1) if run.remarks]
    return Comparison(
        title=case.title,
        results=results,
        baseline=case.baseline_index,
        cautions=(*case_cautions(case), *doubts(doubted)),
        filled=case.filled,
        sources=case_sources(case),
        version=model_version(),
    )


def doubts(numbers: list[str]) -> tuple[str, ...]:
    """Return the caution that names the runs with remarks, if there are any.

    >>> doubts(["3", "7"])[0][:12]
    'Runs 3, 7: n'
    """
    if not numbers:
        return ()
    runs = "Run" if len(numbers) == 1 else "Runs"
    return (f"{runs} {', '.join(numbers)}: no walk to aim for; see the remarks in the table.",)
