"""Several alignments of one case, side by side."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from simgait.case import Case
from simgait.errors import RangeError
from simgait.limb import Limb, limb_of, limb_run, limbs_of, many_alignments
from simgait.stance.adapting import adaptation, with_adaptation
from simgait.stance.kept_walk import kept_walk
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.stance.result import Comparison, StanceResult
from simgait.stance.running import STEP, simulate_stances
from simgait.symbols import ADAPTS_CAUTIONS, CAUTIONS

ASSUMPTIONS = ("keeps", "adapts")
NOT_ADAPTED = "not adapted, for with the strategy kept the stance does not end with toe-off."
NOT_SETTLED = "the search for how the wearer adapts has not come to rest."


def compare(case: Case, *, step: float = STEP, assumption: str = "keeps") -> Comparison:
    """Return the stances of all alignments of a case.

    case: as read by `simgait.read_case`; step: of the Runge-Kutta method [s]; assumption: of the
    wearer, "keeps" the strategy or "adapts" (see `simgait.stance.adapting`).

    Raises:
        RangeError: an alignment cannot be built, the assumption is neither, or there is no walk
            at the case's own alignment that a wearer who adapts could keep.
        TypeError: `case` is not a case.
    """
    if not isinstance(case, Case):
        raise TypeError("compare takes a Case: see simgait.read_case(path)")
    if assumption not in ASSUMPTIONS:
        raise RangeError(f"assumption is {assumption!r}; allowed: {', '.join(ASSUMPTIONS)}")
    adapts = assumption == "adapts"
    limbs, adaptations, special = adapted_limbs(case) if adapts else (limbs_of(case), (), ())
    results = simulate_stances(limbs, step=step)
    doubted = _doubted(range(len(results)), results)
    usual = ADAPTS_CAUTIONS if adapts else CAUTIONS
    return Comparison(
        title=case.title,
        results=results,
        baseline=case.baseline_index,
        cautions=(*case_cautions(case, usual), *special, *doubts(doubted, adapts)),
        filled=case.filled,
        sources=case_sources(case),
        version=model_version(),
        assumption=assumption,
        adaptations=adaptations,
    )


def about_shown(comparison: Comparison, shown: Sequence[int]) -> Comparison:
    """Return a comparison whose cautions speak of some of its runs only, as a film shows them.

    shown: indices of the runs. The table is not in a film, so the caution says who has it.
    """
    every = _doubted(range(len(comparison.results)), comparison.results)
    adapts = comparison.assumption == "adapts"
    others = [each for each in comparison.cautions if each not in doubts(every, adapts)]
    said = "no walk to aim for; simgait compare says why."
    doubted = _doubted(sorted(shown), comparison.results)
    return replace(comparison, cautions=(*others, *about(doubted, said)))


def _doubted(runs: Iterable[int], results: Sequence[StanceResult]) -> list[str]:
    return [str(run + 1) for run in runs if results[run].remarks]


Changes = Mapping[str, float]


def adapted_limbs(
    case: Case,
) -> tuple[tuple[Limb, ...], tuple[Changes | None, ...], tuple[str, ...]]:
    """Return the limbs of a case's alignments with adapted wearers, how they adapt, and cautions.

    How: [deg] by name, None for a run that does not walk and so keeps the strategy.

    Raises:
        RangeError: an alignment cannot be built, or there is no walk at the case's own.
    """
    alignments = case.alignments()
    limb = limb_of(case, many_alignments(alignments))
    found = adaptation(limb, kept_walk(limb_of(case, case.baseline)))
    changed = with_adaptation(limb, found)
    runs = range(len(alignments))
    fallen = [str(run + 1) for run in runs if not found.walks[run]]
    restless = [str(run + 1) for run in runs if found.walks[run] and not found.settled[run]]
    return (
        tuple(limb_run(changed, run) for run in runs),
        tuple(found.as_written(run) if found.walks[run] else None for run in runs),
        (
            *about(fallen, NOT_ADAPTED),
            *about(restless, NOT_SETTLED),
        ),
    )


def about(numbers: list[str], what: str) -> tuple[str, ...]:
    """Return a sentence about some runs (and words after them), if there are any.

    >>> about(["3"], "no walk."), about([], "no walk.")
    (('Run 3: no walk.',), ())
    """
    runs = "Run" if sum(number.isdigit() for number in numbers) == 1 else "Runs"
    return (f"{runs} {', '.join(numbers)}: {what}",) if numbers else ()


def doubts(numbers: list[str], adapts: bool = False) -> tuple[str, ...]:
    """Return the caution that names the runs with remarks, if there are any.

    adapts: whether they are those of a wearer who adapts.

    >>> doubts(["3", "7"])[0][:12]
    'Runs 3, 7: n'
    >>> doubts(["3"], adapts=True)[0][:21]
    'Run 3, adapting: no w'
    """
    said = "no walk to aim for; see the remarks in the table."
    return about([*numbers, "adapting"] if adapts and numbers else numbers, said)
