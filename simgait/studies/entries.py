"""The entries of a study file, one by one: what each may say."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from simgait.case.checking import choices_of
from simgait.case.entries import TABLES, number_range
from simgait.case.findings import Findings
from simgait.case.hints import nearest_bound, unit_hint
from simgait.case.naming import BAREFOOT, NAMED
from simgait.errors import shown
from simgait.library import names, nearest
from simgait.studies.study import Axis, Deviation, Level, Spread

MOST_LEVELS = 100_000
CASE_NAMES = tuple(
    f"{table}.{key}" for table, entry in TABLES.items() for key in entry.model_fields
)
AXIS_FORMS = "a list, {from, to} to sample, or {from, to, steps} for a grid"
ERROR_FORMS = "a standard deviation above 0, {sd = ...} or {plus_minus = ...}"


def flat(table: str, content: object, findings: Findings) -> dict[str, Any]:
    """Return a table by dotted names; names written without quotes, which nest, are joined."""
    if not isinstance(content, dict):
        findings.fault(table, "is not a table", value=shown(content), allowed=f"[{table}]")
        return {}
    found: dict[str, Any] = {}
    for key, value in content.items():
        nested = key in TABLES and isinstance(value, dict)
        found |= {f"{key}.{name}": part for name, part in value.items()} if nested else {key: value}
    known = {key: value for key, value in found.items() if key in CASE_NAMES}
    for key in found.keys() - known.keys():
        near = nearest(key, CASE_NAMES)
        findings.fault(
            f"{table}.{key}",
            "names nothing in a case",
            allowed="TABLE.KEY of a case file, such as alignment.foot_forward_mm",
            near=near,
        )
    return known


def limits(name: str) -> tuple[float, float] | None:
    """Return the range of a number of a case by its dotted name; None if it is no number.

    >>> limits("alignment.foot_forward_mm")
    (-60.0, 60.0)
    """
    table, _, key = name.partition(".")
    return number_range(TABLES[table], key)


def words(name: str) -> tuple[str, ...]:
    """Return the texts that an entry of a case may hold.

    >>> "carbon-leaf" in words("foot.model")
    True
    """
    table, _, key = name.partition(".")
    for where, what, kind in NAMED:
        if (where, what) == (table, key):
            return (*names(kind), BAREFOOT) if kind == "shoes" else names(kind)
    return choices_of(TABLES[table], key)


def checked_level(field: str, name: str, value: object, findings: Findings) -> Level | None:
    """Return one value of a name that varies; None once its fault is noted.

    field: where it stands, for the message.
    """
    span = limits(name)
    if span is None:
        known = words(name)
        if isinstance(value, str) and value in known:
            return value
        near = nearest(value, known) if isinstance(value, str) else None
        findings.fault(
            field, "is not allowed", value=shown(value), allowed=", ".join(known), near=near
        )
        return None
    if isinstance(value, bool) or not isinstance(value, int | float) or not np.isfinite(value):
        findings.fault(
            field, "is not a number", value=shown(value), allowed=f"{span[0]:g} to {span[1]:g}"
        )
        return None
    if not span[0] <= value <= span[1]:
        hint = unit_hint(name, float(value), *span)
        findings.fault(
            field,
            f"is out of range{': ' + hint if hint else ''}",
            value=shown(value),
            allowed=f"{span[0]:g} to {span[1]:g}",
            near=nearest_bound(float(value), *span),
        )
        return None
    return float(value)


def checked_axis(name: str, value: object, sampled: bool, findings: Findings) -> Axis | None:
    """Return what ``[vary]`` says of one name; None once its faults are noted."""
    field = f"vary.{name}"
    if isinstance(value, list) and 0 < len(value) <= MOST_LEVELS:
        found = [checked_level(f"{field}[{k}]", name, v, findings) for k, v in enumerate(value)]
        levels = tuple(level for level in found if level is not None)
        if len(levels) < len(found):
            return None
        if len(set(levels)) < len(levels):
            findings.fault(field, "says a value twice", allowed="each value once")
            return None
        return Axis(name=name, levels=levels)
    if isinstance(value, dict) and {"from", "to"} <= value.keys() <= {"from", "to", "steps"}:
        return _checked_span(field, name, value, sampled, findings)
    problem = "is empty" if value in ([], {}) else "is neither a list nor a range"
    findings.fault(field, problem, value=shown(value), allowed=AXIS_FORMS)
    return None


def _checked_span(
    field: str, name: str, value: Mapping[str, Any], sampled: bool, findings: Findings
) -> Axis | None:
    """Return the axis of {from, to} or {from, to, steps}."""
    if limits(name) is None:
        findings.fault(field, "is a text and has no range", allowed="a list of " + shown(name))
        return None
    ends = [checked_level(f"{field}.{end}", name, value[end], findings) for end in ("from", "to")]
    low, high = ends
    if not isinstance(low, float) or not isinstance(high, float):
        return None
    if not low < high:
        findings.fault(
            field, "is an empty range", value=shown(dict(value)), allowed="from below to"
        )
        return None
    steps = value.get("steps")
    if steps is None:
        if sampled:
            return Axis(name=name, levels=(), low=low, high=high)
        findings.fault(
            field,
            "has no steps, and nothing is sampled",
            allowed='steps = N, or method = "sobol" or "lhs" under [sample]',
        )
        return None
    if isinstance(steps, bool) or not isinstance(steps, int) or not 2 <= steps <= MOST_LEVELS:
        findings.fault(
            f"{field}.steps", "is not a count", value=shown(steps), allowed=f"2 to {MOST_LEVELS}"
        )
        return None
    return Axis(name=name, levels=tuple(np.linspace(low, high, steps).tolist()))


def checked_deviation(name: str, value: object, findings: Findings) -> Deviation | None:
    """Return what ``[error]`` says of one name; None once its faults are noted."""
    field = f"error.{name}"
    if limits(name) is None:
        findings.fault(field, "is a text and has no error", allowed="a number of a case")
        return None
    spread: Spread = "normal"
    if isinstance(value, dict) and len(value) == 1 and value.keys() <= {"sd", "plus_minus"}:
        spread = "normal" if "sd" in value else "uniform"
        (value,) = value.values()
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not (np.isfinite(value) and value > 0.0):  # type: ignore[call-overload, operator]
        findings.fault(field, "is no error", value=shown(value), allowed=ERROR_FORMS)
        return None
    return Deviation(name=name, spread=spread, size=float(value))  # type: ignore[arg-type]
