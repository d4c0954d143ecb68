"""The form of an entry in the file: lines that people read, and a checksum under them."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Mapping, Sequence
from datetime import date, datetime

from simgait.errors import RangeError
from simgait.record.entry import CODE, NOTES, NUMBERS, Entry, Reference
from simgait.record.words import cleaned, number_text

START = "start"  # what the first entry follows
SUM_LETTERS = 12
HEADING = re.compile(r"Fitting record of (\S+)\. .*")
HEAD = re.compile(r"entry ([0-9]{1,7}) of (\S+)")
CLOSE = re.compile(r"  sum: ([0-9a-f]{12}), follows ([0-9a-f]{12}|start)")
_FIELD = re.compile(r"  ([a-z]+): (.*)")
_PAIR = re.compile(r"([a-z][a-z0-9_]*) = (\S+)")
_CORRECTS = re.compile(r"entry ([0-9]{1,7}), sum ([0-9a-f]{12})")
_MORE = "    |"  # begins a further line of a note


class FormError(ValueError):
    """Lines that are no entry."""


def heading(code: str) -> str:
    """Return the first line of a wearer's record.

    >>> HEADING.fullmatch(heading("W-17"))[1]
    'W-17'
    """
    return (
        f"Fitting record of {code}. Only ever added to, by simgait record; a correction is a new "
        "entry, and each sum guards the lines above it."
    )


def normal(line: str) -> str:
    """Return a line without what editors and transports change: marks of order, returns, forms.

    >>> normal("\\ufeffentry 1 of W-17\\r")
    'entry 1 of W-17'
    """
    return unicodedata.normalize("NFC", line.removeprefix("\ufeff").rstrip("\r"))


def sum_of(lines: Sequence[str], follows: str) -> str:
    """Return the checksum of an entry's lines: SHA-256 over them and the sum before, cut short.

    lines: from the head to the last before the sum, normal; follows: the sum of the entry before,
    or START.  It finds damage and slips of the hand; it is no seal against somebody who computes
    it anew.
    """
    text = "\n".join([*lines, follows])
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()[:SUM_LETTERS]


def block(entry: Entry, number: int, follows: str) -> str:
    """Return an entry as it stands in the file, with an empty line before it.

    >>> from datetime import timezone
    >>> print(block(Entry(code="W-17", written=datetime(2026, 11, 25, 14, 3, tzinfo=timezone.utc),
    ...     visit=date(2026, 11, 24), by="AB", case=None, alignment=None,
    ...     notes=(("seen", "knee steady"),), measured={}, corrects=None, withdrawn=False),
    ...     1, START), end="")
    <BLANKLINE>
    entry 1 of W-17
      written: 2026-11-25T14:03:00+00:00
      visit: 2026-11-24
      by: AB
      seen: knee steady
      sum: 99d674fdd7fd, follows start
    """
    lines = [f"entry {number} of {entry.code}", *_fields(entry)]
    return "\n".join(["", *lines, f"  sum: {sum_of(lines, follows)}, follows {follows}", ""])


def _fields(entry: Entry) -> list[str]:
    lines = [f"  written: {entry.written.isoformat(timespec='seconds')}"]
    if entry.corrects is not None:
        lines.append(f"  corrects: entry {entry.corrects.number}, sum {entry.corrects.sum}")
    if entry.withdrawn:
        lines.append("  withdrawn: yes")
    lines.append(f"  visit: {entry.visit.isoformat()}")
    if entry.by is not None:
        lines.append(f"  by: {entry.by}")
    if entry.case is not None:
        lines.append(f"  case: {entry.case}")
    if entry.alignment is not None:
        lines.append(f"  alignment: {_pairs(entry.alignment)}")
    lines += [f"  measured: {_pairs({name: value})}" for name, value in entry.measured.items()]
    for kind, text in entry.notes:
        first, *more = text.split("\n")
        lines.append(f"  {kind}: {first}")
        lines += [f"{_MORE} {line}".rstrip() for line in more]
    return lines


def _pairs(values: Mapping[str, float]) -> str:
    return ", ".join(f"{name} = {number_text(value)}" for name, value in values.items())


def parsed(lines: Sequence[str]) -> tuple[int, Entry]:
    """Return number and entry of the lines from head to the last before the sum.

    Raises:
        FormError: they are no entry, although their sum is right.
    """
    head = HEAD.fullmatch(lines[0])
    if head is None or not NUMBERS[0] <= int(head[1]) <= NUMBERS[1]:
        raise FormError("no number of an entry")
    fields = _joined(lines[1:])
    known = {"written", "corrects", "withdrawn", "visit", "by", "case", "alignment", "measured"}
    if strangers := [name for name, _ in fields if name not in known | set(NOTES)]:
        raise FormError(f"'{strangers[0]}' is not a part of an entry")
    measured: dict[str, float] = {}
    for _, text in (field for field in fields if field[0] == "measured"):
        measured |= _values(text)
    single = {name: text for name, text in fields if name in known - {"measured"}}
    try:
        return int(head[1]), Entry(
            code=head[2],
            written=datetime.fromisoformat(single["written"]),
            visit=date.fromisoformat(single["visit"]),
            by=single.get("by"),
            case=single.get("case"),
            alignment=_values(single["alignment"]) if "alignment" in single else None,
            notes=tuple(field for field in fields if field[0] in NOTES),
            measured=measured,
            corrects=_reference(single.get("corrects")),
            withdrawn="withdrawn" in single,
        )
    except KeyError as missing:
        raise FormError(f"without its part {missing}") from missing
    except (RangeError, ValueError) as trouble:
        raise FormError(str(trouble)) from trouble


def _joined(lines: Sequence[str]) -> list[tuple[str, str]]:
    """Return name and text of each field, the further lines of a note joined to it."""
    fields: list[tuple[str, str]] = []
    for line in lines:
        if line.startswith(_MORE) and fields:
            name, text = fields[-1]
            fields[-1] = (name, f"{text}\n{line.removeprefix(_MORE).removeprefix(' ')}")
            continue
        found = _FIELD.fullmatch(line)
        if found is None:
            raise FormError(f"a line that is none of an entry: {cleaned(line)[:40]!r}")
        fields.append((found[1], found[2]))
    return fields


def _values(text: str) -> dict[str, float]:
    values = {}
    for part in text.split(", "):
        found = _PAIR.fullmatch(part)
        if found is None:
            raise FormError(f"'{part[:40]}' is not NAME = NUMBER")
        values[found[1]] = float(found[2])
    return values


def _reference(text: str | None) -> Reference | None:
    if text is None:
        return None
    found = _CORRECTS.fullmatch(text)
    if found is None:
        raise FormError("corrects no entry")
    return Reference(number=int(found[1]), sum=found[2])


def is_code(text: str) -> bool:
    """Whether a text can be a wearer's code."""
    return CODE.fullmatch(text) is not None
