"""simgait film: which runs it shows, what it writes, and what it refuses."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from invented_stances import Alignment, Comparison, result
from simgait.command import main
from simgait.library import models_folder
from simgait.stance.differing import most_different
from simgait.symbols import CAUTIONS, MAIN_MEASURES

CASES = models_folder() / "cases"
EVERYDAY = CASES / "everyday.toml"
ARM = CASES / "arms" / "above-elbow.toml"
QUICK = ("--width", "480", "--slow", "1")


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["film", *map(str, words)])


@pytest.fixture(scope="module")
def usual(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict, Path]:
    path = tmp_path_factory.mktemp("film") / "new" / "everyday.gif"
    made = run(EVERYDAY, "-o", path, "--json")
    assert made.exit_code == 0, made.output
    return json.loads(made.stdout), path


def test_unasked_it_shows_the_baseline_and_what_differs_most(usual) -> None:
    answer, path = usual
    assert answer["runs"][0] == 5
    assert set(answer["runs"][1:]) <= {1, 3, 7, 9}  # the corners of the grid
    assert len(answer["runs"]) == 3
    assert answer["cautions"][: len(CAUTIONS)] == list(CAUTIONS)
    with Image.open(path) as film:
        assert film.size == (answer["width"], answer["height"]) == (960, answer["height"])
        assert film.n_frames == answer["frames"]
        assert CAUTIONS[0] in film.info["comment"].decode()
    assert path.stat().st_size < 3_000_000
    assert [file.name for file in path.parent.iterdir()] == [path.name]


def test_unasked_narrow_and_overlaid_films_show_two(tmp_path: Path) -> None:
    for more in (QUICK, ("--layout", "overlaid", "--slow", "1")):
        made = run(EVERYDAY, "-o", tmp_path / "f.gif", *more, "--json")
        assert len(json.loads(made.stdout)["runs"]) == 2


def test_runs_are_shown_in_the_order_asked_and_the_baseline_first(tmp_path: Path) -> None:
    made = run(EVERYDAY, "-o", tmp_path / "f.webp", "--runs", "9, 1,5", *QUICK, "--json")
    answer = json.loads(made.stdout)
    assert (answer["runs"], answer["of"]) == ([5, 9, 1], 9)
    assert answer["slow_motion"] == 1.0
    with Image.open(tmp_path / "f.webp") as film:
        assert film.format == "WEBP"


def test_layouts_and_curves_change_the_picture(tmp_path: Path) -> None:
    drawn = []
    for more in (
        (),
        ("--layout", "overlaid"),
        ("--layout", "overlaid", "--together", "ankles"),
        ("--curves", "pressure"),
        ("--curves", "none"),
    ):
        made = run(EVERYDAY, "-o", tmp_path / "f.gif", "--runs", "5,9", *QUICK, *more)
        assert made.exit_code == 0, made.output
        with Image.open(tmp_path / "f.gif") as film:
            film.seek(8)
            drawn.append(np.asarray(film.convert("RGB")).tobytes())
    assert len(set(drawn)) == 5


def test_a_person_is_told_runs_size_cautions_and_file(tmp_path: Path) -> None:
    path = tmp_path / "f.gif"
    made = run(EVERYDAY, "-o", path, "--runs", "5,9", *QUICK)
    said = " ".join(made.output.split())
    for words in ("Runs 5, 9 of 9, side by side", "480 x", "1 times slower", *CAUTIONS, path.name):
        assert words in said


def test_an_arm_gives_the_film_of_its_lift(tmp_path: Path) -> None:
    made = run(ARM, "-o", tmp_path / "arm.webp", "--json")
    assert made.exit_code == 0, made.output
    answer = json.loads(made.stdout)
    assert answer["ending"] == "lifted"
    with Image.open(tmp_path / "arm.webp") as film:
        assert film.n_frames > 10


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((EVERYDAY, "-o", "f.gfi"), "'f.gfi' is no film's name (allowed: a name that ends in .gif"),
        ((EVERYDAY, "-o", "film"), "is no film's name"),
        ((EVERYDAY, "-o", "folder.gif"), "is a folder"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "1,10"), "10 is not a run of this case"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "0"), "nearest: 1"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "1,x"), "'x' is not a run's number"),
        ((EVERYDAY, "-o", "f.gif", "--runs", ""), "'' is not a run's number"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "1,²"), "is not a run's number"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "2,2"), "2 is said twice"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "1,2,3,4,5,6,7"), "too many for side-by-side"),
        ((EVERYDAY, "-o", "f.gif", "--runs", "1,2,3,4", "--layout", "overlaid"), "up to 3 runs"),
        ((EVERYDAY, "-o", "f.gif", "--curves", "knee"), "nearest: knee-moment"),
        ((EVERYDAY, "-o", "f.gif", "--curves", "pressure,pressure"), "is said twice"),
        ((EVERYDAY, "-o", "f.gif", "--slow", "0.5"), "allowed: 1 to 20; nearest: 1"),
        ((EVERYDAY, "-o", "f.gif", "--slow", "nan"), "is not finite"),
        ((EVERYDAY, "-o", "f.gif", "--width", "200"), "480 to 1600 pixels; nearest: 480"),
        ((EVERYDAY, "-o", "f.gif", "--together", "hips"), "without --layout overlaid"),
        ((EVERYDAY, "-o", "f.gif", "--layout", "stacked"), "stacked"),
        ((EVERYDAY,), "--out"),
        (("missing.toml", "-o", "f.gif"), "does not exist"),
        ((ARM, "-o", "f.gif", "--slow", "3"), "--slow: is for films of a stance"),
        ((CASES / "arms" / "forearm-level.toml", "-o", "f.gif"), "has no lift to film"),
        ((EVERYDAY, "-o", "a-file/f.gif"), "cannot be written"),
    ],
)
def test_what_is_refused(
    words: tuple[str | Path, ...], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "folder.gif").mkdir()
    (tmp_path / "a-file").write_text("", encoding="utf-8")
    made = run(*words)
    assert made.exit_code == 2, made.output
    assert said in made.output
    assert "Traceback" not in made.output
    assert sorted(file.name for file in tmp_path.iterdir()) == ["a-file", "folder.gif"]


def test_without_ffmpeg_an_mp4_is_refused_before_anything_runs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    for case in (EVERYDAY, ARM):
        made = run(case, "-o", tmp_path / "new" / "film.mp4")
        assert made.exit_code == 2
        assert "needs the program ffmpeg, which is not on PATH" in made.output
    assert list(tmp_path.iterdir()) == []


def test_an_older_film_stays_when_ffmpeg_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path / "ffmpeg"
    program.write_text("#!/bin/sh\necho broken >&2\nexit 1\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path))
    (tmp_path / "f.mp4").write_bytes(b"older")
    made = run(EVERYDAY, "-o", tmp_path / "f.mp4", "--runs", "5", *QUICK)
    assert made.exit_code == 2
    assert "ffmpeg made no film (exit code 1)" in made.output
    assert (tmp_path / "f.mp4").read_bytes() == b"older"
    assert sorted(file.name for file in tmp_path.iterdir()) == ["f.mp4", "ffmpeg"]


def measured(*values: float, ending: str = "toe_off"):
    """A run whose first main measures have these values, the others 1."""
    known = dict(zip(MAIN_MEASURES, values, strict=False))
    return replace(
        result(Alignment()), measures={name: known.get(name, 1.0) for name in MAIN_MEASURES},
        ending=ending,
    )  # fmt: skip


def test_the_most_different_runs_are_far_from_the_baseline_and_from_each_other() -> None:
    runs = (measured(9.0), measured(10.0), measured(0.0), measured(5.0), measured(0.4))
    case = Comparison(results=runs, baseline=3)
    assert most_different(case, 1) == (3,)
    assert most_different(case, 3) == (3, 1, 2)
    assert most_different(case, 9) == (3, 1, 2, 0, 4)


def test_a_run_that_ended_badly_is_most_different_and_equal_ones_are_left_out() -> None:
    bad = [measured(ending="fell_forward"), measured(ending="fell_backward")]
    case = Comparison(results=(measured(1.0), measured(1.0), *bad, measured(2.0)), baseline=0)
    assert most_different(case, 5) == (0, 2, 4)
    everyone_bad = Comparison(results=tuple(bad), baseline=1)
    assert most_different(everyone_bad, 2) == (1,)


def test_cautions_of_a_film_speak_of_the_runs_that_it_shows(tmp_path: Path) -> None:
    shown = {}
    for runs in ("1,2", "1,3"):
        made = run(doubted_case(tmp_path), "-o", tmp_path / "f.gif", "--runs", runs, *QUICK)
        assert made.exit_code == 0, made.output
        shown[runs] = " ".join(made.output.split())
    assert "Run 3: no walk to aim for; simgait compare says why." in shown["1,3"]
    assert "no walk to aim for" not in shown["1,2"] and "in the table" not in shown["1,3"]


def doubted_case(folder: Path) -> Path:
    """Return a case with three alignments, the last of which is no walk to aim for."""
    text = EVERYDAY.read_text(encoding="utf-8").split("[compare]")[0]
    for usual, other in (
        ("mass_kg = 80", "mass_kg = 58"), ("stature_mm = 1760", "stature_mm = 1590"),
        ('"carbon-leaf"', '"short-keel"'), ('"steady-transtibial"', '"weak-kneed-slow"'),
    ):  # fmt: skip
        assert usual in text
        text = text.replace(usual, other)
    path = folder / "doubted.toml"
    path.write_text(f"{text}[compare]\nfoot_forward_mm = [-10, 0, 20]\n", encoding="utf-8")
    return path


def test_the_film_of_a_lift_does_not_call_it_slow(tmp_path: Path) -> None:
    answer = json.loads(run(ARM, "-o", tmp_path / "arm.gif", "--json").stdout)
    said = " ".join(answer["cautions"])
    assert "that nobody steers" in said and "slow lifting by statics" not in said
    assert "Guard every trial on the wearer." in said
    with Image.open(tmp_path / "arm.gif") as film:
        assert answer["cautions"][0] in film.info["comment"].decode()
