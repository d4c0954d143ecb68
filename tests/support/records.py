"""Fitting records made for tests: entries, files, and the command that adds to them."""

from __future__ import annotations

from datetime import date, datetime, timedelta, timezone
from pathlib import Path

from click.testing import CliRunner, Result

from simgait.command import main
from simgait.record.appending import append
from simgait.record.entry import Entry, Reference
from simgait.record.reading import read_record

WRITTEN = datetime(2026, 3, 2, 14, 30, tzinfo=timezone(timedelta(hours=1)))
LEVEL = {
    "foot_forward_mm": 0.0, "dorsiflexion_deg": 0.0, "socket_flexion_deg": 5.0,
    "length_change_mm": 0.0, "heel_rise_mm": 10.0,
}  # fmt: skip


def entry(*seen: str, code: str = "W-17", day: int = 2, **more: object) -> Entry:
    """Return an entry in which something was seen, on a day of March."""
    values: dict = {
        "code": code, "written": WRITTEN, "visit": date(2026, 3, day), "by": "AB", "case": None,
        "alignment": None, "notes": tuple(("seen", text) for text in seen), "measured": {},
        "corrects": None, "withdrawn": False,
    }  # fmt: skip
    return Entry(**{**values, **more})


def correction(stored, **more: object) -> Entry:
    """Return a correction of a stored entry, as if typed without --date."""
    day = more.pop("day", stored.entry.visit.day)
    reference = Reference(number=stored.number, sum=stored.sum)
    return entry(day=day, corrects=reference, **more)


def add(path: Path, made: Entry):
    """Add an entry to a file and return it as it is stored."""
    return append(path, lambda record: made)[0]


def run(*words: str | Path) -> Result:
    """Run `simgait record`."""
    return CliRunner().invoke(main, ["record", *map(str, words)])


def filled(path: Path, count: int = 5) -> list:
    """Fill a file with entries, each with its own sign and day; return them as stored."""
    return [add(path, entry(f"sign {n}", day=n + 1, alignment=LEVEL)) for n in range(count)]


def seen(record) -> list[str]:
    """Return all notes of a record."""
    return [text for stored in record.entries for _, text in stored.entry.notes]


def whole(path: Path) -> tuple[list[str], list[str]]:
    """Return all notes of a file, and what is said of its damage."""
    record = read_record(path)
    return seen(record), [f"{each.place}: {each.words}" for each in record.problems]
