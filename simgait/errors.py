"""What can go wrong at the door: faults in what a person wrote, and values no limb can have.

Everything that simgait raises on purpose is a :class:`SimgaitError`, so that a caller can tell a
refusal from a defect.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

LONGEST_SHOWN_VALUE = 60  # characters of a value that a message repeats


class SimgaitError(Exception):
    """Everything simgait refuses on purpose."""


class RangeError(SimgaitError, ValueError):
    """A number outside the range in which the thing it describes can exist.

    ``rows``: where the number stood for many runs (see :mod:`simgait.arrays`), one true or false a
    run, true where it is out of range; None where it stood for one.
    """

    def __init__(self, message: str, rows: Any = None) -> None:
        super().__init__(message)
        self.rows = rows


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


def refusal(file: str, field: str, problem: str, *, allowed: str = "") -> CaseError:
    """Return the refusal of one field of what a person wrote; what they are is said at `Fault`.

    >>> print(refusal("a.toml", "goal", "is missing"))
    a.toml: goal is missing
    """
    fault = Fault(file=file, field=field, value="", allowed=allowed, nearest=None, problem=problem)
    return CaseError([fault])


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
    if any(getattr(number, "ndim", 0) for number in (low, value, high)):
        _require_each(low, value, high, what)
    elif not (math.isfinite(value) and low <= value <= high):
        raise RangeError(f"{what} is {value}; allowed: {low:g} to {high:g}")


def _require_each(low: Any, value: Any, high: Any, what: str) -> None:
    """Refuse many values unless each is finite and within its limits; RangeError says which."""
    import numpy as np  # here, so that a refusal of one number need not load it

    right = (low <= value) & (value <= high) & (abs(value) < math.inf)
    if not right.all():
        low, value, high = np.broadcast_arrays(low, value, high)
        wrong = ~right
        first = int(np.argmax(wrong))
        raise RangeError(
            f"{what} is {value[first]}; allowed: {low[first]:g} to {high[first]:g}", wrong
        )


def refuse(wrong: Any, message: str) -> None:
    """Refuse what is wrong, or each run for which it is; the message says why.

    ``wrong``: true or false, or an array of these, one a run.

    Raises:
        RangeError: it is wrong, or is for some runs, which the error names.

    >>> refuse(2 > 3, "two is more than three")
    """
    if getattr(wrong, "ndim", 0):
        if wrong.any():
            raise RangeError(message, wrong)
    elif wrong:
        raise RangeError(message)
