"""What stands still in the film: grid, labels, key to the signs, cautions."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from PIL import Image, ImageDraw

from simgait.pictures.inputs import ComparisonLike, FloatArray
from simgait.pictures.limb import FORCE_SCALE, SAMPLES, Sheet, View, draw_arrow
from simgait.pictures.poses import Poses
from simgait.pictures.style import font
from simgait.pictures.wording import alignment_labels, shared_settings, shown_note, sign_key

__all__ = ["Layout", "lay_out", "static_layers", "wrapped", "write_lines"]

_COLUMNS = {1: 2, 2: 3, 3: 4, 4: 5, 5: 3, 6: 4, 7: 4, 8: 5, 9: 5}  # one cell is the key
_CELL_WIDTH = {2: 400, 3: 370, 4: 310, 5: 258}
_GAP, _MARGIN, _LINE, _TITLE_LINE = 10, 16, 18, 24
_STATE = 40  # [pixel] under the floor: percent, lever, ending


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Where everything stands [pixel]: the common view, columns, rows, and texts already broken."""

    view: View
    columns: int
    rows: int
    labels: tuple[tuple[str, ...], ...]
    title: tuple[str, ...]
    heading: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def label_height(self) -> int:
        """Height of the label of a panel [pixel]."""
        return _LINE * max(len(lines) for lines in self.labels) + 8

    @property
    def top(self) -> int:
        """Height of the title above the grid [pixel]."""
        return _MARGIN + _TITLE_LINE * len(self.title) + _LINE * len(self.heading) + 12

    @property
    def size(self) -> tuple[int, int]:
        """Width and height of the whole film [pixel]."""
        high = self.top + self.rows * (self.view.height + self.label_height + _GAP)
        return (
            2 * _MARGIN + self.columns * (self.view.width + _GAP) - _GAP,
            high + _LINE * len(self.cautions) + 14,
        )

    def corner(self, cell: int) -> tuple[int, int]:
        """Upper left pixel of the moving part of a cell."""
        row, column = divmod(cell, self.columns)
        return (
            _MARGIN + column * (self.view.width + _GAP),
            self.top + row * (self.view.height + self.label_height + _GAP) + self.label_height,
        )


def wrapped(words: str, width: float, size: int, bold: bool = False) -> tuple[str, ...]:
    """The words broken into lines of at most `width` [pixel] at font `size` [pixel]."""
    lines: list[str] = []
    for word in filter(None, words.split(" ")):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and font(size, bold).getlength(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def lay_out(
    comparison: ComparisonLike, shown: Sequence[int], tracks: Sequence[Poses | None]
) -> Layout:
    """The layout that shows these runs at one scale, with every text broken to fit."""
    columns = _COLUMNS[len(shown)]
    width = _CELL_WIDTH[columns]
    labels = alignment_labels(comparison.results)
    whole = columns * (width + _GAP) - _GAP
    broken = []
    for index in shown:
        words = f"baseline: {labels[index]}" if index == comparison.baseline else labels[index]
        broken.append(wrapped(words, width - 44, 13, True))
    same = shared_settings(comparison.results)
    heading = [f"In all: {same}." if same else "", shown_note(comparison, shown)]
    return Layout(
        view=_view(comparison, shown, tracks, width),
        columns=columns,
        rows=-(-(len(shown) + 1) // columns),
        labels=tuple(broken),
        title=wrapped(comparison.title, whole - 150, 19, True),
        heading=tuple(line for text in heading if text for line in wrapped(text, whole, 13)),
        cautions=wrapped(" ".join(comparison.cautions), whole, 13),
    )


def _view(
    comparison: ComparisonLike, shown: Sequence[int], tracks: Sequence[Poses | None], width: int
) -> View:
    """The window of the room that holds all runs that ended at toe-off (all, if none did).

    Runs that ended badly may widen it by up to a quarter of a metre.
    """
    drawn = [(track, comparison.results[i]) for track, i in zip(tracks, shown, strict=True)]
    known = [(t, r.ending == "toe_off", r.body_weight) for t, r in drawn if t is not None]
    if not known:
        return View(left=-0.6, bottom=-0.2, scale=width / 1.2, width=width, height=width)
    boxes = [(_reach(track, weight), normal) for track, normal, weight in known]
    sure = np.concatenate([box for box, normal in boxes if normal] or [box for box, _ in boxes])
    low, high = sure.min(axis=0), sure.max(axis=0)
    every = np.clip(np.concatenate([box for box, _ in boxes]), low - 0.25, high + 0.25)
    left, right = float(every[:, 0].min()) - 0.07, float(every[:, 0].max()) + 0.07
    top = max(float(every[:, 1].max()), 0.1) + 0.08
    scale = min(width / (right - left), (520 if len(shown) < 5 else 340) / top)
    return View(
        left=(left + right) / 2.0 - width / scale / 2.0,
        bottom=-(_STATE + 4) / scale,
        scale=scale,
        width=width,
        height=round(top * scale) + _STATE + 4,
    )


def _reach(track: Poses, body_weight: float) -> FloatArray:
    """Points [m] that must be inside the window: the limb and the tip of the arrow."""
    start = np.column_stack([track.pressure_x, np.zeros_like(track.pressure_x)])
    tip = start + track.force / body_weight * FORCE_SCALE
    tip = tip[np.isfinite(tip).all(axis=1)]
    return np.concatenate([track.hip, track.knee, track.ankle, track.sole.reshape(-1, 2), tip])


def static_layers(
    comparison: ComparisonLike, shown: Sequence[int], layout: Layout, slow: float
) -> tuple[Image.Image, Image.Image]:
    """The ink and accent layers of everything that does not move."""
    ink, accent = Image.new("L", layout.size), Image.new("L", layout.size)
    pen, brush = ImageDraw.Draw(ink), ImageDraw.Draw(accent)
    width, height = layout.size
    for row, line in enumerate(layout.title):
        place = (_MARGIN, _MARGIN - 4 + row * _TITLE_LINE)
        pen.text(place, line, fill=255, font=font(19, True))
    version = f"simgait {comparison.version}"
    pen.text((width - _MARGIN, _MARGIN), version, fill=150, font=font(12), anchor="ra")
    below = _MARGIN + _TITLE_LINE * len(layout.title)
    write_lines(pen, (_MARGIN, below), layout.heading, 190)
    for cell, index in enumerate(shown):
        _draw_frame(pen, layout, cell, index, index == comparison.baseline)
    _draw_key(ink, accent, layout, len(shown), slow, sign_key(comparison.results))
    top = height - _LINE * len(layout.cautions) - 10
    brush.line((_MARGIN, top - 4, width - _MARGIN, top - 4), fill=255, width=2)
    write_lines(pen, (_MARGIN, top), layout.cautions, 255)
    return ink, accent


def _draw_frame(
    pen: ImageDraw.ImageDraw, layout: Layout, cell: int, index: int, is_baseline: bool
) -> None:
    """Frame, number and label of a panel; the baseline has a thick frame and a filled head."""
    x, y = layout.corner(cell)
    head = y - layout.label_height
    right, bottom = x + layout.view.width, y + layout.view.height
    if is_baseline:
        pen.rectangle((x - 4, head - 4, right + 3, bottom + 3), outline=255, width=3)
        pen.rectangle((x - 1, head - 1, right, y - 3), fill=235)
    else:
        pen.rectangle((x - 1, head - 1, right, bottom), outline=110)
    strength = 0 if is_baseline else 255
    pen.text((x + 6, head + 3), str(index + 1), fill=strength, font=font(14, True))
    for row, line in enumerate(layout.labels[cell]):
        place = (x + 34, head + 4 + row * _LINE)
        pen.text(place, line, fill=strength, font=font(13, True))


def _draw_key(
    ink: Image.Image, accent: Image.Image, layout: Layout, cell: int, slow: float, signs: str
) -> None:
    """The cell after the last panel: arrow of one body weight, scale bar, how to read."""
    pen = ImageDraw.Draw(ink)
    x, y = layout.corner(cell)
    y -= layout.label_height
    view = layout.view
    arrow, bar = FORCE_SCALE * view.scale, 0.2 * view.scale
    sheet = Sheet(40, round(arrow) + 8)
    draw_arrow(sheet, [(15 * SAMPLES, (arrow + 4) * SAMPLES), (15 * SAMPLES, 4 * SAMPLES)])
    accent.paste(sheet.reduced()[1], (x + 2, y + 4))
    left, wide = x + 44, view.width - 48
    pen.text((left, y + 2), "arrow this long: ground", fill=255, font=font(13))
    pen.text((left, y + 2 + _LINE), "force of 1 body weight", fill=255, font=font(13))
    pen.line((left, y + 56, left + bar, y + 56), fill=255, width=3)
    for end in (left, left + bar):
        pen.line((end, y + 51, end, y + 61), fill=255, width=2)
    pen.text((left + bar + 10, y + 56), "200 mm", fill=255, font=font(13), anchor="lm")
    texts = [
        f"{slow:.3g} times slower than life; one clock for all.",
        "Bar with round ends: knee lever, square to the force line. "
        "+ line behind the knee, bends it; \u2212 ahead, straightens it.",
        "Thick sole: pressed on the floor. Widths are drawn, not measured.",
        f"Signs: {signs}." if signs else "",
    ]
    row = y + 72
    for text in texts:
        lines = wrapped(text, wide, 12)
        write_lines(pen, (left, row), lines, 220, 12, 15)
        row += 15 * len(lines) + 4


def write_lines(
    pen: ImageDraw.ImageDraw,
    place: tuple[int, int],
    lines: Sequence[str],
    strength: int,
    size: int = 13,
    step: int = _LINE,
) -> None:
    """Write lines below each other from a place [pixel]; size and step [pixel]."""
    for row, line in enumerate(lines):
        pen.text((place[0], place[1] + row * step), line, fill=strength, font=font(size))
