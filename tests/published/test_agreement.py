"""Every line of the agreement table, one by one; a known disagreement must go on disagreeing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from agreement import Comparison, as_printed, comparisons
from simgait.errors import RangeError
from simgait.library import source

ALL = comparisons()


def marked(comparison: Comparison) -> object:
    """Return the comparison as a test case; a known disagreement as a strict expected failure."""
    known = pytest.mark.xfail(strict=True, reason=comparison.note)
    return pytest.param(comparison, id=comparison.name, marks=() if comparison.agrees else (known,))


@pytest.mark.parametrize("comparison", [marked(each) for each in ALL])
def test_the_program_agrees(comparison: Comparison) -> None:
    values = comparison.got()
    assert comparison.inside(values), f"{values} is not in {comparison.band} {comparison.unit}"


def test_every_line_names_a_source_and_itself_only_once() -> None:
    assert [each.source for each in ALL if source(each.source).key != each.source] == []
    assert len({each.name for each in ALL}) == len(ALL) > 40


def test_every_disagreement_and_every_own_band_says_why() -> None:
    loose = [each for each in ALL if not each.agrees or each.kind == "fitted"]
    assert [each.name for each in loose if not each.note and each.grade != "memory"] == []


def test_a_printed_figure_has_the_band_of_half_its_last_digit() -> None:
    assert as_printed("0.465") == (0.4645, 0.4655)
    assert as_printed("16") == (15.5, 16.5)


@pytest.mark.parametrize("values", [(), (1.2,), (0.5, math.nan), (0.5, -0.1)])
def test_values_outside_the_band_are_seen(values: tuple[float, ...]) -> None:
    line = replace(ALL[0], low=0.0, high=1.0)
    assert line.inside((0.0, 0.5, 1.0))
    assert not line.inside(values)
    assert line.verdict(values) == "no"


@pytest.mark.parametrize(
    "fault", [{"grade": "certain"}, {"kind": "hoped"}, {"low": 1.0, "high": 1.0}]
)
def test_an_impossible_comparison_is_refused(fault: dict[str, object]) -> None:
    with pytest.raises(RangeError):
        replace(ALL[0], **fault)  # type: ignore[arg-type]
