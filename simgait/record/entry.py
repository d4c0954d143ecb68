"""One entry of a fitting record: a visit's trial, what was seen and said, advice, decision."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.errors import RangeError, require

NOTES = ("seen", "said", "advice", "decision", "why")  # kinds of notes, in the order of a visit
LONGEST_NOTE = 20_000  # characters
CODE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9._-]{0,30}[A-Za-z0-9])?", re.ASCII)
CODE_WORDS = "1 to 32 letters, digits, points, hyphens or underscores, such as W-17"
QUANTITY = re.compile(r"[a-z][a-z0-9_]{0,60}", re.ASCII)
QUANTITY_WORDS = "a name in small letters that ends in its unit, such as walking_speed_m_s"
NUMBERS = (1, 1_000_000)  # of entries


@dataclass(frozen=True, kw_only=True)
class Reference:
    """Which older entry is corrected: its number and its checksum."""

    number: int
    sum: str


@dataclass(frozen=True, kw_only=True, eq=False)
class Entry:
    """What one person adds at one time.  Texts are as `simgait.record.words.cleaned` leaves them.

    >>> Entry(code="W-17", written=datetime.fromisoformat("2026-11-25T14:03:22+01:00"),
    ...     visit=date(2026, 11, 24), by=None, case=None, alignment=None,
    ...     notes=(("seen", "knee steady"),), measured={}, corrects=None, withdrawn=False).code
    'W-17'
    """

    code: str  # of the wearer
    written: datetime  # with offset from universal time, given by the computer
    visit: date
    by: str | None  # code of whoever writes
    case: str | None  # name of the case file that the alignment is from
    alignment: Mapping[str, float] | None  # all five, in mm and deg, as in a case file
    notes: tuple[tuple[str, str], ...]  # kind and text, in the order given
    measured: Mapping[str, float]  # quantity with unit in its name, value
    corrects: Reference | None
    withdrawn: bool  # the entry that is corrected was no entry of this wearer at all

    def __post_init__(self) -> None:
        for code in (self.code, self.by):
            if code is not None and not CODE.fullmatch(code):
                raise RangeError(f"Entry: code '{code}'; allowed: {CODE_WORDS}")
        if self.written.tzinfo is None:
            raise RangeError("Entry.written has no offset; allowed: a time with its offset")
        for kind, text in self.notes:
            if kind not in NOTES or not text.strip():
                raise RangeError(f"Entry: note '{kind}'; allowed: {', '.join(NOTES)}, not empty")
            require(1, len(text), LONGEST_NOTE, f"characters of Entry's note '{kind}'")
        for name, value in self.measured.items():
            if not QUANTITY.fullmatch(name) or not math.isfinite(value):
                raise RangeError(f"Entry: {name} = {value}; allowed: {QUANTITY_WORDS}, a number")
        if self.alignment is not None:
            if tuple(self.alignment) != WRITTEN_NAMES:
                raise RangeError(f"Entry.alignment; allowed: {', '.join(WRITTEN_NAMES)}, in order")
            Alignment.from_written(self.alignment)
        if self.withdrawn and self.corrects is None:
            raise RangeError("Entry: withdrawn; allowed: only where it corrects an entry")

    @property
    def is_empty(self) -> bool:
        """Whether nothing is said in it."""
        return not (self.alignment or self.notes or self.measured or self.withdrawn)


@dataclass(frozen=True, kw_only=True, eq=False)
class Stored:
    """An entry as it stands in the file."""

    number: int
    sum: str
    first_line: int
    last_line: int
    entry: Entry


@dataclass(frozen=True, kw_only=True)
class Problem:
    """Something wrong in a record's file, and the lines where it stands; the rest was read."""

    first_line: int
    last_line: int
    words: str
    about: int | None = None  # the number of the entry that made it doubtful

    @property
    def place(self) -> str:
        """The lines in words.

        >>> Problem(first_line=3, last_line=3, words="").place
        'line 3'
        """
        if self.first_line == self.last_line:
            return f"line {self.first_line}"
        return f"lines {self.first_line} to {self.last_line}"


@dataclass(frozen=True, kw_only=True, eq=False)
class Record:
    """All that could be read of a record, and what could not."""

    code: str | None  # None: there is no entry and no readable heading yet
    entries: tuple[Stored, ...]  # in the order of the file
    problems: tuple[Problem, ...]
    last_sum: str  # of the last entry that ends, readable or not; START if there is none
    next_number: int
