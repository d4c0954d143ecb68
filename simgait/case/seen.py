"""``[seen]``: what was observed of a wearer in the alignment that the case states."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias, cast

from simgait.case.findings import Findings
from simgait.errors import shown
from simgait.library import nearest
from simgait.symbols import BY_NAME
from simgait.symbols.watching import VISIBLE

Word: TypeAlias = Literal["less", "usual", "more"]
WORDS: dict[str, Word] = {
    "less": "less",
    "usual": "usual",
    "more": "more",
    "early": "less",
    "late": "more",
}
SEEN = "seen"
MOST_SIGNS = 20
FORMS = "less, usual, more (early, late), or { value = 20, within = 3 }"


@dataclass(frozen=True, kw_only=True)
class Sign:
    """One thing that was seen: a word, or a number that was measured, in the measure's unit."""

    measure: str
    word: Word | None
    value: float = math.nan
    within: float = math.nan  # standard deviation of the measurement


def checked_signs(data: Mapping[str, Any], findings: Findings) -> tuple[Sign, ...]:
    """Return what ``[seen]`` says; its faults are noted."""
    content = data.get(SEEN, {})
    if not isinstance(content, dict):
        findings.fault(SEEN, "is not a table", value=shown(content), allowed="a table, [seen]")
        return ()
    if len(content) > MOST_SIGNS:
        findings.fault(SEEN, f"has {len(content)} signs", allowed=f"up to {MOST_SIGNS}")
    found = []
    for name, value in content.items():
        if name not in BY_NAME:
            findings.fault(
                f"{SEEN}.{name}",
                "is no measure",
                allowed="a measure's name",
                near=nearest(name, tuple(BY_NAME)),
            )
            continue
        sign = _sign(name, value, findings)
        if sign is not None:
            found.append(sign)
    return tuple(found)


def _sign(name: str, value: object, findings: Findings) -> Sign | None:
    """Return one sign; None once its fault is noted."""
    field = f"{SEEN}.{name}"
    if isinstance(value, str):
        if value not in WORDS:
            near = nearest(value, tuple(WORDS))
            findings.fault(field, "is no word for it", value=shown(value), allowed=FORMS, near=near)
            return None
        if name not in VISIBLE:
            findings.fault(
                field,
                "cannot be told by eye; give what was measured",
                value=shown(value),
                allowed="{ value = 20, within = 3 }; words only for " + ", ".join(VISIBLE),
            )
            return None
        return Sign(measure=name, word=WORDS[value])
    if not isinstance(value, dict) or value.keys() != {"value", "within"}:
        findings.fault(field, "is no observation", value=shown(value), allowed=FORMS)
        return None
    for key, part in value.items():
        number = isinstance(part, int | float) and not isinstance(part, bool)
        least = 0.0 if key == "within" else -1e6
        good = number and math.isfinite(part) and least <= part <= 1e6
        if not good or (key == "within" and part == 0.0):
            allowed = "a number above 0" if key == "within" else "a number"
            findings.fault(f"{field}.{key}", "is not allowed", value=shown(part), allowed=allowed)
            return None
    given = cast(Mapping[str, float], value)
    return Sign(measure=name, word=None, value=float(given["value"]), within=float(given["within"]))
