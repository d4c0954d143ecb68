"""From a checked case to its limbs, one for each alignment."""

from __future__ import annotations

from simgait.alignment import Alignment
from simgait.case import Case
from simgait.library import read_wearer
from simgait.limb.geometry import Limb
from simgait.parts.shoe import ankle_lift
from simgait.people import Person
from simgait.physics.bench import HEEL_BEHIND_ANKLE
from simgait.wearer import scaled


def sound_lift(person: Person, thickness: float, heel_rise: float) -> float:
    """Return how far a shoe lifts the sound side's ankle above barefoot standing [m].

    Its thickness under the forefoot, and its heel by the same geometry as the prosthesis' (the
    natural foot is built for no heel).

    person: whose foot length counts; thickness, heel_rise: [m].
    """
    length = person.foot_length
    return thickness + ankle_lift(heel_rise, 0.0, length, HEEL_BEHIND_ANKLE * length)


def limb_of(case: Case, alignment: Alignment) -> Limb:
    """Return the limb of a case at one alignment; its wearer scaled to the person and the speed.

    The pylon is cut so that the case's own setting is level when its length change is nothing.

    Raises:
        RangeError: person and wearer do not go together.
    """
    person, foot, side = case.person, case.shod_foot, case.sound_side
    cut_in = case.baseline.heel_rise
    own_lift = ankle_lift(cut_in, foot.heel_rise, foot.length, foot.heel_lever)
    wearer = scaled(
        read_wearer(case.wearer),
        mass=person.mass,
        leg_length=person.hip_height,
        speed=case.speed,
    )
    return Limb(
        person=person,
        residual_limb_length=case.residual_limb,
        socket=case.socket,
        pylon=case.pylon,
        foot=foot,
        sound_lift=sound_lift(person, side.shoe_thickness, side.heel_rise(alignment)),
        level_lift=sound_lift(person, side.shoe_thickness, side.heel_rise(case.baseline))
        - own_lift,
        alignment=alignment,
        wearer=wearer,
        friction=case.friction,
    )


def limbs_of(case: Case) -> tuple[Limb, ...]:
    """Return the limbs of all alignments of a case, in the case's order.

    Raises:
        RangeError: person and wearer do not go together.

    >>> from simgait.case import read_case
    >>> from simgait.library import models_folder
    >>> len(limbs_of(read_case(models_folder() / "cases" / "everyday.toml")))
    9
    """
    return tuple(limb_of(case, alignment) for alignment in case.alignments())
