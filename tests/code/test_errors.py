"""Faults on one line, and numbers refused at the door."""

import math

import pytest

from simgait.errors import CaseError, Fault, RangeError, SimgaitError, one_line, require, shown
from simgait.units import (
    degrees_from_radians,
    metres_from_mm,
    mm_from_metres,
    newton_per_metre_from_newton_per_mm,
    radians_from_degrees,
    si_from_written,
)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf, -0.1])
def test_require_refuses_what_is_not_a_number_of_the_range(value):
    require(0.0, 0.0, math.inf, "anything [1]")
    with pytest.raises(RangeError, match="anything"):
        require(0.0, value, math.inf, "anything [1]")


def test_a_refusal_is_both_ours_and_a_value_error():
    assert issubclass(RangeError, SimgaitError) and issubclass(RangeError, ValueError)
    assert issubclass(CaseError, SimgaitError)


def test_a_fault_stays_on_one_line_whatever_is_in_it():
    fault = Fault(
        file="a\nb.toml", field="x\r", value=shown("\x1b[31m\n"), allowed="y", nearest="\ud800"
    )
    assert fault.message().isprintable()
    assert one_line("tab\there") == "tab\\there"


def test_a_case_error_says_all_its_faults():
    pair = [
        Fault(file="a", field=name, value="", allowed="", nearest=None, problem="is missing")
        for name in ("x", "y")
    ]
    error = CaseError(pair)
    assert error.faults == tuple(pair)
    assert str(error).splitlines() == ["a: x is missing", "a: y is missing"]


def test_a_value_is_shown_short():
    assert len(shown("x" * 10_000)) == 60
    assert "too large" in shown(10**5000)


def test_edges_there_and_back():
    for value in (60.0, -15.0, 0.3):
        assert mm_from_metres(metres_from_mm(value)) == pytest.approx(value)
        assert degrees_from_radians(radians_from_degrees(value)) == pytest.approx(value)
    assert newton_per_metre_from_newton_per_mm(45.0) == 45_000.0


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (("a_mm", 60.0), ("a", 0.06)),
        (("a_deg", 180.0), ("a", math.pi)),
        (("a_nm_deg", math.pi), ("a", 180.0)),
        (("a_nm_s_deg", math.pi), ("a", 180.0)),
        (("a_n_mm", 45.0), ("a", 45e3)),
        (("a_kg_m", 0.3), ("a", 0.3)),
        (("a_kg", 0.3), ("a", 0.3)),
        (("speed_m_s", 1.2), ("speed", 1.2)),
        (("heel_loss", 0.3), ("heel_loss", 0.3)),
    ],
)
def test_the_end_of_a_name_is_its_unit(written, expected):
    name, value = si_from_written(*written)
    assert (name, value) == (expected[0], pytest.approx(expected[1]))
