"""Every figure from outside beside what the program gives: one list for the tests and the page.

Each entry is asserted by itself in tests/published/test_agreement.py, and the pages stance.md,
standing.md and arms.md of docs/agreement are written from the same list. A printed figure is
compared as printed (half of its last digit); a wider band says why. An entry that is known to
disagree stays in the list and says so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf, isfinite
from typing import Literal

from simgait.errors import RangeError
from simgait.sources import GRADES

KINDS = {
    "predicted": "an output of the model that this figure had no part in setting",
    "arithmetic": "the same closed form or table, worked out by the program's own functions",
    "chosen": "a figure of the library that was picked to lie there: no evidence",
    "engine": "the same limb, moved or brought to rest by a general-purpose engine",
    "fitted": "an input of a wearer's calibration, or shaped by one: no evidence",
}
Kind = Literal["predicted", "arithmetic", "chosen", "engine", "fitted"]
Got = Callable[[], tuple[float, ...]]
ROUNDING = 1e-9  # of a band's size: sums in floating point


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """One figure of a source beside what the program gives.

    `got` returns one value or several (several wearers, parts or settings); all must lie in the
    band `low` to `high`, in `unit`. `agrees` is False where the model is known to disagree.
    """

    topic: str
    source: str  # key of a source in models/sources.toml
    place: str  # what is compared
    printed: str  # as the source has it
    got: Got
    low: float
    high: float
    unit: str
    digits: int  # decimals to show
    grade: str
    kind: Kind
    note: str = ""
    agrees: bool = True

    def __post_init__(self) -> None:
        if self.grade not in GRADES or self.kind not in KINDS or not self.low < self.high:
            raise RangeError(f"no such comparison can be made: {self.name}")

    @property
    def name(self) -> str:
        """Source and place, to name the comparison in a test."""
        return f"{self.source}: {self.place}"

    def inside(self, values: tuple[float, ...]) -> bool:
        """Return whether there are values and all of them are finite and lie in the band."""
        finite = [bound for bound in (self.low, self.high) if isfinite(bound)]
        room = ROUNDING * max(map(abs, finite), default=1.0)
        return bool(values) and all(
            isfinite(value) and self.low - room <= value <= self.high + room for value in values
        )

    def verdict(self, values: tuple[float, ...]) -> str:
        """Return yes or no; where a yes would prove nothing, why it would not."""
        if not self.inside(values):
            return "no"
        proves_nothing = {"fitted": "fitted, no evidence", "chosen": "chosen so, no evidence"}
        return proves_nothing.get(self.kind, "yes")

    @property
    def band(self) -> str:
        """The band in words, such as '3.05 to 3.15' or 'at least 1.01'."""
        if self.high == inf:
            return f"at least {self.low:g}"
        if self.low == -inf:
            return f"at most {self.high:g}"
        return f"{self.low:g} to {self.high:g}"


def as_printed(text: str) -> tuple[float, float]:
    """Return the band of a figure as printed: half of its last digit to each side.

    >>> as_printed("0.465")
    (0.4645, 0.4655)
    """
    digits = len(text.partition(".")[2])
    half = 0.5 * 10.0**-digits
    return round(float(text) - half, digits + 1), round(float(text) + half, digits + 1)


def comparisons() -> tuple[Comparison, ...]:
    """Return all comparisons, in the order in which the page shows them."""
    from agreement_adapting import ADAPTING
    from agreement_arms import ARMS
    from agreement_cables import CABLES
    from agreement_effects import EFFECTS
    from agreement_engines import ENGINES
    from agreement_levers import LEVERS
    from agreement_parts import BODY, GEOMETRY, PARTS
    from agreement_stance import FITTED, STANCE
    from agreement_standing import STANDING

    return (
        *BODY,
        *GEOMETRY,
        *PARTS,
        *STANCE,
        *EFFECTS,
        *ADAPTING,
        *STANDING,
        *ENGINES,
        *FITTED,
        *CABLES,
        *LEVERS,
        *ARMS,
    )
