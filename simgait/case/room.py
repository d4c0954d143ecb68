"""Whether a prosthesis fits between the residual limb and the floor."""

from __future__ import annotations

from collections.abc import Mapping

from simgait.case.entries import AlignmentEntry, LimbEntry
from simgait.case.findings import Findings
from simgait.errors import RangeError
from simgait.parts import Foot, Pylon, Socket
from simgait.people import Person, residual_limb
from simgait.units import metres_from_mm, mm_from_metres


def room_for_unit(
    knee_height: float, residual: float, end_gap: float, sole_height: float, change: float
) -> float:
    """Return what is left between socket end and ankle axis when both legs are level [m].

    Knee height - residual limb - end gap - sole height + length change: derived, everything
    upright and the soles of both shoes equally thick; tilts change it by about a millimetre.
    ``knee_height`` above the sole of the sound side's shoe, ``sole_height`` of the shod foot,
    all [m].

    >>> round(room_for_unit(0.50, 0.15, 0.02, 0.09, 0.0), 3)
    0.24
    """
    return knee_height - residual - end_gap - sole_height + change


def shortest_change(setting: AlignmentEntry, lists: Mapping[str, tuple[float, ...]]) -> float:
    """Return the smallest length change among baseline and lists [m]."""
    own = setting.length_change_mm or 0.0
    return metres_from_mm(min((own, *lists.get("length_change_mm", ()))))


def longest_limbs(
    length: float,
    person: Person,
    parts: tuple[Foot, Socket, Pylon],
    sound_thickness: float,
    change: float,
) -> tuple[float, float]:
    """Return the longest residual limb that leaves room for foot and unit, and the longest that
    the shank allows [m].

    length: of the residual limb [m]; parts, sound_thickness, change: as in `check_room`.
    """
    foot, socket, pylon = parts
    room = room_for_unit(
        person.knee_height + sound_thickness, length, socket.end_gap, foot.sole_height, change
    )
    return length + room - pylon.shortest, person.shank_length


def check_room(
    limb: LimbEntry,
    person: Person,
    parts: tuple[Foot, Socket, Pylon],
    sound_thickness: float,
    change: float,
    findings: Findings,
) -> None:
    """Note a fault if the residual limb leaves no room for foot and unit, or fills no socket.

    ``parts``: the foot in its shoe, socket, pylon; ``sound_thickness``: of the sound side's sole
    [m]; ``change``: the shortest length change of all settings [m].
    """
    socket = parts[1]
    key, length = "limb.residual_limb_mm", metres_from_mm(limb.residual_limb_mm)
    longest = min(longest_limbs(length, person, parts, sound_thickness, change))
    if length > longest:
        findings.fault(
            key,
            "leaves no room for foot and unit below it",
            value=f"{limb.residual_limb_mm:g}",
            allowed=f"up to {mm_from_metres(longest):.0f} for this person, foot and pylon",
            near=f"{mm_from_metres(longest):.0f}",
        )
        return
    try:
        socket.enclosed_length(length)
        residual_limb(person, length)
    except RangeError as trouble:
        findings.fault(key, f"cannot be: {trouble}", value=f"{limb.residual_limb_mm:g}")
