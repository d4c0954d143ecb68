"""``[unit]`` and ``[finished]``: what an adjustable unit reads, and what the finished limb may be
made of."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from simgait.case.entries import Entry, needed, optional
from simgait.case.findings import Findings
from simgait.errors import shown

MOST_OFFSETS = 20
LARGEST_OFFSET = 30.0  # [mm]


class UnitEntry(Entry):
    """``[unit]``: the adjustable unit as it reads; tilts + toe up, slides + foot forward."""

    pylon_mm: float = needed(1, 500)
    upper_tilt_deg: float = needed(-20, 20)
    lower_tilt_deg: float = needed(-20, 20)
    slide_mm: float = needed(-40, 40)
    foot_slide_mm: float | None = optional(-40, 40)
    spacer_mm: float | None = optional(0, 100)
    clamps_mm: float | None = optional(0, 200)
    socket_adapter_mm: float | None = optional(0, 200)
    foot_adapter_mm: float | None = optional(0, 150)


class FinishedEntry(Entry):
    """``[finished]``: the hardware at hand; a step of nothing means that any value can be had."""

    pylon_least_mm: float | None = optional(1, 500)
    pylon_most_mm: float | None = optional(1, 500)
    pylon_step_mm: float | None = optional(0, 100)
    upper_tilt_most_deg: float | None = optional(0, 20)
    upper_tilt_step_deg: float | None = optional(0, 10)
    lower_tilt_most_deg: float | None = optional(0, 20)
    lower_tilt_step_deg: float | None = optional(0, 10)
    offsets_mm: tuple[float, ...] | None = None  # a list; see `checked_offsets`
    clamps_mm: float | None = optional(0, 200)
    socket_adapter_mm: float | None = optional(0, 200)
    foot_adapter_mm: float | None = optional(0, 150)
    tolerance_mm: float | None = optional(0, 20)
    tolerance_deg: float | None = optional(0, 3)


TRANSFER_TABLES: dict[str, type[Entry]] = {"unit": UnitEntry, "finished": FinishedEntry}
OFFSETS = "offsets_mm"


def checked_offsets(content: Mapping[str, Any], findings: Findings) -> tuple[float, ...] | None:
    """Return the offset plates at hand; None if the table names none or once a fault is noted.

    content: ``[finished]`` as written.
    """
    values = content.get(OFFSETS)
    if values is None:
        return None
    key = f"finished.{OFFSETS}"
    allowed = f"a list of 1 to {MOST_OFFSETS} shifts, such as [0, 5, 10]"
    if not isinstance(values, list) or not 0 < len(values) <= MOST_OFFSETS:
        findings.fault(key, "is not a list of shifts", value=shown(values), allowed=allowed)
        return None
    for place, value in enumerate(values):
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if not (number and -LARGEST_OFFSET <= value <= LARGEST_OFFSET):
            findings.fault(
                f"{key}[{place}]",
                "is no shift of a plate",
                value=shown(value),
                allowed=f"{-LARGEST_OFFSET:g} to {LARGEST_OFFSET:g}",
            )
            return None
    if len(set(values)) < len(values):
        findings.fault(key, "says a value twice", value=shown(values), allowed="each value once")
        return None
    return tuple(float(value) for value in values)
