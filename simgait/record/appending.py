"""Adding to a record: under a lock, in one piece, at the end, and never over anything."""

from __future__ import annotations

import errno
import os
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from simgait.errors import one_line
from simgait.record.entry import NUMBERS, Entry, Record, Stored
from simgait.record.form import START, block, heading
from simgait.record.reading import LARGEST_FILE, file_fault, read_record, record_of

PATIENCE = 20.0  # [s] for somebody else's lock
_PAUSE = 0.01  # [s] between looks at the lock
_NEW_MODE = 0o660  # of a new file, less what the person's usual mask takes away
NOTHING = Record(code=None, entries=(), problems=(), last_sum=START, next_number=1)


def append(path: str | Path, compose: Callable[[Record], Entry]) -> tuple[Stored, Record]:
    """Add the entry that `compose` makes of the record as it stands; return it, and the record.

    The record is read, and the entry written behind it, under one lock, so that people who write
    at the same time write one after the other.  If the entry cannot be written whole, what was
    written of it is taken away again.  A file that is missing is begun; its folder must exist.
    `compose` may be called twice, and must not write anything.

    Raises:
        CaseError: the file is no record, cannot be locked or written, or `compose` refuses.
    """
    label, file = one_line(str(path)), Path(path)
    if file.exists():
        read_record(file, 0.0)  # refuses what is no record, before it is opened to be written
    else:
        compose(NOTHING)  # refuses before an empty file is left behind
    with _locked(file, label) as descriptor:
        content = _content(descriptor)
        record = record_of(content, label)
        if record.next_number > NUMBERS[1]:
            raise file_fault(label, "is full", f"up to {NUMBERS[1]} entries")
        entry = compose(record)
        number = record.next_number
        text = block(entry, number, record.last_sum)
        before = content.decode("utf-8", "surrogateescape")
        if not content.strip():
            text = f"{heading(entry.code)}\n{text}"
        _write_whole(descriptor, text.encode("utf-8"), len(content), label)
    line = before.count("\n") + text.count("\n")
    head = line - text[text.index(f"entry {number} of ") :].count("\n") + 1
    said = text.rstrip("\n").rsplit("sum: ", 1)[1][:12]
    stored = Stored(number=number, sum=said, first_line=head, last_line=line, entry=entry)
    return stored, record


@contextmanager
def _locked(file: Path, label: str) -> Iterator[int]:
    """Yield the file opened for adding and locked for everybody else.

    Raises:
        CaseError: it cannot be opened or locked.
    """
    deadline = time.monotonic() + PATIENCE
    while True:
        descriptor = _opened(file, label)
        try:
            _lock(descriptor, deadline, label)
            if _same(descriptor, file):
                yield descriptor
                return
        finally:
            os.close(descriptor)  # gives the lock back too


def _opened(file: Path, label: str) -> int:
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_CLOEXEC", 0)
    try:
        return os.open(file, flags, _NEW_MODE)
    except (OSError, ValueError) as trouble:
        reason = getattr(trouble, "strerror", None) or str(trouble)
        raise file_fault(
            label, f"cannot be written: {reason}", "a file that can be added to, in a folder"
        ) from trouble


def _lock(descriptor: int, deadline: float, label: str) -> None:
    """Wait for the lock of an open file."""
    try:
        import fcntl
    except ImportError as trouble:
        raise file_fault(label, "cannot be locked on this system", "a system with flock") from (
            trouble
        )
    while True:
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return
        except OSError as trouble:
            if trouble.errno not in (errno.EAGAIN, errno.EACCES, errno.EINTR):
                raise file_fault(
                    label, f"cannot be locked: {trouble.strerror}", "a place where files lock"
                ) from trouble
        if time.monotonic() > deadline:
            raise file_fault(
                label, f"is being written by somebody else for more than {PATIENCE:.0f} s",
                "try again",
            )  # fmt: skip
        time.sleep(_PAUSE)


def _same(descriptor: int, file: Path) -> bool:
    """Whether the name still leads to the file that was locked; an editor may have replaced it."""
    ours = os.fstat(descriptor)
    try:
        now = file.stat()
    except FileNotFoundError:
        return False
    return (ours.st_dev, ours.st_ino) == (now.st_dev, now.st_ino)


def _content(descriptor: int) -> bytes:
    """Return what the file holds, up to what a record may."""
    pieces, place = [], 0
    while place <= LARGEST_FILE and (piece := os.pread(descriptor, 1 << 20, place)):
        pieces.append(piece)
        place += len(piece)
    return b"".join(pieces)


def _write_whole(descriptor: int, data: bytes, size: int, label: str) -> None:
    """Write data at the end, or leave the file at its size before.

    Raises:
        CaseError: there is no room, or the medium fails.
    """
    try:
        left = memoryview(data)
        while left:
            left = left[os.write(descriptor, left) :]
        os.fsync(descriptor)
    except BaseException as trouble:
        with suppress(OSError):
            os.ftruncate(descriptor, size)
        if isinstance(trouble, OSError):
            raise file_fault(
                label, f"cannot be written: {trouble.strerror}; nothing was added", "room for it"
            ) from trouble
        raise
