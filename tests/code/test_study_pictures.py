"""Pictures of studies: what must be on them, whole or not at all."""

import itertools
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd
import pytest
from PIL import Image

from invented_pictures import (
    FORWARD,
    KINDS,
    NAN,
    PEAK,
    THRUST,
    TOE,
    Told,
    a_grid,
    an_index,
    draw,
    marked,
    some_changes,
    some_runs,
    texts_of,
)
from simgait.pictures.studies import (
    draw_differences,
    draw_front,
    draw_heat_map,
    draw_screening,
    draw_small_multiples,
    draw_tornado,
)
from simgait.pictures.studies.front import number_offsets
from simgait.studies.front import trade_off


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[Any]]:
    """The figures that are written while a test runs."""
    from matplotlib.figure import Figure

    kept: list[Any] = []
    save = Figure.savefig

    def noting(figure: Any, *args: Any, **keywords: Any) -> None:
        kept.append(figure)
        save(figure, *args, **keywords)

    monkeypatch.setattr(Figure, "savefig", noting)
    yield kept


@pytest.mark.parametrize("kind", KINDS)
def test_every_picture_is_whole_and_says_where_it_comes_from(
    kind: str, tmp_path: Path, drawn: list[Any]
) -> None:
    study = Told()
    path = draw(kind, tmp_path / f"{kind}.png", study)
    assert [each.name for each in tmp_path.iterdir()] == [f"{kind}.png"]
    with Image.open(path) as picture:
        notes, size = dict(picture.text), picture.size
    (figure,) = drawn
    assert size == pytest.approx(figure.get_size_inches() * 120, abs=1.0)
    words = " ".join(text.get_text() for text in texts_of(figure))
    for said in ("96 runs", "seed 4711", "fell forward 6", study.version, *study.cautions):
        assert said in words
        assert said in notes["Description"]
    assert study.title in words
    assert notes["Title"] == study.title
    for dotted in (FORWARD, TOE, PEAK):
        assert dotted not in words


@pytest.mark.parametrize("kind", KINDS)
def test_every_word_is_inside_the_canvas(kind: str, tmp_path: Path, drawn: list[Any]) -> None:
    study = Told(title="A title that goes on and on, " * 6, cautions=("Beware of this. " * 30,))
    draw(kind, tmp_path / "picture.png", study)
    (figure,) = drawn
    figure.canvas.draw()
    wide, high = figure.bbox.width, figure.bbox.height
    ticks = [tick for axes in figure.axes for axis in (axes.xaxis, axes.yaxis)
             for tick in axis.get_major_ticks()
             if not min(axis.get_view_interval()) <= tick.get_loc() <= max(
                 axis.get_view_interval())]  # fmt: skip
    unseen = {id(text) for tick in ticks for text in (tick.label1, tick.label2)}
    for text in texts_of(figure):
        if not text.get_visible() or id(text) in unseen:
            continue
        box = text.get_window_extent()
        inside = box.x0 >= 0 and box.y0 >= 0 and box.x1 <= wide and box.y1 <= high
        assert inside or not box.width, text.get_text()


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_written_without_cautions_or_under_another_name(
    kind: str, tmp_path: Path
) -> None:
    with pytest.raises(ValueError, match="without cautions"):
        draw(kind, tmp_path / "picture.png", Told(cautions=()))
    with pytest.raises(ValueError, match=r"as \.png"):
        draw(kind, tmp_path / "picture.pdf", Told())
    assert list(tmp_path.iterdir()) == []


def test_empty_and_incomplete_tables_are_refused(tmp_path: Path) -> None:
    path, study = tmp_path / "picture.png", Told()
    over: dict[str, Any] = {"study": study, "x": FORWARD, "y": TOE, "measure": PEAK}
    goals: dict[str, Any] = {PEAK: "low", THRUST: "low"}
    with pytest.raises(ValueError, match="no cells to draw: the table is empty"):
        draw_heat_map(a_grid()[:0], path, **over)
    with pytest.raises(ValueError, match="no column bad; it has: alignment"):
        draw_heat_map(a_grid().drop(columns="bad"), path, **over)
    with pytest.raises(ValueError, match="no column case"):
        draw_small_multiples(a_grid(), path, **over)
    with pytest.raises(ValueError, match="stands in two rows"):
        draw_heat_map(pd.concat([a_grid(), a_grid()]), path, **over)
    many = pd.concat([a_grid().assign(case=f"{n}.toml") for n in range(17)])
    with pytest.raises(ValueError, match="17 panels are too many"):
        draw_small_multiples(many, path, **over)
    with pytest.raises(ValueError, match="name at least one measure"):
        draw_tornado({}, path, study=study)
    with pytest.raises(ValueError, match=f"no effects to draw for {PEAK}"):
        draw_screening({PEAK: []}, path, study=study)
    with pytest.raises(ValueError, match="no runs on the front"):
        draw_front(some_runs(), some_runs()[:0], path, study=study, goals=goals)
    with pytest.raises(ValueError, match="two or three goals, not 1"):
        draw_front(some_runs(), some_runs(), path, study=study, goals={PEAK: "low"})
    with pytest.raises(ValueError, match="no differences to draw"):
        draw_differences(some_changes()[:0], path, study=study, settings=[FORWARD], base={})
    assert list(tmp_path.iterdir()) == []


def test_bars_are_sorted_by_total_or_by_first_order_without_one(
    tmp_path: Path, drawn: list[Any]
) -> None:
    both = [an_index("person.mass_kg", 0.5, 0.52), an_index(TOE, 0.1, 0.8)]
    first = [an_index("person.mass_kg", 0.2, NAN), an_index(FORWARD, 0.6, NAN)]
    draw_tornado({PEAK: both, THRUST: first}, tmp_path / "t.png", study=Told())
    (figure,) = drawn
    panels = [axes for axes in figure.axes if axes.get_xlabel() == "share of the variance"]
    names = [[text.get_text() for text in axes.get_yticklabels()] for axes in panels]
    assert names == [["dorsiflexion", "body mass"], ["foot forward", "body mass"]]
    widths = [[patch.get_width() for patch in axes.patches] for axes in panels]
    assert widths == [[0.8, 0.1, 0.52, 0.5], [0.6, 0.2]]
    ends = [line.get_xdata().tolist() for line in panels[0].findobj(_gid_of("total interval"))]
    np.testing.assert_allclose(ends[0], [0.77, 0.83])


def _gid_of(gid: str) -> Callable[[Any], bool]:
    return lambda artist: artist.get_gid() == gid


def test_a_range_is_written_under_what_varied(tmp_path: Path, drawn: list[Any]) -> None:
    spans = {TOE: (-4.9991, 4.9987)}
    found = {PEAK: [an_index(TOE, 0.1, 0.8), an_index("foot.heel_loss", 0.0, 0.0)]}
    draw_tornado(found, tmp_path / "t.png", study=Told(), spans=spans)
    words = [text.get_text() for text in texts_of(drawn[0])]
    assert "dorsiflexion\n\u22125.0 to +5.0 deg" in words
    assert "energy loss of the heel" in words


def test_an_effect_shows_size_interval_and_spread(tmp_path: Path, drawn: list[Any]) -> None:
    draw("screening", tmp_path / "s.png", Told())
    (bar,), (spread,) = marked(drawn[0], "size"), marked(drawn[0], "spread")
    assert bar.get_width() == 4.0
    assert spread.get_xdata()[0] == 2.0
    assert marked(drawn[0], "size interval")[0].get_xdata().tolist() == [3.5, 4.5]
    assert [text.get_text() for text in marked(drawn[0], "beside")] == ["4.0 (\u22123.0)"]


def test_a_front_marks_joins_and_counts(tmp_path: Path, drawn: list[Any]) -> None:
    draw("front", tmp_path / "f.png", Told(rows=80))
    figure, runs = drawn[0], some_runs()
    front = trade_off(runs, {PEAK: "low", THRUST: "low"})
    (marks,), (line,), (base,) = (
        marked(figure, gid) for gid in ("front", "front joined", "baseline")
    )
    np.testing.assert_allclose(marks.get_offsets(), front[[PEAK, THRUST]])
    assert line.get_drawstyle() == "steps-post"
    np.testing.assert_allclose(base.get_offsets(), [[30.0, 0.5]])
    words = " ".join(text.get_text() for text in texts_of(figure))
    assert "4 of them ended badly and have no place here" in words
    assert "drop-off [m/s]: less is better" in words
    assert len(marked(figure, "front number")) == min(len(front), 12)


def test_the_steps_of_a_front_enclose_only_what_is_beaten(tmp_path: Path, drawn: list[Any]) -> None:
    """Along the drawn line no point beats a run of the front, whatever the senses."""
    runs = some_runs().dropna()
    for first, second in itertools.product(("low", "high"), repeat=2):
        goals: dict[str, Any] = {PEAK: first, THRUST: second}
        front = trade_off(runs, goals)
        draw_front(runs, front, tmp_path / "f.png", study=Told(), goals=goals)
        (line,) = marked(drawn[-1], "front joined")
        path = line.get_path().vertices
        steps = np.array([path[0]])
        for last, here in itertools.pairwise(path):
            corner = (here[0], last[1]) if line.get_drawstyle() == "steps-post" else (
                last[0], here[1])  # fmt: skip
            steps = np.vstack([steps, corner, here])
        signs = np.array([1.0 if sense == "low" else -1.0 for sense in (first, second)])
        costs, own = steps * signs, front[[PEAK, THRUST]].to_numpy() * signs
        beats = (costs[:, None] < own[None] - 1e-9).all(axis=-1)
        assert not beats.any()


def test_a_third_goal_is_the_size_of_the_marks_and_joins_nothing(
    tmp_path: Path, drawn: list[Any]
) -> None:
    runs = some_runs().assign(hip_rise_mm=np.linspace(0.0, 30.0, 80))
    goals: dict[str, Any] = {PEAK: "low", THRUST: "low", "hip_rise_mm": "high"}
    front = trade_off(runs, goals)
    draw_front(runs, front, tmp_path / "f.png", study=Told(rows=80), goals=goals)
    (marks,) = marked(drawn[0], "front")
    order = np.argsort(front["hip_rise_mm"].to_numpy())
    assert (np.diff(marks.get_sizes()[order]) > 0.0).all()
    samples = [float(mark.get_sizes()[0]) for mark in marked(drawn[0], "size sample")]
    assert samples == pytest.approx([marks.get_sizes().min(), marks.get_sizes().max()])
    assert marked(drawn[0], "front joined") == []


def test_numbers_of_a_front_keep_off_each_other() -> None:
    points = np.column_stack([np.linspace(100.0, 160.0, 12), np.linspace(160.0, 130.0, 12)])
    corners = np.array([[0.0, 0.0], [400.0, 400.0]])
    offsets = number_offsets(points, range(12), corners, (-1.0, -1.0))
    places = points + np.array(offsets)
    gaps = [np.hypot(*(a - b)) for a, b in itertools.combinations(places, 2)]
    assert min(gaps) > 8.0


def test_a_change_is_filled_only_where_it_can_be_told(tmp_path: Path, drawn: list[Any]) -> None:
    changes = some_changes()
    assert changes["distinguishable"].tolist() == [False, True]
    draw("differences", tmp_path / "d.png", Told())
    (hollow,), (filled,) = (
        marked(drawn[0], gid) for gid in ("not told apart", "told apart")
    )  # the key's samples have no name
    assert hollow.get_xdata()[0] == changes["difference"][0]
    assert hollow.get_markerfacecolor() != filled.get_markerfacecolor()
    bands = marked(drawn[0], "unknown")
    assert [band.get_width() / 2.0 for band in bands] == pytest.approx(changes["unknown"].tolist())
    rows = [text.get_text() for text in filled.axes.get_yticklabels()]
    assert rows == ["foot forward \u22125 mm", "foot forward +20 mm"]


def test_too_few_pairs_are_said_and_not_drawn(tmp_path: Path, drawn: list[Any]) -> None:
    changes = some_changes()
    numbers = ["difference", "low", "high", "sign_kept", "unknown"]
    changes.loc[0, numbers] = NAN
    changes.loc[0, "pairs"] = 7
    draw_differences(
        changes, tmp_path / "d.png", study=Told(), settings=[FORWARD], base={FORWARD: 0.0}
    )
    assert [text.get_text() for text in marked(drawn[0], "none")] == ["too few pairs: 7"]
    assert len(marked(drawn[0], "interval")) == 1


def test_a_study_that_was_stopped_says_how_much_is_missing(
    tmp_path: Path, drawn: list[Any]
) -> None:
    draw("heat", tmp_path / "h.png", replace(Told(), rows=18, planned=500))
    assert "18 of 500 planned runs" in " ".join(text.get_text() for text in texts_of(drawn[0]))
