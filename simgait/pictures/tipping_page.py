"""What the film and the still of tipping share: page, words, panels, key to the signs."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, isfinite, tan

import numpy as np
from PIL import Image, ImageDraw

from simgait.pictures.inputs import TippingPairLike, TippingSceneLike
from simgait.pictures.limb import Sheet, View
from simgait.pictures.reel import draw_cross
from simgait.pictures.shots import Shot, TiltedView, outermost
from simgait.pictures.still import wrapped, write_lines
from simgait.pictures.style import font
from simgait.pictures.tipping_key import draw_key, key_height
from simgait.pictures.wearer import draw_wearer
from simgait.tipping.names import ENDINGS

__all__ = [
    "Notes",
    "Page",
    "cross_out",
    "found_words",
    "page_of",
    "paint_panel",
    "sizes_in_words",
    "static_page",
    "with_unit",
]

Notes = tuple[Sequence[str], str]  # cautions and version

_MARGIN, _GAP, _LINE, _TITLE_LINE = 16, 12, 17, 24
_TALLEST = 350  # [pixel] of the scene in a panel
_FARTHEST = 1.1  # [m] from the feet that a fall is followed to
_HEAD = 46  # [pixel] above the panels of a cell: title, and a line over each panel


@dataclass(frozen=True, kw_only=True)
class Page:
    """Where everything stands [pixel]: cells of a few panels each, all to one scale."""

    view: View  # of one panel's scene
    pivot: float  # [m] of the floor that stays in its place when the floor turns
    columns: int
    rows: int
    panels: int  # in a cell
    head: int  # [pixel] above the panels of a cell
    state: int  # [pixel] under the scene of a panel
    title: tuple[str, ...]
    version: str
    cautions: tuple[str, ...]

    @property
    def cell(self) -> tuple[int, int]:
        """Width and height of a cell [pixel]."""
        return self.panels * self.view.width, self.head + self.view.height + self.state

    @property
    def top(self) -> int:
        """Height of the title above the cells [pixel]."""
        return _MARGIN + _TITLE_LINE * len(self.title) + 4

    @property
    def under(self) -> int:
        """Where the cells end and the key begins [pixel]."""
        return self.top + self.rows * (self.cell[1] + _GAP)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the whole picture [pixel]."""
        wide = self.columns * (self.cell[0] + _GAP) - _GAP
        return 2 * _MARGIN + wide, self.under + key_height(wide) + _LINE * len(self.cautions) + 22

    def corner(self, cell: int, panel: int) -> tuple[int, int]:
        """Upper left pixel of the scene of a panel."""
        row, column = divmod(cell, self.columns)
        return (
            _MARGIN + column * (self.cell[0] + _GAP) + panel * self.view.width,
            self.top + row * (self.cell[1] + _GAP) + self.head,
        )


def page_of(
    title: str,
    notes: Notes,
    scenes: Sequence[TippingSceneLike],
    grid: tuple[int, int, int],
    width: int,
    said: int,
) -> Page:
    """The page that holds all scenes at one scale.

    grid: cells in all, columns of cells, panels in a cell; width: of a panel [pixel]; said: lines
    under the title of a cell.

    Raises
    ------
    ValueError : nothing to draw, or no cautions.
    """
    cautions, version = notes
    cells, columns, panels = grid
    if not scenes:
        raise ValueError("without scenes nothing can be drawn; pass at least one threshold")
    if not cautions:
        raise ValueError("a picture without cautions is not drawn; pass the result's cautions")
    pivot = float(np.mean([scene.reach[0] for scene in scenes]))
    whole = columns * (panels * width + _GAP) - _GAP
    return Page(
        view=_view(scenes, pivot, width),
        pivot=pivot,
        columns=columns,
        rows=-(-cells // columns),
        panels=panels,
        head=_HEAD + _LINE * said,
        state=_LINE * (1 + _most_lines(scenes, width)) + 10,
        title=wrapped(title, whole - 130, 19, True),
        version=version,
        cautions=wrapped(" ".join(cautions), whole, 13),
    )


def _view(scenes: Sequence[TippingSceneLike], pivot: float, width: int) -> View:
    """The window that holds all scenes, seen with gravity downwards."""
    corners = np.concatenate([outermost(scene, pivot) for scene in scenes])
    left = max(float(corners[:, 0].min()), pivot - _FARTHEST) - 0.04
    right = min(float(corners[:, 0].max()), pivot + _FARTHEST) + 0.04
    top = float(corners[:, 1].max()) + 0.04
    bottom = 0.05 - float(corners[:, 1].min())
    scale = min(width / (right - left), _TALLEST / (top + bottom))
    steepest = max(float(np.abs(scene.slope).max()) for scene in scenes)
    bottom = max(bottom, 0.03 + (0.5 * width / scale + 0.05) * tan(steepest))
    return View(
        left=(left + right) / 2.0 - width / scale / 2.0,
        bottom=-bottom,
        scale=scale,
        width=width,
        height=round((top + bottom) * scale),
    )


def _most_lines(scenes: Sequence[TippingSceneLike], width: int) -> int:
    words = {ENDINGS.get(scene.track.ending, scene.track.ending) for scene in scenes}
    return max(len(wrapped(each, width - 10, 13, True)) for each in words)


def sizes_in_words(pair: TippingPairLike) -> tuple[str, str]:
    """The sizes just below and just above, with as many digits as tell them apart.

    Three digits that matter if these do; the unit follows.
    """
    low = pair.below.size
    if pair.above is None:
        return with_unit(low, pair.unit), ""
    high = pair.above.size
    for digits in (3, 4, 5):
        words = with_unit(low, pair.unit, digits), with_unit(high, pair.unit, digits)
        if words[0] != words[1]:
            break
    return words


def with_unit(value: float, unit: str, digits: int = 3) -> str:
    """The value with so many digits that matter, and its unit.

    >>> with_unit(17.96, "N s"), with_unit(9.9999, "deg", 4)
    ('18.0\\xa0N\\xa0s', '10.00°')
    """
    number = f"{value:#.{digits}g}".removesuffix(".") if value else "0"
    return f"{number}°" if unit == "deg" else f"{number}\u00a0{unit}".replace(" ", "\u00a0")


def paint_panel(
    sheet: Sheet, page: Page, scene: TippingSceneLike, shot: Shot, frame: int, body_weight: float
) -> tuple[Image.Image, Image.Image]:
    """The ink and accent of a panel at one instant: scene, time, and the ending once reached.

    body_weight: [N], of the arrows.
    """
    view = page.view
    sheet.wipe()
    tilted = TiltedView(**vars(view), slope=float(shot.slope[frame]), pivot=page.pivot)
    draw_wearer(sheet, tilted, scene, shot, frame, body_weight)
    ink, accent = sheet.reduced()
    ending = scene.track.ending
    whole = Image.new("L", (view.width, view.height + page.state))
    whole.paste(ink, (0, 0))
    pen = ImageDraw.Draw(whole)
    pen.line((view.width - 1, 0, view.width - 1, whole.size[1]), fill=110)
    top = view.height + 4
    pen.text((6, top), f"{float(shot.time[frame]):.2f} s", fill=255, font=font(13, True))
    if float(np.abs(scene.slope).max()) > 0.0:
        steep = f"slope {abs(degrees(float(shot.slope[frame]))):.1f}°"
        pen.text((view.width - 6, top), steep, fill=220, font=font(13), anchor="ra")
    if shot.limb.done[frame]:
        lines = wrapped(ENDINGS.get(ending, ending), view.width - 10, 13, True)
        for row, line in enumerate(lines):
            pen.text((6, top + _LINE * (row + 1)), line, fill=255, font=font(13, True))
    full = Image.new("L", whole.size)
    full.paste(accent, (0, 0))
    return whole, full


def cross_out(accent: Image.Image, page: Page, cell: int, panel: int) -> None:
    """Draw the mark of a bad ending over a panel."""
    x, y = page.corner(cell, panel)
    draw_cross(accent, (x + page.view.width - 26, y - 22))


def static_page(page: Page, heads: Sequence[tuple[str, str]]) -> tuple[Image.Image, Image.Image]:
    """The ink and accent layers of all that stands still: title, heads of cells, key, cautions.

    heads: of each cell the bold line and the one under it.
    """
    ink, accent = Image.new("L", page.size), Image.new("L", page.size)
    pen, brush = ImageDraw.Draw(ink), ImageDraw.Draw(accent)
    width, height = page.size
    for row, line in enumerate(page.title):
        place = (_MARGIN, _MARGIN - 4 + row * _TITLE_LINE)
        pen.text(place, line, fill=255, font=font(19, True))
    version = f"simgait {page.version}"
    pen.text((width - _MARGIN, _MARGIN), version, fill=150, font=font(12), anchor="ra")
    for cell, (bold, plain) in enumerate(heads):
        x, y = page.corner(cell, 0)
        y -= page.head
        pen.rectangle((x - 1, y - 1, x + page.cell[0] - 1, y + page.cell[1]), outline=110)
        pen.text((x + 6, y + 3), bold, fill=255, font=font(14, True))
        pen.text((x + 6, y + 22), plain, fill=190, font=font(12))
    draw_key(ink, accent, (_MARGIN, page.under), width - 2 * _MARGIN, page.view.scale)
    top = height - _LINE * len(page.cautions) - 10
    brush.line((_MARGIN, top - 5, width - _MARGIN, top - 5), fill=255, width=2)
    write_lines(pen, (_MARGIN, top), page.cautions, 255)
    return ink, accent


def found_words(pair: TippingPairLike) -> str:
    """The bold line of a cell: what is tried and where the threshold is."""
    if isfinite(pair.value):
        return f"{pair.title}: threshold {with_unit(pair.value, pair.unit)}"
    return f"{pair.title}: none up to {with_unit(pair.below.size, pair.unit)}"
