"""What a study is: cases, what varies in them, how that is sampled, what is kept."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

from simgait.case.many import MANY_NAMES
from simgait.studies.wishes import Wishes

Level: TypeAlias = float | str
Method: TypeAlias = Literal["grid", "sobol", "lhs", "saltelli", "morris"]
Spread: TypeAlias = Literal["normal", "uniform"]

AIM = ".aim"  # ends the name of what was aimed at, where a varying number has an error too
LEAST_PART_ROWS, MOST_PART_ROWS = 64, 2048  # if not stated: see docs/decisions/study-store.md
PARTS_OF_A_SMALL_STUDY = 8  # at least about so many, that several cores have work


def usual_part_rows(rows: int) -> int:
    """Return how many rows of a study are stored at a time: a power of two, by its size.

    >>> usual_part_rows(500), usual_part_rows(10_000), usual_part_rows(1_000_000)
    (64, 1024, 2048)
    """
    wanted = max(rows // PARTS_OF_A_SMALL_STUDY, 1)
    return min(max(1 << (wanted.bit_length() - 1), LEAST_PART_ROWS), MOST_PART_ROWS)


@dataclass(frozen=True, kw_only=True)
class Axis:
    """One entry of a case that varies: over levels, or over a span (`levels` empty)."""

    name: str  # dotted, such as "alignment.foot_forward_mm"
    levels: tuple[Level, ...]
    low: float = math.nan  # [unit of the name] of a span
    high: float = math.nan

    @property
    def probes(self) -> tuple[Level, Level, Level]:
        """First, last and middle value."""
        if self.levels:
            return self.levels[0], self.levels[-1], self.levels[len(self.levels) // 2]
        return self.low, self.high, (self.low + self.high) / 2.0


@dataclass(frozen=True, kw_only=True)
class Deviation:
    """Measurement error of one number of a case, in the unit of its name."""

    name: str
    spread: Spread
    size: float  # standard deviation (normal), or largest error either way (uniform)


@dataclass(frozen=True, kw_only=True)
class CaseText:
    """A case file as it was read, so that a study needs no file once it was read itself."""

    label: str  # path as the study names it
    text: str


@dataclass(frozen=True, kw_only=True)
class Study:
    """A study file, checked."""

    title: str
    cases: tuple[CaseText, ...]
    axes: tuple[Axis, ...]
    errors: tuple[Deviation, ...]
    method: Method
    size: int | None  # points of a sample; draws of the error at each combination of a grid
    seed: int
    measures: tuple[str, ...]
    keep_curves: bool | tuple[int, ...]  # all, none, or these rows
    part_rows: int
    # of the report; no part of the specification
    wishes: Wishes = field(default_factory=lambda: Wishes(measures=()), compare=False)

    @property
    def cases_named(self) -> list[str]:
        """The cases' paths, as the study states them."""
        return [case.label for case in self.cases]

    @property
    def draws(self) -> int:
        """How often each combination of a grid is run, each time with another error [1]."""
        return self.size if self.method == "grid" and self.errors and self.size else 1

    @property
    def points(self) -> int:
        """Rows of one case [1]: combinations times draws of a grid, size of the sample, or size
        times the length of a block of a design for sensitivities."""
        if self.method == "grid":
            return math.prod(len(axis.levels) for axis in self.axes) * self.draws
        blocks = {"saltelli": len(self.axes) + 2, "morris": len(self.axes) + 1}
        return (self.size or 0) * blocks.get(self.method, 1)

    @property
    def rows(self) -> int:
        """Rows of the whole study [1]."""
        return self.points * len(self.cases)

    @property
    def parts(self) -> int:
        """How many parts the rows make [1]."""
        return -(-self.rows // self.part_rows)

    @property
    def names(self) -> tuple[str, ...]:
        """Every name that varies or has an error, in the order of the file."""
        varied, uncertain = [a.name for a in self.axes], [e.name for e in self.errors]
        return tuple(dict.fromkeys(varied + uncertain))

    @property
    def grouping(self) -> tuple[str, ...]:
        """The names that cannot be many (see `simgait.case.many`): rows are grouped by them."""
        return tuple(name for name in self.names if name not in MANY_NAMES)

    def span_of(self, part: int) -> range:
        """Return the rows of a part."""
        return range(part * self.part_rows, min((part + 1) * self.part_rows, self.rows))

    def curves_of(self, part: int) -> tuple[int, ...]:
        """Return the rows of a part whose curves are kept."""
        span = self.span_of(part)
        if isinstance(self.keep_curves, bool):
            return tuple(span) if self.keep_curves else ()
        return tuple(row for row in self.keep_curves if row in span)

    def specification(self) -> dict[str, Any]:
        """Return everything that the rows follow from, but the cases' text, as JSON can say it."""
        return {
            "cases": self.cases_named,
            "vary": [
                {"name": axis.name, "levels": list(axis.levels)}
                if axis.levels
                else {"name": axis.name, "from": axis.low, "to": axis.high}
                for axis in self.axes
            ],
            "error": [vars(error) for error in self.errors],
            "sample": {"method": self.method, "size": self.size, "seed": self.seed},
            "measures": list(self.measures),
            "keep_curves": self.keep_curves
            if isinstance(self.keep_curves, bool)
            else list(self.keep_curves),
            "part_rows": self.part_rows,
        }
