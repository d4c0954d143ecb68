"""The verb arm: agreed names, what is written, and what is refused."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from simgait.arm.names import DEVICE, LENGTH, OWN_CAUTIONS, POSITION
from simgait.command import main
from simgait.library import models_folder

FOLDER = models_folder() / "cases" / "arms"
ABOVE, SHOULDER, FOREARM = (
    FOLDER / f"{name}.toml" for name in ("above-elbow", "shoulder-level", "forearm-level")
)
AGREED = {
    "positions", "recommended", "binding", "remedies", "lengths", "cautions", "sources", "version",
}  # fmt: skip
AGREED_POSITION = {
    "loop_mm", "peak_pull_n", "excursion_mm", "pull_at_90_n", "work_j", "ledger_error_percent",
    "feasible", "fatigue_free", "device_excursion_left_mm", "opens_while_lifting",
}  # fmt: skip
AGREED_LENGTH = {"forearm_change_mm", "shoulder_moment_nm", "inertia_kg_m2", "reach_mm"}


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["arm", *map(str, words)])


def answer(*words: str | Path) -> dict:
    result = run(*words, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_the_agreed_object(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    found = answer(ABOVE)
    assert set(found) >= AGREED
    assert list(tmp_path.iterdir()) == []  # with --json and no --out nothing is written
    assert len(found["positions"]) == 51 and len(found["lengths"]) == 13
    for row in found["positions"]:
        assert set(row) >= AGREED_POSITION
        assert len(row["pull_n"]) == len(row["lowering_pull_n"]) == len(found["flexion_deg"])
        assert row["ledger_error_percent"] < 0.1
    for row in found["lengths"]:
        assert set(row) >= AGREED_LENGTH
    assert found["recommended"]["feasible"] is True
    assert 0.0 < found["recommended"]["stays_feasible_share"] <= 1.0
    assert found["cautions"][: len(OWN_CAUTIONS)] == list(OWN_CAUTIONS)
    assert any("Hichert" in line for line in found["sources"])
    assert "+" in found["version"]


@pytest.mark.parametrize(("case", "kind"), [(ABOVE, POSITION), (ABOVE, LENGTH), (FOREARM, DEVICE)])
def test_every_documented_name_is_in_the_answer(case: Path, kind) -> None:
    found = answer(case)
    where = {POSITION: "positions", LENGTH: "lengths", DEVICE: "device"}[kind]
    row = found[where] if kind is DEVICE else found[where][0]
    assert {quantity.name for quantity in kind} <= set(row)


def test_tables_are_written_whole(tmp_path) -> None:
    found = answer(ABOVE, "--out", tmp_path / "deep" / "out")
    folder = tmp_path / "deep" / "out"
    assert sorted(path.name for path in folder.iterdir()) == [
        "arm.gif", "arm.png", "lengths.csv", "positions.csv",
    ]  # fmt: skip
    with (folder / "positions.csv").open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    assert [float(row["peak_pull_n"]) for row in rows] == [
        row["peak_pull_n"] for row in found["positions"]
    ]


def test_words_and_tables_in_a_terminal(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "150")
    result = run(SHOULDER)
    assert result.exit_code == 0, result.output
    for words in (
        "loop at 30 mm", "forearm changed by -38 mm", "Remedies:", "efficiency 0.83",
        OWN_CAUTIONS[-1], "positions.csv",
    ):  # fmt: skip
        assert words in result.stdout
    assert (tmp_path / "out" / "shoulder-level" / "lengths.csv").exists()


def test_nothing_fits_is_an_answer_not_a_failure(tmp_path) -> None:
    path = tmp_path / "weak.toml"
    text = ABOVE.read_text(encoding="utf-8").replace("max_pull_n = 260", "max_pull_n = 20")
    path.write_text(text, encoding="utf-8")
    found = answer(path)
    assert found["recommended"] is None
    assert {row["limit"] for row in found["binding"]} >= {"pull", "device_pull"}
    assert all(row["excess_at_nearest_percent"] >= 0.0 for row in found["binding"])
    assert len(found["remedies"]) == 6
    said = run(path, "--out", tmp_path / "out")
    assert "no position: none keeps within all limits" in said.stdout
    assert "What binds:" in said.stdout


def test_draws_and_seed(tmp_path) -> None:
    shares = [
        answer(ABOVE, "--draws", "400", "--seed", seed)["recommended"]["stays_feasible_share"]
        for seed in ("1", "1", "2")
    ]
    assert shares[0] == shares[1] != shares[2]
    assert answer(ABOVE, "--draws", "0")["recommended"]["stays_feasible_share"] is None


def test_refusals_are_lines_with_exit_code_two(tmp_path) -> None:
    path = tmp_path / "bad.toml"
    text = ABOVE.read_text(encoding="utf-8").replace("max_pull_n = 260", "max_pull_n = 0")
    path.write_text(text, encoding="utf-8")
    out = tmp_path / "out"
    result = run(path, "--out", out)
    assert result.exit_code == 2 and "Traceback" not in result.output
    assert "wearer.max_pull_n = 0 is out of range" in result.stderr
    assert not out.exists()
    assert run(models_folder() / "cases" / "everyday.toml").exit_code == 2
    other = CliRunner().invoke(main, ["stance", str(ABOVE)])
    assert other.exit_code == 2 and "simgait arm reads" in other.stderr


def test_a_forearm_level_arm_has_no_positions(tmp_path) -> None:
    found = answer(FOREARM)
    assert found["positions"] == [] and found["recommended"] is None
    assert found["device"]["efficient"] is True
    assert run(FOREARM, "--out", tmp_path).exit_code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["arm.png", "lengths.csv"]
