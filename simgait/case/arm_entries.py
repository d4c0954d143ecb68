"""The shape of an arm's case file: tables, keys, lists, and the range of each number."""

from __future__ import annotations

from typing import Literal

from simgait.case.entries import Entry, PersonEntry, needed, optional


class ArmEntry(Entry):
    """``[arm]``: along the forearm from the elbow's axis, on the upper arm from the shoulder's."""

    level: Literal["forearm", "upper_arm", "shoulder"]
    forearm_mm: float = needed(50, 500)
    upper_arm_mm: float | None = optional(100, 500)
    forearm_mass_kg: float = needed(0, 5)
    forearm_centre_mm: float = needed(0, 500)
    device_mass_kg: float = needed(0, 3)
    device_centre_mm: float = needed(0, 800)
    held_mass_kg: float | None = optional(0, 20)
    shoulder_flexion_deg: float | None = optional(-90, 180)
    flexion_from_deg: float | None = optional(0, 180)
    flexion_to_deg: float | None = optional(0, 180)
    tip_mm: float | None = optional(50, 900)
    upper_arm_mass_kg: float | None = optional(0, 5)
    upper_arm_centre_mm: float | None = optional(0, 500)
    residual_limb_mm: float | None = optional(0, 450)
    socket_depth_mm: float | None = optional(10, 450)
    other_side_mm: float | None = optional(300, 1000)


class CableEntry(Entry):
    """``[cable]``: places from the elbow's axis, housing, lift assist, and the device it works."""

    guide_mm: float | None = optional(5, 450)
    guide_offset_mm: float | None = optional(-100, 100)
    loop_mm: float | None = optional(2, 500)
    loop_offset_mm: float | None = optional(-100, 100)
    friction: float | None = optional(0, 1)
    efficiency: float | None = optional(0.05, 1)
    pulley: float | None = optional(1, 4)
    device_action: Literal["opens", "closes"] | None = None
    device_excursion_mm: float | None = optional(1, 150)
    device_pull_n: float | None = optional(1, 500)
    device_start_pull_n: float | None = optional(0, 500)


class HarnessEntry(Entry):
    """``[wearer]``: what the wearer can pull through the harness, as measured."""

    max_pull_n: float = needed(1, 1000)
    max_excursion_mm: float = needed(5, 300)
    fatigue_free_share: float | None = optional(0.01, 1)
    opening_share: float | None = optional(0, 1)
    max_shoulder_moment_nm: float | None = optional(0.1, 100)


class SearchEntry(Entry):
    """``[search]``: nothing but lists."""


class ErrorsEntry(Entry):
    """``[errors]``: standard deviations of what was measured."""

    mass_share: float | None = optional(0, 0.5)
    length_mm: float | None = optional(0, 30)
    pull_share: float | None = optional(0, 0.5)
    excursion_mm: float | None = optional(0, 50)
    friction_share: float | None = optional(0, 1)


ARM_TABLES: dict[str, type[Entry]] = {
    "person": PersonEntry,
    "arm": ArmEntry,
    "cable": CableEntry,
    "wearer": HarnessEntry,
    "search": SearchEntry,
    "errors": ErrorsEntry,
}
ARM_KEYS = ("title", *ARM_TABLES)
MOST_POSITIONS = 2000
# Keys that hold a list: range of each entry, the most entries, whether from/to/step does as well.
ARM_LISTS: dict[str, dict[str, tuple[float, float, int, bool]]] = {
    "cable": {
        "bends_deg": (0, 720, 20, False),
        "assist_nm": (0, 30, 40, False),
        "assist_at_deg": (0, 180, 40, False),
    },
    "wearer": {
        "excursion_points_mm": (0, 300, 40, False),
        "pull_points_n": (1, 1000, 40, False),
    },
    "search": {
        "loop_mm": (2, 500, MOST_POSITIONS, True),
        "guide_mm": (5, 450, MOST_POSITIONS, True),
        "forearm_change_mm": (-300, 300, 500, True),
    },
}
ALONE = frozenset({"cable.assist_nm"})  # lists that may be one number


def arm_keys(table: str) -> tuple[str, ...]:
    """Return all keys of a table of an arm's case file.

    >>> arm_keys("search")
    ('loop_mm', 'guide_mm', 'forearm_change_mm')
    """
    return (*ARM_TABLES[table].model_fields, *ARM_LISTS.get(table, {}))
