"""Reading a record: every entry whose sum is right, and where the file is damaged."""

from __future__ import annotations

import stat
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from simgait.errors import CaseError, Fault, one_line
from simgait.record.entry import Problem, Record, Stored
from simgait.record.form import (
    CLOSE,
    HEAD,
    HEADING,
    START,
    FormError,
    is_code,
    normal,
    parsed,
    sum_of,
)

LARGEST_FILE = 64 * 1024 * 1024  # bytes
PATIENCE = 3.0  # [s] for somebody who is writing
_PAUSE = 0.01  # [s] between looks at the lock
LARGEST_JUMP = 1000  # a number that is farther from those before is a slip, and not counted on from


def read_record(path: str | Path, wait: float = PATIENCE) -> Record:
    """Return all that can be read of a record.

    wait: how long for somebody who is just writing [s]; then it is read as it stands.

    Raises:
        CaseError: the file cannot be read, or is no fitting record at all.
    """
    label, file = one_line(str(path)), Path(path)
    try:
        state = file.stat()
        if not stat.S_ISREG(state.st_mode):
            kind = "is a folder" if stat.S_ISDIR(state.st_mode) else "is not a regular file"
            raise file_fault(label, kind, "a fitting record")
        if state.st_size > LARGEST_FILE:
            raise file_fault(label, "is larger than 64 MiB", "a fitting record")
        with file.open("rb") as stream:
            _wait_for_writers(stream.fileno(), wait)
            content = stream.read()
    except FileNotFoundError as trouble:
        raise file_fault(
            label, "does not exist", "a fitting record, begun with simgait record add"
        ) from trouble
    except (OSError, ValueError) as trouble:
        reason = getattr(trouble, "strerror", None) or str(trouble)
        raise file_fault(label, f"cannot be read: {reason}", "a readable file") from trouble
    return record_of(content, label)


def _wait_for_writers(descriptor: int, wait: float) -> None:
    """Wait until nobody writes, so that no half entry is read; where nothing locks, do not wait."""
    with suppress(ImportError):
        import fcntl

        deadline = time.monotonic() + wait
        while True:
            try:
                fcntl.flock(descriptor, fcntl.LOCK_SH | fcntl.LOCK_NB)
                return
            except BlockingIOError:
                if time.monotonic() > deadline:
                    return
                time.sleep(_PAUSE)
            except OSError:
                return


def file_fault(label: str, problem: str, allowed: str) -> CaseError:
    """Return the refusal of a whole file."""
    return CaseError(
        [Fault(file=label, field="", value="", allowed=allowed, nearest=None, problem=problem)]
    )


def record_of(content: bytes, label: str) -> Record:
    """Return the record that bytes hold; label: what the file is called.

    Raises:
        CaseError: they are something else: not empty, without heading and without an entry.
    """
    walk = _Walk()
    lines = content.decode("utf-8", "surrogateescape").split("\n")
    for number, line in enumerate(map(normal, lines), start=1):
        walk.take(number, line)
    walk.end()
    if walk.code is None and not walk.stored and content.strip(b"\xef\xbb\xbf \t\r\n"):
        raise file_fault(
            label, "is no fitting record", "a file whose first line says 'Fitting record of CODE.'"
        )
    return Record(
        code=walk.code or (walk.stored[0].entry.code if walk.stored else None),
        entries=tuple(walk.stored),
        problems=tuple(sorted(walk.problems, key=lambda each: each.first_line)),
        last_sum=walk.last_sum,
        next_number=walk.highest + 1,
    )


@dataclass
class _Walk:
    """What is known after the lines read so far."""

    code: str | None = None
    stored: list[Stored] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    sums: set[str] = field(default_factory=set)
    numbers: set[int] = field(default_factory=set)
    last_sum: str = START
    highest: int = 0
    expected: str | None = START  # what the next entry follows; None: cannot be told
    open: list[str] = field(default_factory=list)  # lines of the entry that is being read
    begun: int = 0  # its first line
    stray: tuple[int, int] | None = None  # lines that belong to no entry

    def take(self, number: int, line: str) -> None:
        """Read one line."""
        head = HEAD.fullmatch(line)
        if head is not None:
            self._break_off(number - 1)
            self._note_stray()
            if self.highest < int(head[1]) <= self.highest + LARGEST_JUMP:
                self.highest = int(head[1])
            self.open, self.begun = [line], number
        elif self.open and (close := CLOSE.fullmatch(line)):
            self._close(number, close[1], close[2])
        elif self.open and line.startswith("  "):
            self.open.append(line)
        elif line.strip() and not self._is_heading(number, line):
            self._break_off(number - 1)
            self.stray = (self.stray[0] if self.stray else number, number)
            self.expected = None
        elif self.open:
            self._break_off(number - 1)

    def end(self) -> None:
        """Come to the end of the file."""
        self._break_off(self.begun + len(self.open) - 1)
        self._note_stray()

    def _is_heading(self, number: int, line: str) -> bool:
        found = HEADING.fullmatch(line)
        if found is None or not is_code(found[1]) or self.open:
            return False
        if self.code is None:
            self.code = found[1]
        elif self.code != found[1]:
            self._problem(number, number, f"the heading of another record, that of {found[1]}")
        return True

    def _problem(self, first: int, last: int, words: str) -> None:
        self.problems.append(Problem(first_line=first, last_line=last, words=one_line(words)))

    def _break_off(self, last: int) -> None:
        """Give up an entry that has no sum."""
        if self.open:
            self._problem(self.begun, last, f"{self.open[0]} breaks off: it has no sum; not read")
            self.expected = None
            self.open = []

    def _note_stray(self) -> None:
        if self.stray:
            self._problem(*self.stray, "belongs to no entry; not read")
            self.stray = None

    def _close(self, number: int, said: str, follows: str) -> None:
        """Read an entry that has its sum."""
        lines, self.open = self.open, []
        named = lines[0]
        first = self.begun
        expected, self.expected = self.expected, said
        self.last_sum = said
        if sum_of(lines, follows) != said:
            self._problem(
                first, number, f"{named} was changed or damaged: its sum is wrong; not read"
            )
            return
        if said in self.sums:
            self._problem(first, number, f"{named} stands here again; counted once")
            return
        try:
            place, entry = parsed(lines)
        except FormError as trouble:
            self._problem(first, number, f"{named} cannot be understood: {trouble}; not read")
            return
        if self.code is None:
            self.code = entry.code
        if entry.code != self.code:
            words = f"{named} is in the record of {self.code}; not read"
            self._problem(first, number, words)
            return
        if expected is not None and follows != expected:
            words = f"{named} does not follow what stands before it: something was taken out, put "
            self._problem(first, number, words + "in, or added elsewhere; read all the same")
        self._note_twin(place, first, number)
        self.sums.add(said)
        self.stored.append(
            Stored(number=place, sum=said, first_line=first, last_line=number, entry=entry)
        )

    def _note_twin(self, place: int, first: int, last: int) -> None:
        """Say that a number is used by two entries, as after two copies were joined."""
        if place in self.numbers:
            self._problem(first, last, f"a second entry has the number {place}; both are read")
        self.numbers.add(place)
