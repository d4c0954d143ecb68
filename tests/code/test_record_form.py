"""The record's file: what is written comes back, and every damage is found and said."""

from __future__ import annotations

import random
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records import LEVEL, add, correction, entry
from simgait.errors import CaseError, RangeError
from simgait.record.entry import LONGEST_NOTE, NOTES
from simgait.record.form import CLOSE, HEAD, START, block, heading, normal, parsed
from simgait.record.reading import read_record, record_of
from simgait.record.words import cleaned, number_text


def filled(path: Path, count: int = 5) -> list:
    return [add(path, entry(f"sign {n}", day=n + 1, alignment=LEVEL)) for n in range(count)]


def seen(record) -> list[str]:
    return [text for stored in record.entries for _, text in stored.entry.notes]


def whole(path: Path) -> tuple[list[str], list[str]]:
    record = read_record(path)
    return seen(record), [f"{each.place}: {each.words}" for each in record.problems]


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


def damaged(path: Path, old: str, new: str) -> None:
    text = path.read_bytes()
    assert old.encode() in text
    path.write_bytes(text.replace(old.encode(), new.encode("latin-1"), 1))


@pytest.mark.parametrize(
    ("old", "new", "lost", "said"),
    [
        ("sign 1", "sign l", 1, "entry 2 of W-17 was changed or damaged"),
        ("sign 1", "sign \xff\xfe", 1, "entry 2 of W-17 was changed or damaged"),
        ("sign 1", "sign \x00", 1, "entry 2 of W-17 was changed or damaged"),
        ("sign 1\n", "sign 1", 1, "entry 2 of W-17 breaks off"),
        ("sign 1\n", "sign 1\n\n", 1, "entry 2 of W-17 breaks off"),
        ("sign 1\n", "sign 1\nscribble\n", 1, "entry 2 of W-17 breaks off"),
        ("entry 2 of W-17", "entry 2 of W-18", 1, "entry 2 of W-18 was changed or damaged"),
        ("entry 2 of W-17", "entry two", 1, "belongs to no entry"),
        ("Fitting record of W-17", "Fitting reord of W-17", None, "line 1: belongs to no entry"),
    ],
)
def test_damage_is_said_with_its_line_and_the_rest_is_read(
    old: str, new: str, lost: int | None, said: str, tmp_path: Path
) -> None:
    path = tmp_path / "r.txt"
    stored = filled(path)
    damaged(path, old, new)
    texts, problems = whole(path)
    assert texts == [f"sign {n}" for n in range(5) if n != lost]
    assert any(said in each for each in problems), problems
    assert not any("does not follow" in each for each in problems)
    if lost is not None:
        place = stored[lost].first_line
        assert problems[0].startswith((f"line {place}:", f"lines {place} to"))
    add(path, entry("after", day=9))
    again, problems_after = whole(path)
    assert again[-1] == "after"
    assert len(problems_after) == len(problems)


def test_every_single_damaged_byte_is_found_and_loses_one_entry_at_most(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path)
    good = path.read_bytes()
    start = good.index(b"entry 1")
    chance = random.Random(5)
    for place in range(start, len(good) - 1):
        mark = good[place] ^ (1 << chance.randrange(8))
        record = record_of(good[:place] + bytes([mark]) + good[place + 1 :], "x")
        blank = {good[place : place + 1], bytes([mark])} <= {b"\r", b"\n", b" "}
        assert record.problems or blank, (place, good[place : place + 1], mark)
        assert len(record.entries) >= 4
        assert all(text in {f"sign {n}" for n in range(5)} for text in seen(record))


def test_wherever_the_file_is_cut_what_is_whole_is_read(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    stored = filled(path, 3)
    good = path.read_bytes()
    ends = [good.index(each.sum.encode() + b", follows") for each in stored]
    head = len(heading("W-17").encode())
    for cut in range(head, len(good)):
        record = record_of(good[:cut], "x")
        expected = sum(cut >= good.find(b"\n", end) for end in ends)
        assert len(record.entries) == expected
        path.write_bytes(good[:cut])
        add(path, entry("after", day=9))
        texts, _ = whole(path)
        assert texts == [*(f"sign {n}" for n in range(expected)), "after"]


@settings(max_examples=200, deadline=None)
@given(st.randoms(use_true_random=False), st.binary(max_size=40))
def test_no_disorder_of_lines_makes_up_an_entry(chance: random.Random, noise: bytes) -> None:
    wanted = [f"sign {n}\nmore {n}" for n in range(4)]
    text, follows = heading("W-17") + "\n", START
    for n, words in enumerate(wanted, start=1):
        text += block(entry(words), n, follows)
        follows = text.rsplit("sum: ", 1)[1][:12]
    lines = text.encode().split(b"\n")
    for _ in range(chance.randrange(1, 6)):
        place = chance.randrange(1, len(lines))
        change = chance.randrange(4)
        if change == 0:
            del lines[place]
        elif change == 1:
            lines.insert(place, lines[chance.randrange(len(lines))])
        elif change == 2:
            lines[place] = noise
        else:
            lines[place:place] = lines[1:place]
    record = record_of(b"\n".join(lines), "x")
    assert set(seen(record)) <= set(wanted)
    assert len(seen(record)) == len(set(seen(record)))
    assert len(record.entries) == 4 or record.problems


def test_what_was_taken_out_put_in_or_said_twice_is_noticed(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    filled(path, 4)
    text = path.read_text(encoding="utf-8")
    head, *blocks = text.split("\n\n")
    without = "\n\n".join([head, blocks[0], blocks[2], blocks[3]])
    turned = "\n\n".join([head, blocks[1], blocks[0], blocks[2], blocks[3]])
    twice = "\n\n".join([head, blocks[0].rstrip(), *blocks])
    for changed, read, said in (
        (without, 3, "entry 3 of W-17 does not follow"),
        (turned, 4, "entry 2 of W-17 does not follow"),
        (twice, 4, "stands here again; counted once"),
    ):
        record = record_of(changed.encode(), "x")
        assert len(record.entries) == read
        assert any(said in each.words for each in record.problems)


def test_what_an_entry_follows_is_under_its_sum_too(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    stored = filled(path, 3)
    damaged(path, f"follows {stored[0].sum}", "follows start")
    texts, problems = whole(path)
    assert texts == ["sign 0", "sign 2"]
    assert len(problems) == 1


def test_two_copies_joined_are_both_read_and_it_is_said(tmp_path: Path) -> None:
    one, two = tmp_path / "1.txt", tmp_path / "2.txt"
    filled(one, 2)
    two.write_bytes(one.read_bytes())
    add(one, entry("here", day=9))
    add(two, entry("there", day=9))
    one.write_bytes(one.read_bytes() + two.read_bytes())
    texts, problems = whole(one)
    assert texts == ["sign 0", "sign 1", "here", "there"]
    assert any("second entry has the number 3" in each for each in problems)
    assert sum("counted once" in each for each in problems) == 2
    assert add(one, entry("after", day=9)).number == 4


def test_an_entry_of_another_wearer_is_not_read(tmp_path: Path) -> None:
    one, two = tmp_path / "1.txt", tmp_path / "2.txt"
    filled(one, 1)
    add(two, entry("other", code="W-18"))
    one.write_bytes(one.read_bytes() + two.read_bytes())
    texts, problems = whole(one)
    assert texts == ["sign 0"]
    assert any("the heading of another record, that of W-18" in each for each in problems)
    assert any("is in the record of W-17; not read" in each for each in problems)


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
