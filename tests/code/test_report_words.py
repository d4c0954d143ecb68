"""The words of a report follow from its numbers, also where the effect goes the other way."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from itertools import permutations
from types import MappingProxyType

import numpy as np
import pytest

from simgait.case import read_case
from simgait.library import models_folder
from simgait.report.causes import Instant, instant_of, parts_of_change
from simgait.report.effects import EFFECTS, effect_words
from simgait.report.words import MOMENTS, change_words, reasons, sentences
from simgait.stance import Comparison, compare
from simgait.stance.uncertainty import Spread
from simgait.symbols import BY_NAME

AT_LOADING = Instant(
    percent=20.0, moment=16.0, force=760.0, lean=-0.16, ahead=-0.063, ankle_ahead=-0.02, height=0.5
)
COURSE = re.compile(
    r"(the moment that \w+ the knee(?: back)?) (?:(grows|falls) from (-?[\d.]+) to (-?[\d.]+) N|"
    r"falls from (-?[\d.]+) N m/kg to nothing|(stays) at (-?[\d.]+) N|(is nothing))"
)
SHARE = re.compile(r"\(([+-][\d.]+)\)")
SURE = Spread(difference=1.0, low=0.9, high=1.1, unknown=0.1, pairs=100)
SMALL = Spread(difference=1.0, low=0.9, high=1.1, unknown=2.0, pairs=100)
TURNED = Spread(difference=1.0, low=-0.1, high=2.0, unknown=0.1, pairs=100)


@cache
def compared(name: str) -> Comparison:
    return compare(read_case(models_folder() / "cases" / f"{name}.toml"))


def with_moment(instant: Instant) -> Instant:
    """The instant with the moment that its force's line gives."""
    return replace(instant, moment=instant.force * instant.lever)


def test_a_shorter_lever_under_a_larger_force_is_told_as_against_it() -> None:
    before = with_moment(AT_LOADING)
    after = with_moment(replace(AT_LOADING, force=1400.0, ahead=-0.066))
    assert after.moment > before.moment
    assert 0.0 < after.lever < before.lever
    words = reasons(before, after, 1.0, 80.0)
    why, against = words.split("Against this:")
    assert "the force is larger (1400 instead of 760 N)" in why
    assert "the pressure under the foot lies 66 instead of 63 mm ahead of the knee" in against
    assert "The force passes 15 instead of 17 mm behind the knee." in words


def test_the_same_change_has_the_opposite_share_for_the_opposite_moment() -> None:
    before, after = with_moment(AT_LOADING), with_moment(replace(AT_LOADING, ahead=-0.055))
    bending, back = (reasons(before, after, sense, 80.0) for sense in (1.0, -1.0))
    assert float(SHARE.findall(bending)[0]) == -float(SHARE.findall(back)[0]) != 0.0


def test_a_line_that_changes_its_side_of_the_knee_says_both_sides() -> None:
    before = with_moment(replace(AT_LOADING, lean=0.0, ahead=0.004))
    after = with_moment(replace(AT_LOADING, lean=0.0, ahead=-0.005))
    assert "passes 5 mm ahead of the knee instead of 4 mm behind the knee" in reasons(
        before, after, 1.0, 80.0
    )


def test_causes_stand_on_the_side_of_the_change_whatever_the_instants() -> None:
    for seed in range(300):
        rng = np.random.default_rng(seed)
        before, after = (
            Instant(
                percent=20.0,
                moment=rng.uniform(-60.0, 60.0),
                force=rng.uniform(300.0, 1300.0),
                lean=rng.uniform(-0.25, 0.25),
                ahead=rng.uniform(-0.15, 0.15),
                ankle_ahead=rng.uniform(-0.15, 0.15),
                height=rng.uniform(0.4, 0.55),
            )
            for _ in range(2)
        )
        sense = 1.0 if seed % 2 else -1.0
        words = reasons(before, after, sense, 80.0)
        why, _, against = words.partition("Against this:")
        change = sense * (after.moment - before.moment)
        assert all(float(share) * change > 0.0 for share in SHARE.findall(why))
        assert all(float(share) * change < 0.0 for share in SHARE.findall(against))
        shares = [sense * part / 80.0 for part in parts_of_change(before, after).values()]
        for said in map(float, SHARE.findall(words)):
            assert min(abs(said - share) for share in shares) < 0.0006
        if "the force is larger" in words:
            assert after.force > before.force
        if "the force is smaller" in words:
            assert after.force < before.force


@pytest.mark.parametrize(
    "name", ["everyday", "heavy-worker", "heel-height-change", "short-residual-limb"]
)
def test_every_course_that_is_told_is_that_of_the_measures(name: str) -> None:
    runs, told = compared(name).results, set()
    for base, other in permutations(runs, 2):
        for sentence in sentences(base, other, {}):
            found = COURSE.search(sentence)
            if found is None:
                continue
            moment = next(each for each in MOMENTS if each.noun == found[1])
            before, after = (run.measures[moment.measure] for run in (base, other))
            if found[2]:
                assert (found[2] == "grows") == (after > before)
                assert (float(found[3]), float(found[4])) == (round(before, 3), round(after, 3))
            elif found[5]:
                assert (float(found[5]), round(after, 3)) == (round(before, 3), 0.0)
            elif found[6]:
                assert float(found[7]) == round(before, 3) == round(after, 3)
            else:
                assert max(before, after) < 0.0005
            told.add(found[2])
    assert told >= {"grows", "falls"}


def test_foot_forward_and_foot_back_are_told_the_opposite_way() -> None:
    comparison = compared("everyday")
    base = comparison.results[comparison.baseline]
    back, forward = comparison.results[1], comparison.results[7]
    assert change_words(base, back) == "foot 10 mm further back"
    assert change_words(base, forward) == "foot 10 mm further forward"
    first = [" ".join(sentences(base, other, {})) for other in (back, forward)]
    assert "the moment that bends the knee grows" in first[0]
    assert "the moment that forces the knee back falls" in first[0]
    assert "the moment that bends the knee falls" in first[1]
    assert "the moment that forces the knee back grows" in first[1]
    assert "the body drops harder" in first[0]
    assert "the body drops more softly" in first[1]


@pytest.mark.parametrize("ends", [(1.0, 2.0), (2.0, 1.0)])
def test_effects_are_told_by_sign_and_set_apart_by_their_spread(ends: tuple[float, float]) -> None:
    run = compared("everyday").results[0]
    for name, (more, less) in EFFECTS.items():
        base, other = (
            replace(run, measures=MappingProxyType({**run.measures, name: end})) for end in ends
        )
        word, wrong = (more, less) if ends[1] > ends[0] else (less, more)
        title = BY_NAME[name].title.replace(", ", " ")
        sure = [s for s in sentences(base, other, {name: SURE}) if "more than the errors" in s]
        assert any(word in sentence for sentence in sure)
        assert not any(wrong in sentence for sentence in sure)
        small = sentences(base, other, {name: SMALL})
        assert any(s.startswith("By less") and title in s for s in small)


@pytest.mark.parametrize(
    ("name", "before", "after", "told", "not_told"),
    [
        ("knee_flexion_least_deg", 6.0, 2.0, "comes straighter", "beyond"),
        ("knee_flexion_least_deg", 2.0, 6.0, "more bent", "beyond"),
        ("knee_flexion_least_deg", 2.0, -5.0, "forced back beyond straight, by 5.0 deg", "comes"),
        ("knee_flexion_least_deg", -1.2, -6.6, "further back beyond straight", "straighter"),
        ("knee_flexion_least_deg", -6.6, -1.2, "less far back beyond straight", "bent"),
        ("knee_flexion_least_deg", -3.0, 2.0, "no longer forced back", "more bent"),
        ("drop_off", 0.2, 0.1, "drops more softly", "climbs"),
        ("drop_off", 0.02, -0.05, "no longer drops but still climbs", "softly"),
        ("drop_off", -0.05, -0.02, "still climbs when the other foot comes, more slowly", "drops"),
        ("drop_off", -0.02, -0.05, "still climbs when the other foot comes, faster", "drops"),
        ("drop_off", -0.02, 0.05, "drops onto the other leg, where", "harder"),
    ],
)
def test_an_effect_is_told_by_where_it_lies(
    name: str, before: float, after: float, told: str, not_told: str
) -> None:
    base = compared("everyday").results[4]
    runs = [
        replace(base, measures=MappingProxyType({**base.measures, name: value}))
        for value in (before, after)
    ]
    (said,) = [each for each in sentences(*runs, {}) if each.startswith("Also")]
    assert told in said
    assert effect_words(name, before, after) in said
    assert not_told not in said


def test_a_moment_says_how_sure_its_change_is() -> None:
    comparison = compared("everyday")
    base, other = comparison.results[comparison.baseline], comparison.results[7]
    measure = MOMENTS[0].measure
    for spread, words in (
        (SURE, "more than the errors of measurement leave unknown"),
        (SMALL, "surely in this sense, but by less"),
        (TURNED, "which the errors of measurement could turn round"),
    ):
        assert words in sentences(base, other, {measure: spread})[0]
    assert "errors" not in sentences(base, other, {})[0]


def test_a_stance_that_fell_is_compared_with_nothing() -> None:
    comparison = compared("everyday")
    base = comparison.results[comparison.baseline]
    nothing = MappingProxyType(dict.fromkeys(base.measures, float("nan")))
    fell = replace(base, ending="knee_collapsed", measures=nothing)
    for first, second, who in ((base, fell, "This stance"), (fell, base, "The baseline")):
        (only,) = sentences(first, second, {})
        assert only.startswith(f"{who} did not end at the toe: knee collapsed")
        assert "nothing is compared" in only


def test_a_peak_that_never_comes_is_nothing_and_has_no_cause() -> None:
    comparison = compared("everyday")
    base = comparison.results[comparison.baseline]
    measure = MOMENTS[0].measure
    none = replace(base, measures=MappingProxyType({**base.measures, measure: 0.0}))
    told = sentences(base, none, {})[0]
    assert "falls from 0.210 N m/kg to nothing" in told
    assert "Why" not in told
    assert "is nothing, as in the baseline" in sentences(none, none, {})[0]


def test_an_instant_without_load_is_none() -> None:
    run = compared("everyday").results[0]
    assert instant_of(run, 20.0) is not None
    assert instant_of(run, float("nan")) is None
