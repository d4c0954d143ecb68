"""``[compare]``: lists of alignment values, and all their combinations."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping
from typing import Any

from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.case.checking import checked_entry
from simgait.case.entries import COMPARE, AlignmentEntry
from simgait.case.findings import Findings
from simgait.errors import shown

MOST_ALIGNMENTS = 400


def checked_lists(data: Mapping[str, Any], findings: Findings) -> dict[str, tuple[float, ...]]:
    """Return the lists of ``[compare]`` that are in order, by name, as the file orders them."""
    content = data.get(COMPARE, {})
    if not isinstance(content, dict):
        findings.fault(
            COMPARE, "is not a table", value=shown(content), allowed="a table, [compare]"
        )
        return {}
    strangers = [key for key in content if key not in WRITTEN_NAMES]
    findings.unknown_keys(COMPARE, strangers, WRITTEN_NAMES)
    lists = {
        name: checked_list(name, values, findings)
        for name, values in content.items()
        if name in WRITTEN_NAMES
    }
    count = math.prod(max(1, len(values)) for values in lists.values())
    if count > MOST_ALIGNMENTS:
        findings.fault(
            COMPARE,
            f"makes {count} combinations",
            allowed=f"up to {MOST_ALIGNMENTS}",
            near=str(MOST_ALIGNMENTS),
        )
    return lists


def checked_list(name: str, values: object, findings: Findings) -> tuple[float, ...]:
    """Return one list of values in the unit of its name; what is wrong with it is noted."""
    key = f"{COMPARE}.{name}"
    if not isinstance(values, list) or not 0 < len(values) <= MOST_ALIGNMENTS:
        findings.fault(
            key,
            "is not a list of values",
            value=shown(values),
            allowed=f"a list of 1 to {MOST_ALIGNMENTS} numbers, such as [-10, 0, 10]",
        )
        return ()
    before = len(findings.faults)
    for place, value in enumerate(values):
        local = Findings(label=findings.label)
        checked_entry(COMPARE, AlignmentEntry, {name: value}, local)
        for fault in local.faults:
            findings.fault(
                f"{key}[{place}]",
                fault.problem,
                value=fault.value,
                allowed=fault.allowed,
                near=fault.nearest,
            )
    if len(findings.faults) > before:
        return ()
    if len(set(values)) < len(values):
        findings.fault(key, "says a value twice", value=shown(values), allowed="each value once")
    return tuple(float(value) for value in values)


def combinations(
    baseline: Mapping[str, float], lists: Mapping[str, tuple[float, ...]]
) -> tuple[tuple[Alignment, ...], int]:
    """Return all combinations of the lists, and the place of the baseline among them.

    What no list names stays as in the baseline, in millimetres and degrees. The last list varies
    fastest. A baseline that is not among the combinations is put first.

    >>> start = {"foot_forward_mm": 0.0, "dorsiflexion_deg": 0.0, "socket_flexion_deg": 5.0,
    ...     "length_change_mm": 0.0, "heel_rise_mm": 10.0}
    >>> settings, place = combinations(start, {"foot_forward_mm": (-10.0, 10.0)})
    >>> [setting.foot_forward for setting in settings], place
    ([0.0, -0.01, 0.01], 0)
    """
    written = [
        {**baseline, **dict(zip(lists, values, strict=True))}
        for values in itertools.product(*lists.values())
    ]
    if dict(baseline) not in written:
        written.insert(0, dict(baseline))
    place = written.index(dict(baseline))
    return tuple(Alignment.from_written(values) for values in written), place
