"""The figure of a fitting record: all of it inside, held settings, whole files, refusals."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from records import LEVEL, add, entry, run
from simgait.pictures.record import draw_record, record_figure
from simgait.record.history import history_of
from simgait.record.reading import read_record
from simgait.symbols import CAUTIONS

NOTES = (CAUTIONS, "0.test")


@pytest.mark.parametrize("count", [1, 2, 12, 60])
def test_the_figure_says_all_and_nothing_is_cut_off(count: int, tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path, count)
    figure = record_figure(history_of(read_record(path)), NOTES)
    figure.canvas.draw()
    from matplotlib.text import Text

    words = [each for each in figure.findobj(Text) if each.get_text() and each.get_visible()]
    said = " ".join(each.get_text() for each in words)
    assert "Fitting record of W-17" in said
    assert "2026-03-01" in said
    assert f"price \\${count - 1}\\$ of step" in said
    for caution in CAUTIONS:
        assert caution[-25:] in said
    wide, high = figure.get_size_inches() * figure.dpi
    for each in words:
        box = each.get_window_extent()
        assert box.x0 >= 0 and box.y0 >= 0 and box.x1 <= wide and box.y1 <= high, each.get_text()
    days = [each.get_window_extent() for each in words if each.get_gid() == "visit"]
    assert not any(a.overlaps(b) for n, a in enumerate(days) for b in days[:n])


def test_the_figure_holds_settings_until_they_change(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry(alignment=LEVEL))
    add(path, entry("no alignment"))
    add(path, entry(alignment={**LEVEL, "foot_forward_mm": 7.0}))
    add(path, entry(measured={"a_mm": 2.0}))
    axes = record_figure(history_of(read_record(path)), NOTES).axes
    assert len(axes) == 2  # the settings that never changed are not drawn
    steps, points = axes[0].get_lines()[:2]
    assert list(steps.get_ydata()) == [0.0, 0.0, 0.0, 7.0, 7.0, 7.0]
    assert list(points.get_xdata()) == [0, 2]
    assert list(axes[1].get_lines()[0].get_xdata()) == [3]


def test_figures_are_written_whole_and_the_same_each_time(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path, 4)
    for name in ("f.png", "f.svg"):
        made = run("figure", path, "-o", tmp_path / "new" / name)
        assert made.exit_code == 0, made.output
        first = (tmp_path / "new" / name).read_bytes()
        run("figure", path, "-o", tmp_path / "new" / name)
        assert (tmp_path / "new" / name).read_bytes() == first
    assert sorted(each.name for each in (tmp_path / "new").iterdir()) == ["f.png", "f.svg"]
    with Image.open(tmp_path / "new" / "f.png") as picture:
        assert picture.size[0] == 1320
        assert CAUTIONS[0] in picture.info["Description"]
    with pytest.raises(ValueError, match="cautions"):
        draw_record(history_of(read_record(path)), ((), "x"), tmp_path / "x.png")
    with pytest.raises(ValueError, match=r"\.pdf"):
        draw_record(history_of(read_record(path)), NOTES, tmp_path / "x.pdf")
    assert not list(tmp_path.glob("x.*"))


@pytest.mark.parametrize(
    ("out", "said"),
    [("f.jpg", "is no figure's name"), ("folder.png", "is a folder"), ("f.png", "nothing to draw")],
)
def test_a_figure_that_cannot_be_is_refused(
    out: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("folder.png").mkdir()
    add(Path("r.txt"), entry("only seen"))
    made = run("figure", "r.txt", "-o", out)
    assert made.exit_code == 2
    assert said in made.output
    assert sorted(each.name for each in Path().iterdir()) == ["folder.png", "r.txt"]
