"""Each table of a case against its entry: keys, types, ranges."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from pydantic import ValidationError

from simgait.case.entries import TABLES, TOP_KEYS, Entry, number_range
from simgait.case.findings import Findings
from simgait.case.hints import nearest_bound, unit_hint
from simgait.errors import shown
from simgait.library import nearest

LONGEST_TITLE = 120
NOTHING: Mapping[str, Collection[str]] = {}


def checked_title(data: Mapping[str, Any], fallback: str, findings: Findings) -> str:
    """Return the title, or the file's own name if there is none."""
    title = data.get("title")
    if title is None:
        findings.fill(f"title: none given, so the name of the file, {fallback}")
        return fallback
    if not isinstance(title, str) or not title.strip():
        findings.fault("title", "is not a text", value=shown(title), allowed="a text")
    elif len(title) > LONGEST_TITLE or not title.isprintable():
        findings.fault(
            "title",
            "does not fit on one line",
            value=shown(title),
            allowed=f"one line of up to {LONGEST_TITLE} characters",
        )
    return title if isinstance(title, str) else fallback


def checked_tables(
    data: Mapping[str, Any],
    findings: Findings,
    tables: Mapping[str, type[Entry]] = TABLES,
    top: tuple[str, ...] = TOP_KEYS,
    apart: Mapping[str, Collection[str]] = NOTHING,
) -> dict[str, Entry]:
    """Return the entries of all tables that are in order; the faults of the others are noted.

    tables, top: the tables and top keys of this kind of case; apart: keys by table that are checked
    elsewhere.
    """
    findings.unknown_keys("", (key for key in data if key not in top), top)
    entries = {}
    for table, entry in tables.items():
        content = data.get(table, {})
        if not isinstance(content, dict):
            findings.fault(
                table, "is not a table", value=shown(content), allowed=f"a table, [{table}]"
            )
            continue
        checked = checked_entry(table, entry, content, findings, tuple(apart.get(table, ())))
        if checked is not None:
            entries[table] = checked
    return entries


def checked_entry(
    table: str,
    entry: type[Entry],
    content: Mapping[str, Any],
    findings: Findings,
    apart: tuple[str, ...] = (),
) -> Entry | None:
    """Return one table as its entry, or None once its faults are noted.

    apart: keys of the table that are checked elsewhere.
    """
    known = tuple(entry.model_fields)
    strangers = [key for key in content if key not in known and key not in apart]
    findings.unknown_keys(table, strangers, (*known, *apart))
    try:
        checked = entry.model_validate({key: content[key] for key in known if key in content})
    except ValidationError as trouble:
        for error in trouble.errors(include_url=False):
            name = str(error["loc"][0])
            note_error(f"{table}.{name}", name, entry, dict(error), findings)
        return None
    return None if strangers else checked


def note_error(
    key: str, name: str, entry: type[Entry], error: Mapping[str, Any], findings: Findings
) -> None:
    """Note the fault behind one error of the validator."""
    kind, value = error["type"], error.get("input")
    limits = number_range(entry, name)
    span = f"{limits[0]:g} to {limits[1]:g}" if limits else "a text"
    if kind == "missing":
        words = choices_of(entry, name)
        findings.fault(key, "is missing", allowed=", ".join(words) or span)
    elif kind == "literal_error":
        words = choices_of(entry, name)
        near = nearest(value, words) if isinstance(value, str) else None
        findings.fault(
            key,
            "is not one of the words allowed",
            value=shown(value),
            allowed=", ".join(words),
            near=near,
        )
    elif limits is None:
        findings.fault(key, "is not a text", value=shown(value), allowed="a text")
    elif kind in ("greater_than_equal", "less_than_equal"):
        number = float(value)  # type: ignore[arg-type]
        hint = unit_hint(name, number, *limits)
        findings.fault(
            key,
            f"is out of range{': ' + hint if hint else ''}",
            value=shown(value),
            allowed=span,
            near=nearest_bound(number, *limits),
        )
    else:
        problem = "is not finite" if kind == "finite_number" else "is not a number"
        findings.fault(key, problem, value=shown(value), allowed=f"a number, {span}")


def choices_of(entry: type[Entry], name: str) -> tuple[str, ...]:
    """Return the words that a key may take, or nothing if it takes any text or a number."""
    words = entry.model_json_schema()["properties"][name]
    options = [words, *words.get("anyOf", [])]
    return tuple(word for option in options for word in option.get("enum", ()))
