"""Names that the library must have, and the choice between a foot's model and its figures.

Looked at in the tables as written, so that another fault in the same table hides nothing.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from simgait.case.entries import INLINE_FOOT, NEEDED_FOOT, FootEntry, number_range
from simgait.case.findings import Findings
from simgait.library import SINGULAR, names

BAREFOOT = "none"  # the name of no shoe
NAMED = (
    ("person", "segment_table", "segments"),
    ("foot", "model", "feet"),
    ("shoe", "model", "shoes"),
    ("socket", "model", "sockets"),
    ("pylon", "model", "pylons"),
    ("wearer", "model", "wearers"),
)


def check_names(data: Mapping[str, Any], findings: Findings) -> None:
    """Note a fault for each model and segment table that the library does not have."""
    for table, key, kind in NAMED:
        content = data.get(table)
        name = content.get(key) if isinstance(content, dict) else None
        known = (*names(kind), BAREFOOT) if kind == "shoes" else names(kind)
        if isinstance(name, str) and name not in known:
            findings.unknown_name(f"{table}.{key}", name, known, SINGULAR[kind])


def check_foot(data: Mapping[str, Any], findings: Findings) -> None:
    """Note a fault unless the foot has either a model or all figures that it needs."""
    content = data.get("foot", {})
    if not isinstance(content, dict):
        return
    inline = [name for name in INLINE_FOOT if name in content]
    if "model" in content and inline:
        findings.fault(
            "foot",
            "has a model and figures of its own",
            value=", ".join(["model", *inline]),
            allowed="either model or bench figures, not both",
        )
    elif "model" not in content and not inline:
        findings.fault("foot.model", "is missing", allowed=", ".join(names("feet")))
    elif inline:
        for name in NEEDED_FOOT:
            if name not in inline:
                low, high = number_range(FootEntry, name) or (0.0, 0.0)
                findings.fault(f"foot.{name}", "is missing", allowed=f"{low:g} to {high:g}")
