"""Where a number comes from, and how far it may be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from simgait.errors import RangeError


class Grade(StrEnum):
    """How a number got here, from the firmest to the loosest."""

    PUBLISHED = "published"  # read in the publication's own text or data
    MEASURED = "measured"  # measured on this person or this part
    QUOTED = "quoted"  # read in a secondary text
    DERIVED = "derived"  # arithmetic from other figures, stated
    MEMORY = "memory"  # recalled, not checked
    PRACTICE = "practice"  # common practice, no source
    ILLUSTRATIVE = "illustrative"  # invented, to have something to work with


GRADES = tuple(grade.value for grade in Grade)


@dataclass(frozen=True, kw_only=True)
class Source:
    """Something that can be cited; ``doi`` is None where there is none or it was not looked up.

    >>> Source(key="hof-2005", citation="Hof, Gazendam, Sinke 2005, J Biomech 38:1-8").line
    'Hof, Gazendam, Sinke 2005, J Biomech 38:1-8'
    """

    key: str
    citation: str
    doi: str | None = None

    def __post_init__(self) -> None:
        if not self.key or not self.citation:
            raise RangeError("a source needs a key and a citation")

    @property
    def line(self) -> str:
        """The citation on one line, with its DOI if it has one."""
        return f"{self.citation}, doi:{self.doi}" if self.doi else self.citation


@dataclass(frozen=True, kw_only=True)
class Figure:
    """One number (or one row of numbers), in the unit that its name ends in, and its origin.

    ``source`` is the key of a :class:`Source`, ``place`` where in it the number stands.

    >>> Figure(value=2.8, grade=Grade.QUOTED, source="shepherd-2021").number
    2.8
    """

    value: float | tuple[float, ...]
    grade: Grade
    source: str
    place: str = ""
    note: str = ""

    @property
    def number(self) -> float:
        """The value of a figure that is one number.

        Raises:
            RangeError: it is a row of numbers.
        """
        if isinstance(self.value, tuple):
            raise RangeError("one number was wanted, this figure is a row of numbers")
        return self.value
