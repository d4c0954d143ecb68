"""Signs read backward: a known misalignment is found back from its own signs with noise."""

import numpy as np
import pytest

from advised import case_with_tables
from simgait.advice.causes import alike, causes_of, telling_apart
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.errors import CaseError

# What is measured, and how well: invented.
MEASURED = {
    "heel_off_s": 0.012,
    "knee_flexion_loading_deg": 1.5,
    "knee_flexion_moment_peak_nm": 2.0,
    "knee_extension_moment_peak_nm": 2.5,
    "hip_rise_mm": 5.0,
}
OFF = {"foot_forward_mm": 12.0, "dorsiflexion_deg": 5.0, "socket_flexion_deg": 4.0}


def signs_of(name, off, noise):
    """Return the table of what is measured of a case whose alignment is off."""
    case = case_with_tables(name, "")
    setting = setting_of(case)
    for key, size in off.items():
        setting[WRITTEN_NAMES.index(key)] += size
    true = Trials(case=case).outcomes(setting[None]).measures(0)
    lines = [
        f"{key} = {{ value = {true[key] + within * noise.standard_normal()!r}, within = {within} }}"
        for key, within in MEASURED.items()
    ]
    return "[seen]\n" + "\n".join(lines)


def test_a_known_misalignment_is_found_back():
    """Of 24 with noise, the cause is among those that cannot be told apart in at least 20, and
    first in at least 16; its size lies in the stated range in most."""
    noise = np.random.default_rng(4)
    first = among = inside = tried = 0
    for name in ("everyday", "heavy-worker"):
        for key, size in OFF.items():
            for sign in (1.0, -1.0):
                for _ in range(2):
                    off = {key: sign * size}
                    found = causes_of(case_with_tables(name, signs_of(name, off, noise)))
                    same = [set(found[place].off) for place in alike(found)]
                    tried += 1
                    first += set(found[0].off) == {key}
                    among += {key} in same
                    mine = next(each for each in found if set(each.off) == {key})
                    low, high = mine.ranges[key]
                    inside += low <= off[key] <= high
    assert tried == 24
    assert among >= 20 and first >= 16 and inside >= 16, (first, among, inside)


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
