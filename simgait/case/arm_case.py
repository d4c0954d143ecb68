"""An arm's case file: the person, the arm, the cable, what the wearer can pull, and what to try."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from simgait.case.arm_checks import (
    Lists,
    check_arm,
    check_axis,
    check_changes,
    check_device,
    check_housing,
    check_places,
    check_points,
    check_range,
    check_wearer,
)
from simgait.case.arm_entries import (
    ARM_KEYS,
    ARM_LISTS,
    ARM_TABLES,
    ArmEntry,
    CableEntry,
    ErrorsEntry,
    HarnessEntry,
)
from simgait.case.arm_filling import built_arm, built_cable, built_errors, built_harness
from simgait.case.arm_lists import checked_arm_lists
from simgait.case.building import built_person
from simgait.case.checking import checked_tables, checked_title
from simgait.case.entries import Entry, PersonEntry
from simgait.case.findings import Findings
from simgait.case.kinds import refuse_other_kind
from simgait.case.reading import read_bytes, tables_of, text_of
from simgait.errors import CaseError, RangeError, one_line
from simgait.library.arms import MeasurementErrors, read_arm_habit
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness
from simgait.people import Person
from simgait.units import metres_from_mm

AT_LEAST = "[person], [arm], [cable] and [wearer]"
MOST_POSITIONS = 2000

Checked = TypeVar("Checked", bound=Entry)


@dataclass(frozen=True, kw_only=True)
class ArmCase:
    """An arm's case file, checked, filled and in SI."""

    title: str
    person: Person
    arm: Arm
    cable: Cable
    harness: Harness
    loops: tuple[float, ...]  # [m] to look at; empty on a forearm-level arm
    guides: tuple[float, ...]  # [m] to look at, each with every loop
    own_loop: float | None  # [m] of ``[cable]``; None: only the search has some
    forearm_changes: tuple[float, ...]  # [m]
    residual_limb: float | None  # [m] shoulder's axis (forearm level: elbow's) to its end
    socket_depth: float | None  # [m]
    other_side: float | None  # [m] shoulder's axis to the other thumb's tip
    errors: MeasurementErrors
    filled: tuple[str, ...]  # sentences: what was left out, and what was taken instead


def read_arm_case(path: str | Path) -> ArmCase:
    """Return an arm's case file, checked and filled.

    Raises:
        CaseError: with all faults of the file at once.

    >>> from simgait.library import models_folder
    >>> case = read_arm_case(models_folder() / "cases" / "arms" / "above-elbow.toml")
    >>> case.arm.level
    'upper_arm'
    """
    label = one_line(str(path))
    data = tables_of(text_of(read_bytes(Path(path), label), label, AT_LEAST), label)
    refuse_other_kind(data, label, "arm")
    findings = Findings(label=label)
    title = checked_title(data, one_line(Path(path).stem), findings)
    tables = dict(ARM_TABLES)
    if "arm" not in data:
        findings.fault("arm", "is missing", allowed=f"at least {AT_LEAST}")
        del tables["arm"]
    lists = checked_arm_lists(data, findings)
    apart = {table: tuple(keys) for table, keys in ARM_LISTS.items()}
    entries = checked_tables(data, findings, tables, ARM_KEYS, apart)
    check_together(entries, lists, findings)
    return _built(title, entries, lists, findings)


def _entry(entries: Mapping[str, Entry], table: str, kind: type[Checked]) -> Checked | None:
    """Return a table's entry, or None if it had faults."""
    entry = entries.get(table)
    return entry if isinstance(entry, kind) else None


def check_together(entries: Mapping[str, Entry], lists: Lists, findings: Findings) -> None:
    """Note every fault of numbers against each other, as far as their tables are in order."""
    habit = read_arm_habit()
    arm = _entry(entries, "arm", ArmEntry)
    cable = _entry(entries, "cable", CableEntry)
    wearer = _entry(entries, "wearer", HarnessEntry)
    if arm:
        check_range(arm, habit, findings)
        check_arm(arm, findings)
        check_changes(arm, lists, findings)
    if cable:
        check_housing(cable, lists["cable.bends_deg"], findings)
    if arm and cable:
        check_places(arm, cable, lists, findings)
        check_axis(arm, cable, habit, findings)
        check_device(arm, cable, findings)
    if wearer:
        check_wearer(wearer, lists, findings)
    assist = lists["cable.assist_nm"]
    if lists["cable.assist_at_deg"] is not None or (assist is not None and len(assist) != 1):
        check_points("cable.assist_nm", "cable.assist_at_deg", lists, findings)
    check_points("wearer.pull_points_n", "wearer.excursion_points_mm", lists, findings, True)
    many = len(lists["search.loop_mm"] or (0,)) * len(lists["search.guide_mm"] or (0,))
    if many > MOST_POSITIONS:
        findings.fault(
            "search", f"makes {many} positions", allowed=f"up to {MOST_POSITIONS}",
            near=str(MOST_POSITIONS),
        )  # fmt: skip


def _built(title: str, entries: Mapping[str, Entry], lists: Lists, findings: Findings) -> ArmCase:
    """Return the case of checked entries; raise all faults once everything was looked at."""
    person = built_person(_entry(entries, "person", PersonEntry), findings, legs=False)
    entry = _entry(entries, "arm", ArmEntry)
    wires = _entry(entries, "cable", CableEntry)
    wearer = _entry(entries, "wearer", HarnessEntry)
    errors = _entry(entries, "errors", ErrorsEntry)
    if findings.faults or not (person and entry and wires and wearer and errors):
        raise CaseError(findings.faults)
    try:
        arm = built_arm(entry, person, findings)
        cable = built_cable(wires, entry.level, lists, findings)
        harness = built_harness(wearer, lists, findings)
    except RangeError as trouble:
        findings.fault("arm", f"cannot be: {trouble}")
        raise CaseError(findings.faults) from trouble
    loops, guides = places_to_try(entry, wires, lists, findings)
    changes = lists["search.forearm_change_mm"]
    if changes is None:
        findings.fill("search.forearm_change_mm: none given, so only the forearm as it is")
    return ArmCase(
        title=title,
        person=person,
        arm=arm,
        cable=cable,
        harness=harness,
        loops=loops,
        guides=guides,
        own_loop=None if wires.loop_mm is None else metres_from_mm(wires.loop_mm),
        forearm_changes=in_metres(changes or (0.0,)),
        residual_limb=_metres(entry.residual_limb_mm),
        socket_depth=_metres(entry.socket_depth_mm),
        other_side=_metres(entry.other_side_mm),
        errors=built_errors(errors, findings),
        filled=tuple(findings.filled),
    )


def places_to_try(
    arm: ArmEntry, cable: CableEntry, lists: Lists, findings: Findings
) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return loops and guides to look at [m]; the case's own where no search names them."""
    if arm.level == "forearm":
        if cable.loop_mm is not None or cable.guide_mm is not None or lists["search.loop_mm"]:
            findings.fill("cable: guide and loop bend no elbow on a forearm-level arm, not used")
        return (), ()
    found = []
    for key, own in (("loop_mm", cable.loop_mm), ("guide_mm", cable.guide_mm)):
        wanted = lists[f"search.{key}"]
        if wanted is None:
            if key == "loop_mm":
                findings.fill(f"search.{key}: none given, so only cable.{key}")
            wanted = () if own is None else (own,)
        found.append(in_metres(wanted))
    return found[0], found[1]


def in_metres(lengths: tuple[float, ...]) -> tuple[float, ...]:
    """Return lengths [m] from millimetres.

    >>> in_metres((25.0, 50.0))
    (0.025, 0.05)
    """
    return tuple(metres_from_mm(length) for length in lengths)


def _metres(length: float | None) -> float | None:
    """Return a length [m] from millimetres, or None."""
    return None if length is None else metres_from_mm(length)
