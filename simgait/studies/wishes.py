"""What a report is to tell of a study's runs; it changes no run."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

Sense: TypeAlias = Literal["low", "high"] | float  # of a goal; a number: as near to it as can be


@dataclass(frozen=True, kw_only=True)
class Wishes:
    """What a report is to tell."""

    measures: tuple[str, ...]
    base: Mapping[str, float | str] = field(default_factory=dict)  # setting to compare with
    goals: Mapping[str, Sense] = field(default_factory=dict)  # of the trade-off front
    limits: Mapping[str, float] = field(default_factory=dict)  # drawn as contours

    def as_written(self) -> dict[str, Any]:
        """Return the wishes as JSON can say them."""
        return {
            "measures": list(self.measures),
            "base": dict(self.base),
            "goals": dict(self.goals),
            "limits": dict(self.limits),
        }

    @staticmethod
    def from_written(written: Mapping[str, Any]) -> Wishes:
        """Return the wishes of what `as_written` gave."""
        return Wishes(
            measures=tuple(written.get("measures", ())),
            base=written.get("base", {}),
            goals=written.get("goals", {}),
            limits=written.get("limits", {}),
        )
