"""Stance films for showing: clock, motion, words, scale, looks, endings, and no flashes."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from film_reading import hearing, luminance, read_film
from invented_stances import Alignment, Comparison, comparison, crowded, curves, result
from simgait.errors import RangeError
from simgait.pictures.films.clock import HELD_MS, clock_of
from simgait.pictures.films.drawing import StanceFilm, draw_stance_film
from simgait.pictures.films.graphs import Growing, graph_boxes
from simgait.pictures.films.moving import draw_over
from simgait.pictures.films.page import KEY_BAR, page_of
from simgait.pictures.films.static import draw_static
from simgait.pictures.films.window import moved_together
from simgait.pictures.films.wish import CURVES, FilmWish
from simgait.pictures.limb import Sheet
from simgait.pictures.poses import knee_lever, poses_at
from simgait.pictures.style import ACCENT

USUAL = FilmWish(
    layout="side-by-side",
    together="hips",
    slow=None,
    curves=("knee-moment", "vertical-force"),
    width=480,
)
OVER = replace(USUAL, layout="overlaid")
FEW = 1.0  # times slower than life: a tenth of the usual frames, for what does not need more


def draw(
    folder: Path, case: Comparison, shown: tuple[int, ...], wish: FilmWish = USUAL
) -> StanceFilm:
    return draw_stance_film(case, folder / "film.gif", shown, wish)


def laid_out(case: Comparison, shown: tuple[int, ...], wish: FilmWish):
    results = [case.results[i] for i in shown]
    times = np.arange(0.0, 0.68, 0.01)
    tracks = [poses_at(each.curves, times) for each in results]
    if wish.overlaid:
        tracks = moved_together(tracks, wish.together)
    return page_of(case, shown, tracks, wish, 8.0), tracks, times


@pytest.mark.parametrize("slow", [1.0, 2.5, 8.0, 20.0])
def test_the_film_is_as_slow_as_asked_and_reaches_the_end(slow: float) -> None:
    case = comparison(2)
    clock = clock_of(case.results, slow)
    longest = max(float(r.curves.time[-1]) for r in case.results)
    played = clock.shown_ms / 1000.0 * (len(clock.times) - 1)
    assert played / float(clock.times[-1]) == pytest.approx(slow)
    assert longest <= clock.times[-1] + 1e-9 < longest + clock.times[1] + 1e-6
    assert clock.shown_ms % 10 == 0
    assert clock.shown_ms >= 50
    assert len(clock.times) <= 120


@pytest.mark.parametrize(("stretch", "least", "most"), [(0.2, 1.0, 2.0), (1.0, 5.0, 6.5)])
def test_unasked_a_stance_lasts_some_six_seconds(stretch: float, least: float, most: float) -> None:
    run = result(Alignment())
    run = replace(run, curves=replace(run.curves, time=run.curves.time * stretch))
    clock = clock_of([run], None)
    assert 1.0 <= clock.slow <= 10.0
    assert least <= clock.shown_ms / 1000.0 * len(clock.times) <= most


@pytest.mark.parametrize(
    "wish", [replace(USUAL, slow=4.0), replace(OVER, slow=4.0)], ids=["beside", "over"]
)
def test_frames_move_and_curves_grow(wish: FilmWish, tmp_path: Path) -> None:
    case = comparison(2)
    film = draw(tmp_path, case, (1, 0), wish)
    reel = read_film(film.path)
    assert reel.frames.shape == (film.frames, film.height, film.width, 3)
    assert reel.loop == 0
    assert reel.durations[-1] == HELD_MS
    assert len(set(reel.durations[:-1])) == 1
    page, _, _ = laid_out(case, (1, 0), wish)
    ends = min(float(r.curves.time[-1]) for r in case.results)
    still_walking = int(ends / 0.68 * film.frames) - 3
    for x, y in page.corners:
        limb = reel.frames[:, y : y + page.view.height - 60, x : x + page.view.width].astype(int)
        changed = (np.abs(np.diff(limb, axis=0)).max(axis=3) > 30).sum(axis=(1, 2))
        assert changed[:still_walking].min() > 20
    for box in page.graphs:
        inside = reel.frames[:, box.top : box.top + box.height, box.left : box.left + box.width]
        dark = (inside.max(axis=3) < 180).sum(axis=(1, 2))
        assert dark[-1] > dark[len(dark) // 2] + 40 > dark[3] + 80


def test_nothing_flashes(tmp_path: Path) -> None:
    for wish in (replace(USUAL, slow=FEW), replace(OVER, slow=FEW)):
        bright = luminance(
            read_film(draw(tmp_path, comparison(2, bad=True), (1, 0), wish).path).frames
        )
        changed = (np.abs(np.diff(bright, axis=0)) > 0.1).mean(axis=(1, 2))
        again = float((np.abs(bright[-1] - bright[0]) > 0.1).mean())
        assert 0.0 < changed.max() < 0.06
        assert again < 0.12


@pytest.mark.parametrize("width", [480, 720, 900, 1600])
@pytest.mark.parametrize("layout", ["side-by-side", "overlaid"])
def test_every_word_is_inside(
    width: int, layout: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    wish = replace(USUAL, width=width, layout=layout, slow=FEW, curves=tuple(CURVES))
    many = (0, 4, 2) if layout == "overlaid" else (0, 4, 2, 1)
    for case, shown in ((crowded(), many), (comparison(9), (4, 0)), (comparison(1), (0,))):
        with hearing(monkeypatch) as heard:
            draw(tmp_path, case, shown, wish)
        assert [word for word in heard if not word.inside] == []


@pytest.mark.parametrize("wish", [USUAL, OVER], ids=["beside", "over"])
def test_what_must_be_read_is_written(
    wish: FilmWish, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    case = comparison(9)
    with hearing(monkeypatch) as heard:
        draw(tmp_path, case, (4, 0), replace(wish, slow=2.0))
    said = " ".join(word.text for word in heard)
    for words in (
        case.title, *case.cautions, f"simgait {case.version}", "baseline: foot",
        "2 of 9 alignments", "2 times slower than life", "Knee moment, external [Nm/kg]", "200 mm",
        "body weight",
        "Vertical ground force", "toe-off at", "100 %", "knee lever +", "0.10 s", "foot + forward",
        "Thick sole",
    ):  # fmt: skip
        assert words.replace("\u00a0", " ") in said.replace("\u00a0", " "), words
    assert ("hips are together" in said) == wish.overlaid
    first_caution = next(word for word in heard if word.text.startswith(case.cautions[0][:20]))
    assert first_caution.fill == 255


def test_bars_are_to_scale() -> None:
    case, shown = comparison(2), (1, 0)
    wish = replace(USUAL, width=1600)
    page, _, _ = laid_out(case, shown, wish)
    ink, accent = draw_static(case, shown, wish, page, [])
    row = page.key_top + page.row // 2
    line = np.asarray(ink)[row, : page.margin + round(0.3 * page.view.scale)]
    assert (line == 255).sum() == pytest.approx(KEY_BAR * page.view.scale, abs=2.5)
    arrow = np.flatnonzero(np.asarray(accent)[row - 1] > 100)
    assert arrow[-1] - arrow[0] == pytest.approx(0.45 * page.view.scale, abs=3.0)


@pytest.mark.parametrize("together", ["hips", "ankles"])
def test_overlaid_limbs_are_moved_along_the_floor_and_keep_heights_and_levers(
    together: str,
) -> None:
    times = np.arange(0.0, 0.6, 0.02)
    made = [poses_at(curves(Alignment(foot_forward=shift)), times) for shift in (0.0, 0.02)]
    one, two = moved_together(made, together)
    assert one is made[0]
    joint = {"hips": "hip", "ankles": "ankle"}[together]
    assert getattr(two, joint)[:, 0] == pytest.approx(getattr(one, joint)[:, 0])
    assert not np.allclose(getattr(made[1], joint)[:, 0], getattr(one, joint)[:, 0])
    for name in ("hip", "knee", "ankle", "sole"):
        assert getattr(two, name)[..., 1] == pytest.approx(getattr(made[1], name)[..., 1])
    for frame in (8, 20):
        before, after = (
            knee_lever(each.knee[frame], float(each.pressure_x[frame]), each.force[frame])
            for each in (made[1], two)
        )
        assert after[1] == pytest.approx(before[1])
    assert moved_together([None, made[0]], together) == (None, made[0])


def test_the_first_of_overlaid_limbs_is_pale_and_lies_under() -> None:
    case = comparison(3)
    page, tracks, _ = laid_out(case, (1, 0), OVER)
    sheet = Sheet(page.view.width, page.view.height)
    ground = round(page.view.height + page.view.bottom * page.view.scale) - 2
    alone = draw_over(sheet, page, tracks[:1], 20, (1,), case.results[1:2])[0]
    both = draw_over(sheet, page, tracks, 20, (1, 0), [case.results[1], case.results[0]])[0]
    pale = np.asarray(alone)[:ground].astype(int)
    dark = np.asarray(both)[:ground].astype(int)
    assert 60 < pale.max() < 120
    assert dark.max() > 240
    assert (dark >= pale).all()


def test_a_curve_ends_where_its_run_does_and_stands_at_its_value() -> None:
    case = comparison(2, bad=True)
    times = np.linspace(0.0, 0.66, 67)
    (box,) = graph_boxes((CURVES["vertical-force"],), (10, 20, 400, 200), 14, 1)
    graph = Growing(box, case.results, times)
    for frame in range(len(times)):
        graph.grow(frame)
        if frame == 30:
            now = case.results[0].curves
            force = float(np.interp(times[30], now.time, now.force_up)) / 784.5
            most = max(float(r.curves.force_up.max()) for r in case.results) / 784.5
            share = (force + 0.06 * most) / (1.12 * most)  # a little is left free at both ends
            across = 10 + 3.4 * 14 + times[30] / 0.66 * box.width
            assert graph.heads[0][0] == pytest.approx(across, abs=1.0)
            assert graph.heads[0][1] == pytest.approx(box.top + (1 - share) * box.height, abs=1.0)
    ends = [box.left + float(r.curves.time[-1]) / 0.66 * box.width for r in case.results]
    assert ends[1] < ends[0]
    for head, end in zip(graph.heads, ends, strict=True):
        assert head[0] == pytest.approx(end, abs=3.0)
    drawn = np.flatnonzero(np.asarray(graph.curves()[0]).max(axis=0) > 60)
    assert drawn[-1] + box.left - 4 == pytest.approx(max(ends), abs=5.0)


def test_a_bad_ending_is_crossed_named_and_held(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    case = comparison(2, bad=True)
    for wish in (replace(USUAL, slow=FEW), replace(OVER, slow=FEW)):
        with hearing(monkeypatch) as heard:
            film = draw(tmp_path, case, (0, 1), wish)
        assert any("ended: fell forward at" in word.text for word in heard)
        frames = read_film(film.path).frames
        crossed = [(frame == ACCENT).all(axis=2) for frame in (frames[3], frames[-1])]
        page, _, _ = laid_out(case, (0, 1), wish)
        x, y = page.corners[-1]
        corner = (slice(y + 10, y + 28), slice(x + 10, x + 28))
        if wish.overlaid:
            top = y + round(page.view.height + page.view.bottom * page.view.scale)
            corner = (slice(top, y + page.view.height), slice(x + page.view.width - 28, None))
        assert crossed[0][corner].sum() == 0
        assert crossed[1][corner].sum() > 20


def test_a_run_without_instants_is_said_not_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lost = result(Alignment(foot_forward=0.01), "not_finite")
    nothing = {"time": np.full(400, np.nan), "hip": np.full((400, 2), np.nan)}
    lost = replace(lost, curves=replace(lost.curves, **nothing))
    case = Comparison(results=(result(Alignment()), lost))
    for wish in (replace(USUAL, slow=FEW), replace(OVER, slow=FEW)):
        with hearing(monkeypatch) as heard:
            draw(tmp_path, case, (0, 1), wish)
        assert any("not finite" in word.text for word in heard)


def test_the_same_film_has_the_same_bytes(tmp_path: Path) -> None:
    wish = replace(USUAL, slow=FEW)
    made = [draw(tmp_path, comparison(2), (1, 0), wish).path.read_bytes() for _ in range(2)]
    assert made[0] == made[1]
    assert [file.name for file in tmp_path.iterdir()] == ["film.gif"]


def test_two_runs_keep_below_three_megabytes(tmp_path: Path) -> None:
    wide = replace(OVER, width=1600, curves=tuple(CURVES)[:3])
    assert draw(tmp_path, comparison(2), (1, 0), wide).path.stat().st_size < 3_000_000


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("layout", "stacked"), ("together", "knees"), ("slow", 0.5), ("slow", float("nan")),
        ("slow", 21.0), ("curves", ("knee",)), ("width", 479), ("width", 1601),
    ],
)  # fmt: skip
def test_a_wish_out_of_range_is_refused(field: str, value: object) -> None:
    with pytest.raises(RangeError, match=r"allowed: "):
        replace(USUAL, **{field: value})


def test_nothing_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    case = comparison(2)
    with pytest.raises(ValueError, match="shows 1 to 3"):
        draw(tmp_path, comparison(9), (0, 1, 2, 3), OVER)
    with pytest.raises(ValueError, match="cautions"):
        draw(tmp_path, replace(case, cautions=()), (0,))
    with pytest.raises(ValueError, match=r"\.avi"):
        draw_stance_film(case, tmp_path / "film.avi", (0,), USUAL)

    def fail(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("PIL.Image.Image.save", fail)
    with pytest.raises(OSError, match="No space"):
        draw(tmp_path, case, (0,), replace(USUAL, slow=FEW))
    assert list(tmp_path.iterdir()) == []
