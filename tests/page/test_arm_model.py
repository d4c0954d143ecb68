"""The arm's model in the page gives the numbers of `simgait.arm`: run by Node."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from arm_pages import (
    LIBRARY,
    in_python,
    library_case,
    random_case,
    random_setting,
    run_in_node,
)
from simgait.page.arm_data import arm_data, baseline_setting

SEEDS = range(60)
NEAR = 1e-9  # of a number; below it, and below ALMOST_NOTHING, two numbers are the same
ALMOST_NOTHING = 1e-9


def number(value: Any) -> Any:
    """Return a number that JSON could not hold as one, and None for a number that is none."""
    value = float(value) if value in ("NaN", "Infinity", "-Infinity") else value
    return None if isinstance(value, float) and math.isnan(value) else value


def differences(ours: Any, theirs: Any, place: str = "") -> list[str]:
    """Return where the page's answer differs from Python's; both may name more than the other."""
    if isinstance(theirs, dict):
        assert isinstance(ours, dict), place
        both = [name for name in theirs if name in ours]
        assert len(both) >= min(4, len(theirs)), (place, theirs.keys(), ours.keys())
        return [
            each
            for name in both
            for each in differences(ours[name], theirs[name], f"{place}.{name}")
        ]
    if isinstance(theirs, list):
        pairs = zip(ours, theirs, strict=True)
        return [
            each for k, pair in enumerate(pairs) for each in differences(*pair, f"{place}[{k}]")
        ]
    one, other = number(ours), number(theirs)
    if one is None or other is None or isinstance(other, bool):
        return [] if one == other else [f"{place}: page {ours}, Python {theirs}"]
    near = math.isclose(one, other, rel_tol=NEAR, abs_tol=ALMOST_NOTHING)
    return [] if near else [f"{place}: page {ours}, Python {theirs}"]


@pytest.fixture(scope="module")
def library_answers(tmp_path_factory: pytest.TempPathFactory) -> list[Any]:
    asked = []
    for name in LIBRARY:
        case = library_case(name)
        settings = [baseline_setting(case), *(random_setting(case, seed) for seed in range(12))]
        asked.append({"data": arm_data(case), "settings": settings})
    answers = run_in_node(asked, tmp_path_factory.mktemp("node"))
    return [(each["settings"], answer) for each, answer in zip(asked, answers, strict=True)]


@pytest.mark.parametrize("place", range(len(LIBRARY)), ids=LIBRARY)
def test_the_library_cases_are_the_same(place, library_answers):
    settings, answers = library_answers[place]
    case = library_case(LIBRARY[place])
    for setting, answer in zip(settings, answers, strict=True):
        assert differences(answer, in_python(case, setting)) == []


def test_random_arms_are_the_same(tmp_path):
    asked, wanted = [], []
    for seed in SEEDS:
        case = random_case(seed)
        settings = [random_setting(case, 1000 * seed + k) for k in range(4)]
        asked.append({"data": arm_data(case), "settings": settings})
        wanted.append([in_python(case, setting) for setting in settings])
    answers = run_in_node(asked, tmp_path)
    faults = [
        f"seed {seed}, setting {k}{each}"
        for seed, (answer, theirs) in enumerate(zip(answers, wanted, strict=True))
        for k, pair in enumerate(zip(answer, theirs, strict=True))
        for each in differences(*pair)
    ]
    assert faults[:10] == []
    every = [each for theirs in wanted for each in theirs]
    stuck = sum(each["measures"]["crosses_axis_at_deg"] is not None for each in every)
    assert stuck >= 5  # the draws are worth something: some pass the axis, some fit, some do not
    assert 10 <= sum(each["measures"]["feasible"] for each in every) <= len(every) - 10
    assert sum(each["best"] is not None for each in every) >= 10


def test_what_cannot_be_is_refused_in_words(tmp_path):
    case = library_case("above-elbow")
    own = baseline_setting(case)
    settings = [
        {**own, "loop_mm": 240.0, "forearm_change_mm": -50.0},
        {**own, "loop_mm": 900.0},
        {**own, "held_mass_kg": None},
    ]
    ((beyond, far, missing),) = run_in_node(
        [{"data": arm_data(case), "settings": settings}], tmp_path
    )
    assert "beyond the end of the forearm at 200 mm" in beyond["refused"]
    assert far["refused"].startswith("loop_mm may be 5 to 250")
    assert "held_mass_kg" in missing["refused"]


def test_a_straight_hanging_arm_begins_with_the_ratio_just_inside(tmp_path):
    case = library_case("above-elbow")
    straight = replace(
        case,
        arm=replace(case.arm, flexion_from=0.0, shoulder_flexion=0.0),
        cable=replace(case.cable, guide_offset=0.0, loop_offset=0.0),
    )
    setting = baseline_setting(straight)
    ((answer,),) = run_in_node([{"data": arm_data(straight), "settings": [setting]}], tmp_path)
    assert differences(answer, in_python(straight, setting)) == []
    first, second = answer["pull"][:2]
    assert math.isclose(first, second, rel_tol=1e-3)  # neither nothing nor without bounds
