"""The film and the still of tipping: clocks, turning, words, marks, and what comes from scenes."""

import math
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from invented_tippings import CAUTIONS, Pair, pairs, scene
from simgait.case import read_case
from simgait.library import models_folder
from simgait.pictures.film import FilmSummary
from simgait.pictures.limb import SAMPLES, Sheet
from simgait.pictures.shots import MARK_DEPTH, TiltedView, shot_of, turned
from simgait.pictures.style import ACCENT, font
from simgait.pictures.tipping import draw_tipping, pace_in_words, paces
from simgait.pictures.tipping_page import Page, page_of, paint_panel, sizes_in_words, static_page
from simgait.pictures.tipping_still import draw_tipping_still, told
from simgait.pictures.wearer import draw_wearer
from simgait.standing import stand
from simgait.tipping.filming import pair_of
from simgait.tipping.names import BY_NAME
from simgait.tipping.playing import QUIET, Threshold, play, ready

NOTES = (CAUTIONS, "0.0.test")


def _frames(summary: FilmSummary) -> tuple[list[np.ndarray], list[int]]:
    pictures, shown_for = [], []
    with Image.open(summary.path) as film:
        for frame in range(film.n_frames):
            film.seek(frame)
            pictures.append(np.asarray(film.convert("RGB")))
            shown_for.append(film.info["duration"])
    return pictures, shown_for


def _page(case: tuple[Pair, ...], columns: int = 3) -> Page:
    scenes = [s for each in case for s in (each.below, each.above) if s is not None]
    return page_of("Invented", NOTES, scenes, (len(case), columns, 2), 214, 1)


@pytest.mark.parametrize("count", [1, 4, 6])
def test_a_film_plays_a_few_seconds_and_is_small(tmp_path: Path, count: int) -> None:
    summary = draw_tipping("Invented", pairs()[:count], NOTES, tmp_path / "tip.gif")
    pictures, shown_for = _frames(summary)
    assert 2.5 <= sum(shown_for[:-1]) / 1000.0 <= 4.0
    assert shown_for[-1] >= 2000
    assert pictures[0].shape == (summary.height, summary.width, 3)
    assert summary.path.stat().st_size < 1_500_000
    assert [file.name for file in tmp_path.iterdir()] == ["tip.gif"]
    with Image.open(summary.path) as film:
        comment = film.info["comment"].decode()
    assert all(caution in comment for caution in CAUTIONS)


def test_a_gif_that_keeps_only_changes_shows_the_same_as_whole_frames(tmp_path: Path) -> None:
    kept, _ = _frames(draw_tipping("Invented", pairs()[:2], NOTES, tmp_path / "tip.gif"))
    whole, _ = _frames(draw_tipping("Invented", pairs()[:2], NOTES, tmp_path / "tip.webp"))
    assert len(kept) == len(whole)
    assert all(np.array_equal(a, b) for a, b in zip(kept, whole, strict=True))


def test_a_cross_stands_over_bad_endings_only_and_only_once_they_are_there(tmp_path: Path) -> None:
    case = pairs()[:4]
    pictures, _ = _frames(draw_tipping("Invented", case, NOTES, tmp_path / "tip.gif"))
    page = _page(case, 2)
    crossed: dict[int, list[tuple[int, int]]] = {0: [], -1: []}
    for frame, found in crossed.items():
        for cell in range(4):
            for panel in (0, 1):
                x, y = page.corner(cell, panel)
                over = pictures[frame][y - 22 : y - 3, x + 180 : x + 212].reshape(-1, 3)
                if list(ACCENT) in over.tolist():
                    found.append((cell, panel))
    assert crossed == {0: [], -1: [(0, 1), (1, 1), (2, 1), (3, 1)]}


@pytest.mark.parametrize("slope", [-0.3, 0.0, 0.2, 0.5])
def test_gravity_points_down_the_page(slope: float) -> None:
    pull = np.array([math.sin(slope), -math.cos(slope)])  # in the frame of the floor
    assert turned(pull, slope, 0.0) == pytest.approx([0.0, -1.0])
    assert turned(np.array([0.4, 0.0]), slope, 0.4) == pytest.approx([0.4, 0.0])


def test_the_mark_is_where_the_extrapolated_centre_is_on_the_turned_floor() -> None:
    case = pairs()[2]
    assert case.above is not None
    page = _page((case,), 1)
    shot = shot_of(case.above, np.array([99.0]))
    tilted = TiltedView(**vars(page.view), slope=float(shot.slope[0]), pivot=page.pivot)
    sheet = Sheet(page.view.width, page.view.height)
    draw_wearer(sheet, tilted, case.above, shot, 0, case.body_weight)
    x, y = tilted.place(float(shot.extrapolated[0]), -MARK_DEPTH)
    assert 0 < x < page.view.width
    assert 0 < y < page.view.height
    assert sheet.accent_layer.getpixel((round(x * SAMPLES), round(y * SAMPLES))) == 255
    middle = (float(shot.reach[0].sum()) / 2.0, -MARK_DEPTH)
    at = tilted.place(*middle)
    assert sheet.accent_layer.getpixel((round(at[0] * SAMPLES), round(at[1] * SAMPLES))) == 0


def test_nobody_is_cut_off() -> None:
    case = pairs()
    page = _page(case)
    sheet = Sheet(page.view.width, page.view.height)
    for each in case:
        for part in (each.below, each.above):
            if part is None:
                continue
            shot = shot_of(part, np.array([0.0, 0.3, 99.0]))
            for frame in range(3):
                ink, accent = paint_panel(sheet, page, part, shot, frame, each.body_weight)
                drawn = np.maximum(np.asarray(ink), np.asarray(accent))[: page.view.height]
                above = drawn[: page.view.height // 2]
                assert above[:, :2].max() == above[:, -3:-1].max() == above[:2, :-1].max() == 0
                assert np.asarray(accent)[page.view.height - 2].max() == 0


@pytest.mark.parametrize("count", range(1, 7))
def test_words_stay_on_the_page(count: int) -> None:
    case = pairs()[:count]
    page = _page(case, min(count, 3))
    layers = static_page(page, [("a", "b")] * count)
    drawn = np.maximum(*(np.asarray(layer) for layer in layers))
    assert drawn[:, :8].max() == drawn[:, -8:].max() == drawn[:3].max() == drawn[-3:].max() == 0
    rule = page.size[1] - 17 * len(page.cautions) - 15
    assert drawn[rule - 4 : rule - 1].max() == 0  # the key ends above the rule of the cautions
    assert all(font(13).getlength(line) <= page.size[0] - 32 for line in page.cautions)


def test_every_pair_runs_at_the_slowest_pace_that_fits() -> None:
    found = paces(pairs())
    assert found == (1.5, 1.0, 1.0 / 1.5, 0.5, 1.0, 3.0)
    assert [pace_in_words(each) for each in found[1:4]] == [
        "as fast as life",
        "1.5 times faster than life",
        "2 times faster than life",
    ]


def test_sizes_are_told_apart() -> None:
    case = pair_with(10.06, 10.13)
    assert sizes_in_words(case) == ("10.06\u00a0N\u00a0s", "10.13\u00a0N\u00a0s")
    assert sizes_in_words(pair_with(9.93, 10.04)) == ("9.93\u00a0N\u00a0s", "10.0\u00a0N\u00a0s")


def pair_with(low: float, high: float) -> Pair:
    below, above = scene("N s", low, "stays", 1.0, 1.0), scene("N s", high, "stays", 1.0, 1.0)
    return Pair(title="push", unit="N s", value=low, below=below, above=above)


def test_the_still_shows_when_the_mark_leaves_the_feet(tmp_path: Path) -> None:
    falls = scene("N s", 18.0, "steps_needed", 1.0, 2.0)
    times, words = told(falls)
    leaves = 2.0 * math.sqrt((0.135 - 0.02) / (1.2 * math.radians(18.0)))
    assert times[2] == pytest.approx(leaves, abs=0.006)
    assert times[3] == 2.0
    assert words == ("pushed", "", "goes beyond the feet", "")
    file = draw_tipping_still("Invented", pairs(), NOTES, tmp_path / "tip.png")
    with Image.open(file) as picture:
        assert all(caution in picture.info["Description"] for caution in CAUTIONS)
        assert picture.size[0] > 1200


def test_without_cautions_or_scenes_nothing_is_drawn(tmp_path: Path) -> None:
    for given, notes in ((pairs(), ((), "0")), ((), NOTES)):
        with pytest.raises(ValueError, match=r"cautions|threshold"):
            draw_tipping("Invented", given, notes, tmp_path / "tip.gif")
        with pytest.raises(ValueError, match=r"cautions|threshold"):
            draw_tipping_still("Invented", given, notes, tmp_path / "tip.png")
    with pytest.raises(ValueError, match="gif or"):
        draw_tipping("Invented", pairs(), NOTES, tmp_path / "tip.avi")
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize("name", ["backward_push_ns", "up_slope_deg", "toe_obstacle_mm"])
def test_what_is_filmed_is_what_was_played(name: str) -> None:
    both, _ = stand(read_case(models_folder() / "cases" / "everyday.toml"))
    who, trial, size = ready(both), BY_NAME[name], 2.0
    course = play(who, trial, size)
    found = Threshold(
        trial=trial,
        value=size,
        ending=course.ending,
        below=course,
        above=course,
        low=size,
        high=size,
        runs=1,
    )
    filmed = pair_of(who, found).below
    sunk = np.hypot(*(filmed.track.sole[-1] - filmed.under[-1]).T)
    if trial.unit == "deg":
        assert filmed.slope[-1] == pytest.approx(-math.radians(size))
        assert filmed.slope[course.time <= QUIET].max() == 0.0
    assert sunk.max() == pytest.approx(0.002 if trial.unit == "mm" else 0.0, abs=1e-9)
    if trial.unit == "mm":
        assert sunk[:5].max() == 0.0  # nothing under the heel
    assert filmed.push_sense == (-1.0 if trial.unit == "N s" else 0.0)
    track = filmed.track
    for n in (0, len(course.time) // 2, len(course.time) - 1):
        soles = (track.sole[n, :, 0], track.sound_sole[n, :, 0])
        heel = min(each[0] - (each[1] - each[0]) / 2.0 for each in soles)
        toe = max(each[-1] + (each[-1] - each[-2]) / 2.0 for each in soles)
        assert filmed.reach[n] == pytest.approx([heel, toe], abs=5e-4)
