"""simgait advise and simgait causes, as a person or another program meets them."""

import json

import pytest
from click.testing import CliRunner

from advised import complaint, text_with_tables
from simgait.command import main
from simgait.library import models_folder
from simgait.symbols import BY_NAME, CAUTIONS

FITTING = models_folder() / "cases" / "fitting" / "pushed-forward.toml"


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def answer():
    done = run("advise", FITTING, "--json", "--draws", 25)
    assert done.exit_code == 0, done.output
    return json.loads(done.stdout)


def test_json_has_the_agreed_names(answer):
    assert {"goals", "suggestions", "assumption"} <= answer.keys()
    assert answer["assumption"] == "keeps"
    for each in answer["suggestions"]:
        assert {
            "changes",
            "turns",
            "measures",
            "intervals",
            "met",
            "worse",
            "confirm",
        } <= each.keys()
        assert set(each["measures"]) == set(BY_NAME) == set(each["intervals"])
        assert each["met"] is True and isinstance(each["confirm"], str)
        assert all(low <= high for low, high in each["intervals"].values())


def test_no_advice_without_cautions(answer):
    assert answer["cautions"][: len(CAUTIONS)] == list(CAUTIONS)
    told = run("advise", FITTING, "--draws", 25).output
    assert all(" ".join(caution.split())[:40] in " ".join(told.split()) for caution in CAUTIONS)


def test_goals_say_what_they_are_and_what_is_now(answer):
    own, *rest = answer["goals"]
    assert (own["measure"], own["below"], own["weight"]) == ("knee_extension_moment_peak_nm", 20, 2)
    assert own["complaint"] is None and own["now"] < 20
    assert {goal["complaint"] for goal in rest} == {"knee pushed forward at loading"}


def test_the_same_seed_gives_the_same_answer(answer):
    again = json.loads(run("advise", FITTING, "--json", "--draws", 25).stdout)
    assert again == answer
    other = json.loads(run("advise", FITTING, "--json", "--draws", 25, "--seed", 2).stdout)
    assert other["suggestions"][0]["intervals"] != answer["suggestions"][0]["intervals"]


def test_a_compromise_is_called_one(tmp_path):
    file = tmp_path / "case.toml"
    goals = (
        "[goal]\nknee_flexion_moment_peak_nm = { below = 10 }\n"
        "knee_extension_moment_peak_nm = { below = 10 }"
    )
    file.write_text(text_with_tables("everyday", goals), encoding="utf-8")
    told = run("advise", file, "--draws", 25).output
    assert "The best compromise" in told and "What stands in the way" in told
    answer = json.loads(run("advise", file, "--json", "--draws", 25).stdout)
    assert answer["suggestions"][0]["met"] is False and answer["fights"]


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        ("", "goal is missing"),
        (
            complaint("hip hikes") + '\n[adjust]\nfoot_forward_mm = "fixed"\n'
            'dorsiflexion_deg = "fixed"\nsocket_flexion_deg = "fixed"\nlength_change_mm = "fixed"',
            "adjust leaves nothing that may be changed",
        ),
    ],
)
def test_nothing_to_advise_is_refused(tables, said, tmp_path):
    file = tmp_path / "case.toml"
    file.write_text(text_with_tables("everyday", tables), encoding="utf-8")
    done = run("advise", file, "--json")
    assert (done.exit_code, done.stdout) == (2, "")
    assert done.stderr.startswith(f"{file}: {said}")
    assert "Traceback" not in done.output


def test_causes_as_json_and_as_text():
    answer = json.loads(run("causes", FITTING, "--json").stdout)
    assert sum(each["plausibility"] for each in answer["causes"]) == pytest.approx(1.0)
    assert answer["seen"][0]["word"] == "more" and answer["cautions"]
    told = run("causes", FITTING).output
    assert "cannot tell apart" in told and "9 in 10 between" in told


def test_causes_without_signs_are_refused(tmp_path):
    file = tmp_path / "case.toml"
    file.write_text(text_with_tables("everyday", ""), encoding="utf-8")
    done = run("causes", file)
    assert done.exit_code == 2 and "seen is missing" in done.stderr


def test_an_arms_case_is_refused():
    arm = next((models_folder() / "cases" / "arms").glob("*.toml"))
    for verb in ("advise", "causes"):
        done = run(verb, arm)
        assert done.exit_code == 2 and "Traceback" not in done.output
