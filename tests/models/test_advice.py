"""Advice against brute force, against `simgait compare`, and against common practice."""

import itertools
import json

import numpy as np
import pytest
from click.testing import CliRunner

from advised import WALKING, case_with_tables, complaint, text_with_tables
from simgait.advice.advising import advise
from simgait.advice.aims import aims_of, misses
from simgait.advice.axes import axes_of
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.command import main
from simgait.symbols import CAUTIONS
from simgait.symbols.complaints import COMPLAINTS

FOOT, TILT = "foot_forward_mm", "dorsiflexion_deg"
FEW = """
[adjust]
foot_forward_mm = { from = -8, to = 8, step = 2 }
dorsiflexion_deg = { from = -6, to = 6, step_turns = 0.5 }
socket_flexion_deg = "fixed"
length_change_mm = { from = -6, to = 6, step = 3 }
"""


def brute_force(case):
    """Return fewest axes, then the smallest size, over everything that the hardware allows."""
    axes, _ = axes_of(case)
    trials, now = Trials(case=case), setting_of(case)
    aims = aims_of(case, trials.outcomes(now[None]))
    rows = []
    for levels in itertools.product(*[axis.levels for axis in axes]):
        row = now.copy()
        for axis, level in zip(axes, levels, strict=True):
            row[WRITTEN_NAMES.index(axis.name)] = level
        rows.append(row)
    settings = np.array(rows)
    good = settings[(misses(aims, trials.outcomes(settings)) <= 0.0).all(axis=1)]
    spans = np.array([axis.span for axis in axes])
    places = [WRITTEN_NAMES.index(axis.name) for axis in axes]
    moves = np.abs(good[:, places] - now[places]) / spans
    counts, sizes = (moves > 0.0).sum(axis=1), moves.sum(axis=1)
    return min(
        ((int(c), round(float(s), 9)) for c, s in zip(counts, sizes, strict=True)), default=None
    )


@pytest.mark.parametrize("name", WALKING)
@pytest.mark.parametrize(
    "goal",
    [
        complaint("knee pushed forward at loading"),
        '[goal]\ncomplaints = ["knee forced back late", "limb feels long"]',
        "[goal]\nhip_rise_mm = { below = -20 }\ntoe_lever_mm = { near = 122, within = 3 }",
    ],
    ids=["loading", "two complaints", "numbers"],
)
def test_the_first_suggestion_is_the_smallest_that_brute_force_finds(name, goal):
    case = case_with_tables(name, goal + FEW)
    expected = brute_force(case)
    first = advise(case, draws=25).suggestions[0]
    if expected is None:
        assert not first.met
        return
    spans = {axis.name: axis.span for axis in axes_of(case)[0]}
    size = sum(abs(change) / spans[axis] for axis, change in first.changes.items())
    assert first.met
    if expected[0] <= 2:
        assert (len(first.changes), size) == (expected[0], pytest.approx(expected[1], abs=1e-6))
    else:
        assert len(first.changes) == expected[0] and size <= 1.25 * expected[1]


@pytest.mark.parametrize("name", WALKING)
def test_compare_agrees_that_the_goals_are_met(name, tmp_path):
    """The advised alignment goes into the case file, and the other verb reads it."""
    goal = complaint("knee forced back late")
    advice = advise(case_with_tables(name, goal), draws=25)
    assert advice.suggestions[0].met
    for each in advice.suggestions:
        file = tmp_path / "case.toml"
        file.write_text(text_with_tables(name, ""), encoding="utf-8")
        lists = "".join(
            f"{key} = [{value!r}]\n" for key, value in each.alignment.as_written().items()
        )
        file.write_text(file.read_text(encoding="utf-8") + f"[compare]\n{lists}", encoding="utf-8")
        answer = CliRunner().invoke(main, ["compare", str(file), "--json"])
        assert answer.exit_code == 0, answer.output
        runs = json.loads(answer.stdout)["runs"]
        then = runs[-1]["measures"]
        for aim in advice.aims:
            assert float(aim.missed(np.array([then[aim.measure]]))[0]) <= 1e-9
            assert then[aim.measure] == pytest.approx(each.measures[aim.measure], rel=1e-9)


@pytest.mark.parametrize("name", WALKING)
def test_a_knee_pushed_forward_is_answered_as_in_common_practice(name):
    """Foot forward, or toe down (common practice; from memory)."""
    case = case_with_tables(
        name,
        complaint("knee pushed forward at loading")
        + '\n[adjust]\nsocket_flexion_deg = "fixed"\nlength_change_mm = "fixed"',
    )
    advice = advise(case, draws=25)
    for each in advice.suggestions:
        assert each.met and each.changes
        assert each.changes.get(FOOT, 1.0) > 0.0 and each.changes.get(TILT, -1.0) < 0.0


def test_a_knee_forced_back_is_answered_the_other_way():
    advice = advise(case_with_tables("everyday", complaint("knee forced back late")), draws=25)
    for each in advice.suggestions:
        assert each.changes
        assert each.changes.get(FOOT, -1.0) < 0.0 and each.changes.get(TILT, 1.0) > 0.0


@pytest.mark.parametrize("name", list(COMPLAINTS))
def test_no_advice_goes_beyond_the_hardware(name):
    case = case_with_tables("heavy-worker", complaint(name) + FEW)
    axes = {axis.name: axis for axis in axes_of(case)[0]}
    advice = advise(case, draws=25)
    assert advice.suggestions and advice.cautions[: len(CAUTIONS)] == CAUTIONS
    for each in advice.suggestions:
        assert each.changes.keys() <= axes.keys()
        for axis, change in each.changes.items():
            reached = axes[axis].now + change
            assert np.abs(axes[axis].levels - reached).min() < 1e-8
        assert {axis for axis in each.changes if axis in each.turns} == {
            axis for axis in each.changes if axes[axis].turn is not None
        }
        for axis, turns in each.turns.items():
            assert turns * axes[axis].turn == pytest.approx(each.changes[axis], rel=1e-6)


def test_three_changes_are_found_where_two_do_not_do():
    """Goals made from an alignment three numbers away; nothing nearer was known to the search."""
    case = case_with_tables("everyday", "")
    far = setting_of(case) + np.array([8.0, 2.8, -2.8, -9.0, 0.0])
    there = Trials(case=case).outcomes(far[None]).measures(0)
    within = {
        "heel_lever_mm": 1.5,
        "hip_rise_mm": 1.0,
        "knee_flexion_least_deg": 0.3,
        "foot_flat_s": 0.004,
    }
    goal = "[goal]\n" + "\n".join(
        f"{name} = {{ near = {there[name]!r}, within = {span} }}" for name, span in within.items()
    )
    first = advise(case_with_tables("everyday", goal), draws=25).suggestions[0]
    assert first.met and len(first.changes) >= 3
    size = sum(
        abs(change) / (15.0 if name.endswith("_mm") else 5.6)
        for name, change in first.changes.items()
    )
    assert size <= 8.0 / 15.0 + 0.5 + 0.5 + 9.0 / 15.0 + 1e-9


@pytest.mark.parametrize("wanted", ["knee pushed forward at loading", "knee forced back late"])
def test_each_suggestion_is_another_set_and_no_smaller_one_would_do(wanted):
    """No set holds an earlier one; and any change taken back by one level misses an aim."""
    case = case_with_tables("everyday", complaint(wanted))
    suggestions = advise(case, draws=25).suggestions
    sets = [set(each.changes) for each in suggestions]
    assert 1 < len(sets) <= 4
    assert not any(one <= other for one, other in itertools.permutations(sets, 2))
    axes, _ = axes_of(case)
    trials, now = Trials(case=case), setting_of(case)
    aims = aims_of(case, trials.outcomes(now[None]))
    for each in suggestions:
        row = np.array([each.alignment.as_written()[name] for name in WRITTEN_NAMES])
        for axis in axes:
            if axis.name in each.changes:
                nearer = row.copy()
                at = int(np.argmin(np.abs(axis.levels - row[WRITTEN_NAMES.index(axis.name)])))
                inward = -1 if each.changes[axis.name] > 0.0 else 1
                nearer[WRITTEN_NAMES.index(axis.name)] = axis.levels[at + inward]
                assert misses(aims, trials.outcomes(nearer[None])).max() > 0.0


def test_a_surer_change_goes_farther_the_same_way_and_is_surer():
    told = 0
    for wanted in COMPLAINTS:
        for each in advise(case_with_tables("everyday", complaint(wanted)), draws=50).suggestions:
            if each.surer is None:
                continue
            told += 1
            assert each.met_share < 0.8 <= each.surer.met_share
            assert each.surer.changes.keys() == each.changes.keys()
            for name, change in each.surer.changes.items():
                assert change * each.changes[name] > 0.0
                assert abs(change) >= abs(each.changes[name])
    assert told > 0


def test_goals_that_are_met_ask_for_nothing():
    case = case_with_tables("everyday", "[goal]\nhip_rise_mm = { below = 0 }")
    first = advise(case, draws=25).suggestions[0]
    assert first.met and first.changes == {}


def test_what_cannot_be_had_is_told_with_what_fights():
    goal = (
        "[goal]\nknee_flexion_moment_peak_nm = { below = 12 }\n"
        "knee_extension_moment_peak_nm = { below = 15 }\nhip_rise_mm = { above = 200 }\n"
    )
    advice = advise(case_with_tables("everyday", goal), draws=25)
    assert not any(each.met for each in advice.suggestions)
    alone = [words for words in advice.fights if words.startswith("Nothing that was tried")]
    pairs = [words for words in advice.fights if words.startswith("These fight")]
    assert len(alone) == 1 and "hip rise above 200 mm" in alone[0]
    assert len(pairs) == 1 and "flexion moment" in pairs[0] and "extension moment" in pairs[0]


def test_a_weight_decides_a_compromise():
    def found(weight):
        goal = (
            f"[goal]\nknee_flexion_moment_peak_nm = {{ below = 12, weight = {weight} }}\n"
            "knee_extension_moment_peak_nm = { below = 15 }\n"
        )
        return advise(case_with_tables("everyday", goal), draws=25).suggestions[0].measures

    name = "knee_flexion_moment_peak_nm"
    assert found(20)[name] < found(0.05)[name] - 5.0


def test_intervals_hold_the_prediction_and_grow_with_nothing_but_error():
    advice = advise(case_with_tables("everyday", complaint("drops off the toe")), draws=200)
    for each in advice.suggestions:
        for aim in advice.aims:
            low, high = each.intervals[aim.measure]
            assert low < each.measures[aim.measure] < high
        assert 0.0 < each.met_share <= 1.0


def test_what_gets_worse_is_told():
    """Sliding the foot forward helps at loading and costs at the toe."""
    case = case_with_tables(
        "everyday",
        complaint("knee pushed forward at loading")
        + '\n[adjust]\nsocket_flexion_deg = "fixed"\ndorsiflexion_deg = "fixed"\n'
        'length_change_mm = "fixed"',
    )
    (each,) = advise(case, draws=25).suggestions
    assert "knee_extension_moment_peak_nm_kg" in {bad.measure for bad in each.worse}
    assert "pressed back harder" in each.confirm and each.confirm.startswith("Look at the wearer")


@pytest.mark.parametrize("name", WALKING[:2])
def test_advice_under_the_other_assumption_is_compares(name, tmp_path):
    """Each suggestion says what the wearer would do who adapts: as `simgait compare` has it."""
    goal = complaint("knee pushed forward at loading")
    advice = advise(case_with_tables(name, goal), draws=25)
    each = advice.suggestions[0]
    assert each.other is not None and each.other.assumption == "adapts"
    written = each.alignment.as_written()
    file = tmp_path / "case.toml"
    lists = "".join(f"{key} = [{value!r}]\n" for key, value in written.items())
    file.write_text(text_with_tables(name, "") + f"[compare]\n{lists}", encoding="utf-8")
    answer = CliRunner().invoke(main, ["compare", str(file), "--json", "--assumption", "adapts"])
    assert answer.exit_code == 0, answer.output
    then = json.loads(answer.stdout)["runs"][-1]["measures"]
    for measure in ("knee_flexion_moment_peak_nm_kg", "forward_thrust", "drop_off"):
        assert each.other.measures[measure] == pytest.approx(then[measure], rel=1e-6)
        assert each.other.measures[measure] != pytest.approx(each.measures[measure], rel=1e-6)


def test_advice_for_a_wearer_who_adapts_says_so_and_meets_the_goals_then():
    case = case_with_tables("everyday", complaint("knee pushed forward at loading"))
    advice = advise(case, draws=25, assumption="adapts")
    assert advice.assumption == "adapts" and advice.cautions[:1] != CAUTIONS[:1]
    assert any("quadratic fitted to" in words for words in advice.filled)
    keeps = advise(case, draws=25)
    for each in advice.suggestions:
        assert each.met and each.other is not None and each.other.assumption == "keeps"
    assert advice.suggestions[0].measures != keeps.suggestions[0].measures


@pytest.mark.parametrize(
    ("name", "said"),
    [("everyday", "knee forced back late"), ("length-mismatch", "drops off the toe")],
)
def test_compare_agrees_for_a_wearer_who_adapts(name, said, tmp_path):
    """A quadratic stands in for adapting in the search; what is advised must not hang on it."""
    advice = advise(case_with_tables(name, complaint(said)), draws=25, assumption="adapts")
    assert advice.suggestions
    for each in advice.suggestions:
        file = tmp_path / "case.toml"
        lists = "".join(
            f"{key} = [{value!r}]\n" for key, value in each.alignment.as_written().items()
        )
        file.write_text(text_with_tables(name, "") + f"[compare]\n{lists}", encoding="utf-8")
        words = ["compare", str(file), "--json", "--assumption", "adapts"]
        answer = CliRunner().invoke(main, words)
        assert answer.exit_code == 0, answer.output
        then = json.loads(answer.stdout)["runs"][-1]["measures"]
        for aim in advice.aims:
            assert each.met and float(aim.missed(np.array([then[aim.measure]]))[0]) <= 1e-9
            assert then[aim.measure] == pytest.approx(each.measures[aim.measure], rel=1e-6)
