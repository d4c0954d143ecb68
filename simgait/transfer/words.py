"""Lengths and tilts of a chain in the words of a bench: which way, never by a sign alone."""

from __future__ import annotations

from simgait.parts.pylon import screw_turns
from simgait.units import degrees_from_radians, mm_from_metres

NONE_DEG, NONE_MM = 0.005, 0.05  # less is none with the digits shown


def ahead_words(forward: float) -> str:
    """Return how far ahead of or behind something a point lies, the preposition with it.

    forward: + ahead [m].

    >>> ahead_words(0.0127), ahead_words(-0.003)
    ('12.7 mm ahead of', '3.0 mm behind')
    """
    return f"{mm_from_metres(abs(forward)):.1f} mm {'behind' if forward < 0.0 else 'ahead of'}"


def tilt_words(angle: float, turn: float) -> str:
    """Return a tilt with its sense, and the turns of a set screw from the middle of its travel.

    angle: + toe up [rad]; turn: tilt for one whole turn of a screw [rad].

    >>> import math
    >>> tilt_words(math.radians(-2.8), math.radians(2.8))
    '-2.80 deg, toe down: 1.00 turns of a set screw from its middle'
    >>> tilt_words(0.0, math.radians(2.8))
    '0.00 deg: the middle of its travel'
    """
    degrees = degrees_from_radians(angle)
    if abs(degrees) < NONE_DEG:
        return "0.00 deg: the middle of its travel"
    sense, turns = "up" if angle > 0.0 else "down", abs(screw_turns(angle, turn))
    return f"{degrees:+.2f} deg, toe {sense}: {turns:.2f} turns of a set screw from its middle"


def plate_words(offset: float) -> str:
    """Return a plate's shift with its sense.

    offset: + forward [m].

    >>> plate_words(-0.010), plate_words(0.0)
    ('plate: everything below it 10 mm back', 'no plate')
    """
    if abs(mm_from_metres(offset)) < NONE_MM:
        return "no plate"
    sense = "forward" if offset > 0.0 else "back"
    return f"plate: everything below it {mm_from_metres(abs(offset)):g} mm {sense}"
