"""The comparison figure: what must be on it, legible in grey, whole or not at all."""

import itertools
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np
import pytest
from PIL import Image

from invented_stances import Alignment, Comparison, comparison, crowded, result
from simgait.files import write_whole
from simgait.pictures import draw_comparison, draw_film
from simgait.pictures.comparison import comparison_figure
from simgait.pictures.curves import number_places
from simgait.pictures.style import PAPER, line_looks
from simgait.pictures.wording import alignment_labels, shared_settings, shown_runs, sign_key


def _by_gid(figure: Any, gid: str) -> list[Any]:
    return figure.findobj(lambda artist: artist.get_gid() == gid)


def _texts(figure: Any) -> list[Any]:
    from matplotlib.text import Text

    return [text for text in figure.findobj(Text) if text.get_text() and text.get_visible()]


def _luminance(colour: tuple[int, int, int]) -> float:
    """Grey value 0 to 1 as ITU-R BT.601 weighs the colours, which is what a grey copy shows."""
    return (0.299 * colour[0] + 0.587 * colour[1] + 0.114 * colour[2]) / 255.0


def test_png_has_the_size_of_its_figure_and_carries_title_and_cautions(tmp_path: Path) -> None:
    case = comparison(9)
    summary = draw_comparison(case, tmp_path / "curves.png")
    with Image.open(summary.path) as picture:
        size, notes = picture.size, dict(picture.text)
    inches = comparison_figure(case).get_size_inches()
    assert size == pytest.approx(inches * 120, abs=1.0)
    assert notes["Title"] == case.title
    assert all(caution in notes["Description"] for caution in case.cautions)
    assert [file.name for file in tmp_path.iterdir()] == ["curves.png"]


def test_svg_is_well_formed_and_the_same_every_time(tmp_path: Path) -> None:
    for name in ("one.svg", "two.svg"):
        draw_comparison(comparison(2), tmp_path / name)
    first, second = (tmp_path / "one.svg").read_bytes(), (tmp_path / "two.svg").read_bytes()
    assert ElementTree.fromstring(first).tag.endswith("svg")
    assert first == second


def test_baseline_is_the_only_thick_solid_line_and_is_named() -> None:
    case = comparison(9)
    figure = comparison_figure(case)
    own = f"run {case.baseline + 1}"
    widths = {f"run {i + 1}": _by_gid(figure, f"run {i + 1}") for i in range(9)}
    assert all(len(lines) == 4 for lines in widths.values())
    thick = {gid for gid, lines in widths.items() if lines[0].get_linewidth() > 2.0}
    assert thick == {own}
    assert widths[own][0].get_linestyle() == "-"
    (label,) = _by_gid(figure, f"label {case.baseline + 1}")
    assert label.get_text().startswith("baseline: ")
    peak = case.results[case.baseline].measures["knee_flexion_moment_peak_nm_kg"]
    bold = [t.get_text() for t in _texts(figure) if t.get_fontweight() == "bold"]
    assert f"{peak:.2f}" in bold


@pytest.mark.parametrize("case", [comparison(1), comparison(2), comparison(9), crowded()])
def test_every_word_is_inside_the_canvas(case: Comparison) -> None:
    figure = comparison_figure(case)
    figure.canvas.draw()
    wide, high = figure.bbox.width, figure.bbox.height
    texts = _texts(figure)
    assert len(texts) > 20
    for text in texts:
        box = text.get_window_extent()
        inside = box.x0 >= 0 and box.y0 >= 0 and box.x1 <= wide and box.y1 <= high
        assert inside, text.get_text()


@pytest.mark.parametrize("case", [comparison(2), comparison(9), crowded()])
def test_labels_of_the_table_do_not_run_into_its_columns(case: Comparison) -> None:
    figure = comparison_figure(case)
    figure.canvas.draw()
    heads = [t.get_window_extent().x0 for t in _texts(figure) if "[Nm/kg]" in t.get_text()]
    column = min(x for x in heads if x > figure.bbox.width * 0.25)
    for index in range(len(case.results)):
        (label,) = _by_gid(figure, f"label {index + 1}")
        assert label.get_window_extent().x1 < column


@pytest.mark.parametrize("count", [2, 5, 9])
def test_lines_stay_apart_in_a_grey_copy(count: int) -> None:
    looks = line_looks(count, baseline=0)
    for look in looks:
        assert _luminance(PAPER) - _luminance(look.colour) > 0.30
    for one, other in itertools.combinations(looks[1:], 2):
        apart = abs(_luminance(one.colour) - _luminance(other.colour))
        assert one.dashes != other.dashes or apart > 0.12
    greys = [_luminance(look.colour) for look in looks[1:]]
    assert greys == sorted(greys)


def test_numbers_stand_on_their_curves_and_not_on_each_other() -> None:
    percent = np.linspace(0.0, 100.0, 201)
    shares = [0.5 + 0.02 * rank * np.sin(np.pi * percent / 100.0) for rank in range(9)]
    places = number_places([(percent, share) for share in shares], taken=[(50.0, 0.5)])
    for share, (x, y) in zip(shares, places, strict=True):
        assert y == pytest.approx(np.interp(x, percent, share), abs=1e-9)
    for (x0, y0), (x1, y1) in itertools.combinations([*places, (50.0, 0.5)], 2):
        assert np.hypot(5.3 * (x0 - x1) / 100.0, 2.35 * (y0 - y1)) >= 0.20


def test_curves_are_drawn_in_the_units_they_name() -> None:
    case = comparison(2)
    figure = comparison_figure(case)
    drawn = [line.get_ydata() for line in _by_gid(figure, "run 1")]
    curves = case.results[0].curves
    wanted = (
        curves.knee_flexion_moment / 80.0,
        curves.socket_flexion_moment,
        curves.force_up / 784.5,
        1000.0 * curves.pressure_ahead_of_ankle,
    )
    for line, values in zip(drawn, wanted, strict=True):
        np.testing.assert_allclose(line, values)


def test_the_table_prints_and_dots_the_change_from_the_baseline() -> None:
    case = comparison(2)
    figure = comparison_figure(case)
    key = "socket_flexion_moment_peak_nm"
    change = case.results[0].measures[key] - case.results[1].measures[key]
    written = [text.get_text() for text in _texts(figure)]
    assert f"{change:+.1f}".replace("-", "\u2212") in written
    (strip,) = {t.axes for t in _texts(figure) if t.get_text() == "socket peak,\nflexing\n[Nm]"}
    dots = [line.get_xdata()[0] for line in strip.lines if line.get_marker() == "o"]
    assert dots == pytest.approx([change])


def test_signs_units_version_and_all_cautions_are_written() -> None:
    case = crowded()
    figure = comparison_figure(case)
    written = " ".join(text.get_text() for text in _texts(figure))
    for words in ("+ bends the knee", "[Nm/kg]", "body weights", "[mm]", f"simgait {case.version}"):
        assert words in written
    lines = [text.get_text() for text in _by_gid(figure, "caution")]
    assert " ".join(lines) == " ".join(case.cautions)


def test_a_badly_ended_run_is_cut_crossed_and_named() -> None:
    case = comparison(9, bad=True)
    figure = comparison_figure(case)
    crosses = _by_gid(figure, "cut 9")
    assert len(crosses) == 4
    assert crosses[0].get_xdata()[0] == pytest.approx(60.0)
    (ending,), (label,) = _by_gid(figure, "ending 9"), _by_gid(figure, "label 9")
    assert ending.get_text() == "9: fell forward"
    assert label.get_text().replace("\n", " ").endswith("fell forward at 60 %")
    assert _by_gid(figure, "cut 1") == []
    assert [t.get_text() for t in _texts(figure)].count("none") == 6


def test_a_run_of_nothing_but_nan_is_still_a_row(tmp_path: Path) -> None:
    empty = result(Alignment(foot_forward=0.02), "not_finite")
    gone = {
        name: np.full_like(values, np.nan)
        for name, values in vars(empty.curves).items()
        if name != "time"
    }
    empty = replace(empty, curves=replace(empty.curves, **gone))
    case = Comparison(results=(result(Alignment()), empty))
    figure = comparison_figure(case)
    (label,) = _by_gid(figure, "label 2")
    assert label.get_text().endswith("not finite")
    draw_comparison(case, tmp_path / "curves.png")
    assert draw_film(case, tmp_path / "film.gif").frames > 10


def test_of_many_alignments_the_baseline_and_the_extremes_are_named() -> None:
    case = comparison(27, bad=True)
    shown = shown_runs(case)
    bending = [r.measures["knee_flexion_moment_peak_nm_kg"] for r in case.results]
    assert len(shown) == 9 and shown[0] == case.baseline
    assert {int(np.nanargmax(bending)), int(np.nanargmin(bending)), 26} <= set(shown)
    figure = comparison_figure(case)
    assert any("9 of 27 alignments" in text.get_text() for text in _texts(figure))
    faint = [line for line in figure.axes[0].lines if line.get_alpha() == 0.5]
    assert len(faint) == 18


def test_labels_name_only_what_differs() -> None:
    results = comparison(2).results
    assert [label.replace("\u00a0", " ") for label in alignment_labels(results)] == [
        "foot \u221210 mm",
        "foot 0 mm",
    ]
    assert shared_settings(results).replace("\u00a0", " ") == "socket +5°"
    assert sign_key(results) == "foot + forward, socket + flexed"
    assert alignment_labels([result(Alignment())]) == ("all settings zero",)


@pytest.mark.parametrize("draw", [draw_comparison, draw_film])
@pytest.mark.parametrize(
    ("case", "name", "words"),
    [
        (replace(comparison(2), cautions=()), "a", "cautions"),
        (replace(comparison(2), results=()), "a", "without results"),
        (replace(comparison(2), baseline=2), "a", "baseline 2"),
        (comparison(2), "a.bmp", "a.bmp"),
    ],
)
def test_what_cannot_be_drawn_honestly_is_refused(
    tmp_path: Path, draw: Any, case: Comparison, name: str, words: str
) -> None:
    suffix = "" if "." in name else (".gif" if draw is draw_film else ".png")
    with pytest.raises(ValueError, match=words):
        draw(case, tmp_path / (name + suffix))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("draw", "owner", "method", "name"),
    [
        (draw_comparison, "matplotlib.figure.Figure", "savefig", "curves.png"),
        (draw_film, "PIL.Image.Image", "save", "film.gif"),
    ],
)
def test_a_failure_leaves_the_older_file_and_nothing_half_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, draw: Any, owner: str, method: str, name: str
) -> None:
    (tmp_path / name).write_text("older")

    def half(_: Any, path: Path, *rest: Any, **named: Any) -> None:
        Path(path).write_text("half of")
        raise OSError("no room left")

    monkeypatch.setattr(f"{owner}.{method}", half)
    with pytest.raises(OSError, match="no room left"):
        draw(comparison(1), tmp_path / name)
    assert [file.name for file in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_text() == "older"


def test_write_whole_gives_the_name_only_to_a_finished_file(tmp_path: Path) -> None:
    final = tmp_path / "table.csv"
    with write_whole(final) as partial:
        partial.write_text("1,2")
        assert not final.exists()
        assert (partial.parent, partial.suffix) == (tmp_path, ".csv")
    assert final.read_text() == "1,2"
    assert list(tmp_path.iterdir()) == [final]
    with pytest.raises(FileNotFoundError), write_whole(tmp_path / "no folder" / "a.csv") as partial:
        partial.write_text("never")


def test_importing_pictures_loads_no_drawing_library() -> None:
    code = "import sys, simgait.pictures; print({'matplotlib', 'PIL'} & set(sys.modules))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "set()"
