"""What an arm's answer warns of."""

from __future__ import annotations

from pathlib import Path

import simgait
from simgait.arm.provenance import arm_cautions
from simgait.library import models_folder

ABOVE_ELBOW = models_folder() / "cases" / "arms" / "above-elbow.toml"


def cautions(folder: Path, old: str, new: str) -> str:
    """Return the cautions of the library's case after one change of its text."""
    text = ABOVE_ELBOW.read_text(encoding="utf-8")
    assert old in text
    path = folder / "arm.toml"
    path.write_text(text.replace(old, new), encoding="utf-8")
    return " ".join(arm_cautions(simgait.work_arm(simgait.read_arm_case(path))))


def test_an_assist_stronger_than_the_weight_is_warned_of(tmp_path: Path) -> None:
    own = "device_pull_n = 70\n"
    assert "rises by itself" not in cautions(tmp_path, own, own)
    assert "rises by itself" in cautions(tmp_path, own, own + "assist_nm = 5\n")


def test_a_device_that_tires_is_told_beside_a_lift_that_does_not(tmp_path: Path) -> None:
    own = "device_pull_n = 70\ndevice_start_pull_n = 60"
    assert "concerns lifting only" in cautions(tmp_path, own, own)
    light = "device_pull_n = 20\ndevice_start_pull_n = 20"
    assert "concerns lifting only" not in cautions(tmp_path, own, light)


def test_a_shoulder_that_can_hold_no_length_is_told(tmp_path: Path) -> None:
    own = "max_pull_n = 260\n"
    weak = own + "max_shoulder_moment_nm = 1.0\n"
    assert "No length that was tried" in cautions(tmp_path, own, weak)
    strong = own + "max_shoulder_moment_nm = 30.0\n"
    assert "No length that was tried" not in cautions(tmp_path, own, strong)
