"""simgait record: what is added, corrected, shown, drawn and refused."""

from __future__ import annotations

import json
import re
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from PIL import Image

from records import LEVEL, add, correction, entry, run
from simgait.library import models_folder
from simgait.pictures.record import draw_record, record_figure
from simgait.record.history import history_of
from simgait.record.reading import read_record
from simgait.symbols import CAUTIONS

EVERYDAY = models_folder() / "cases" / "everyday.toml"
NOTES = (CAUTIONS, "0.test")


def shown(path: Path) -> dict:
    made = run("show", path, "--json")
    assert made.exit_code == 0, made.output
    return json.loads(made.stdout)


def entries(path: Path) -> list[dict]:
    return [each for visit in shown(path)["visits"] for each in visit["entries"]]


def added(path: Path, *words: str | Path) -> dict:
    made = run("add", path, "--code", "W-17", *words, "--json")
    assert made.exit_code == 0, made.output
    return json.loads(made.stdout)


def test_an_entry_holds_all_that_was_typed(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    before = datetime.now().astimezone().replace(microsecond=0)
    answer = added(
        path, "--date", "2024-02-29", "--by", "AB", "--case", EVERYDAY, "--set",
        "alignment.foot_forward_mm=-4", "--seen", "one", "--seen", "two\nlines", "--said", "good",
        "--measured", "walking_speed_m_s=1.25", "--measured", "pain_0_10 = 3", "--advice", "foot "
        "back", "--decision", "kept", "--why", "steady",
    )  # fmt: skip
    (found,) = entries(path)
    assert found["alignment"] == {**LEVEL, "foot_forward_mm": -4.0}
    assert answer["alignment"] == found["alignment"]
    assert found["measured"] == {"walking_speed_m_s": 1.25, "pain_0_10": 3.0}
    assert (found["seen"], found["said"], found["advice"]) == (
        ["one", "two\nlines"], ["good"], ["foot back"],
    )  # fmt: skip
    assert (found["decision"], found["why"], found["by"]) == (["kept"], ["steady"], "AB")
    assert found["case"] == "everyday.toml"
    written = datetime.fromisoformat(found["written"])
    assert written.utcoffset() is not None
    assert before <= written <= before + timedelta(minutes=5)
    assert shown(path)["visits"][0]["date"] == answer["visit"] == "2024-02-29"
    lines = path.read_text(encoding="utf-8").split("\n")
    assert lines[answer["first_line"] - 1] == "entry 1 of W-17"
    assert answer["sum"] in lines[answer["last_line"] - 1]
    assert date.fromisoformat(added(path, "--seen", "x")["visit"]) <= date.today()


def test_an_alignment_goes_on_from_the_one_tried_last(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    added(path, "--case", EVERYDAY)
    added(path, "--set", "alignment.foot_forward_mm=5", "--date", "2024-01-01")
    answer = added(path, "--set", "alignment.dorsiflexion_deg=-2")
    assert answer["alignment"] == {**LEVEL, "foot_forward_mm": 5.0, "dorsiflexion_deg": -2.0}
    by_number = {each["number"]: each for each in entries(path)}
    assert [each["number"] for each in entries(path)] == [2, 1, 3]  # in the order of days
    assert by_number[3]["changes"] == {"foot_forward_mm": 5.0, "dorsiflexion_deg": -2.0}
    assert by_number[1]["changes"] == {"foot_forward_mm": -5.0}


def test_a_correction_counts_and_the_old_entry_stays(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    first = added(path, "--case", EVERYDAY, "--seen", "left", "--said", "fine", "--measured",
                  "a_mm=1", "--measured", "b_mm=2", "--date", "2024-01-05")  # fmt: skip
    before = path.read_bytes()
    added(path, "--corrects", "1", "--seen", "right", "--measured", "b_mm=3")
    assert shown(path)["visits"][0]["date"] == "2024-01-05"
    added(path, "--corrects", first["sum"][:6], "--set", "alignment.heel_rise_mm=12")
    added(path, "--corrects", "2", "--date", "2024-01-06")  # a correction of a correction
    assert path.read_bytes().startswith(before)
    (found,) = entries(path)
    assert (found["number"], found["corrected_by"]) == (1, [2, 3, 4])
    assert (found["seen"], found["said"]) == (["right"], ["fine"])
    assert found["measured"] == {"a_mm": 1.0, "b_mm": 3.0}
    assert found["alignment"] == {**LEVEL, "heel_rise_mm": 12.0}
    assert shown(path)["visits"][0]["date"] == "2024-01-06"
    said = run("show", path).output
    assert "entry 1, as corrected by entry 2, 3, 4" in said
    assert "left" not in said


def test_a_withdrawn_entry_does_not_count_but_is_named(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    added(path, "--case", EVERYDAY)
    added(path, "--set", "alignment.foot_forward_mm=50", "--seen", "of somebody else")
    added(path, "--corrects", "2", "--withdraw", "--why", "another wearer")
    assert [each["number"] for each in entries(path)] == [1]
    assert shown(path)["withdrawn"] == [2]
    assert "withdrawn: entry 2, by entry 3" in run("show", path).output
    assert added(path, "--set", "alignment.heel_rise_mm=9")["alignment"]["foot_forward_mm"] == 0.0


def test_a_correction_of_what_cannot_be_read_stands_alone(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    first = add(path, entry("typo"))
    add(path, correction(first, notes=(("seen", "right"),)))
    path.write_bytes(path.read_bytes().replace(b"typo", b"tyqo"))
    assert [each["seen"] for each in entries(path)] == [["right"]]
    words = [each["words"] for each in shown(path)["problems"]]
    assert any("changed or damaged" in each for each in words)
    assert any("entry 2 corrects entry 1, which was not read" in each for each in words)


def test_damage_is_told_by_every_verb_and_the_rest_works(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    for n in (1, 2, 3):
        added(path, "--case", EVERYDAY, "--seen", f"sign {n}")
    path.write_bytes(path.read_bytes().replace(b"sign 2", b"sign 9"))
    place = f"{path}: lines 11 to 17: entry 2 of W-17 was changed or damaged"
    for words in (("show", path), ("add", path, "--code", "W-17", "--seen", "x"),
                  ("figure", path, "-o", tmp_path / "f.png")):  # fmt: skip
        made = run(*words)
        assert made.exit_code == 0, made.output
        assert place in made.stderr
    assert [each["number"] for each in entries(path)] == [1, 3, 4]
    assert "1 damaged or doubtful places" in run("show", path).output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--seen", "x", "--code", "W-18"), "--code: W-18 is not whose record"),
        (("--seen", "x", "--code", "Ann B"), "'Ann B' is not a code"),
        (("--seen", "x", "--by", "A\x1b"), "--by: 'A\\x1b' is not a code"),
        ((), "would add an empty entry"),
        (("--seen", " \n "), "--seen: ' \\n ' says nothing"),
        (("--why", "x" * 20_001), "is too long: 20001 characters"),
        (("--measured", "speed"), "'speed' is not NAME=NUMBER"),
        (("--measured", "Speed=1"), "is not NAME=NUMBER"),
        (("--measured", "speed_m_s=fast"), "is not NAME=NUMBER"),
        (("--measured", "speed_m_s=inf"), "is not NAME=NUMBER"),
        (("--measured", "a_mm=1", "--measured", "a_mm=2"), "a_mm is said twice"),
        (("--seen", "x", "--date", "2100-01-01"), "lies ahead"),
        (("--seen", "x", "--date", "1949-12-31"), "is too long ago"),
        (("--seen", "x", "--date", "2024-02-30"), "is no date"),
        (("--seen", "x", "--date", "20240201"), "is no date"),
        (("--set", "alignment.foot_forward=3"), "nearest: alignment.foot_forward_mm"),
        (("--set", "foot.model=firm"), "foot.model is not part of an alignment"),
        (("--set", "alignment.foot_forward_mm=300"), "is out of range (allowed: -60 to 60"),
        (("--set", "alignment.foot_forward_mm=far"), "alignment.foot_forward_mm"),
        (("--set", "alignment"), "is not KEY=VALUE"),
        (("--case", "missing.toml"), "does not exist"),
        (("--corrects", "7", "--seen", "x"), "'7' is no entry that can be read"),
        (("--corrects", "", "--seen", "x"), "is no entry that can be read"),
        (("--withdraw",), "--withdraw: says nothing alone"),
    ],
)
def test_what_is_refused_adds_nothing(words: tuple[str, ...], said: str, tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    before = path.read_bytes()
    code = () if "--code" in words else ("--code", "W-17")
    made = run("add", path, *code, *words)
    assert made.exit_code == 2, made.output
    assert said in made.output
    assert "Traceback" not in made.output
    assert path.read_bytes() == before


def test_the_first_alignment_must_be_whole_and_a_refusal_begins_no_file(tmp_path: Path) -> None:
    made = run("add", tmp_path / "r.txt", "--code", "W-17", "--set", "alignment.heel_rise_mm=9")
    assert made.exit_code == 2
    assert "alignment.foot_forward_mm, alignment.dorsiflexion_deg" in made.output
    assert list(tmp_path.iterdir()) == []
    for verb in (("show",), ("figure", "-o", tmp_path / "f.png")):
        made = run(verb[0], tmp_path / "r.txt", *verb[1:])
        assert (made.exit_code, "does not exist" in made.output) == (2, True)


def test_a_person_reads_what_was_written(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    run("add", path, "--code", "W-17", "--case", EVERYDAY, "--said", "schön \x1b[31mrot")
    said = run("show", path).output
    for words in ("Fitting record of W-17: 1 entry, 1 visit", "said: schön \\x1b[31mrot",
                  "foot_forward_mm 0, ", "(from everyday.toml)", *CAUTIONS):  # fmt: skip
        assert words in said
    assert re.search(r"^  written: \d{4}-.*[+-]\d\d:\d\d$", path.read_text("utf-8"), re.M)


def filled(path: Path, count: int) -> None:
    for n in range(count):
        alignment = {
            **LEVEL,
            "foot_forward_mm": float(n % 5),
            "dorsiflexion_deg": -float(n // 3 % 9),
        }
        notes = (("seen", "x"), ("decision", f"price ${n}$ of step {n}"), ("why", "because"))
        add(path, entry(day=n // 2 + 1, alignment=alignment, notes=notes,
                        measured={"walking_speed_m_s": 1.0 + 0.01 * n}))  # fmt: skip


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
