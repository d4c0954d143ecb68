"""The stance film: its clock, its scale, its words, and what it does with bad runs."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from invented_stances import Alignment, Comparison, comparison, crowded, curves, result
from simgait.pictures.film import FilmSummary, draw_film
from simgait.pictures.limb import FORCE_SCALE, SAMPLES, Sheet, View, draw_limb
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.poses import knee_lever, last_drawable, poses_at
from simgait.pictures.still import Layout, lay_out, static_layers, wrapped
from simgait.pictures.style import ACCENT, INK, PAPER, font
from simgait.pictures.wording import shown_runs


def _laid_out(case: Comparison) -> tuple[Layout, tuple[int, ...]]:
    shown = shown_runs(case)
    times = np.arange(0.0, 0.68, 0.02)
    return lay_out(case, shown, [poses_at(case.results[i].curves, times) for i in shown]), shown


def _frames(summary: FilmSummary) -> tuple[list[np.ndarray], list[int]]:
    pictures, shown_for = [], []
    with Image.open(summary.path) as film:
        for frame in range(film.n_frames):
            film.seek(frame)
            pictures.append(np.asarray(film.convert("RGB")))
            shown_for.append(film.info["duration"])
    return pictures, shown_for


def test_a_film_keeps_its_clock_size_and_cautions(tmp_path: Path) -> None:
    case = comparison(9)
    summary = draw_film(case, tmp_path / "film.gif")
    pictures, shown_for = _frames(summary)
    longest = max(float(r.curves.time[-1]) for r in case.results)
    assert len(pictures) == summary.frames == int(np.ceil(longest / 0.020)) + 1
    assert sum(shown_for[:-1]) / 1000.0 / (0.020 * (summary.frames - 1)) == pytest.approx(4.0)
    assert summary.slow_motion == pytest.approx(4.0)
    assert pictures[0].shape == (summary.height, summary.width, 3)
    assert summary.shown == (4, 0, 1, 2, 3, 5, 6, 7, 8)
    assert summary.path.stat().st_size < 3_000_000
    assert [file.name for file in tmp_path.iterdir()] == ["film.gif"]
    with Image.open(summary.path) as film:
        comment = film.info["comment"].decode()
    assert all(caution in comment for caution in case.cautions)


def test_every_frame_is_made_of_the_shared_palette(tmp_path: Path) -> None:
    pictures, _ = _frames(draw_film(comparison(2), tmp_path / "film.gif"))
    table = np.frombuffer(palette_bytes(), dtype=np.uint8).reshape(-1, 3)
    allowed = {tuple(colour) for colour in table.tolist()}
    for picture in (pictures[0], pictures[len(pictures) // 2], pictures[-1]):
        used = {tuple(c) for c in np.unique(picture.reshape(-1, 3), axis=0).tolist()}
        assert used <= allowed
        assert {PAPER, INK} <= used
    assert not np.array_equal(pictures[3], pictures[12])


def test_webp_when_the_name_says_so(tmp_path: Path) -> None:
    summary = draw_film(comparison(1), tmp_path / "film.webp")
    with Image.open(summary.path) as film:
        assert (film.format, film.n_frames) == ("WEBP", summary.frames)


def test_a_very_long_run_is_shown_less_slowed_rather_than_cut(tmp_path: Path) -> None:
    slow = result(Alignment())
    slow = replace(slow, curves=replace(slow.curves, time=slow.curves.time * 4.0))
    summary = draw_film(Comparison(results=(slow,)), tmp_path / "film.gif")
    assert summary.frames <= 48
    assert summary.slow_motion == pytest.approx(80.0 / 60.0)


@pytest.mark.parametrize("count", range(1, 10))
def test_only_the_baseline_has_a_thick_frame_and_a_filled_head(count: int) -> None:
    case = comparison(count)
    layout, shown = _laid_out(case)
    ink = np.asarray(static_layers(case, shown, layout, 4.0)[0])
    thick, filled = [], []
    for cell, index in enumerate(shown):
        x, y = layout.corner(cell)
        if ink[y + 40, x - 4 : x - 1].min() > 200:
            thick.append(index)
        if np.median(ink[y - layout.label_height + 1 : y - 4, x + 2 : x + 40]) > 200:
            filled.append(index)
    assert thick == filled == [case.baseline]


@pytest.mark.parametrize("case", [*map(comparison, range(1, 10)), crowded(), comparison(27)])
def test_words_stay_in_their_cells_and_on_the_canvas(case: Comparison) -> None:
    layout, shown = _laid_out(case)
    width = layout.size[0]
    for lines in layout.labels:
        assert all(font(13, True).getlength(line) <= layout.view.width - 36 for line in lines)
    for line in (*layout.cautions, *layout.heading):
        assert font(13).getlength(line) <= width - 32
    assert " ".join(layout.cautions) == " ".join(case.cautions)
    ink, accent = static_layers(case, shown, layout, 4.0)
    drawn = np.asarray(ink).astype(int) + np.asarray(accent)
    assert drawn[:, :8].max() == drawn[:, -8:].max() == 0
    assert drawn[-3:].max() == drawn[:3].max() == 0
    x, y = layout.corner(len(shown))
    assert x + layout.view.width <= width
    under = drawn[y + layout.view.height + 1 : y + layout.view.height + 5, x : x + 200]
    assert under.max() == 0


def test_wrapping_loses_no_word() -> None:
    words = "a bb ccc dddd eeeee ffffff"
    lines = wrapped(words, 60.0, 13)
    assert len(lines) > 1
    assert " ".join(lines) == words


def test_the_limb_is_drawn_to_scale_and_the_arrow_to_body_weight() -> None:
    stance = curves(Alignment())
    poses = poses_at(stance, np.array([0.33]))
    assert poses is not None
    view = View(left=-0.6, bottom=-0.15, scale=400.0, width=480, height=520)
    sheet = Sheet(view.width, view.height)
    draw_limb(sheet, view, poses, 0, 784.5)
    ((x, y),) = view.pixels(poses.hip[0])
    assert sheet.ink_layer.getpixel((int(x), int(y))) == 255
    rows = np.flatnonzero((np.asarray(sheet.accent_layer) == 255).any(axis=1))
    drawn = (rows[-1] - rows[0]) / SAMPLES / view.scale
    assert drawn == pytest.approx(FORCE_SCALE * float(poses.force[0, 1]) / 784.5, abs=0.006)
    floor = round((view.height + view.bottom * view.scale) * SAMPLES)
    below = np.asarray(sheet.ink_layer)[floor + 4 * SAMPLES :]
    assert below.max() == 0  # a sole pressed in is laid on the floor, not drawn under it


@pytest.mark.parametrize("force", [(0.0, 800.0), (-120.0, 700.0), (150.0, 650.0)])
@pytest.mark.parametrize("pressure", [-0.08, 0.0, 0.14])
def test_the_lever_is_the_moment_of_the_force_over_its_size(
    force: tuple[float, float], pressure: float
) -> None:
    knee, push = np.array([0.03, 0.5]), np.array(force)
    lever = knee_lever(knee, pressure, push)
    assert lever is not None
    foot, length = lever
    turning = (pressure - knee[0]) * push[1] - (0.0 - knee[1]) * push[0]
    assert length == pytest.approx(-turning / np.hypot(*push), abs=1e-12)
    assert (foot - knee) @ push == pytest.approx(0.0, abs=1e-9)
    assert np.hypot(*(foot - knee)) == pytest.approx(abs(length), abs=1e-12)


def test_no_lever_without_a_force() -> None:
    knee = np.array([0.0, 0.5])
    assert knee_lever(knee, float("nan"), np.array([0.0, 500.0])) is None
    assert knee_lever(knee, 0.0, np.zeros(2)) is None


def test_poses_are_linear_between_instants_and_held_at_the_end() -> None:
    stance = curves(Alignment(), share=0.6)
    end = float(stance.time[-1])
    middle = 0.5 * float(stance.time[10] + stance.time[11])
    poses = poses_at(stance, np.array([0.0, middle, end, end + 0.2]))
    assert poses is not None
    assert poses.hip[1] == pytest.approx(0.5 * (stance.hip[10] + stance.hip[11]))
    assert poses.hip[3] == pytest.approx(stance.hip[-1])
    assert poses.done.tolist() == [False, False, False, True]
    broken = stance.hip.copy()
    broken[200:] = np.nan
    assert last_drawable(replace(stance, hip=broken)) == 199
    assert poses_at(replace(stance, hip=np.full_like(broken, np.nan)), np.zeros(1)) is None


def test_a_badly_ended_run_gets_a_cross_in_its_own_panel_only(tmp_path: Path) -> None:
    case = comparison(2, bad=True)
    case = replace(case, baseline=0)
    summary = draw_film(case, tmp_path / "film.gif")
    pictures, _ = _frames(summary)
    layout, shown = _laid_out(case)
    crossed = []
    for cell, index in enumerate(shown):
        x, y = layout.corner(cell)
        corner = pictures[-1][y + 8 : y + 30, x + 8 : x + 30].reshape(-1, 3).tolist()
        if list(ACCENT) in corner:
            crossed.append(index)
    assert crossed == [1]
    assert list(ACCENT) not in pictures[5][y + 8 : y + 30, x + 8 : x + 30].reshape(-1, 3).tolist()


def test_blank_is_paper_full_ink_is_ink_and_accent_covers_both() -> None:
    strengths = ((0, 0, PAPER), (255, 0, INK), (0, 255, ACCENT), (255, 255, ACCENT))
    for ink, accent, colour in strengths:
        layers = Image.new("L", (2, 2), ink), Image.new("L", (2, 2), accent)
        picture = inked(*layers, palette_bytes()).convert("RGB")
        assert picture.getpixel((0, 0)) == colour
