"""Figure and film of an arm: what must be on them, inside the page, whole or not at all."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from simgait.arm.result import ArmResult
from simgait.arm.running import work_arm
from simgait.arm.sheet import ArmSheet, arm_sheet
from simgait.case.arm_case import read_arm_case
from simgait.library import models_folder
from simgait.pictures.arm import arm_figure, draw_arm, in_a_line
from simgait.pictures.arm_film import draw_lift_film
from simgait.pictures.arm_graph import Graph, round_step
from simgait.pictures.palette import palette_bytes

NAMES = ("above-elbow", "shoulder-level", "forearm-level")


@cache
def worked(name: str) -> ArmResult:
    """Return a result of the library's case."""
    return work_arm(read_arm_case(models_folder() / "cases" / "arms" / f"{name}.toml"), 50)


@cache
def sheet(name: str) -> ArmSheet:
    """Return what is drawn of it."""
    return arm_sheet(worked(name))


def weak() -> ArmSheet:
    """Return the above-elbow arm with no position that fits."""
    result = worked("above-elbow")
    rows = tuple(replace(row, feasible=False, fatigue_free=False) for row in result.positions)
    return arm_sheet(replace(result, positions=rows, recommended=None, stands_share=None), False)


def texts(figure: Any) -> list[Any]:
    from matplotlib.text import Text

    return [text for text in figure.findobj(Text) if text.get_text() and text.get_visible()]


@pytest.mark.parametrize("name", NAMES)
def test_files_are_whole_and_carry_title_cautions_and_version(name: str, tmp_path: Path) -> None:
    files = draw_arm(worked(name), tmp_path)
    wanted = ["arm.png"] if name == "forearm-level" else ["arm.png", "arm.gif"]
    assert [file.name for file in files] == wanted
    assert sorted(file.name for file in tmp_path.iterdir()) == sorted(wanted)
    for file in files:
        assert file.stat().st_size < 256_000
        with Image.open(file) as image:
            said = image.info.get("Description") or image.info["comment"].decode()
            assert image.size[0] > 700
        drawn = sheet(name)  # a lift by a pull is not called slow
        cautions = drawn.lift_cautions if file.suffix == ".gif" else drawn.cautions
        assert all(caution in said for caution in cautions)
        assert sheet(name).version in said


@pytest.mark.parametrize("name", [*NAMES, "weak"])
def test_every_word_is_inside_the_page(name: str) -> None:
    drawn = weak() if name == "weak" else sheet(name)
    figure = arm_figure(drawn)
    figure.canvas.draw()
    wide, high = figure.bbox.width, figure.bbox.height
    for text in texts(figure):
        if text.get_text().lstrip("\u2212").replace(".", "").isdigit():
            continue  # numbers at ticks, of which those beyond the axes are not drawn
        box = text.get_window_extent()
        inside = box.x0 >= 0 and box.x1 <= wide and box.y0 >= 0 and box.y1 <= high
        assert inside, text.get_text()
    cautions = " ".join(t.get_text() for t in texts(figure) if t.get_gid() == "caution")
    assert cautions == " ".join(drawn.cautions)


def test_curves_and_points_are_the_result_s_own() -> None:
    result, drawn = worked("above-elbow"), sheet("above-elbow")
    figure = arm_figure(drawn)
    pulls, front = figure.axes[:2]
    lines = [np.asarray(line.get_ydata(), dtype=float) for line in pulls.lines]
    for place in drawn.shown:
        curve = result.flexion_pull.pull[place]
        assert any(line.shape == curve.shape and (line == curve).all() for line in lines)
    assert drawn.focus in drawn.shown
    points = {
        (x, y)
        for line in front.lines
        if line.get_linestyle() == "None"
        for x, y in zip(line.get_xdata(), line.get_ydata(), strict=True)
    }
    for row in result.positions:
        assert (1000.0 * row.excursion, row.peak_pull) in points
    best = result.positions[result.recommended or 0]
    said = [text.get_text() for text in texts(figure)]
    assert f"recommended: loop {1000.0 * best.loop:.0f} mm" in said
    assert f"at the elbow: lever {1000.0 * float(drawn.pose.lever[1]):.0f} mm" in said
    limits = {float(y) for line in pulls.lines for y in line.get_ydata()}
    assert {result.harness.max_pull, result.harness.fatigue_free_pull} <= limits


def test_the_arm_is_drawn_to_one_scale_both_ways() -> None:
    figure = arm_figure(sheet("above-elbow"))
    figure.canvas.draw()
    equal = [axes for axes in figure.findobj(type(figure.axes[0])) if axes.get_aspect() == 1.0]
    assert len(equal) == 2
    for axes in equal:
        ((x0, y0), (x1, _), (_, y1)) = axes.transData.transform([(0, 0), (0.1, 0), (0, 0.1)])
        assert x1 - x0 == pytest.approx(y1 - y0)


def test_where_nothing_fits_it_is_said() -> None:
    drawn = weak()
    assert drawn.why == "as_made"
    assert in_a_line(drawn).startswith("None of 51 positions fits")
    figure = arm_figure(drawn)
    assert "To scale: position as made; none fits" in [text.get_text() for text in texts(figure)]
    other = replace(drawn.result, own_position=None)
    assert arm_sheet(other, False).why == "lightest"


def test_a_film_runs_on_one_clock_in_the_shared_palette(tmp_path: Path) -> None:
    drawn = sheet("above-elbow")
    film = draw_lift_film(drawn, tmp_path / "arm.gif")
    table = np.frombuffer(palette_bytes(), dtype=np.uint8).reshape(-1, 3)
    allowed = {tuple(colour) for colour in table.tolist()}
    with Image.open(film) as image:
        frames, first = image.n_frames, np.asarray(image.convert("RGB"))
        image.seek(frames - 1)
        last = np.asarray(image.convert("RGB"))
    assert 20 < frames <= 48
    assert (first != last).any()
    for picture in (first, last):
        used = {tuple(c) for c in np.unique(picture.reshape(-1, 3), axis=0).tolist()}
        assert used <= allowed
        assert (picture[:, :6] == picture[0, 0]).all()
        assert (picture[:, -6:] == picture[0, 0]).all()


def test_without_cautions_or_a_lift_nothing_is_drawn(tmp_path: Path) -> None:
    bare = replace(sheet("above-elbow"), cautions=())
    with pytest.raises(ValueError, match="cautions"):
        arm_figure(bare)
    with pytest.raises(ValueError, match="cautions"):
        draw_lift_film(bare, tmp_path / "arm.gif")
    with pytest.raises(ValueError, match="lift"):
        draw_lift_film(sheet("forearm-level"), tmp_path / "arm.gif")
    with pytest.raises(ValueError, match="gif or"):
        draw_lift_film(sheet("above-elbow"), tmp_path / "arm.avi")
    assert not list(tmp_path.iterdir())


def test_a_graph_puts_values_where_they_belong() -> None:
    graph = Graph(
        box=(10, 20, 100, 50), title="", end=2.0, time=np.array([0.0, 2.0]),
        values=np.array([0.0, 1.0]), marks=(), said="",
    )  # fmt: skip
    assert graph.place(0.0, 0.0) == (10.0, 70.0)
    assert graph.place(2.0, graph.span[1]) == (110.0, 20.0)
    assert [round_step(span, 4) for span in (3.9, 9.0, 150.0)] == [1.0, 5.0, 50.0]
