"""simgait record add: one more entry, made of what was typed and of what the record holds."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

import click

from simgait.alignment import WRITTEN_NAMES
from simgait.case import read_case
from simgait.case.checking import checked_entry
from simgait.case.entries import AlignmentEntry
from simgait.case.findings import Findings
from simgait.case.reading import OVERRIDES, written_value
from simgait.command.running import overrides_of, print_json, refused_option
from simgait.errors import CaseError, Fault, one_line
from simgait.library import nearest
from simgait.record.appending import append
from simgait.record.entry import (
    CODE,
    CODE_WORDS,
    LONGEST_NOTE,
    NOTES,
    QUANTITY,
    QUANTITY_WORDS,
    Entry,
    Record,
    Reference,
    Stored,
)
from simgait.record.history import history_of, last_alignment
from simgait.record.reading import read_record
from simgait.record.words import cleaned, number_text

FIRST_DAY = date(1950, 1, 1)
TABLE = "alignment."


@dataclass(frozen=True, kw_only=True)
class Typed:
    """The options of an entry, as they were typed."""

    code: str
    day: str | None
    by: str | None
    case: str | None
    settings: tuple[str, ...]
    seen: tuple[str, ...]
    said: tuple[str, ...]
    measured: tuple[str, ...]
    advice: tuple[str, ...]
    decision: tuple[str, ...]
    why: tuple[str, ...]
    corrects: str | None
    withdraw: bool


def run_add(file: str, typed: Typed, as_json: bool) -> None:
    """Add an entry to a record and say what was written.

    file: path of the record; typed: the options; as_json: print one JSON object and nothing else.

    Raises:
        CaseError: an option or the file is refused; nothing was added.
    """
    now = datetime.now().astimezone().replace(microsecond=0)
    notes, measured = checked_notes(typed), checked_measured(typed.measured)
    day, settings = checked_day(typed.day, now.date()), checked_settings(typed)
    for option, code in (("--code", typed.code), ("--by", typed.by)):
        if code is not None and not CODE.fullmatch(code):
            raise refused_option(option, repr(code), "is not a code", CODE_WORDS)

    def compose(record: Record) -> Entry:
        if record.code not in (None, typed.code):
            raise refused_option(
                "--code", typed.code, f"is not whose record {one_line(file)} is",
                str(record.code), record.code,
            )  # fmt: skip
        old = corrected_one(typed, record)
        entry = Entry(
            code=typed.code,
            written=now,
            visit=day or (old.entry.visit if old else now.date()),
            by=typed.by,
            case=None if typed.case is None else case_name(typed.case),
            alignment=tried(typed, settings, record, old),
            notes=notes,
            measured=measured,
            corrects=None if old is None else Reference(number=old.number, sum=old.sum),
            withdrawn=typed.withdraw,
        )
        if entry.is_empty and not (old and day):
            options = ", ".join(f"--{kind}" for kind in NOTES)
            raise refused_option(
                "record add", "", "would add an empty entry",
                f"at least one of --case, --set, --measured, {options}",
            )  # fmt: skip
        return entry

    stored, before = append(file, compose)
    report(file, stored, before, as_json)
    if stored.entry.corrects is not None:
        tell_doubted(file, stored.number)


def tell_doubted(file: str, number: int) -> None:
    """Say on standard error which entries a correction makes doubtful, by its number."""
    for problem in history_of(read_record(file)).problems:
        if problem.about == number:
            click.echo(f"{one_line(file)}: {problem.place}: {problem.words}", err=True)


def report(file: str, stored: Stored, before: Record, as_json: bool) -> None:
    """Say what was added, and on standard error what is wrong with the file."""
    for problem in before.problems:
        click.echo(f"{one_line(file)}: {problem.place}: {problem.words}", err=True)
    if as_json:
        print_json(
            {
                "file": file,
                "code": stored.entry.code,
                "entry": stored.number,
                "sum": stored.sum,
                "first_line": stored.first_line,
                "last_line": stored.last_line,
                "visit": stored.entry.visit.isoformat(),
                "written": stored.entry.written.isoformat(),
                "alignment": stored.entry.alignment,
                "problems": [problem.words for problem in before.problems],
            }
        )
        return
    began = "" if before.code else ", which was begun"
    click.echo(
        f"entry {stored.number} of {stored.entry.code}, visit {stored.entry.visit.isoformat()}: "
        f"added to {one_line(file)}{began}, lines {stored.first_line} to {stored.last_line}"
    )
    if stored.entry.alignment is not None:
        values = ", ".join(f"{k} = {number_text(v)}" for k, v in stored.entry.alignment.items())
        click.echo(f"alignment: {values}")


def checked_notes(typed: Typed) -> tuple[tuple[str, str], ...]:
    """Return the notes as kind and text, made fit for a line.

    Raises:
        CaseError: one is empty or too long.
    """
    notes = []
    for kind in NOTES:
        for text in getattr(typed, kind):
            fit = cleaned(text)
            if not fit.strip():
                raise refused_option(f"--{kind}", repr(text[:40]), "says nothing", "a text")
            if len(fit) > LONGEST_NOTE:
                problem = f"is too long: {len(fit)} characters"
                allowed = f"up to {LONGEST_NOTE}; several --{kind} are possible"
                raise refused_option(f"--{kind}", repr(fit[:40]), problem, allowed)
            notes.append((kind, fit))
    return tuple(notes)


def checked_measured(texts: tuple[str, ...]) -> dict[str, float]:
    """Return what was measured: names and numbers.

    Raises:
        CaseError: one is not NAME=NUMBER, or said twice.

    >>> checked_measured(("walking_speed_m_s=1.1",))
    {'walking_speed_m_s': 1.1}
    """
    measured: dict[str, float] = {}
    for text in texts:
        name, sign, value = (part.strip() for part in text.partition("="))
        allowed = f"{QUANTITY_WORDS}, then = and a number"
        try:
            number = float(value)
        except ValueError:
            number = math.nan
        if not sign or not QUANTITY.fullmatch(name) or not math.isfinite(number):
            raise refused_option("--measured", repr(text[:60]), "is not NAME=NUMBER", allowed)
        if "_" not in name:
            raise refused_option("--measured", repr(text[:60]), "has no unit in its name", allowed)
        if name in measured:
            raise refused_option("--measured", name, "is said twice", "each name once an entry")
        measured[name] = number
    return measured


def checked_day(text: str | None, today: date) -> date | None:
    """Return the day of a visit; None if it was not typed.

    Raises:
        CaseError: it is no date, or one that lies ahead or too far back.
    """
    if text is None:
        return None
    allowed = f"{FIRST_DAY.isoformat()} to {today.isoformat()}, today, as YYYY-MM-DD"
    try:
        day = date.fromisoformat(text) if re.fullmatch(r"\d{4}-\d\d-\d\d", text) else None
    except ValueError:
        day = None
    if day is None:
        raise refused_option("--date", repr(text[:40]), "is no date", allowed)
    if not FIRST_DAY <= day <= today:
        near = today if day > today else FIRST_DAY
        problem = "lies ahead" if day > today else "is too long ago"
        raise refused_option("--date", text, problem, allowed, near.isoformat())
    return day


def checked_settings(typed: Typed) -> dict[str, float]:
    """Return the alignment values of `--set`.

    Raises:
        CaseError: with all faults: another key, no number, out of range.
    """
    found, faults = overrides_of(typed.settings)
    findings = Findings(label=OVERRIDES, faults=faults)
    known = tuple(TABLE + name for name in WRITTEN_NAMES)
    values: dict[str, object] = {}
    for key, value in found.items():
        if key in known:
            values[key.removeprefix(TABLE)] = written_value(value)
            continue
        findings.fault(
            key, "is not part of an alignment", allowed=", ".join(known), near=nearest(key, known)
        )
    entry = checked_entry("alignment", AlignmentEntry, values, findings)
    if findings.faults:
        raise CaseError(findings.faults)
    return {name: float(getattr(entry, name)) for name in values}


def corrected_one(typed: Typed, record: Record) -> Stored | None:
    """Return the entry that is corrected, as it is stored; None if none is.

    Raises:
        CaseError: there is no such entry, or several.
    """
    if typed.corrects is None:
        if typed.withdraw:
            raise refused_option("--withdraw", "", "says nothing alone", "with --corrects ENTRY")
        return None
    asked = typed.corrects.strip().lower()
    numbers = [str(each.number) for each in record.entries]
    found = [each for each in record.entries if asked == str(each.number)]
    if not found and len(asked) >= 6:
        found = [each for each in record.entries if each.sum.startswith(asked)]
    if len(found) == 1:
        return found[0]
    if found:
        sums = ", ".join(each.sum for each in found)
        raise refused_option(
            "--corrects", repr(asked[:40]), "is the number of several entries", f"a sum: {sums}"
        )
    several = f"{numbers[0]} to {numbers[-1]}" if numbers else "nothing; the record has no entry"
    raise refused_option(
        "--corrects", repr(asked[:40]), "is no entry that can be read", f"the number of an entry, "
        f"{several}, or its sum", nearest(asked, tuple(numbers)),
    )  # fmt: skip


def tried(
    typed: Typed, settings: Mapping[str, float], record: Record, old: Stored | None
) -> dict[str, float] | None:
    """Return the alignment of an entry, all five values; None if none was typed.

    Raises:
        CaseError: the case is refused, or a value is not known from anywhere.
    """
    if typed.case is not None:
        overrides = {TABLE + name: repr(value) for name, value in settings.items()}
        return read_case(typed.case, overrides).baseline.as_written()
    if not settings:
        return None
    base: Mapping[str, float] = last_alignment(record) or {}
    if old is not None:
        valid = next(t for t in history_of(record).every if old.sum in t.sums)
        base = valid.entry.alignment or base
    values = {name: settings.get(name, base.get(name)) for name in WRITTEN_NAMES}
    missing = [TABLE + name for name, value in values.items() if value is None]
    if missing:
        fault = Fault(
            file=OVERRIDES, field=", ".join(missing), value="", nearest=None,
            allowed="--case, or all five by --set; later entries go on from the last alignment",
            problem="is not known, and no alignment stands in the record yet",
        )  # fmt: skip
        raise CaseError([fault])
    return {name: float(value) for name, value in values.items() if value is not None}


def case_name(path: str) -> str:
    """Return the last part of a case's path, made fit for a line."""
    return one_line(path.replace("\\", "/").rstrip("/").rsplit("/", 1)[-1])[:120]
