"""Lists of an arm's case file: numbers side by side, or from, to and step."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from simgait.case.arm_entries import ALONE, ARM_LISTS
from simgait.case.findings import Findings
from simgait.case.hints import nearest_bound, unit_hint
from simgait.errors import shown
from simgait.library import nearest

STEPS = ("from", "to", "step")
ROUNDING = 1e-6  # of a step


def checked_arm_lists(
    data: Mapping[str, Any], findings: Findings
) -> dict[str, tuple[float, ...] | None]:
    """Return every list by its dotted key, None where it was left out; what is wrong is noted."""
    found: dict[str, tuple[float, ...] | None] = {}
    for table, keys in ARM_LISTS.items():
        content = data.get(table)
        for key in keys:
            value = content.get(key) if isinstance(content, dict) else None
            found[f"{table}.{key}"] = (
                None if value is None else checked_numbers(table, key, value, findings)
            )
    return found


def checked_numbers(table: str, key: str, value: Any, findings: Findings) -> tuple[float, ...]:
    """Return the numbers of one list; nothing, with its faults noted, if it is not in order."""
    low, high, most, spread = ARM_LISTS[table][key]
    name = f"{table}.{key}"
    if spread and isinstance(value, dict):
        value = spread_out(name, value, most, findings)
    elif name in ALONE and is_number(value):
        value = [value]
    if value is None:
        return ()
    if not isinstance(value, list) or len(value) > most or (spread and not value):
        forms = " or {from = , to = , step = }" if spread else ""
        findings.fault(
            name,
            "is not a list of numbers",
            value=shown(value),
            allowed=f"a list of up to {most} numbers, {low:g} to {high:g}{forms}",
        )
        return ()
    before = len(findings.faults)
    for place, number in enumerate(value):
        check_number(f"{name}[{place}]", key, number, (low, high), findings)
        if len(findings.faults) > before + 10:
            break
    return tuple(map(float, value)) if len(findings.faults) == before else ()


def is_number(value: object) -> bool:
    """Return whether a value is a finite number, true and false not counted.

    >>> is_number(1), is_number(True), is_number(float("nan"))
    (True, False, False)
    """
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def check_number(
    name: str, key: str, number: Any, span: tuple[float, float], findings: Findings
) -> None:
    """Note what is wrong with one number of a list."""
    low, high = span
    allowed = f"{low:g} to {high:g}"
    if not is_number(number):
        findings.fault(name, "is not a number", value=shown(number), allowed=f"a number, {allowed}")
    elif not low <= number <= high:
        hint = unit_hint(key, number, low, high)
        findings.fault(
            name,
            f"is out of range{': ' + hint if hint else ''}",
            value=shown(number),
            allowed=allowed,
            near=nearest_bound(number, low, high),
        )


def checked_steps(name: str, value: Mapping[str, Any], findings: Findings) -> bool:
    """Return whether a table holds from, to and step, each a number; what it lacks is noted."""
    before = len(findings.faults)
    for key in value:
        if key not in STEPS:
            findings.fault(
                f"{name}.{key}",
                "is not a key of a case",
                allowed=", ".join(STEPS),
                near=nearest(key, STEPS),
            )
    for key in STEPS:
        if key not in value:
            findings.fault(f"{name}.{key}", "is missing", allowed="a number")
        elif not is_number(value[key]):
            findings.fault(
                f"{name}.{key}", "is not a number", value=shown(value[key]), allowed="a number"
            )
    return len(findings.faults) == before


def spread_out(
    name: str, value: Mapping[str, Any], most: int, findings: Findings
) -> list[float] | None:
    """Return the numbers from, to and step stand for; None, with the fault noted, if they do not.

    The last is `to` where whole steps lead there, else the last before it.
    """
    if not checked_steps(name, value, findings):
        return None
    start, end, step = (float(value[key]) for key in STEPS)
    if step <= 0.0 or end < start:
        findings.fault(
            name,
            "leads nowhere",
            value=f"from {start:g} to {end:g} by {step:g}",
            allowed="from below to, and a step above 0",
        )
        return None
    many = (end - start) / step
    if many > most - 1 + ROUNDING:
        findings.fault(
            name,
            f"makes {many + 1.0:.0f} numbers",
            value=f"step {step:g}",
            allowed=f"up to {most}",
            near=f"{(end - start) / (most - 1):.3g}",
        )
        return None
    return [start + place * step for place in range(math.floor(many + ROUNDING) + 1)]
