"""From a case and its comparison to the content of a report."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from simgait.alignment import WRITTEN_NAMES
from simgait.case import Case
from simgait.report.adapting import adapted, adapting_words, assumption_words
from simgait.report.content import Cell, ChangeWords, MeasureRow, Report, RunLine
from simgait.report.facts import facts_of
from simgait.report.words import MOMENTS, change_words, sentences
from simgait.stance import Comparison, StanceResult
from simgait.stance.comparing import doubts
from simgait.stance.provenance import case_cautions
from simgait.stance.uncertainty import LEAST_DRAWS, Draws, Spread, drawn_measures, usual_errors
from simgait.symbols import ADAPTS_CAUTIONS, BY_NAME, MAIN_MEASURES, SETTING_BY_NAME
from simgait.symbols.measure import Measure

MOST_SHOWN = 5  # alignments on the pages, the baseline among them
MOMENTS_NOTE = (
    "Moments are external and net: equal and opposite to those of the muscles. Beside each cause: "
    "what it adds, in N m/kg."
)
ENDED_BADLY = "ended otherwise"  # begins a remark that the ending beside it says already
USUAL_INSTANTS = (("loading", 20.0), ("late in the step", 70.0))  # without a normal baseline


def chosen_runs(comparison: Comparison) -> tuple[int, ...]:
    """Return the places of the alignments that a report shows, where nobody chose.

    All, or the baseline and those that differ from it in the fewest settings: what one setting
    does is easier to follow than what two do.  Where more differ in as few, they are taken evenly
    along the order of the case, the first and the last among them.
    """
    base = comparison.results[comparison.baseline].alignment.as_written()
    found = {comparison.baseline}
    groups: list[list[int]] = [[] for _ in WRITTEN_NAMES]
    for place, result in enumerate(comparison.results):
        own = result.alignment.as_written()
        differing = sum(own[name] != base[name] for name in WRITTEN_NAMES)
        if differing:
            groups[differing - 1].append(place)
    for group in groups:
        found.update(spread_out(group, MOST_SHOWN - len(found)))
    return tuple(sorted(found))


def spread_out(places: Sequence[int], count: int) -> tuple[int, ...]:
    """Return so many of the places, evenly along them, with the first and the last.

    >>> spread_out([0, 1, 2, 4, 5, 6], 4), spread_out([3, 4], 3), spread_out([3, 4], 0)
    ((0, 2, 4, 6), (3, 4), ())
    """
    if len(places) <= count:
        return tuple(places)
    if count <= 1:
        return tuple(places[:count])
    last = len(places) - 1
    return tuple(places[round(k * last / (count - 1))] for k in range(count))


def report_of(
    case: Case,
    comparison: Comparison,
    *,
    adapting: bool = False,
    runs: Sequence[int] = (),
    draws: int = 400,
    seed: int = 1,
    code: str = "",
    date: str = "",
) -> Report:
    """Return the content of the report on a case.

    case: as read; comparison: of all its alignments, the wearer keeping the strategy; adapting:
    whether a wearer who adapts is told beside it (where there is a walk to keep); runs: places in
    the comparison to show beside the baseline, at most `MOST_SHOWN` - 1, by default `chosen_runs`;
    draws, seed: of the errors of measurement; code, date: as they shall stand on the page, empty
    for a line to write on.

    Raises:
        RangeError: none of the limbs can be built.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> from simgait.stance import compare
    >>> case = read_case(models_folder() / "cases" / "short-residual-limb.toml")
    >>> len(report_of(case, compare(case), draws=25).rows)
    9
    """
    wanted = {comparison.baseline, *runs} if runs else set(chosen_runs(comparison))
    shown = tuple(sorted(wanted))
    results = [comparison.results[place] for place in shown]
    base = shown.index(comparison.baseline)
    adapts = adapted(case, shown) if adapting else None
    drawn = drawn_measures(
        case, [result.alignment for result in results], MAIN_MEASURES, draws, seed
    )
    settings = [SETTING_BY_NAME[f"alignment.{name}"] for name in WRITTEN_NAMES]
    return Report(
        title=comparison.title,
        code=code,
        date=date,
        version=comparison.version,
        facts=facts_of(case),
        setting_names=tuple((setting.title, setting.unit) for setting in settings),
        runs=tuple(_run_line(comparison, place) for place in shown),
        shown_note=_shown_note(len(shown), len(comparison.results), bool(runs)),
        shown=shown,
        comparison=comparison,
        instants=_instants(comparison.results[comparison.baseline]),
        changes=_changes(comparison, adapts, shown, drawn),
        assumption=f"{assumption_words(adapts)} {MOMENTS_NOTE}",
        rows=tuple(_row(BY_NAME[name], results, base, drawn) for name in MAIN_MEASURES),
        uncertainty=_uncertainty(drawn, shown),
        filled=comparison.filled,
        cautions=_cautions(case, comparison, adapts, shown),
        sources=comparison.sources,
    )


def _run_line(comparison: Comparison, place: int) -> RunLine:
    result = comparison.results[place]
    return RunLine(
        number=place + 1,
        baseline=place == comparison.baseline,
        values=tuple(f"{value:g}" for value in result.alignment.as_written().values()),
        ending=result.ending.replace("_", " "),
        remarks="; ".join(remark for remark in result.remarks if ENDED_BADLY not in remark),
    )


def _cautions(
    case: Case, comparison: Comparison, adapts: Comparison | None, shown: Sequence[int]
) -> tuple[str, ...]:
    """Return the cautions of the case, and those of the runs on the pages that have remarks."""
    doubted = [str(place + 1) for place in shown if comparison.results[place].remarks]
    first, *others = case_cautions(case)
    adapting = () if adapts is None else (ADAPTS_CAUTIONS[0],)
    return (first, *adapting, *others, *doubts(doubted))


def _shown_note(shown: int, total: int, asked: bool) -> str:
    if shown == total:
        return ""
    how = "as asked for" if asked else "those that differ from the baseline in the fewest settings"
    return f"{shown} of the {total} alignments of the case: {how}, numbered as in the comparison."


def _instants(base: StanceResult) -> tuple[tuple[str, float], ...]:
    """Return when the limbs are drawn: at the baseline's two peaks of the knee's moment."""
    if base.ending != "toe_off":
        return USUAL_INSTANTS
    percents = [base.measures[moment.when] for moment in MOMENTS]
    return tuple(
        (words, percent if math.isfinite(percent) else usual)
        for (words, usual), percent in zip(USUAL_INSTANTS, percents, strict=True)
    )


def _changes(
    comparison: Comparison, adapts: Comparison | None, shown: Sequence[int], drawn: Draws
) -> tuple[ChangeWords, ...]:
    found, base = [], shown.index(comparison.baseline)
    results = tuple(comparison.results[index] for index in shown)
    own = results[base]
    adapting = adapting_words(replace(comparison, results=results, baseline=base), adapts)
    for place, index in enumerate(shown):
        if place == base:
            continue
        result = results[place]
        spreads = {name: drawn.spread(name, base, place) for name in MAIN_MEASURES}
        found.append(
            ChangeWords(
                number=index + 1,
                heading=change_words(own, result),
                sentences=(*sentences(own, result, spreads), *adapting[place]),
            )
        )
    return tuple(found)


def _row(measure: Measure, results: Sequence[StanceResult], base: int, drawn: Draws) -> MeasureRow:
    cells = []
    for place, result in enumerate(results):
        value = result.measures[measure.name]
        if not math.isfinite(value):
            cells.append(Cell(value="-"))  # what other draws give says nothing of this alignment
            continue
        if place == base:
            low, high = drawn.unknown(measure.name, place)
            cells.append(Cell(value=_shown(value, measure), span=_span(low, high, measure, "")))
            continue
        before = results[base].measures[measure.name]
        if not math.isfinite(before):
            cells.append(Cell(value=_shown(value, measure)))  # nor is there a change from nothing
            continue
        spread = drawn.spread(measure.name, base, place)
        cells.append(_changed(measure, value, before, spread))
    whole = BY_NAME[measure.name.removesuffix("_kg")] if measure.per_mass else measure
    return MeasureRow(
        title=measure.title, unit=measure.unit, sentence=whole.sentence, cells=tuple(cells)
    )


def _changed(measure: Measure, value: float, before: float, spread: Spread) -> Cell:
    change = value - before
    return Cell(
        value=_shown(value, measure),
        change=f"{change:+.{measure.digits}f}" if math.isfinite(change) else "",
        span=_span(spread.low, spread.high, measure, "+"),
        told_apart=spread.told_apart or not spread.known,
    )


def _shown(value: float, measure: Measure) -> str:
    return f"{value:.{measure.digits}f}" if math.isfinite(value) else "-"


def _span(low: float, high: float, measure: Measure, sign: str) -> str:
    if not (math.isfinite(low) and math.isfinite(high)):
        return ""
    return f"{low:{sign}.{measure.digits}f} to {high:{sign}.{measure.digits}f}"


def _uncertainty(drawn: Draws, shown: Sequence[int]) -> tuple[str, ...]:
    """Return how the spans of the table were made, in sentences."""
    told = [
        f"Each alignment was simulated {drawn.asked} times, every time with other errors of "
        f"measurement and the same ones for all alignments (paired draws). Standard deviations, "
        f"invented: {usual_errors().sentence}. The table gives, in small print, where 95 of 100 "
        "draws put the baseline's value, and the change of the others.",
        "In brackets: a change no larger than half the span of the baseline's value, or one whose "
        f"sign the errors can turn. With fewer than {LEAST_DRAWS} draws no span is given. Not "
        "drawn: errors of the other settings, of the wearer's strategy, and of the model itself.",
    ]
    for words, counts in (
        ("Draws that leave the range of a case or cannot be built", drawn.not_built),
        ("Draws that did not end at the toe", drawn.not_ended),
    ):
        some = [f"{place + 1}: {n}" for place, n in zip(shown, counts, strict=True) if n]
        if some:
            told.append(f"{words}, and so are not in the spans, by alignment: {', '.join(some)}.")
    return tuple(told)
