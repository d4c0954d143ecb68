"""One generated page, or the generated parts of a hand-written one; one generated picture."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from making.text import filled

DOCS = Path(__file__).resolve().parents[1]


@dataclass(frozen=True, kw_only=True)
class Page:
    """A page of text: where it lies under docs/, how it is made, how loosely numbers compare.

    `make` returns the whole page, or a mapping of part names to texts for a hand-written one.
    """

    path: str
    make: Callable[[], str | Mapping[str, str]]
    band: float = 0.0  # [1] share by which numbers may differ on another machine

    @property
    def file(self) -> Path:
        """Where the page lies."""
        return DOCS / self.path

    def fresh(self) -> str:
        """Return the page as it should be now."""
        made = self.make()
        if isinstance(made, str):
            return made
        return filled(self.file.read_text(encoding="utf-8"), made)


@dataclass(frozen=True, kw_only=True)
class Picture:
    """A picture: where it lies under docs/, how it is drawn, how large it may be."""

    path: str
    draw: Callable[[Path], None]
    most_kb: int = 250

    @property
    def file(self) -> Path:
        """Where the picture lies."""
        return DOCS / self.path
