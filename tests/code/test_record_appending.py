"""Adding to a record: many at once, killed in the middle, no room, locked, replaced, read-only."""

from __future__ import annotations

import errno
import fcntl
import os
import signal
import stat
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from records import add, entry
from simgait.errors import CaseError
from simgait.record import appending
from simgait.record.appending import append
from simgait.record.reading import read_record

SUPPORT = Path(__file__).resolve().parents[1] / "support"
# writes a few bytes at a time, so that others have every chance to come between
PIECES = """
import os, sys, time
sys.path[:0] = [{support!r}]
write = os.write
def bit_by_bit(descriptor, data):
    time.sleep({pause})
    return write(descriptor, bytes(data[:{bytes}]))
os.write = bit_by_bit
from pathlib import Path
from records import add, entry
"""


def child(work: str, pause: float = 0.0, size: int = 31) -> subprocess.Popen[str]:
    program = PIECES.format(support=str(SUPPORT), pause=pause, bytes=size) + work
    return subprocess.Popen(
        [sys.executable, "-c", program], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def texts(path: Path) -> list[str]:
    return [text for stored in read_record(path).entries for _, text in stored.entry.notes]


def test_many_who_write_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    people, each = 8, 12
    running = [
        child(
            f"for n in range({each}):\n"
            f"    add(Path({str(path)!r}), entry(f'person {person} sign {{n}}\\nmore'))\n",
            pause=0.0002,
        )
        for person in range(people)
    ]
    for process in running:
        _, errors = process.communicate(timeout=120)
        assert process.returncode == 0, errors
    record = read_record(path)
    assert record.problems == ()
    assert [stored.number for stored in record.entries] == list(range(1, people * each + 1))
    wanted = {f"person {p} sign {n}\nmore" for p in range(people) for n in range(each)}
    assert set(texts(path)) == wanted
    assert path.read_text(encoding="utf-8").count("Fitting record of") == 1
    for person in range(people):  # and everybody's own entries stand in their own order
        own = [text for text in texts(path) if text.startswith(f"person {person} ")]
        assert own == [f"person {person} sign {n}\nmore" for n in range(each)]


def test_whoever_was_told_that_it_is_written_finds_it_again(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    work = (
        "import itertools\n"
        "for n in itertools.count():\n"
        f"    add(Path({str(path)!r}), entry(f'PERSON {{n}}'))\n"
        "    print(f'PERSON {n}', flush=True)\n"
    )
    told: list[str] = []
    for wave in range(3):
        running = [child(work.replace("PERSON", f"w{wave}p{p}"), 0.001) for p in range(4)]
        for process in running:
            assert process.stdout is not None
            told.append(process.stdout.readline().strip())
        for process in running:
            time.sleep(0.03)
            process.kill()
        for process in running:
            told += process.communicate()[0].split("\n")
    told = [words for words in told if words]
    record = read_record(path)
    assert len(told) >= 12
    assert set(told) <= set(texts(path))
    assert all("breaks off" in each.words for each in record.problems)


@pytest.mark.parametrize("seconds", [0.05, 0.12, 0.2])
def test_killed_in_the_middle_only_that_entry_is_lost(seconds: float, tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    before = path.read_bytes()
    process = child(
        f"print('now', flush=True)\nadd(Path({str(path)!r}), entry('x' * 5000))\n", 0.005, 101
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "now\n"
    while path.stat().st_size == len(before):
        time.sleep(0.001)
    time.sleep(seconds)
    process.send_signal(signal.SIGKILL)
    process.communicate()
    left = path.read_bytes()
    assert left.startswith(before)
    assert len(before) < len(left) < len(before) + 5000  # it was indeed in the middle
    assert add(path, entry("after")).number == 3
    assert path.read_bytes().startswith(left)
    record = read_record(path)
    assert texts(path) == ["before", "after"]
    assert [each.words for each in record.problems] == [
        "entry 2 of W-17 breaks off: it has no sum; not read"
    ]
    assert record.problems[0].place == "lines 10 to 14"


def test_who_reads_waits_for_who_writes(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    size = path.stat().st_size
    process = child(f"add(Path({str(path)!r}), entry('x' * 3000))\n", 0.003, 61)
    while path.stat().st_size == size:
        time.sleep(0.001)
    record = read_record(path)
    assert process.wait(timeout=60) == 0
    process.communicate()
    assert record.problems == ()
    assert len(record.entries) == 2
    with path.open("rb") as holder:  # and is not held up for good
        fcntl.flock(holder, fcntl.LOCK_EX)
        assert len(read_record(path, 0.05).entries) == 2


def test_where_there_is_no_room_nothing_is_left_of_the_entry(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    before = path.read_bytes()
    process = child(
        "import resource, simgait.errors\n"
        f"resource.setrlimit(resource.RLIMIT_FSIZE, ({len(before) + 50}, {len(before) + 50}))\n"
        "try:\n"
        f"    add(Path({str(path)!r}), entry('x' * 500))\n"
        "except simgait.errors.CaseError as refusal:\n"
        "    print(refusal)\n"
    )
    said, errors = process.communicate(timeout=60)
    assert process.returncode == 0, errors
    assert "cannot be written: File too large; nothing was added" in said
    assert path.read_bytes() == before


def test_a_failing_medium_is_said_and_nothing_added(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    before = path.read_bytes()

    def full(descriptor: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(appending.os, "fsync", full)
        with pytest.raises(CaseError, match="No space left on device; nothing was added"):
            add(path, entry("x"))
    assert path.read_bytes() == before
    with monkeypatch.context() as patch:
        patch.setattr(appending.os, "fsync", lambda descriptor: (_ for _ in ()).throw(
            KeyboardInterrupt))  # fmt: skip
        with pytest.raises(KeyboardInterrupt):
            add(path, entry("x"))
    assert path.read_bytes() == before


def test_a_lock_that_is_held_too_long_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    monkeypatch.setattr(appending, "PATIENCE", 0.1)
    with path.open("rb") as holder:
        fcntl.flock(holder, fcntl.LOCK_EX)
        with pytest.raises(CaseError, match="is being written by somebody else"):
            add(path, entry("x"))
    assert add(path, entry("after")).number == 2


def test_a_place_that_cannot_lock_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))

    def no_lock(*_: object) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr(fcntl, "flock", no_lock)
    with pytest.raises(CaseError, match="cannot be locked: No locks available"):
        add(path, entry("x"))
    assert texts(path) == ["before"]


def test_an_entry_goes_to_the_file_that_has_the_name_now(tmp_path: Path) -> None:
    path, other = tmp_path / "r.txt", tmp_path / "other.txt"
    add(path, entry("before"))
    add(other, entry("in the new file"))
    done: list[int] = []
    with path.open("rb") as holder:
        fcntl.flock(holder, fcntl.LOCK_EX)
        thread = threading.Thread(target=lambda: done.append(add(path, entry("x")).number))
        thread.start()
        time.sleep(0.1)
        os.replace(other, path)
    thread.join(timeout=10)
    assert done == [2]
    assert texts(path) == ["in the new file", "x"]


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may write everywhere")
def test_a_read_only_file_is_said(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))
    path.chmod(0o444)
    with pytest.raises(CaseError, match="cannot be written: Permission denied"):
        add(path, entry("x"))


def test_what_cannot_be_opened_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "r.txt"
    add(path, entry("before"))

    def read_only(*_: object) -> int:
        raise OSError(errno.EROFS, "Read-only file system")

    with monkeypatch.context() as patch:
        patch.setattr(appending.os, "open", read_only)
        with pytest.raises(CaseError, match="Read-only file system"):
            add(path, entry("x"))
    os.mkfifo(tmp_path / "pipe")
    for place, said in (
        (tmp_path / "none" / "r.txt", "No such file or directory"),
        (tmp_path, "is a folder"),
        (tmp_path / "pipe", "is not a regular file"),
        (path / "under.txt", "Not a directory"),
    ):
        with pytest.raises(CaseError, match=said):
            add(place, entry("x"))
    assert texts(path) == ["before"]


def test_a_record_whose_numbers_are_used_up_takes_no_more(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "r.txt"
    monkeypatch.setattr(appending, "NUMBERS", (1, 2))
    for text in ("one", "two"):
        add(path, entry(text))
    before = path.read_bytes()
    with pytest.raises(CaseError, match="is full"):
        add(path, entry("three"))
    assert path.read_bytes() == before


def test_a_refusal_leaves_no_empty_file(tmp_path: Path) -> None:
    def refuse(record: object) -> None:
        raise CaseError([])

    with pytest.raises(CaseError):
        append(tmp_path / "r.txt", refuse)  # type: ignore[arg-type]
    assert list(tmp_path.iterdir()) == []


def test_a_new_record_is_not_for_everybody(tmp_path: Path) -> None:
    usual = os.umask(0o022)
    try:
        add(tmp_path / "r.txt", entry("x"))
    finally:
        os.umask(usual)
    assert stat.S_IMODE((tmp_path / "r.txt").stat().st_mode) == 0o640


def test_what_stands_in_the_file_stays_byte_for_byte(tmp_path: Path) -> None:
    path = tmp_path / "r.txt"
    for n in range(6):
        before = path.read_bytes() if path.exists() else b""
        add(path, entry(f"sign {n}"))
        assert path.read_bytes().startswith(before)
        if n == 3:
            path.write_bytes(path.read_bytes() + b"\nscribble \xff without an end")
