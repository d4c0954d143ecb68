"""Figures: the numbers of a model file, each with its grade and its source."""

from __future__ import annotations

import math
from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeGuard

from simgait.errors import CaseError, Fault, shown
from simgait.library.folder import parsed, path_of, sources, unknown
from simgait.sources import GRADES, Figure, Grade


def origin_faults(file: str, field: str, entry: Mapping[str, Any]) -> list[Fault]:
    """Return what is wrong with the grade and the source of an entry: nothing, if all is well."""
    faults = []
    grade, key = entry.get("grade"), entry.get("source")
    if grade not in GRADES:
        faults.append(unknown(file, f"{field}.grade", str(grade), GRADES, "is not a grade"))
    if key not in sources():
        known = tuple(sorted(sources()))
        faults.append(unknown(file, f"{field}.source", str(key), known, "is not a known source"))
    return faults


def is_number(value: object) -> TypeGuard[int | float]:
    """Return whether a value is a finite number; true and false are not numbers."""
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def unsourced(file: str, field: str, value: object, covered: bool = False) -> list[Fault]:
    """Return a fault for each number under ``value`` that has no grade and source around it."""
    faults: list[Fault] = []
    if isinstance(value, dict):
        if "grade" in value or "source" in value:
            faults += origin_faults(file, field, value)
            covered = True
        for key, part in value.items():
            faults += unsourced(file, f"{field}.{key}".lstrip("."), part, covered)
    elif isinstance(value, list):
        for place, part in enumerate(value):
            faults += unsourced(file, f"{field}[{place}]", part, covered)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        if not is_number(value):
            faults.append(
                Fault(
                    file=file,
                    field=field,
                    value=shown(value),
                    allowed="",
                    nearest=None,
                    problem="is not finite",
                )
            )
        elif not covered:
            faults.append(
                Fault(
                    file=file,
                    field=field,
                    value=shown(value),
                    allowed="a grade and a source beside it",
                    nearest=None,
                    problem="says not where it comes from",
                )
            )
    return faults


def read_model(path: Path) -> dict[str, Any]:
    """Return a model file, parsed, once every number in it has a grade and a known source.

    Raises:
        CaseError: the file is unreadable, has no title or sentence, or has an unsourced number.
    """
    data = parsed(path)
    faults = [
        Fault(
            file=path.name,
            field=key,
            value="",
            allowed="a text",
            nearest=None,
            problem="is missing",
        )
        for key in ("title", "sentence")
        if not isinstance(data.get(key), str)
    ]
    faults += unsourced(path.name, "", data)
    if faults:
        raise CaseError(faults)
    return data


def figures_of(data: Mapping[str, Any], file: str) -> dict[str, Figure]:
    """Return the ``[figures.NAME]`` tables of a parsed model file.

    Raises:
        CaseError: one has no value, or a value that is neither a number nor a row of numbers.
    """
    figures, faults = {}, []
    for name, entry in data.get("figures", {}).items():
        value = entry.get("value") if isinstance(entry, dict) else None
        row = value if isinstance(value, list) else [value]
        numbers = tuple(float(number) for number in row if is_number(number))
        if not row or len(numbers) < len(row):
            faults.append(
                Fault(
                    file=file,
                    field=f"figures.{name}",
                    value=shown(value),
                    allowed="a number or a row of numbers",
                    nearest=None,
                    problem="has no usable value",
                )
            )
            continue
        figures[name] = Figure(
            value=numbers if isinstance(value, list) else numbers[0],
            grade=Grade(entry["grade"]),
            source=entry["source"],
            place=entry.get("place", ""),
            note=entry.get("note", ""),
        )
    if faults:
        raise CaseError(faults)
    return figures


def read_figures(kind: str, name: str) -> dict[str, Figure]:
    """Return the figures of a model by their written names, each with its grade and source.

    Raises:
        CaseError: unknown kind or name, or a file with faults.

    >>> read_figures("pylons", "usual")["turn_deg"].grade.value
    'quoted'
    """
    path = path_of(kind, name)
    return figures_of(read_model(path), path.name)
