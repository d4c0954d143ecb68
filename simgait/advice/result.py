"""What advice says: suggestions with what they do, how sure that is, and what gets worse."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from simgait.advice.aims import Aim
from simgait.alignment import Alignment


@dataclass(frozen=True, kw_only=True)
class Worsening:
    """A measure that a suggestion makes worse, in the unit of its name."""

    measure: str
    now: float
    then: float


@dataclass(frozen=True, kw_only=True)
class OtherWalk:
    """The same suggestion under the other assumption on the wearer."""

    assumption: str
    measures: Mapping[str, float]
    met: bool
    differs: tuple[str, ...]  # measures that move the other way


@dataclass(frozen=True, kw_only=True)
class Surer:
    """A larger change of the same kind that meets the aims in more of the draws."""

    changes: Mapping[str, float]  # by name of the alignment, in the unit of the name
    met_share: float  # [1]


@dataclass(frozen=True, kw_only=True)
class Suggestion:
    """One set of changes at the bench."""

    changes: Mapping[str, float]  # by name of the alignment, in the unit of the name
    turns: Mapping[str, float]  # of the screws, of those changes that screws make [1]
    alignment: Alignment  # that results
    measures: Mapping[str, float]  # every measure, in the unit of its name
    intervals: Mapping[str, tuple[float, float]]  # central 95 per cent under measurement error
    met: bool
    met_share: float  # [1] of the draws of measurement error in which every aim is met
    fallen_share: float  # [1] of the draws in which there is no walk that ends with toe-off
    surer: Surer | None
    worse: tuple[Worsening, ...]
    remarks: tuple[str, ...]  # what should make a reader doubt that walk, as for a single stance
    confirm: str
    other: OtherWalk | None


@dataclass(frozen=True, kw_only=True)
class Advice:
    """What advice says of one case."""

    title: str
    assumption: str  # "keeps" or "adapts"
    aims: tuple[Aim, ...]
    now: Mapping[str, float]  # every measure of the case's own alignment
    suggestions: tuple[Suggestion, ...]
    fights: tuple[str, ...]  # sentences; none if the aims are met
    errors: str  # which errors of measurement were drawn, in words
    draws: int
    runs: int  # simulated alignments
    filled: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
    version: str

    def as_written(self) -> dict[str, Any]:
        """Return what the JSON of ``simgait advise`` says."""
        return {
            "title": self.title,
            "assumption": self.assumption,
            "goals": [aim_entry(aim, self.now[aim.measure]) for aim in self.aims],
            "suggestions": [suggestion_entry(each) for each in self.suggestions],
            "fights": list(self.fights),
            "now": dict(self.now),
            "errors": self.errors,
            "draws": self.draws,
            "runs": self.runs,
            "filled": list(self.filled),
            "cautions": list(self.cautions),
            "sources": list(self.sources),
            "version": self.version,
        }


def aim_entry(aim: Aim, now: float) -> dict[str, Any]:
    """Return one goal as JSON says it."""
    entry: dict[str, Any] = {"measure": aim.measure, aim.sense: aim.value, "weight": aim.weight}
    if aim.sense == "near":
        entry["within"] = aim.within
    return {**entry, "complaint": aim.complaint, "now": now}


def suggestion_entry(each: Suggestion) -> dict[str, Any]:
    """Return one suggestion as JSON says it."""
    other = each.other and {
        "assumption": each.other.assumption,
        "measures": dict(each.other.measures),
        "met": each.other.met,
        "differs": list(each.other.differs),
    }
    return {
        "changes": dict(each.changes),
        "turns": dict(each.turns),
        "alignment": each.alignment.as_written(),
        "measures": dict(each.measures),
        "intervals": {name: list(span) for name, span in each.intervals.items()},
        "met": each.met,
        "met_share": each.met_share,
        "fallen_share": each.fallen_share,
        "surer": each.surer
        and {"changes": dict(each.surer.changes), "met_share": each.surer.met_share},
        "worse": [{"measure": bad.measure, "now": bad.now, "then": bad.then} for bad in each.worse],
        "remarks": list(each.remarks),
        "confirm": each.confirm,
        "other_assumption": other,
    }
