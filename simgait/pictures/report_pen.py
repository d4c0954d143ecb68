"""A pen that writes down a page in millimetres, or only measures how far down it would get."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.pictures.letters import broken
from simgait.pictures.style import INK, SOFT_INK, Colour, hex_colour

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["BOTTOM", "HIGH", "LEFT", "TOP", "WIDE", "WIDTH", "Pen", "printable"]

WIDE, HIGH = 210.0, 297.0  # [mm] of A4
LEFT, TOP, BOTTOM = 10.0, 10.0, 287.0  # [mm] from the left and upper edges
WIDTH = WIDE - 2.0 * LEFT
MM_PER_POINT = 25.4 / 72.0
LEADING = 1.24  # of a line, in sizes of its letters
MISSING = "\ufffd"


@cache
def _known() -> frozenset[int]:
    """The characters that the letters of the page have."""
    import matplotlib
    from matplotlib.ft2font import FT2Font

    folder = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
    faces = [FT2Font(str(folder / f"DejaVuSans{end}.ttf")) for end in ("", "-Bold")]
    return frozenset.intersection(*(frozenset(face.get_charmap()) for face in faces))


def printable(words: str) -> str:
    """Return words with a mark in place of each character that the letters of the page lack.

    >>> printable("a\\u4e2d") == "a\\ufffd"
    True
    """
    return "".join(mark if ord(mark) in _known() else MISSING for mark in words)


class Pen:
    """Writes from the top of a page; without a figure it only moves."""

    def __init__(self, figure: Figure | None, scale: float) -> None:
        """Begin at the top; scale: of all letters and gaps."""
        self.figure = figure
        self.scale = scale
        self.down = TOP  # [mm] from the upper edge
        self.picture_top = TOP  # [mm] of the last picture's place

    def picture(self, height: float) -> None:
        """Leave the place of a picture [mm, not scaled]."""
        self.picture_top = self.down
        self.down += height

    def space(self, height: float) -> None:
        """Leave a gap [mm before scaling]."""
        self.down += height * self.scale

    def lines(self, words: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
        """Return words broken into lines of a width [mm] at a size [point before scaling]."""
        return broken(printable(words), width / 25.4, size * self.scale, bold)

    def text(
        self,
        words: str,
        size: float,
        *,
        left: float = LEFT,
        width: float = WIDTH,
        bold: bool = False,
        colour: Colour = INK,
    ) -> None:
        """Write words over as many lines as they take."""
        self.put(self.lines(words, size, width, bold), size, left=left, bold=bold, colour=colour)

    def put(
        self,
        lines: Sequence[str],
        size: float,
        *,
        left: float = LEFT,
        bold: bool = False,
        colour: Colour = INK,
        align: str = "left",
    ) -> None:
        """Write lines as they are."""
        for line in lines:
            self.down += size * LEADING * MM_PER_POINT * self.scale
            if self.figure is not None:
                self.figure.text(
                    left / WIDE,
                    1.0 - (self.down - 0.25 * size * MM_PER_POINT * self.scale) / HIGH,
                    line,
                    size=size * self.scale,
                    weight="bold" if bold else "normal",
                    color=hex_colour(colour),
                    ha=align,
                )

    def heading(self, words: str) -> None:
        """Write a heading with a thin rule under it."""
        self.space(1.6)
        self.text(words, 8.4, bold=True)
        self.space(0.4)
        self.rule()
        self.space(0.5)

    def rule(
        self,
        colour: Colour = SOFT_INK,
        thick: float = 0.5,
        left: float = LEFT,
        width: float = WIDTH,
    ) -> None:
        """Draw a rule where the pen is."""
        if self.figure is None:
            return
        from matplotlib.lines import Line2D

        up = 1.0 - self.down / HIGH
        ends = [left / WIDE, (left + width) / WIDE]
        self.figure.add_artist(Line2D(ends, [up, up], color=hex_colour(colour), linewidth=thick))

    def side_by_side(self, columns: Sequence[Any]) -> None:
        """Call each column with this pen from the same height; go on below the lowest."""
        start = lowest = self.down
        for column in columns:
            self.down = start
            column(self)
            lowest = max(lowest, self.down)
        self.down = lowest
