"""What a report says of a wearer who adapts: the changes of that comparison, and no others."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from types import MappingProxyType

from simgait.case import read_case
from simgait.library import models_folder
from simgait.report import report_of
from simgait.report.adapting import adapted, adapting_words, assumption_words
from simgait.report.words import MOMENTS
from simgait.stance import Comparison, compare
from simgait.symbols import ADAPTS_CAUTIONS

CHANGE = re.compile(r"by ([+-][\d.]+) N m/kg \(kept: ([+-][\d.]+)\)")


@cache
def both(name: str) -> tuple[Comparison, Comparison]:
    case = read_case(models_folder() / "cases" / f"{name}.toml")
    return compare(case), compare(case, assumption="adapts")


def with_measure(comparison: Comparison, place: int, name: str, value: float) -> Comparison:
    results = list(comparison.results)
    measures = MappingProxyType({**results[place].measures, name: value})
    results[place] = replace(results[place], measures=measures)
    return replace(comparison, results=tuple(results))


def test_the_changes_are_those_of_both_comparisons() -> None:
    keeps, adapts = both("everyday")
    for place, told in enumerate(adapting_words(keeps, adapts)):
        if place == keeps.baseline:
            assert told == ()
            continue
        (sentence,) = told
        found = CHANGE.findall(sentence)
        assert len(found) == len(MOMENTS)
        for (adapting, kept), moment in zip(found, MOMENTS, strict=True):
            for said, comparison in ((adapting, adapts), (kept, keeps)):
                base = comparison.results[comparison.baseline].measures[moment.measure]
                change = comparison.results[place].measures[moment.measure] - base
                assert float(said) == round(change, 3)


def test_a_measure_that_would_go_the_other_way_is_named_and_no_other() -> None:
    keeps, adapts = both("everyday")
    place, name = 7, "drop_off"
    own = adapts.results[adapts.baseline].measures[name]
    kept = keeps.results[place].measures[name] - keeps.results[keeps.baseline].measures[name]
    turned = with_measure(adapts, place, name, own - kept)
    same = with_measure(adapts, place, name, own + kept)
    assert "The other way round than kept: drop-off." in adapting_words(keeps, turned)[place][0]
    assert "drop-off" not in adapting_words(keeps, same)[place][0]


def test_a_walk_with_remarks_says_them() -> None:
    keeps, adapts = both("heavy-worker")
    told = adapting_words(keeps, adapts)
    for place, run in enumerate(adapts.results):
        if place != adapts.baseline:
            assert all(remark in told[place][0] for remark in run.remarks)
            assert ("Of that walk" in told[place][0]) == bool(run.remarks)


def test_nothing_is_said_where_nobody_adapts() -> None:
    keeps, adapts = both("everyday")
    assert set(adapting_words(keeps, None)) == {()}
    fell = replace(adapts, adaptations=(None, *adapts.adaptations[1:]))
    assert adapting_words(keeps, fell)[0] == ()
    assert adapting_words(keeps, fell)[1] != ()
    assert "adapts" not in assumption_words(None)
    case = read_case(models_folder() / "cases" / "everyday.toml")
    assert ADAPTS_CAUTIONS[0] not in report_of(case, keeps, draws=25).cautions
    beside = report_of(case, keeps, adapting=True, draws=25)
    assert ADAPTS_CAUTIONS[0] in beside.cautions
    assert all("A wearer who adapts" in each.sentences[-1] for each in beside.changes)
    assert "a wearer who adapts" in beside.assumption


def test_only_what_is_shown_adapts_and_in_the_same_order() -> None:
    case = read_case(models_folder() / "cases" / "everyday.toml")
    _, whole = both("everyday")
    shown = (1, 4, 8)
    few = adapted(case, shown)
    assert few is not None
    assert few.baseline == 1
    for run, place in zip(few.results, shown, strict=True):
        assert run.alignment == whole.results[place].alignment
        moment = MOMENTS[0].measure
        assert abs(run.measures[moment] - whole.results[place].measures[moment]) < 1e-9


def test_without_a_walk_to_keep_nobody_adapts() -> None:
    settings = {
        "alignment.foot_forward_mm": "60",
        "alignment.socket_flexion_deg": "-5",
        "alignment.heel_rise_mm": "100",
    }
    case = read_case(models_folder() / "cases" / "everyday.toml", settings)
    assert adapted(case, (case.baseline_index,)) is None
