"""Person, limb, parts and wearer of a case as lines of a page."""

from __future__ import annotations

from simgait.case import Case
from simgait.parts import Foot
from simgait.report.content import Facts
from simgait.units import (
    degrees_from_radians,
    mm_from_metres,
    newton_per_mm_from_newton_per_metre,
)


def facts_of(case: Case) -> tuple[Facts, ...]:
    """Return what a case is about, in three groups.

    case: as read.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> case = read_case(models_folder() / "cases" / "everyday.toml")
    >>> [group.heading for group in facts_of(case)]
    ['Person and limb', 'Parts', 'Wearer and ground']
    """
    return (
        Facts(heading="Person and limb", lines=_person(case)),
        Facts(heading="Parts", lines=_parts(case)),
        Facts(heading="Wearer and ground", lines=_wearer(case)),
    )


def _mm(length: float) -> str:
    return f"{mm_from_metres(length):.0f} mm"


def _person(case: Case) -> tuple[tuple[str, str], ...]:
    person = case.person
    return (
        ("sex", person.sex),
        ("body mass", f"{person.mass:g} kg, with prosthesis and shoes"),
        ("stature", _mm(person.stature)),
        ("knee and hip height", f"{_mm(person.knee_height)}, {_mm(person.hip_height)}"),
        ("residual limb", f"{_mm(case.residual_limb)} from the knee axis"),
        ("side", case.side or "not stated"),
        ("body segments", person.segment_table.name),
    )


def _parts(case: Case) -> tuple[tuple[str, str], ...]:
    shoe = case.shoe
    return (
        ("foot", _foot(case.foot)),
        ("on the bench", _stiffness(case.foot)),
        ("shoe", "none" if shoe is None else f"{shoe.name}, sole {_mm(shoe.sole_thickness)}"),
        ("socket", case.socket.name),
        ("pylon", f"{case.pylon.name}, {degrees_from_radians(case.pylon.turn):.1f} deg a turn"),
    )


def _foot(foot: Foot) -> str:
    return f"{foot.name}, {_mm(foot.length)}, built for a heel of {_mm(foot.heel_rise)}"


def _stiffness(foot: Foot) -> str:
    heel, toe = (
        newton_per_mm_from_newton_per_metre(stiffness)
        for stiffness in (foot.heel_stiffness, foot.forefoot_stiffness)
    )
    return f"heel {heel:.0f} N/mm, forefoot {toe:.0f} N/mm"


def _wearer(case: Case) -> tuple[tuple[str, str], ...]:
    side = case.sound_side
    heel = "as on the prosthesis" if side.shoe_heel_rise is None else _mm(side.shoe_heel_rise)
    return (
        ("strategy", f"{case.wearer}, kept throughout"),
        ("pace", "the wearer's own" if case.speed is None else f"{case.speed:g} m/s"),
        ("floor", f"friction {case.friction:g}"),
        ("other shoe", f"sole {_mm(side.shoe_thickness)}, heel {heel}"),
    )
