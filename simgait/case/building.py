"""From entries to a person and parts: what is named is read, what is left out is filled."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import TypeVar

from simgait.case.entries import (
    FILLABLE_FOOT,
    INLINE_FOOT,
    NEEDED_FOOT,
    AlignmentEntry,
    Entry,
    FootEntry,
    GroundEntry,
    ModelEntry,
    PersonEntry,
    WalkingEntry,
)
from simgait.case.findings import Findings
from simgait.case.naming import BAREFOOT
from simgait.errors import RangeError, shown
from simgait.library import (
    names,
    read_foot,
    read_pylon,
    read_shoe,
    read_socket,
    segment_table,
)
from simgait.parts import Foot, Pylon, Shoe, Socket
from simgait.parts.foot import SOFTEST
from simgait.parts.shoe import foot_in_shoe, stiffness_in_series
from simgait.people import Person
from simgait.sources import Figure
from simgait.units import metres_from_mm, mm_from_metres, si_from_written

USUAL = {
    "shoes": "everyday",
    "sockets": "usual",
    "pylons": "usual",
    "wearers": "steady-transtibial",
}
LARGEST_DISAGREEMENT = 0.030  # [m] between measured thigh and measured hip less knee height

Part = TypeVar("Part")


def built_person(entry: PersonEntry | None, findings: Findings, legs: bool = True) -> Person | None:
    """Return the person; lengths that were not measured follow from stature, and it says so.

    legs: whether the case is one of a leg, in which those lengths matter.
    """
    if entry is None:
        return None
    own = f"deleva_{entry.sex}"
    if entry.segment_table is None:
        findings.fill(f"person.segment_table: none given, so {own}, by sex")
    name = entry.segment_table or own
    if name not in names("segments"):
        return None
    if name.startswith("deleva_") and name != own:
        findings.fault(
            "person.segment_table",
            f"contradicts person.sex = {entry.sex!r}",
            value=shown(name),
            allowed=f"{own}, dempster_winter",
            near=own,
        )
    try:
        person = Person(
            sex=entry.sex,
            mass=entry.mass_kg,
            stature=metres_from_mm(entry.stature_mm),
            segment_table=segment_table(name),
            measured_thigh=_metres(entry.thigh_mm),
            measured_knee_height=_metres(entry.knee_height_mm),
            measured_hip_height=_metres(entry.hip_height_mm),
        )
    except RangeError as trouble:
        findings.fault("person", f"cannot be: {trouble}")
        return None
    check_lengths_agree(person, findings)
    if legs:
        fill_lengths(person, findings)
    return person


def _metres(length: float | None) -> float | None:
    """Return a length [m] from millimetres, or None."""
    return None if length is None else metres_from_mm(length)


def height_between(person: Person) -> float | None:
    """Return measured hip height less knee height [m], or None if no hip height was measured."""
    hip = person.measured_hip_height
    return None if hip is None else hip - person.knee_height


def check_lengths_agree(person: Person, findings: Findings) -> None:
    """Note a fault if measured thigh, knee height and hip height contradict each other."""
    thigh, between = person.measured_thigh, height_between(person)
    if thigh is None or between is None:
        return
    if abs(between - thigh) > LARGEST_DISAGREEMENT:
        findings.fault(
            "person.thigh_mm",
            "contradicts the heights of hip and knee",
            value=f"{mm_from_metres(thigh):g}",
            allowed=f"within 30 of hip less knee height, {mm_from_metres(between):.0f}",
            near=f"{mm_from_metres(between):.0f}",
        )


def fill_lengths(person: Person, findings: Findings) -> None:
    """Say which lengths follow from stature (Drillis & Contini 1966, quoted)."""
    origin = "of stature (Drillis & Contini 1966, quoted)"
    knee, hip, thigh = (
        f"{mm_from_metres(length):.0f} mm"
        for length in (person.knee_height, person.hip_height, person.thigh_length)
    )
    if person.measured_knee_height is None:
        findings.fill(f"person.knee_height_mm: {knee}, 0.285 {origin}")
    if person.measured_hip_height is None:
        how = "0.530 " + origin if person.measured_thigh is None else "knee height plus thigh"
        findings.fill(f"person.hip_height_mm: {hip}, {how}")
    if person.measured_thigh is None:
        findings.fill(f"person.thigh_mm: {thigh}, hip height less knee height")


def built_foot(
    entry: FootEntry | None, defaults: Mapping[str, Figure], findings: Findings
) -> Foot | None:
    """Return the foot, from the library or from the figures in the case."""
    if entry is None:
        return None
    given = {name: getattr(entry, name) for name in INLINE_FOOT}
    inline = {name: value for name, value in given.items() if value is not None}
    if entry.model is not None:
        return named_part("feet", entry.model, read_foot)
    if not all(name in inline for name in NEEDED_FOOT):
        return None
    for name in FILLABLE_FOOT:
        if name not in inline:
            inline[name] = defaults[name].number
            findings.fill(f"foot.{name}: {inline[name]:g} ({defaults[name].grade.value})")
    try:
        return Foot(name="own figures", **dict(si_from_written(*item) for item in inline.items()))
    except RangeError as trouble:
        findings.fault("foot", f"cannot be: {trouble}")
        return None


def named_part(kind: str, name: str, read: Callable[[str], Part]) -> Part | None:
    """Return a part of the library, or None if it has none of that name (noted elsewhere)."""
    return read(name) if name in names(kind) else None


def model_name(table: str, kind: str, entries: Mapping[str, Entry], findings: Findings) -> str:
    """Return the model that a table names, or the usual one, and say so."""
    entry = entries.get(table)
    name = entry.model if isinstance(entry, ModelEntry) else None
    if name is None:
        name = USUAL[kind]
        findings.fill(f"{table}.model: none given, so {name}")
    return name


def built_shoe(entries: Mapping[str, Entry], findings: Findings) -> Shoe | None:
    """Return the shoe on the prosthesis; None for bare feet (model "none") or an unknown name."""
    name = model_name("shoe", "shoes", entries, findings)
    return None if name == BAREFOOT else named_part("shoes", name, read_shoe)


def built_shod(foot: Foot | None, shoe: Shoe | None, findings: Findings) -> Foot | None:
    """Return the foot in its shoe; a fault for each figure that both together put out of range."""
    if foot is None or shoe is None:
        return foot
    soft = False
    for part in ("heel", "forefoot"):
        own, of_shoe = (getattr(each, f"{part}_stiffness") for each in (foot, shoe))
        shod = stiffness_in_series(own, of_shoe)
        if shod < SOFTEST:
            findings.fault(
                f"foot.{part}_stiffness_n_mm",
                f"is too soft for the shoe {shoe.name}: in series they make {shod / 1000.0:.3g}",
                value=f"{own / 1000.0:g}",
                allowed=_stiff_enough(of_shoe),
            )
            soft = True
    if soft:
        return None
    try:
        return foot_in_shoe(foot, shoe)
    except RangeError as trouble:
        findings.fault("foot", f"cannot be in the shoe {shoe.name}: {trouble}")
        return None


def _stiff_enough(shoe: float) -> str:
    """Return the stiffnesses of a foot that a shoe of a stiffness [N/m] allows, in words."""
    if shoe <= SOFTEST:
        return "a stiffer shoe"
    least = 1.0 / (1.0 / SOFTEST - 1.0 / shoe) / 1000.0
    return f"from {math.ceil(100.0 * least) / 100.0:g} in this shoe, or a stiffer shoe"


def built_socket(entries: Mapping[str, Entry], findings: Findings) -> Socket | None:
    """Return the socket, or None for an unknown name."""
    name = model_name("socket", "sockets", entries, findings)
    return named_part("sockets", name, read_socket)


def built_pylon(entries: Mapping[str, Entry], findings: Findings) -> Pylon | None:
    """Return the pylon, or None for an unknown name."""
    name = model_name("pylon", "pylons", entries, findings)
    return named_part("pylons", name, read_pylon)


def baseline(
    entry: AlignmentEntry,
    defaults: Mapping[str, Figure],
    heel_rise: float,
    heel_rise_from: str,
    findings: Findings,
) -> dict[str, float]:
    """Return the five values of ``[alignment]`` in millimetres and degrees, filled.

    ``heel_rise``: what to take if none is given [m]; ``heel_rise_from``: whose it is.
    """
    fill = {
        "foot_forward_mm": (0.0, "the foot as drawn under the socket"),
        "dorsiflexion_deg": (0.0, "neutral"),
        "socket_flexion_deg": (defaults["socket_flexion_deg"].number, "usual bench alignment"),
        "length_change_mm": (0.0, "level with the sound side"),
        "heel_rise_mm": (mm_from_metres(heel_rise), heel_rise_from),
    }
    values = {}
    for name, (usual, how) in fill.items():
        given = getattr(entry, name)
        values[name] = float(usual if given is None else given)
        if given is None:
            findings.fill(f"alignment.{name}: {usual:g}, {how}")
    return values


def usual_heel_rise(
    foot: Foot, shoe: Shoe | None, entries: Mapping[str, Entry]
) -> tuple[float, str]:
    """Return the heel rise to take if the case gives none [m], and whose it is.

    A shoe that the case names brings its own; a shoe that was filled in is taken to suit the foot.
    """
    entry = entries.get("shoe")
    if shoe is not None and isinstance(entry, ModelEntry) and entry.model is not None:
        return shoe.heel_rise, f"that of the shoe, {shoe.name}"
    return foot.heel_rise, "the one that the foot is built for"


def filled_speed(entry: WalkingEntry | None, findings: Findings) -> float | None:
    """Return the walking speed [m/s], or None for the wearer's own."""
    if entry is None or entry.speed_m_s is None:
        findings.fill("walking.speed_m_s: none given, so the wearer's own")
        return None
    return float(entry.speed_m_s)


def filled_friction(
    entry: GroundEntry | None, defaults: Mapping[str, Figure], findings: Findings
) -> float:
    """Return the coefficient of friction between sole and floor [1]."""
    if entry is None or entry.friction is None:
        figure = defaults["friction"]
        findings.fill(f"ground.friction: {figure.number:g}, {figure.place} ({figure.grade.value})")
        return figure.number
    return float(entry.friction)
