"""A study file: what it may say, and what is refused, with the name that was probably meant."""

import json

import pytest
from click.testing import CliRunner

from invented_studies import GRID, SAMPLE, written
from simgait import read_study_file
from simgait.command import main
from simgait.errors import CaseError

VARY = '[vary]\n"alignment.foot_forward_mm" = [0, 10]\n'
CASE = 'case = "everyday.toml"\n'


def refusal(tmp_path, text):
    with pytest.raises(CaseError) as caught:
        read_study_file(written(tmp_path, text))
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (CASE + '[vary]\n"alignment.foot_forwrd_mm" = [0]', "nearest: alignment.foot_forward_mm"),
        (CASE + '[vary]\n"foot.model" = ["frim"]', "nearest: firm"),
        (CASE + '[vary]\n"person.sex" = ["man"]', "female, male"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = []', "is empty"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = 5', "neither a list nor a range"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = [0, 700]', "-60 to 60"),
        (CASE + '[vary]\n"person.stature_mm" = [1.76]', "looks like metres"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = [0, 0]', "says a value twice"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = { from = 5, to = 5 }', "empty range"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = { from = 0, to = 5 }', "has no steps"),
        (CASE + '[vary]\n"alignment.foot_forward_mm" = { from = 0, to = 5, steps = 1 }', "count"),
        (CASE + '[vary]\n"foot.model" = { from = 0, to = 5 }', "has no range"),
        (CASE, "names nothing"),
        (VARY, "case is missing"),
        ('case = "a"\ncases = ["b"]\n' + VARY, "stands beside"),
        ("cases = []\n" + VARY, "are no paths"),
        ('case = "everyda.toml"\n' + VARY, "nearest: everyday.toml"),
        (CASE + "sed = 4\n" + VARY, "is not a key of a study"),
        (CASE + 'measures = ["hip_rise"]\n' + VARY, "nearest: hip_rise_mm"),
        (CASE + "keep_curves = [2]\n" + VARY, "0 to 1"),
        (CASE + "keep_curves = 3\n" + VARY, "true, false"),
        (CASE + "part_rows = 1\n" + VARY, "16 to 65536"),
        (CASE + VARY + '[sample]\nmethod = "sobl"\nsize = 4', "nearest: sobol"),
        (CASE + VARY + '[sample]\nmethod = "sobol"', "sample.size is missing"),
        (CASE + VARY + '[sample]\nmethod = "lhs"\nsize = -1', "a whole number"),
        (CASE + VARY + "[sample]\nseeds = 1", "nearest: seed"),
        (CASE + VARY + '[error]\n"person.mass_kg" = 0', "standard deviation above 0"),
        (CASE + VARY + '[error]\n"foot.model" = 1', "has no error"),
        (CASE + VARY + '[error]\n"walking.speed_m_s" = 0.1', "does not state"),
        (CASE + VARY + '[error]\n"person.mas_kg" = 1', "nearest: person.mass_kg"),
        (CASE + '[vary]\n"foot.heel_stiffness_n_mm" = [30, 40]', "a model and figures"),
    ],
)
def test_what_is_wrong_is_refused_and_said(tmp_path, text, said):
    assert said in refusal(tmp_path, text)


def test_a_study_file_that_is_not_there_is_said(tmp_path):
    written(tmp_path, CASE + VARY)
    with pytest.raises(CaseError, match=r"allowed: a study file; nearest: study.toml"):
        read_study_file(tmp_path / "stdy.toml")


def test_all_faults_come_at_once(tmp_path):
    said = refusal(tmp_path, 'measures = ["x"]\n' + VARY.replace("10", "1000"))
    assert len(said.splitlines()) == 3


def test_the_verb_refuses_with_code_2_and_writes_nothing(tmp_path):
    path = written(tmp_path, CASE + VARY.replace("10", "1000"))
    result = CliRunner().invoke(main, ["study", str(path), "--out", str(tmp_path / "out")])
    assert result.exit_code == 2
    assert result.stderr.count("\n") == 1 and "1000" in result.stderr
    assert not (tmp_path / "out").exists()


MANY = (
    CASE
    + """
[vary]
"alignment.foot_forward_mm" = { from = -10, to = 10, steps = 200 }
"alignment.dorsiflexion_deg" = { from = -5, to = 5, steps = 200 }
"""
)


def test_too_many_combinations_are_counted_and_only_run_if_asked(tmp_path):
    assert "40000 rows (200 x 200 combinations)" in refusal(tmp_path, MANY)
    path = written(tmp_path, MANY)
    assert read_study_file(path, ask_for_many=True).rows == 40000
    assert read_study_file(written(tmp_path, MANY + "[sample]\nmost = 40000")).rows == 40000


def test_names_without_quotes_are_understood(tmp_path):
    plain = CASE + "[vary]\nalignment.foot_forward_mm = [0, 10]\n"
    assert read_study_file(written(tmp_path, plain)).names == ("alignment.foot_forward_mm",)


@pytest.mark.parametrize("shard", ["0/2", "3/2", "1", "a/b", "-1/2"])
def test_shards_that_are_none_are_refused(tmp_path, shard):
    path = written(tmp_path, GRID)
    words = ["study", str(path), "--out", str(tmp_path / "out"), f"--shard={shard}"]
    result = CliRunner().invoke(main, words)
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)


@pytest.mark.parametrize("words", [["{}"], ["{}", "--report"], ["{}/none", "--report"]])
def test_a_folder_that_is_no_study_is_refused(tmp_path, words):
    result = CliRunner().invoke(main, ["study", *(word.format(tmp_path) for word in words)])
    assert (result.exit_code, result.stderr.count("\n")) == (2, 1)


def test_the_verb_prints_the_agreed_object_and_tells_it_again(tmp_path):
    path, out = written(tmp_path, SAMPLE), tmp_path / "out"
    ran = CliRunner().invoke(main, ["study", str(path), "--out", str(out), "--json"])
    told = CliRunner().invoke(main, ["study", str(out), "--report", "--json"])
    first, second = json.loads(ran.stdout), json.loads(told.stdout)
    agreed = {
        "out", "rows", "endings", "seconds", "rate_per_s", "resumed_rows", "cautions", "version",
    }  # fmt: skip
    assert set(first) == set(second) == agreed
    assert first["rows"] == second["rows"] == sum(first["endings"].values()) == 70
    assert first["resumed_rows"] == 0 and first["rate_per_s"] > 0.0
    assert first["endings"] == second["endings"] and first["cautions"] == second["cautions"]
    spoken = CliRunner().invoke(main, ["study", str(out), "--report"])
    assert "70 of 70 rows" in spoken.stdout and "Guard every trial" in spoken.stdout
