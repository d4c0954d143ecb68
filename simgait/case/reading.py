"""From a path to parsed TOML: what can be wrong with a file before its first key is looked at."""

from __future__ import annotations

import re
import stat
import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from simgait.case.entries import TOP_KEYS
from simgait.errors import CaseError, Fault, one_line, shown
from simgait.library import nearest

LARGEST_FILE = 1024 * 1024  # bytes
OVERRIDES = "--set"  # what stands for the file's name in faults of an override


def read_bytes(path: Path, label: str) -> bytes:
    """Return the content of a regular file of at most 1 MiB.

    Raises:
        CaseError: missing, a folder, no regular file, too large, empty, or not readable.
    """
    try:
        state = path.stat()
        if stat.S_ISDIR(state.st_mode):
            raise _file_fault(label, "is a folder", "a case file, one that ends in .toml")
        if not stat.S_ISREG(state.st_mode):
            raise _file_fault(label, "is not a regular file", "a case file")
        with path.open("rb") as stream:
            content = stream.read(LARGEST_FILE + 1)
    except FileNotFoundError as trouble:
        raise _file_fault(label, "does not exist", "a case file", _neighbour(path)) from trouble
    except (OSError, ValueError) as trouble:
        reason = getattr(trouble, "strerror", None) or str(trouble)
        raise _file_fault(label, f"cannot be read: {reason}", "a readable file") from trouble
    if len(content) > LARGEST_FILE:
        raise _file_fault(label, "is larger than 1 MiB", "up to 1048576 bytes")
    return content


def text_of(content: bytes, label: str, tables: str = "[person], [limb] and [foot]") -> str:
    """Return the content as text.

    tables: what a case of this kind has at least, for the message.

    Raises:
        CaseError: empty, binary, or not UTF-8.
    """
    if not content.strip(b" \t\r\n\xef\xbb\xbf"):
        raise _file_fault(label, "is empty", f"at least {tables}")
    if b"\x00" in content:
        raise _file_fault(label, "is a binary file", "a text file in TOML")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as trouble:
        line = content[: trouble.start].count(b"\n") + 1
        raise _file_fault(
            label, f"is not UTF-8 text (line {line}, byte {trouble.start})", "a UTF-8 text file"
        ) from trouble


def tables_of(text: str, label: str) -> dict[str, Any]:
    """Return the text as parsed TOML.

    Raises:
        CaseError: it is no TOML, or says a key twice; the fault names the line.
    """
    try:
        return tomllib.loads(text)
    except RecursionError as trouble:
        raise _file_fault(label, "is nested too deeply", "tables of keys") from trouble
    except ValueError as trouble:
        raise _toml_fault(text, label, str(trouble)) from trouble


def _toml_fault(text: str, label: str, complaint: str) -> CaseError:
    """Return the fault of text that is no TOML, with the line where reading stopped."""
    lines = text.splitlines()
    found = re.search(r"at line (\d+)", complaint)
    number = int(found.group(1)) if found else len(lines)
    line = lines[number - 1].strip() if 0 < number <= len(lines) else ""
    key = re.match(r"\[*\s*([\w.-]+)", line)
    said_twice = "overwrite" in complaint or "twice" in complaint
    fault = Fault(
        file=label,
        field=key.group(1) if key and said_twice else f"line {number}",
        value=shown(line),
        allowed="each key and table once" if said_twice else "valid TOML",
        nearest=None,
        problem=f"is said twice (line {number})" if said_twice else f"is not TOML: {complaint}",
    )
    return CaseError([fault])


def _file_fault(label: str, problem: str, allowed: str, near: str | None = None) -> CaseError:
    """Return the fault of a whole file."""
    return CaseError(
        [Fault(file=label, field="", value="", allowed=allowed, nearest=near, problem=problem)]
    )


def _neighbour(path: Path) -> str | None:
    """Return the name in the same folder closest to a missing file's name, or None."""
    try:
        known = tuple(sorted(other.name for other in path.parent.glob("*.toml")))[:1000]
    except (OSError, ValueError):
        return None
    return nearest(path.name, known)


def with_overrides(
    data: Mapping[str, Any], overrides: Mapping[str, str]
) -> tuple[dict[str, Any], list[Fault]]:
    """Return the tables with the overrides written into a copy, and what was wrong with these.

    An override is ``table.key`` (or ``title``) and a value as TOML writes it; text needs no
    quotes.

    >>> with_overrides({"foot": {"model": "firm"}}, {"foot.model": "short-keel"})[0]
    {'foot': {'model': 'short-keel'}}
    """
    merged = {key: dict(part) if isinstance(part, dict) else part for key, part in data.items()}
    faults: list[Fault] = []
    for key, text in overrides.items():
        table, dot, name = key.partition(".")
        if table not in TOP_KEYS or bool(dot) != (table != "title") or (dot and not name):
            faults.append(
                Fault(
                    file=OVERRIDES,
                    field=one_line(key),
                    value=shown(text),
                    allowed="TABLE.KEY=VALUE with a table of " + ", ".join(TOP_KEYS),
                    nearest=nearest(table, TOP_KEYS),
                    problem="names nothing that can be set",
                )
            )
        elif not dot:
            merged[table] = text
        else:
            place = merged.setdefault(table, {})
            if isinstance(place, dict):
                place[name] = written_value(text)
    return merged, faults


def written_value(text: str) -> object:
    """Return the value that a text stands for in TOML, or the text itself.

    >>> written_value("-10"), written_value("[0, 5]"), written_value("carbon-leaf")
    (-10, [0, 5], 'carbon-leaf')
    """
    try:
        parsed = tomllib.loads(f"value = {text}")
    except (ValueError, RecursionError):
        return text
    return parsed["value"] if set(parsed) == {"value"} else text
