"""A case file: one wearer, one prosthesis, and the alignments to look at.

>>> from simgait.library import models_folder
>>> case = read_case(models_folder() / "cases" / "everyday.toml")
>>> len(case.alignments()), case.baseline_index
(9, 4)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any, Literal, TypeVar

from simgait.alignment import Alignment
from simgait.case.building import (
    baseline,
    built_foot,
    built_person,
    built_pylon,
    built_shod,
    built_shoe,
    built_socket,
    filled_friction,
    filled_speed,
    model_name,
    usual_heel_rise,
)
from simgait.case.checking import checked_tables, checked_title
from simgait.case.entries import (
    AlignmentEntry,
    Entry,
    FootEntry,
    GroundEntry,
    LimbEntry,
    PersonEntry,
    SoundSideEntry,
    WalkingEntry,
)
from simgait.case.findings import Findings
from simgait.case.goals import Wanted, checked_wanted
from simgait.case.grid import MOST_ALIGNMENTS, checked_lists, combinations
from simgait.case.kinds import refuse_other_kind
from simgait.case.naming import check_foot, check_names
from simgait.case.reading import read_bytes, tables_of, text_of, with_overrides
from simgait.case.room import check_room, shortest_change
from simgait.case.seen import Sign, checked_signs
from simgait.case.sound_side import SoundSide, filled_sound_side
from simgait.case.transfer_entries import (
    OFFSETS,
    TRANSFER_TABLES,
    FinishedEntry,
    UnitEntry,
    checked_offsets,
)
from simgait.errors import CaseError, one_line
from simgait.library import read_defaults
from simgait.parts import Foot, Pylon, Shoe, Socket
from simgait.parts.shoe import foot_in_shoe
from simgait.people import Person
from simgait.units import metres_from_mm

__all__ = ["MOST_ALIGNMENTS", "Case", "SoundSide", "case_of_text", "read_case"]


Checked = TypeVar("Checked", bound=Entry)


@dataclass(frozen=True, kw_only=True)
class Case:
    """A case file, checked, filled and in SI."""

    title: str
    person: Person
    residual_limb: float  # [m] knee axis to the end of the limb
    side: Literal["left", "right"] | None  # of the prosthesis; changes no number
    foot: Foot  # without the shoe
    shoe: Shoe | None  # None: barefoot
    socket: Socket
    pylon: Pylon
    wearer: str  # name of the wearer's model
    speed: float | None  # [m/s]; None: the wearer's own
    friction: float  # [1]
    sound_side: SoundSide
    settings: tuple[Alignment, ...]
    baseline_index: int
    filled: tuple[str, ...]  # sentences: what was left out, and what was taken instead
    unit: UnitEntry | None = None  # as written: only simgait transfer reads it
    finished: FinishedEntry | None = None
    wanted: Wanted = field(default_factory=Wanted)  # goals, and what may be changed for them
    seen: tuple[Sign, ...] = ()  # what was observed of the wearer in the baseline

    @property
    def shod_foot(self) -> Foot:
        """The foot with the shoe on it."""
        return self.foot if self.shoe is None else foot_in_shoe(self.foot, self.shoe)

    @property
    def baseline(self) -> Alignment:
        """The setting of ``[alignment]``."""
        return self.settings[self.baseline_index]

    def alignments(self) -> tuple[Alignment, ...]:
        """All settings to look at, in the order of the case file; at least the baseline."""
        return self.settings


def read_case(path: str | Path, overrides: Mapping[str, str] | None = None) -> Case:
    """Return a case file, checked and filled.

    ``overrides`` maps dotted keys to values as a person types them, such as
    ``{"alignment.foot_forward_mm": "10"}``; they replace what the file says and are checked the
    same way.

    Raises:
        CaseError: with all faults of the file and the overrides at once.
    """
    label = one_line(str(path))
    return case_of_text(text_of(read_bytes(Path(path), label), label), path, overrides)


def case_of_text(text: str, path: str | Path, overrides: Mapping[str, str] | None = None) -> Case:
    """Return the case that a file's text makes; `path` is what its faults call it.

    Raises:
        CaseError: with all faults of the text and the overrides at once.
    """
    label = one_line(str(path))
    written = tables_of(text, label)
    refuse_other_kind(written, label, "leg")
    data, faults = with_overrides(written, overrides or {})
    findings = Findings(label=label, overridden=frozenset(overrides or {}), faults=faults)
    title = checked_title(data, one_line(Path(path).stem), findings)
    entries = checked_tables(data, findings)
    entries |= _transfer_entries(data, findings)
    check_names(data, findings)
    check_foot(data, findings)
    lists, wanted = checked_lists(data, findings), checked_wanted(data, findings)
    seen = checked_signs(data, findings)
    case = _built_case(title, entries, lists, findings)
    unit = _entry(entries, "unit", UnitEntry)
    finished = _entry(entries, "finished", FinishedEntry)
    return replace(case, wanted=wanted, seen=seen, unit=unit, finished=finished)


def _built_case(
    title: str,
    entries: Mapping[str, Entry],
    lists: Mapping[str, tuple[float, ...]],
    findings: Findings,
) -> Case:
    """Return the case of checked entries; raise all faults once everything was looked at."""
    defaults = read_defaults()
    person = built_person(_entry(entries, "person", PersonEntry), findings)
    foot = built_foot(_entry(entries, "foot", FootEntry), defaults, findings)
    shoe, socket = built_shoe(entries, findings), built_socket(entries, findings)
    pylon = built_pylon(entries, findings)
    wearer = model_name("wearer", "wearers", entries, findings)
    limb = _entry(entries, "limb", LimbEntry)
    sound = filled_sound_side(_entry(entries, "sound_side", SoundSideEntry), shoe, findings)
    setting = _entry(entries, "alignment", AlignmentEntry) or AlignmentEntry()
    shod = built_shod(foot, shoe, findings)
    if person and shod and socket and pylon and limb:
        change = shortest_change(setting, lists)
        check_room(limb, person, (shod, socket, pylon), sound.shoe_thickness, change, findings)
    if findings.faults or not (person and foot and socket and pylon and limb):
        raise CaseError(findings.faults)
    start = baseline(setting, defaults, *usual_heel_rise(foot, shoe, entries), findings)
    settings, place = combinations(start, lists)
    return Case(
        title=title,
        person=person,
        residual_limb=metres_from_mm(limb.residual_limb_mm),
        side=limb.side,
        foot=foot,
        shoe=shoe,
        socket=socket,
        pylon=pylon,
        wearer=wearer,
        speed=filled_speed(_entry(entries, "walking", WalkingEntry), findings),
        friction=filled_friction(_entry(entries, "ground", GroundEntry), defaults, findings),
        sound_side=sound,
        settings=settings,
        baseline_index=place,
        filled=tuple(findings.filled),
    )


def _transfer_entries(data: Mapping[str, Any], findings: Findings) -> dict[str, Entry]:
    """Return the entries of the tables on components that the file has and that are in order."""
    tables = {name: entry for name, entry in TRANSFER_TABLES.items() if name in data}
    content = data.get("finished")
    offsets = None
    if isinstance(content, dict):
        offsets = checked_offsets(content, findings)
        data = {**data, "finished": {key: content[key] for key in content if key != OFFSETS}}
    found = checked_tables(data, findings, tables, tuple(data))
    if "finished" in found:
        found["finished"] = found["finished"].model_copy(update={OFFSETS: offsets})
    return found


def _entry(entries: Mapping[str, Entry], table: str, kind: type[Checked]) -> Checked | None:
    """Return a table's entry, or None if it had faults."""
    entry = entries.get(table)
    return entry if isinstance(entry, kind) else None
