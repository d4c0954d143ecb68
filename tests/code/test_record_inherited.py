"""What went on from an entry that was put right later; and numbers that have no unit."""

from __future__ import annotations

import json
from pathlib import Path

from records import run
from simgait.library import models_folder

EVERYDAY = models_folder() / "cases" / "everyday.toml"


def shown(path: Path) -> dict:
    made = run("show", path, "--json")
    assert made.exit_code == 0, made.output
    return json.loads(made.stdout)


def added(path: Path, *words: str | Path) -> dict:
    made = run("add", path, "--code", "W-17", *words, "--json")
    assert made.exit_code == 0, made.output
    return json.loads(made.stdout)


def test_what_went_on_from_an_entry_that_is_withdrawn_is_doubted_until_put_right(
    tmp_path: Path,
) -> None:
    path = tmp_path / "r.txt"
    added(path, "--case", EVERYDAY)
    added(path, "--set", "alignment.foot_forward_mm=-8")  # another wearer's
    added(path, "--set", "alignment.dorsiflexion_deg=3")  # goes on from it
    added(path, "--seen", "no alignment here")
    added(path, "--case", EVERYDAY)  # goes on from nothing
    assert shown(path)["problems"] == []
    made = run("add", path, "--code", "W-17", "--corrects", "2", "--withdraw", "--why", "not his")
    assert "entry 3 may have foot_forward_mm -8 from entry 2" in made.stderr
    (problem,) = shown(path)["problems"]
    assert problem["words"].startswith("entry 3 may have foot_forward_mm -8 from entry 2")
    whole = run("show", path).stdout
    assert "withdrawn: entry 2, by entry 6\n  why: not his" in whole
    added(path, "--corrects", "3", "--set", "alignment.foot_forward_mm=0")
    assert shown(path)["problems"] == []


def test_what_went_on_from_an_alignment_that_is_corrected_is_doubted(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    added(path, "--case", EVERYDAY)
    added(path, "--set", "alignment.foot_forward_mm=50", "--set", "alignment.heel_rise_mm=20")
    added(path, "--set", "alignment.dorsiflexion_deg=3")
    added(path, "--set", "alignment.foot_forward_mm=5")  # typed anew
    added(path, "--corrects", "2", "--set", "alignment.foot_forward_mm=5")
    words = [each["words"] for each in shown(path)["problems"]]
    assert [each.partition(" from ")[0] for each in words] == [
        "entry 3 may have foot_forward_mm 50"
    ]
    added(path, "--corrects", "1", "--measured", "walking_speed_m_s=1.0")
    assert len(shown(path)["problems"]) == 1


def test_a_measured_number_without_a_unit_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    made = run("add", path, "--code", "W-17", "--measured", "speed=3")
    assert made.exit_code == 2
    assert "has no unit in its name" in made.stderr
    assert not path.exists()
