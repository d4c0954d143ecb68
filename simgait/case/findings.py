"""What a reading of a case file finds: faults, and what it had to fill in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from simgait.case.reading import OVERRIDES
from simgait.errors import CaseError, Fault, one_line, shown
from simgait.library import nearest

MOST_UNKNOWN_KEYS = 50  # of one table; the rest are counted


@dataclass(kw_only=True)
class Findings:
    """Collects while a case is read, so that all faults come at once."""

    label: str
    overridden: frozenset[str] = frozenset()
    faults: list[Fault] = field(default_factory=list)
    filled: list[str] = field(default_factory=list)

    def fault(
        self,
        key: str,
        problem: str,
        *,
        value: str = "",
        allowed: str = "",
        near: str | None = None,
    ) -> None:
        """Note a fault of a key, against the override if that is where its value came from."""
        file = OVERRIDES if key.partition("[")[0] in self.overridden else self.label
        self.faults.append(
            Fault(
                file=file,
                field=one_line(key),
                value=value,
                allowed=allowed,
                nearest=near,
                problem=problem,
            )
        )

    def unknown_keys(self, table: str, keys: Iterable[str], known: tuple[str, ...]) -> None:
        """Note a fault for each key that a table does not have."""
        strangers = list(keys)
        for key in strangers[:MOST_UNKNOWN_KEYS]:
            self.fault(
                f"{table}.{key}" if table else key,
                "is not a key of a case",
                allowed=", ".join(known),
                near=nearest(key, known),
            )
        more = len(strangers) - MOST_UNKNOWN_KEYS
        if more > 0:
            self.fault(table, f"has {more} more unknown keys", allowed=", ".join(known))

    def unknown_name(self, key: str, name: str, known: tuple[str, ...], noun: str) -> None:
        """Note a fault of a name that the library does not have."""
        self.fault(
            key,
            f"is not a known {noun}",
            value=shown(name),
            allowed=", ".join(known),
            near=nearest(name, known),
        )

    def fill(self, sentence: str) -> None:
        """Note one sentence on what was filled in, and how."""
        self.filled.append(sentence)

    def raise_faults(self) -> None:
        """Raise what was found.

        Raises:
            CaseError: there is at least one fault.
        """
        if self.faults:
            raise CaseError(self.faults)
