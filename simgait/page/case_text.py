"""A case's text in pieces, so that a page can put another alignment into it and keep the rest."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from simgait.alignment import WRITTEN_NAMES

__all__ = ["NOTE", "Piece", "case_pieces", "filled_text"]

NOTE = "# From a page of simgait:"  # begins the line that a page may add above the length change
Piece = str | dict[str, str | bool]  # text as it stands, {"setting": name}, or {"note": True}

_HEADER = re.compile(r"""^\s*\[\s*["']?alignment["']?\s*\]\s*(?:#.*)?$""")
_TABLE = re.compile(r"^\s*\[")
_KEY = re.compile(
    rf"""^(\s*["']?(?P<name>{"|".join(WRITTEN_NAMES)})["']?\s*=\s*)(?P<value>[^#]*?)(?P<rest>\s*(?:#.*)?)$"""
)
_PROBES = (dict(zip(WRITTEN_NAMES, (1.5, -2.25, 3.0, -4.0, 5.125), strict=True)),)


def case_pieces(text: str) -> list[Piece]:
    """Return the text of a case with its five alignment values as places to fill.

    Comments and everything else stay as they are.  Where the alignment is written in a form that
    cannot be followed line by line (an inline table, say), the whole case is written anew, without
    its comments, and says so.

    text: of a case that is in order.

    >>> five = dict(zip(WRITTEN_NAMES, (12, 1, 5, 0, 10)))
    >>> print(filled_text(case_pieces("[alignment] # mine\\nfoot_forward_mm = 3 # now\\n"), five))
    [alignment] # mine
    dorsiflexion_deg = 1
    socket_flexion_deg = 5
    length_change_mm = 0
    heel_rise_mm = 10
    foot_forward_mm = 12 # now
    <BLANKLINE>
    """
    pieces = _joined(_from_lines(text.splitlines(keepends=True)))
    wanted = tomllib.loads(text)
    if all(_gives(pieces, wanted, probe) for probe in _PROBES):
        return pieces
    return _joined(_written_anew(wanted))


def filled_text(pieces: Sequence[Piece], setting: Mapping[str, float], note: str = "") -> str:
    """Return the case's text with the five values of `setting`, in millimetres and degrees.

    note: a line of its own above the length change, or nothing.
    """
    return "".join(
        piece
        if isinstance(piece, str)
        else (note if piece.get("note") else f"{setting[str(piece['setting'])]:.9g}")
        for piece in pieces
    )


def _gives(pieces: Sequence[Piece], wanted: Mapping[str, Any], probe: Mapping[str, float]) -> bool:
    """Return whether the pieces, filled with values, are the wanted case with these values."""
    try:
        got = tomllib.loads(filled_text(pieces, probe, f"{NOTE} probe\n"))
    except ValueError:
        return False
    return got == {**wanted, "alignment": dict(probe)}


def _from_lines(lines: Sequence[str]) -> list[Piece]:
    """Return the pieces of a text whose alignment is a table of its own, or is left out."""
    kept = [line for line in lines if not line.lstrip().startswith(NOTE)]
    start = next((i for i, line in enumerate(kept) if _HEADER.match(line.rstrip("\r\n"))), None)
    if start is None:
        end = "" if not kept or kept[-1].endswith("\n") else "\n"
        return [*kept, f"{end}\n[alignment]\n", *_entries(WRITTEN_NAMES)]
    after = start + 1
    end_of_table = next((i for i in range(after, len(kept)) if _TABLE.match(kept[i])), len(kept))
    inside = kept[after:end_of_table]
    found = [_KEY.match(line.rstrip("\r\n")) for line in inside]
    named = {match["name"] for match in found if match}
    missing = [name for name in WRITTEN_NAMES if name not in named]
    header = kept[start] if kept[start].endswith("\n") else kept[start] + "\n"
    body: list[Piece] = [*_entries(missing)]
    for line, match in zip(inside, found, strict=True):
        body += _filled_line(line, match) if match else [line]
    return [*kept[:start], header, *body, *kept[end_of_table:]]


def _filled_line(line: str, match: re.Match[str]) -> list[Piece]:
    """Return the pieces of a line that says one of the five values."""
    ending = line[len(line.rstrip("\r\n")) :]
    pieces: list[Piece] = [match[1], {"setting": match["name"]}, match["rest"] + ending]
    return [{"note": True}, *pieces] if match["name"] == "length_change_mm" else pieces


def _entries(names: Iterable[str]) -> list[Piece]:
    """Return a line of its own for each of these values."""
    pieces: list[Piece] = []
    for name in names:
        if name == "length_change_mm":
            pieces.append({"note": True})
        pieces += [f"{name} = ", {"setting": name}, "\n"]
    return pieces


def _written_anew(data: Mapping[str, Any]) -> list[Piece]:
    """Return the pieces of a case from its tables: texts, numbers, lists, tables of these."""
    lines: list[Piece] = [f"{NOTE} written anew, comments left out.\n"]
    lines += [
        f"{key} = {_toml(part)}\n" for key, part in data.items() if not isinstance(part, dict)
    ]
    for key, part in data.items():
        if isinstance(part, dict) and key != "alignment":
            lines.append(f"\n[{key}]\n")
            lines += [f"{name} = {_toml(value)}\n" for name, value in part.items()]
    return [*lines, "\n[alignment]\n", *_entries(WRITTEN_NAMES)]


def _toml(value: Any) -> str:
    """Return a text, a number, a truth, or a list or table of these as TOML writes it."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, list):
        return f"[{', '.join(map(_toml, value))}]"
    if isinstance(value, dict):
        entries = (f"{json.dumps(key, ensure_ascii=False)} = {_toml(value[key])}" for key in value)
        return f"{{ {', '.join(entries)} }}"
    return str(value).lower()


def _joined(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces with neighbouring texts as one."""
    joined: list[Piece] = []
    for piece in pieces:
        last = joined[-1] if joined else None
        if isinstance(piece, str) and isinstance(last, str):
            joined[-1] = last + piece
        else:
            joined.append(piece)
    return joined
