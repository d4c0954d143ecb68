"""The drawings of this room as vectors: the same strokes, laid into a matplotlib figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from simgait.pictures.limb import SAMPLES, Sheet
from simgait.pictures.style import ACCENT, INK, Colour, hex_colour

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["WHITE", "VectorSheet", "lay_into"]

Points = Sequence[tuple[float, float]]
WHITE: Colour = (255, 255, 255)


@dataclass(frozen=True, kw_only=True)
class Stroke:
    """One shape: its corners [pixel of the sheet], closed or not, or an ellipse's box."""

    kind: str  # "line", "polygon" or "ellipse"
    points: Points
    fill: str | None
    edge: str | None
    width: float  # [pixel of the sheet]


@dataclass(kw_only=True)
class Brush:
    """Takes the calls that drawings make of a pillow layer, and keeps them as strokes."""

    colour: Colour
    wipes: bool  # whether strength 0 covers what is below with paper; else it draws nothing
    strokes: list[Stroke] = field(default_factory=list)

    def _mixed(self, strength: int | None) -> str | None:
        if strength is None or (strength == 0 and not self.wipes):
            return None
        share = strength / 255.0
        mixed = tuple(
            round(paper + (own - paper) * share)
            for paper, own in zip(WHITE, self.colour, strict=True)
        )
        return hex_colour((mixed[0], mixed[1], mixed[2]))

    def _keep(
        self, kind: str, points: Points, fill: int | None, edge: int | None, width: float
    ) -> None:
        colours = self._mixed(fill), self._mixed(edge)
        if colours != (None, None):
            self.strokes.append(
                Stroke(kind=kind, points=points, fill=colours[0], edge=colours[1], width=width)
            )

    def line(self, xy: Points, fill: int | None = None, width: int = 0, joint: Any = None) -> None:
        """Keep an open line."""
        self._keep("line", list(xy), None, fill, max(width, 1))

    def polygon(
        self, xy: Points, fill: int | None = None, outline: int | None = None, width: int = 1
    ) -> None:
        """Keep a filled shape."""
        self._keep("polygon", list(xy), fill, outline, width)

    def ellipse(
        self,
        xy: tuple[float, float, float, float],
        fill: int | None = None,
        outline: int | None = None,
        width: int = 1,
    ) -> None:
        """Keep an ellipse by its box."""
        self._keep("ellipse", [(xy[0], xy[1]), (xy[2], xy[3])], fill, outline, width)


class VectorSheet(Sheet):
    """A sheet that keeps strokes in their order where others fill pixels."""

    def __init__(self) -> None:
        """A blank sheet."""
        self.strokes: list[Stroke] = []
        self.ink = Brush(colour=INK, wipes=True, strokes=self.strokes)
        self.accent = Brush(colour=ACCENT, wipes=False, strokes=self.strokes)

    def wipe(self) -> None:
        """Forget all strokes."""
        self.strokes.clear()


def lay_into(
    figure: Figure,
    box: tuple[float, float, float, float],
    sheet: VectorSheet,
    size: tuple[int, int],
) -> Any:
    """Lay a sheet's strokes into a box of a figure; return the axes that hold them.

    box: left, bottom, width, height [inch]; size: of the view that was drawn [pixel], in the
    proportions of the box.
    """
    wide, high = figure.get_size_inches()
    axes = figure.add_axes((box[0] / wide, box[1] / high, box[2] / wide, box[3] / high))
    axes.set_xlim(0.0, size[0] * SAMPLES)
    axes.set_ylim(size[1] * SAMPLES, 0.0)
    axes.set_axis_off()
    point = box[2] * 72.0 / (size[0] * SAMPLES)  # [point] of a pixel of the sheet
    for order, stroke in enumerate(sheet.strokes):
        axes.add_artist(_shape(stroke, point, order))
    return axes


def _shape(stroke: Stroke, point: float, order: int) -> Any:
    from matplotlib.lines import Line2D
    from matplotlib.patches import Ellipse, Polygon

    width = stroke.width * point
    if stroke.kind == "line":
        x, y = zip(*stroke.points, strict=True)
        return Line2D(
            x, y, color=stroke.edge, linewidth=width, solid_capstyle="butt",
            solid_joinstyle="round", zorder=order,
        )  # fmt: skip
    look: dict[str, Any] = {
        "facecolor": stroke.fill or "none",
        "edgecolor": stroke.edge or "none",
        "linewidth": width if stroke.edge else 0.0,
        "zorder": order,
    }
    if stroke.kind == "polygon":
        return Polygon(stroke.points, closed=True, joinstyle="round", **look)
    (left, top), (right, bottom) = stroke.points
    middle = ((left + right) / 2.0, (top + bottom) / 2.0)
    return Ellipse(middle, right - left, bottom - top, **look)
