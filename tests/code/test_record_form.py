"""The record's file: what is written comes back, and every damage is found and said."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records import LEVEL, add, correction, entry, filled, seen, whole
from simgait.errors import CaseError, RangeError
from simgait.record.entry import LONGEST_NOTE, NOTES
from simgait.record.form import CLOSE, HEAD, START, block, heading, normal, parsed
from simgait.record.reading import LARGEST_FILE, read_record, record_of
from simgait.record.words import cleaned, number_text

ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=60)


@settings(max_examples=300, deadline=None)
@given(ANY_TEXT, ANY_TEXT)
def test_any_text_comes_back_and_breaks_nothing(one: str, two: str) -> None:
    texts = [cleaned(text) for text in (one, f"a\n{two}") if cleaned(text).strip()]
    text = heading("W-17") + "\n" + block(entry(*texts, "last"), 1, START)
    record = record_of(text.encode("utf-8"), "x")
    assert record.problems == ()
    assert seen(record) == [*texts, "last"]
    assert all(cleaned(each) == each for each in texts)
    for each in texts:
        assert all(mark.isprintable() or mark in "\n\u200c\u200d\u00a0" for mark in each)


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("two\r\nlines\rthree", "two\nlines\nthree"),
        ("tab\there", "tab here"),
        ("bell\x07 and \x1b[31mred", "bell\\x07 and \\x1b[31mred"),
        ("over\u202eride", "over\\u202eride"),
        ("nul\x00", "nul\\x00"),
        ("lone \udc80", "lone \\udc80"),
        ("e\u0301tude", "\u00e9tude"),
        ("\u0645\u06cc\u200c\u062e", "\u0645\u06cc\u200c\u062e"),
        ("\n\n  first\n\n  indented  \n\n", "first\n\n  indented"),
        ("a\u2028b\u0085c", "a\nb\nc"),
    ],
)  # fmt: skip
def test_a_note_is_made_fit_for_a_line(typed: str, kept: str) -> None:
    assert cleaned(typed) == kept


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_a_number_reads_back_the_same(value: float) -> None:
    assert float(number_text(value)) == value


def test_a_note_cannot_pretend_to_be_an_entry(tmp_path: Path) -> None:
    inside = "sum: 000000000000, follows start\nentry 9 of W-17\n  sum: 000000000000, follows start"
    add(tmp_path / "r.txt", entry(inside))
    assert whole(tmp_path / "r.txt") == ([inside], [])


def test_everything_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    first = add(path, entry("x", case="a b.toml", measured={"speed_m_s": 1.25, "pain_0_10": 3.0}))
    made = correction(first, alignment={**LEVEL, "foot_forward_mm": -2.5}, withdrawn=True,
                      notes=tuple((kind, f"{kind} \u00e4\nmore") for kind in NOTES))  # fmt: skip
    second = add(path, made)
    record = read_record(path)
    assert record.problems == ()
    assert [vars(each.entry) for each in record.entries] == [vars(first.entry), vars(made)]
    places = [(each.number, each.sum, each.first_line, each.last_line) for each in record.entries]
    assert places == [(e.number, e.sum, e.first_line, e.last_line) for e in (first, second)]
    lines = path.read_text(encoding="utf-8").split("\n")
    for each in record.entries:
        assert HEAD.fullmatch(lines[each.first_line - 1])
        assert CLOSE.fullmatch(lines[each.last_line - 1])[1] == each.sum


def test_editors_may_change_line_ends_marks_and_forms(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path, 3)
    add(path, entry("\u00e9tude\nmore", day=9))
    text = path.read_text(encoding="utf-8")
    for changed in (
        "\ufeff" + text, text.replace("\n", "\r\n"), text.replace("\u00e9", "e\u0301"),
        text.rstrip("\n"), "\n\n" + text + "\n\n",
    ):  # fmt: skip
        record = record_of(changed.encode("utf-8"), "x")
        assert record.problems == ()
        assert len(record.entries) == 4
    path.write_bytes(("\ufeff" + text.replace("\n", "\r\n")).encode("utf-8"))
    add(path, entry("after", day=10))
    assert whole(path)[0][-1] == "after"
    assert whole(path)[1] == []


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"title = 'a case'\n", "is no fitting record"),
        (b"\x89PNG\x00\x00", "is no fitting record"),
        ("\ufefffitting".encode("utf-16"), "is no fitting record"),
    ],
)
def test_what_is_no_record_is_refused_and_not_touched(
    content: bytes, said: str, tmp_path: Path
) -> None:
    path = tmp_path / "r.txt"
    path.write_bytes(content)
    with pytest.raises(CaseError, match=said):
        read_record(path)
    with pytest.raises(CaseError, match=said):
        add(path, entry("x"))
    assert path.read_bytes() == content


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("x"))
    with path.open("ab") as stream:
        stream.truncate(LARGEST_FILE + 1)
    with pytest.raises(CaseError, match="is larger than 64 MiB"):
        read_record(path)
    with pytest.raises(CaseError, match="is larger than 64 MiB"):
        add(path, entry("y"))
    assert path.stat().st_size == LARGEST_FILE + 1


def test_a_right_sum_over_nonsense_is_said(tmp_path: Path) -> None:
    good = block(entry("x"), 1, START).split("\n")[1:-2]
    assert parsed([normal(line) for line in good])[0] == 1
    from simgait.record.form import sum_of

    for old, new in (
        ("  visit: 2026-03-02", "  visit: 2026-02-30"), ("  visit: 2026-03-02", "  visit: today"),
        ("  by: AB", "  mood: good"), ("  by: AB", "  alignment: foot_forward_mm = 3"),
        ("  by: AB", "  measured: speed_m_s = nan"), ("  by: AB", "  corrects: entry one"),
        ("  written: 2026-03-02T14:30:00+01:00", "  written: 2026-03-02T14:30:00"),
        ("  visit: 2026-03-02", "  by: CD"), ("  by: AB", "  alignment: foot_forward_mm = 3, x"),
    ):  # fmt: skip
        lines = [new if line == old else line for line in good]
        assert lines != good
        text = "\n".join([*lines, f"  sum: {sum_of(lines, START)}, follows start", ""])
        record = record_of(f"{heading('W-17')}\n{text}".encode(), "x")
        assert record.entries == ()
        assert any("cannot be understood" in each.words for each in record.problems)


@pytest.mark.parametrize(
    "more",
    [
        {"code": "A B"}, {"code": ""}, {"code": "x" * 33}, {"by": "a\nb"}, {"measured": {"A": 1.0}},
        {"measured": {"x_mm": float("inf")}}, {"notes": (("mood", "good"),)},
        {"notes": (("seen", " "),)}, {"notes": (("seen", "x" * (LONGEST_NOTE + 1)),)},
        {"alignment": {"foot_forward_mm": 0.0}}, {"alignment": {**LEVEL, "heel_rise_mm": 999.0}},
        {"withdrawn": True}, {"written": __import__("datetime").datetime(2026, 1, 1)},
    ],
)  # fmt: skip
def test_an_impossible_entry_is_refused(more: dict) -> None:
    with pytest.raises(RangeError, match=r"allowed|characters"):
        entry("x", **more)


def test_a_far_number_written_by_hand_does_not_use_up_the_numbers(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path, 1)
    path.write_text(path.read_text() + "\nentry 9999999 of W-17\n", encoding="utf-8")
    assert add(path, entry("after")).number == 2
    assert date(2026, 3, 2) == read_record(path).entries[-1].entry.visit
