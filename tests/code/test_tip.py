"""What `simgait tip` gives out, and that drawn pushes can be repeated, compared and stopped."""

from __future__ import annotations

import csv
import json
import math
import os
import signal
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner

from simgait.case import read_case
from simgait.command import main
from simgait.library import models_folder
from simgait.library.strengths import Strength
from simgait.limb import limb_of
from simgait.standing.names import GUARDS
from simgait.tipping import tip_limb
from simgait.tipping.draws import case_with, drawn, ending_of_draw, tally, wilson_interval
from simgait.tipping.names import STAYS, TRIALS

EVERYDAY = models_folder() / "cases" / "everyday.toml"
AGREED = {"forward_push_ns", "backward_push_ns", "down_slope_deg", "up_slope_deg"}


def run(*words: object) -> object:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def two(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A case that compares two alignments."""
    path = tmp_path_factory.mktemp("tip") / "two.toml"
    text = EVERYDAY.read_text(encoding="utf-8").split("[compare]")[0]
    path.write_text(text + "[compare]\nfoot_forward_mm = [0, 10]\n", encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def answered(two: Path) -> tuple[dict, Path]:
    out = two.parent / "answer"
    result = run("tip", two, "--draws", 6, "--seed", 3, "--push-ns", 15, "--out", out, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout), out


def test_the_agreed_names_are_there(answered) -> None:
    answer, _ = answered
    assert set(answer) >= AGREED
    assert all(answer[name] > 0.0 for name in AGREED)
    assert GUARDS in answer["cautions"]
    for entry in answer["runs"]:
        low, high = entry["interval"]
        assert 0.0 <= low <= entry["tip_share"] <= high <= 1.0
        assert sum(entry["endings"].values()) == 6
    assert [entry["alignment"]["foot_forward_mm"] for entry in answer["runs"]] == [0.0, 10.0]


def test_every_draw_is_written_with_what_was_drawn(answered) -> None:
    answer, out = answered
    with open(out / "tip_draws.csv", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [row["draw"] for row in rows] == [str(n) for n in range(6) for _ in range(2)]
    for place, entry in enumerate(answer["runs"]):
        tipped = [row["ending"] != STAYS for row in rows[place::2]]
        assert sum(tipped) / 6 == entry["tip_share"]
    # the alignments meet the same pushes and errors
    assert all(a["push_ns"] == b["push_ns"] for a, b in zip(rows[::2], rows[1::2], strict=True))
    assert len({row["push_ns"] for row in rows}) == 6
    assert sorted(path.name for path in out.iterdir()) == ["tip.gif", "tip.png", "tip_draws.csv"]


def test_a_draw_depends_on_seed_and_number_alone() -> None:
    case = read_case(EVERYDAY)
    in_turn = [drawn(case, 5, number) for number in range(18)]
    draw = drawn(case, 5, 17)
    assert draw == in_turn[17]
    assert draw != in_turn[16] and draw != drawn(case, 6, 17)
    assert case_with(case, draw).person.mass == case.person.mass + draw.mass


def test_a_small_push_stays_and_a_great_one_does_not() -> None:
    case = read_case(EVERYDAY)
    draw = drawn(case, 1, 1)
    for push, stays in ((1.0, True), (-1.0, True), (60.0, False), (-60.0, False)):
        ending = ending_of_draw(case, case.baseline, replace(draw, push=push))
        assert (ending == STAYS) is stays


def test_what_cannot_be_built_is_no_draw_that_stays() -> None:
    case = read_case(EVERYDAY)
    draw = replace(drawn(case, 1, 1), push=1.0)
    short = replace(draw, residual_limb=-0.2)  # shorter than nothing
    rows = [
        (ending_of_draw(case, case.baseline, each),) * len(case.settings) for each in (draw, short)
    ]
    share = tally(case, rows)[0]
    assert (share.count, share.tips, share.endings["cannot_be_built"]) == (1, 0, 1)


@pytest.mark.parametrize(("hits", "count"), [(0, 7), (3, 7), (7, 7), (41, 300)])
def test_the_interval_is_scipys(hits: int, count: int) -> None:
    from scipy.stats import binomtest

    low, high = wilson_interval(hits, count)
    theirs = binomtest(hits, count).proportion_ci(0.95, method="wilson")
    assert low == pytest.approx(theirs.low, abs=1e-6)
    assert high == pytest.approx(theirs.high, abs=1e-6)


def test_a_limb_that_cannot_stand_is_an_ending() -> None:
    case = read_case(EVERYDAY)
    limb = limb_of(case, replace(case.baseline, foot_forward=-0.05, dorsiflexion=0.244))
    found = tip_limb(limb, Strength(knee=0.02, hip=0.02, held=0.05))
    assert found.ending == "knee_gives_way"
    assert set(found.values) == {trial.name for trial in TRIALS}
    assert all(math.isnan(value) for value in found.values.values())
    assert found.pairs() == ()


def test_a_push_below_the_hip_is_refused(two: Path) -> None:
    result = run("tip", two, "--height-mm", "300", "--json")
    assert result.exit_code == 2
    assert "--height-mm" in result.stderr and "933 to 1760" in result.stderr


def test_json_alone_writes_nothing(two: Path, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("tip", two, "--json").exit_code == 0
    assert list(tmp_path.iterdir()) == []


def test_a_stopped_run_keeps_what_is_done(two: Path, tmp_path: Path) -> None:
    words = [sys.executable, "-c", "from simgait.command import main; main()", "tip", str(two)]
    words += ["--draws", "5000", "--out", str(tmp_path), "--json"]
    process = subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True
    )
    draws = tmp_path / "tip_draws.csv"
    deadline = time.monotonic() + 120.0
    while not (draws.exists() and draws.read_text().count("\n") > 4):
        assert process.poll() is None and time.monotonic() < deadline
        time.sleep(0.2)
    os.killpg(process.pid, signal.SIGINT)
    said, complaint = process.communicate(timeout=60)
    assert process.returncode == 130
    assert "stopped after" in complaint and "Traceback" not in complaint
    answer = json.loads(said)
    assert 0 < answer["draws"]["done"] < 5000
    assert draws.read_text().count("\n") == 1 + 2 * answer["draws"]["done"]


@pytest.mark.parametrize("push", ["nan", "inf", "0", "1e9"])
def test_a_size_of_pushes_that_is_none_is_refused(two: Path, push: str) -> None:
    result = run("tip", two, "--draws", "1", "--push-ns", push, "--json")
    assert result.exit_code == 2
    assert "--push-ns" in result.stderr and "0.1 to 100" in result.stderr


def test_what_is_in_the_way_is_said_before_anything_is_computed(two: Path, tmp_path: Path) -> None:
    (tmp_path / "tip_draws.csv").mkdir()
    result = run("tip", two, "--draws", "1", "--out", tmp_path)
    assert result.exit_code == 2
    assert "tip_draws.csv cannot be written" in result.stderr
    assert sorted(path.name for path in tmp_path.iterdir()) == ["tip_draws.csv"]


def test_nothing_of_an_earlier_run_is_left_beside_the_new(two: Path, tmp_path: Path) -> None:
    (tmp_path / "tip_draws.csv").write_text("old")
    assert run("tip", two, "--out", tmp_path).exit_code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["tip.gif", "tip.png"]


def test_nobody_is_said_to_stand_in_a_squat(tmp_path: Path) -> None:
    case = tmp_path / "squat.toml"
    text = EVERYDAY.read_text(encoding="utf-8").split("[alignment]")[0]
    settings = "foot_forward_mm = -60\ndorsiflexion_deg = 15\nsocket_flexion_deg = 25\n"
    case.write_text(text + f"[alignment]\n{settings}", encoding="utf-8")
    stood = json.loads(run("stand", case, "--json").stdout)
    assert stood["knee_flexion_deg"] == pytest.approx(30.0, abs=1e-6)
    assert stood["prosthesis_load_share"] < 0.5
    answer = json.loads(run("tip", case, "--json").stdout)
    assert all(answer[name] > 0.0 for name in AGREED)


def test_pairs_of_draws_compare_alignments() -> None:
    case = read_case(EVERYDAY)
    ours, theirs = (STAYS, "steps_needed"), ("knee_folds", STAYS)
    rows = [
        (ours if k < 3 else theirs) + ("cannot_be_built",) * (len(case.settings) - 2)
        for k in range(8)
    ]
    first, second, third = tally(case, rows)[:3]
    assert first.against(second) == (5, 3)
    assert second.against(first) == (3, 5)
    assert third.against(first) == (0, 0) and third.count == 0
