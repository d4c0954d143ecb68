"""A record that was damaged: every damage is found and said, and the rest is read."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from records import add, entry, filled, seen, whole
from simgait.record.form import START, block, heading
from simgait.record.reading import record_of


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
