"""What the page of an arm says: titles, which measures come first, which are spoken."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from simgait.arm.names import DEVICE, LENGTH, POSITION, ArmQuantity

__all__ = ["LIMIT_TITLES", "SPOKEN", "measure_words"]

Word = dict[str, Any]

LIMIT_TITLES = {
    "pull": "pull while lifting",
    "excursion": "travel of the lift",
    "device_excursion": "travel left for the device",
    "device_pull": "pull that works the device",
    "axis": "elbow's axis",
}
SPOKEN = ("peak_pull_n", "excursion_mm", "shoulder_moment_nm")

_LIFT = {
    "peak_pull_n": "Peak pull",
    "pull_at_90_n": "Pull at 90 degrees",
    "lever_at_90_mm": "Lever at 90 degrees",
    "excursion_mm": "Excursion",
    "device_excursion_left_mm": "Excursion left for the device",
    "opening_left_share": "Opening at the mouth",
    "work_j": "Work of one lift",
    "peak_pull_at_deg": "Flexion of the peak pull",
    "crosses_axis_at_deg": "Cable passes the axis",
    "ledger_error_percent": "Ledger unexplained",
}
_LENGTH = {
    "forearm_change_mm": "Change of the forearm",
    "shoulder_moment_nm": "Moment at the shoulder",
    "inertia_kg_m2": "Inertia",
    "reach_mm": "Reach",
    "other_side_difference_mm": "Against the other arm",
    "brim_force_n": "Force at the brim",
    "shoulder_moment_bent_nm": "Moment, elbow bent",
    "elbow_moment_nm": "Moment at the elbow",
    "first_acceleration_rad_s2": "First acceleration",
    "slowest_swing_s": "Slowest swing",
    "fastest_swing_s": "Fastest swing",
    "socket_moment_nm": "Moment in the socket",
    "end_force_n": "Force at the limb's end",
    "reach_lost_mm": "Reach lost",
}
_DEVICE = {
    "peak_pull_n": "Peak pull",
    "excursion_mm": "Excursion",
    "work_j": "Work of one grip",
    "stored_j": "Work that arrives",
    "lost_n_mm": "Lost in a cycle",
    "efficiency": "Efficiency",
    "usual_minimum": "Usual minimum",
}
_FIRST = frozenset(
    ("peak_pull_n", "pull_at_90_n", "lever_at_90_mm", "excursion_mm", "device_excursion_left_mm",
     "opening_left_share", "work_j", "forearm_change_mm", "shoulder_moment_nm", "inertia_kg_m2",
     "reach_mm", "other_side_difference_mm", "brim_force_n", "lost_n_mm", "efficiency",
     "usual_minimum")
)  # fmt: skip


def measure_words(without: Iterable[str] = ()) -> dict[str, list[Word]]:
    """Return the measures of lift, length and device in the order shown, each with its words.

    without: names of measures that this case does not have.

    >>> [word["title"] for word in measure_words()["lift"]][:2]
    ['Peak pull', 'Pull at 90 degrees']
    """
    left_out = frozenset(without)
    kinds = {"lift": (_LIFT, POSITION), "length": (_LENGTH, LENGTH), "device": (_DEVICE, DEVICE)}
    return {
        kind: [_word(rows[name], title) for name, title in titles.items() if name not in left_out]
        for kind, (titles, rows) in (
            (kind, (titles, {row.name: row for row in rows}))
            for kind, (titles, rows) in kinds.items()
        )
    }


def _word(row: ArmQuantity, title: str) -> Word:
    return {
        "name": row.name,
        "title": title,
        "unit": row.unit.replace("^2", "\u00b2"),
        "sentence": row.sentence,
        "definition": row.definition,
        "key": row.name in _FIRST,
    }
