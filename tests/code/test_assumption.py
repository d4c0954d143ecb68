"""What is assumed of the wearer, on the command line: keeps, adapts, or both beside each other."""

from __future__ import annotations

import json
from types import SimpleNamespace

import pandas as pd
import pytest
from click.testing import CliRunner

import simgait
from simgait.command import main
from simgait.errors import RangeError
from simgait.library import models_folder
from simgait.stance.disagreeing import disagreements
from simgait.symbols import ADAPTS_CAUTIONS, BY_NAME, CAUTIONS

EVERYDAY = models_folder() / "cases" / "everyday.toml"
CHANGES = {"hip_touch_down_deg", "hip_toe_off_deg", "knee_touch_down_deg", "knee_toe_off_deg"}
KEPT_KEYS = {"title", "runs", "baseline", "filled", "cautions", "sources", "version"}
RUN_KEYS = {"alignment", "ending", "measures", "remarks"}
FALLS = {"foot_forward_mm": -50, "dorsiflexion_deg": 12, "socket_flexion_deg": 23}


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def answered(*words):
    result = run(*words, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


@pytest.fixture(scope="module")
def answers():
    return {
        word: answered("compare", EVERYDAY, *(("--assumption", word) if word else ()))
        for word in ("", "keeps", "adapts", "both")
    }


def test_without_a_word_the_wearer_keeps_the_strategy(answers):
    assert answers[""] == answers["keeps"]
    assert set(answers[""]) == KEPT_KEYS | {"assumption"}
    assert answers[""]["assumption"] == "keeps"
    assert {frozenset(entry) for entry in answers[""]["runs"]} == {frozenset(RUN_KEYS)}
    assert answers[""]["cautions"] == list(CAUTIONS)


def test_a_wearer_who_adapts_says_how(answers):
    answer = answers["adapts"]
    assert answer["assumption"] == "adapts"
    assert answer["cautions"] == list(ADAPTS_CAUTIONS)
    assert {frozenset(entry) for entry in answer["runs"]} == {frozenset(RUN_KEYS | {"adaptation"})}
    assert {frozenset(entry["adaptation"]) for entry in answer["runs"]} == {frozenset(CHANGES)}
    own = answer["baseline"]
    assert set(answer["runs"][own]["adaptation"].values()) == {0.0}
    assert answer["runs"][own]["measures"] == answers["keeps"]["runs"][own]["measures"]
    others = [entry for place, entry in enumerate(answer["runs"]) if place != own]
    assert min(max(map(abs, entry["adaptation"].values())) for entry in others) > 0.1


def test_both_stand_beside_each_other(answers):
    both = answers["both"]
    assert both["assumption"] == "both"
    for entry, kept, adapts in zip(
        both["runs"], answers["keeps"]["runs"], answers["adapts"]["runs"], strict=True
    ):
        assert {key: entry[key] for key in RUN_KEYS} == kept
        assert {"alignment": entry["alignment"], **entry["adapts"]} == adapts
        assert set(entry["disagree"]) <= set(BY_NAME)
    assert both["cautions"] == [*CAUTIONS, ADAPTS_CAUTIONS[0]]


def test_both_are_written_and_printed(tmp_path, monkeypatch):
    monkeypatch.setenv("COLUMNS", "150")
    case = tmp_path / "two.toml"
    text = EVERYDAY.read_text(encoding="utf-8").split("[compare]")[0]
    case.write_text(text + "[compare]\nfoot_forward_mm = [0, 8]\n", encoding="utf-8")
    result = run("compare", case, "--assumption", "both", "--out", tmp_path / "out")
    assert result.exit_code == 0, result.output
    for words in ("keeps the same strategy", "The wearer adapts", "run 2: thigh lean +"):
        assert words in result.stdout
    assert "nowhere, in the measures of the table" in result.stdout
    names = {path.name for path in (tmp_path / "out").iterdir()}
    assert {"comparison_adapts.png", "stance_adapts.gif"} < names
    table = pd.read_csv(tmp_path / "out" / "table.csv")
    assert list(table["assumption"]) == ["keeps", "keeps", "adapts", "adapts"]
    assert table["hip_toe_off_deg"].notna().tolist() == [False, False, True, True]
    assert ADAPTS_CAUTIONS[0] in table["cautions"][3]


def test_one_stance_adapts_to_what_is_set(answers):
    words = ("--set", "alignment.foot_forward_mm=10", "--set", "alignment.dorsiflexion_deg=3")
    for word in ("keeps", "adapts"):
        single = answered("stance", EVERYDAY, *words, "--assumption", word)
        assert single["assumption"] == word
        assert single["measures"] == pytest.approx(answers[word]["runs"][-1]["measures"], rel=1e-9)
    both = answered("stance", EVERYDAY, *words, "--assumption", "both")
    assert both["measures"] == answers["keeps"]["runs"][-1]["measures"]
    assert both["adapts"]["measures"] == single["measures"]
    assert single["adaptation"] == both["adapts"]["adaptation"]
    assert "ledger" in both["adapts"]
    shown = run("stance", EVERYDAY, *words, "--assumption", "both").stdout
    assert "references moved: thigh lean +" in shown


def test_one_stance_without_another_alignment_has_nothing_to_adapt_to():
    single = answered("stance", EVERYDAY, "--assumption", "adapts", "--set", "person.mass_kg=90")
    assert set(single["adaptation"].values()) == {0.0}


def test_who_does_not_walk_is_not_adapted_and_that_is_said(tmp_path):
    case = tmp_path / "falls.toml"
    text = EVERYDAY.read_text(encoding="utf-8").split("[compare]")[0]
    given = "\n".join(f"{name} = [{value}]" for name, value in FALLS.items())
    case.write_text(f"{text}[compare]\n{given}\n", encoding="utf-8")
    answer = answered("compare", case, "--assumption", "adapts")
    (fallen,) = [e for e in answer["runs"] if e["ending"] != "toe_off"]
    assert fallen["adaptation"] is None
    number = 1 + answer["runs"].index(fallen)
    assert any(line.startswith(f"Run {number}: not adapted") for line in answer["cautions"])
    settings = [f"alignment.{name}={value}" for name, value in FALLS.items()]
    words = [word for setting in settings for word in ("--set", setting)]
    single = answered("stance", EVERYDAY, *words, "--assumption", "adapts")
    assert single["adaptation"] is None
    assert any(line.startswith("Not adapted") for line in single["cautions"])


@pytest.mark.parametrize("verb", ["compare", "stance"])
def test_without_a_walk_to_keep_the_case_is_refused(tmp_path, verb):
    case = tmp_path / "ice.toml"
    case.write_text(EVERYDAY.read_text(encoding="utf-8") + "[ground]\nfriction = 0.05\n")
    result = run(verb, case, "--assumption", "adapts", "--json")
    assert result.exit_code == 2
    assert "no walk to keep" in result.stderr
    assert result.stdout == ""
    assert run(verb, case, "--json").exit_code == 0


def test_another_assumption_is_refused():
    result = run("compare", EVERYDAY, "--assumption", "learns")
    assert result.exit_code == 2
    assert "keeps" in result.stderr
    with pytest.raises(RangeError, match="keeps, adapts"):
        simgait.compare(simgait.read_case(EVERYDAY), assumption="both")


def compared(*values):
    """Return what looks like a comparison: of two measures, one run a pair of values."""
    results = [
        SimpleNamespace(measures={"drop_off": first, "hip_rise_mm": second})
        for first, second in values
    ]
    return SimpleNamespace(results=results, baseline=0)


def test_only_changes_that_count_and_are_opposite_disagree():
    keeps = compared((1.0, 10.0), (2.0, 12.0), (1.5, 10.05), (2.0, float("nan")))
    adapts = compared((1.0, 10.0), (0.5, 13.0), (1.4, 8.0), (3.0, 9.0))
    found = disagreements(keeps, adapts, ("drop_off", "hip_rise_mm"))
    assert found == ((), ("drop_off",), (), ())
    # one that hardly moves points nowhere
    still = replace_run(adapts, 1, (0.99, 13.0))
    assert disagreements(keeps, still, ("drop_off",)) == ((), (), (), ())
    found = disagreements(keeps, replace_run(adapts, 2, (0.8, 8.0)), ("drop_off", "hip_rise_mm"))
    assert found == ((), ("drop_off",), ("drop_off",), ())


def replace_run(comparison, place, values):
    """Return a comparison of `compared` with one run's values replaced."""
    pairs = [tuple(result.measures.values()) for result in comparison.results]
    pairs[place] = values
    return compared(*pairs)
