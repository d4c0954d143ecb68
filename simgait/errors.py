"""What can go wrong at the door: faults in what a person wrote, and values no limb can have.

Everything that simgait raises on purpose is a :class:`SimgaitError`, so that a caller can tell a
refusal from a defect.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

LONGEST_SHOWN_VALUE = 60  # characters of a value that a message repeats


class SimgaitError(Exception):
    """Everything simgait refuses on purpose."""


class RangeError(SimgaitError, ValueError):
    """A number outside the range in which the thing it describes can exist."""


@dataclass(frozen=True, kw_only=True)
class Fault:
    """One thing that is wrong in what a person wrote.

    ``file`` is the file as it was named (or ``--set``), ``field`` the dotted key (empty when the
    whole file is at fault), ``value`` what stands there (empty when nothing does), ``allowed``
    what may stand there, ``nearest`` the closest allowed name or value, and ``problem`` the
    complaint in a few words.

    >>> print(Fault(file="a.toml", field="foot.model", value="'frim'", allowed="firm, soft",
    ...             nearest="firm", problem="is not a known foot").message())
    a.toml: foot.model = 'frim' is not a known foot (allowed: firm, soft; nearest: firm)
    """

    file: str
    field: str
    value: str
    allowed: str
    nearest: str | None
    problem: str = "is not allowed"

    def message(self) -> str:
        """The fault on one line."""
        subject = " = ".join(part for part in (self.field, self.value) if part)
        hints = [f"allowed: {self.allowed}"] if self.allowed else []
        if self.nearest:
            hints.append(f"nearest: {self.nearest}")
        sentence = " ".join(part for part in (f"{self.file}:", subject, self.problem) if part)
        return one_line(f"{sentence} ({'; '.join(hints)})" if hints else sentence)


class CaseError(SimgaitError):
    """All faults of what a person wrote, found in one reading."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(faults)
        super().__init__("\n".join(fault.message() for fault in self.faults))


def one_line(text: str) -> str:
    """Return ``text`` with every character that would break a line or a terminal escaped.

    >>> one_line("a\\nb")
    'a\\\\nb'
    """
    return "".join(
        mark if mark.isprintable() else mark.encode("unicode_escape").decode("ascii")
        for mark in text
    )


def shown(value: object) -> str:
    """Return a value as a message repeats it: its repr, cut short if long.

    >>> shown("firm")
    "'firm'"
    """
    try:
        text = repr(value)
    except (ValueError, RecursionError):  # thousands of digits, or thousands of levels
        text = "a value too large to repeat"
    return text if len(text) <= LONGEST_SHOWN_VALUE else text[: LONGEST_SHOWN_VALUE - 3] + "..."


def require(low: float, value: float, high: float, what: str) -> None:
    """Refuse ``value`` unless it is finite and low <= value <= high.

    ``what`` names the quantity and its unit, as in ``"Pylon.length [m]"``.

    Raises:
        RangeError: the value is not finite or out of range.

    >>> require(0.02, 0.30, 0.60, "Pylon.length [m]")
    >>> require(0.02, 300.0, 0.60, "Pylon.length [m]")
    Traceback (most recent call last):
    simgait.errors.RangeError: Pylon.length [m] is 300.0; allowed: 0.02 to 0.6
    """
    if not (math.isfinite(value) and low <= value <= high):
        raise RangeError(f"{what} is {value}; allowed: {low:g} to {high:g}")
