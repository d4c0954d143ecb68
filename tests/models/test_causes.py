"""Signs read backward: a known misalignment is found back from its own signs with noise."""

import pytest

from advised import MEASURED, case_with_tables, found_back
from simgait.advice.causes import alike, causes_of, telling_apart
from simgait.advice.outcomes import Trials, setting_of
from simgait.errors import CaseError


def test_a_known_misalignment_is_found_back():
    """Of 24 with noise; the guide tells the shares by number."""
    rows = found_back(seed=4).values()
    tried, first, among, inside = (
        sum(getattr(row, name) for row in rows) for name in ("tried", "first", "among", "inside")
    )
    assert tried == 24
    assert among >= 20 and first >= 16 and inside >= 18, (first, among, inside)


def test_without_noise_in_the_middle_nothing_is_off():
    case = case_with_tables("everyday", "")
    true = Trials(case=case).outcomes(setting_of(case)[None]).measures(0)
    lines = [
        f"{key} = {{ value = {true[key]!r}, within = {w / 4} }}" for key, w in MEASURED.items()
    ]
    found = causes_of(case_with_tables("everyday", "[seen]\n" + "\n".join(lines)))
    assert found[0].off == {}


def test_plausibilities_add_to_one_and_fall():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    shares = [each.plausibility for each in found]
    assert sum(shares) == pytest.approx(1.0) and shares == sorted(shares, reverse=True)


def test_one_sign_cannot_tell_and_says_what_would():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    assert len(alike(found)) > 1
    name, gap = telling_apart(found, ("heel_off_s",))
    assert name != "heel_off_s" and gap > 0.0


def test_what_would_tell_is_never_what_was_seen():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    seen: list[str] = []
    gaps = []
    for _ in range(4):
        name, gap = telling_apart(found, seen)
        assert name not in seen
        seen.append(name)
        gaps.append(gap)
    assert gaps == sorted(gaps, reverse=True)


def test_words_point_the_way_that_numbers_do():
    """Early heel-off: foot back, or toe down (the model's own effects, tests/models)."""
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    single = {next(iter(each.off)): each.off for each in found if len(each.off) == 1}
    assert single["foot_forward_mm"]["foot_forward_mm"] < 0.0
    assert single["dorsiflexion_deg"]["dorsiflexion_deg"] < 0.0
    late = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "late"'))
    single = {next(iter(each.off)): each.off for each in late if len(each.off) == 1}
    assert single["foot_forward_mm"]["foot_forward_mm"] > 0.0


def test_a_case_without_signs_is_refused():
    with pytest.raises(CaseError, match="seen is missing"):
        causes_of(case_with_tables("everyday", ""))
