"""Curves that grow in time: their boxes, their axes, and the pencil that draws them on."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

import numpy as np
from PIL import Image, ImageDraw

from simgait.pictures.arm_graph import round_step
from simgait.pictures.curves import Panel
from simgait.pictures.inputs import FloatArray, ResultLike
from simgait.pictures.limb import SAMPLES
from simgait.pictures.poses import between
from simgait.pictures.still import wrapped
from simgait.pictures.style import font

__all__ = ["LOOKS", "CurveLook", "GraphBox", "Growing", "draw_axes", "draw_sample", "graph_boxes"]

_LEAST_HIGH = 8.0  # [em] of a graph under the limbs
_PARTS = 3  # a frame's piece of curve is drawn in so many straight lines


@dataclass(frozen=True, kw_only=True)
class CurveLook:
    """Strength of ink (0 to 255), width and dashes [pixel] of a curve; no dashes: solid."""

    strength: int
    width: int
    dashes: tuple[float, ...]


LOOKS = (  # of the first run shown, which is the baseline if it is among them, then the others
    CurveLook(strength=120, width=4, dashes=()),
    CurveLook(strength=255, width=2, dashes=()),
    CurveLook(strength=255, width=2, dashes=(9.0, 5.0)),
    CurveLook(strength=255, width=2, dashes=(2.5, 4.0)),
    CurveLook(strength=190, width=2, dashes=(14.0, 4.0, 3.0, 4.0)),
    CurveLook(strength=190, width=2, dashes=(4.0, 4.0)),
)


@dataclass(frozen=True, kw_only=True)
class GraphBox:
    """The place [pixel] of a graph's axes, and the words above it."""

    panel: Panel
    left: int
    top: int
    width: int
    height: int
    title: tuple[str, ...]
    sign: tuple[str, ...]
    head: int  # [pixel] from the words' first row down to the axes
    bottom: int  # [pixel] under the words below the axes


def graph_boxes(
    panels: Sequence[Panel], box: tuple[int, int, int, int], em: int, columns: int
) -> tuple[GraphBox, ...]:
    """The boxes of these panels within left, top, width and height [pixel].

    A height of 0 lets every graph be as high as it should be.
    """
    if not panels:
        return ()
    columns = min(columns, len(panels)) if len(panels) != 4 or columns == 1 else 2
    rows = -(-len(panels) // columns)
    left, top, width, height = box
    gap, row = em, round(1.25 * em)
    each = (width - gap * (columns - 1)) // columns
    inset = round(3.4 * em)
    titles = [wrapped(f"{panel.title} [{panel.unit}]", each, em, True) for panel in panels]
    signs = [wrapped(panel.sign, each, em - 1) for panel in panels]
    words = [len(t) + len(s) for t, s in zip(titles, signs, strict=True)]
    heads = [row * max(words[r * columns : (r + 1) * columns]) + em // 2 for r in range(rows)]
    foot = round(1.6 * em)
    high = round(_LEAST_HIGH * em)
    if height:
        high = (height - gap * (rows - 1) - sum(heads) - foot * rows) // rows
    boxes = []
    for place, panel in enumerate(panels):
        r, c = divmod(place, columns)
        head = heads[r]
        above = top + r * (high + foot + gap) + sum(heads[:r])
        boxes.append(
            GraphBox(
                panel=panel,
                left=left + c * (each + gap) + inset,
                top=above + head,
                width=each - inset - round(2.2 * em),
                height=high,
                title=titles[place],
                sign=signs[place],
                head=head,
                bottom=above + head + high + foot,
            )
        )
    return tuple(boxes)


class Growing:
    """One graph: axes fixed from the start, curves drawn on from frame to frame."""

    def __init__(self, box: GraphBox, results: Sequence[ResultLike], times: FloatArray) -> None:
        """A graph without curves yet; times: of the frames [s]."""
        self.box, self.end = box, max(float(times[-1]), 1e-3)
        fine = np.linspace(0.0, times[-1], _PARTS * (len(times) - 1) + 1)
        self.values = [_values(box.panel, result, fine) for result in results]
        known = np.concatenate([*self.values, np.zeros(1)])
        known = known[np.isfinite(known)]
        spread = max(float(known.max() - known.min()), 1e-6)
        self.low, self.high = known.min() - 0.06 * spread, known.max() + 0.06 * spread
        self.lines = [self._pixels(fine, values) for values in self.values]
        size = ((box.width + 8) * SAMPLES, (box.height + 8) * SAMPLES)
        self.sheet = Image.new("L", size)
        self.run = [0.0] * len(results)  # [pixel] drawn so far, for the dashes
        self.heads: list[tuple[float, float] | None] = [None] * len(results)

    def place(self, time: float, value: float) -> tuple[float, float]:
        """Pixel of the film for a time [s] and a value."""
        box = self.box
        across = time / self.end
        return (
            box.left + across * box.width,
            box.top + box.height - (value - self.low) / (self.high - self.low) * box.height,
        )

    def _pixels(self, times: FloatArray, values: FloatArray) -> list[tuple[float, float]]:
        pairs = zip(times.tolist(), values.tolist(), strict=True)
        return [self.place(time, value) for time, value in pairs]

    def grow(self, frame: int) -> None:
        """Draw every curve on to a frame."""
        pen = ImageDraw.Draw(self.sheet)
        first = max(frame - 1, 0) * _PARTS
        for i, (line, look) in reversed(list(enumerate(zip(self.lines, LOOKS, strict=False)))):
            for a, b in zip(line[first : frame * _PARTS], line[first + 1 :], strict=False):
                if np.isfinite(b[1]):
                    self.heads[i] = b
                if np.isfinite(a[1]) and np.isfinite(b[1]):
                    self._stroke(pen, i, a, b, look)

    def _stroke(
        self,
        pen: ImageDraw.ImageDraw,
        i: int,
        a: tuple[float, float],
        b: tuple[float, float],
        look: CurveLook,
    ) -> None:
        """Draw one straight piece, or only move on where the dashes leave a gap."""
        before = self.run[i]
        self.run[i] = before + float(np.hypot(b[0] - a[0], b[1] - a[1]))
        if look.dashes and not _inked(before, look.dashes):
            return
        ends = [self._on_sheet(a), self._on_sheet(b)]
        wide = look.width * SAMPLES
        pen.line(ends, fill=look.strength, width=wide)
        if not look.dashes:
            x, y = ends[1]
            half = wide / 2.0 - 0.5
            pen.ellipse((x - half, y - half, x + half, y + half), fill=look.strength)

    def _on_sheet(self, point: tuple[float, float]) -> tuple[float, float]:
        return (
            (point[0] - self.box.left + 4) * SAMPLES,
            (point[1] - self.box.top + 4) * SAMPLES,
        )

    def curves(self) -> tuple[Image.Image, tuple[int, int]]:
        """What is drawn so far, and its upper left pixel in the film."""
        return self.sheet.reduce(SAMPLES), (self.box.left - 4, self.box.top - 4)


def _values(panel: Panel, result: ResultLike, times: FloatArray) -> FloatArray:
    """A curve at these times [s]; NaN after its end and where it is not known."""
    clock, values = result.curves.time, panel.values(result)
    known = np.isfinite(clock)
    if not known.any():
        return np.full(times.shape, np.nan)
    picked = between(clock[known], times)(values[known])
    return np.where(times <= clock[known][-1] + 1e-9, picked, np.nan)


def _inked(run: float, dashes: tuple[float, ...]) -> bool:
    """Whether a dash, not a gap, lies at a length along the line.

    >>> _inked(2.0, (3.0, 2.0)), _inked(4.0, (3.0, 2.0)), _inked(5.5, (3.0, 2.0))
    (True, False, True)
    """
    left = run % sum(dashes)
    for place, length in enumerate(dashes):
        if left < length:
            return place % 2 == 0
        left -= length
    return True


def draw_sample(
    pen: ImageDraw.ImageDraw, place: int, ends: tuple[float, float, float], on_dark: bool = False
) -> None:
    """Draw a sample of a curve's look between two x at one y [pixel]; on_dark: on a dark head."""
    look = LOOKS[place]
    left, right, y = ends
    strength = 255 - look.strength if on_dark else look.strength
    if not look.dashes:
        pen.line((left, y, right, y), fill=strength, width=look.width)
        return
    x, i = left, 0
    while x < right:
        end = min(x + look.dashes[i % len(look.dashes)], right)
        if i % 2 == 0:
            pen.line((x, y, end, y), fill=strength, width=look.width)
        x, i = end, i + 1


def draw_axes(ink: Image.Image, graph: Growing, em: int) -> None:
    """Draw the words, frame, ticks and zero line of a graph."""
    pen, box = ImageDraw.Draw(ink), graph.box
    left, row = box.left - round(3.4 * em), round(1.25 * em)
    for i, line in enumerate((*box.title, *box.sign)):
        bold = i < len(box.title)
        place = (left, box.top - box.head + i * row)
        pen.text(place, line, fill=255 if bold else 190, font=font(em if bold else em - 1, bold))
    bottom, right = box.top + box.height, box.left + box.width
    pen.line((box.left, box.top, box.left, bottom, right, bottom), fill=140)
    small = font(em - 2)
    step = round_step(graph.high - graph.low, max(2, round(box.height / (1.6 * em))))
    for n in range(ceil(graph.low / step), floor(graph.high / step) + 1):
        _, y = graph.place(0.0, n * step)
        pen.line((box.left - 4, y, box.left, y), fill=140)
        words = f"{n * step:g}".replace("-", "\u2212")
        pen.text((box.left - 7, y), words, fill=230, font=small, anchor="rm")
        if n == 0:
            pen.line((box.left, y, right, y), fill=140)
    step = round_step(graph.end, max(2, round(box.width / (5.0 * em))))
    for n in range(floor(graph.end / step * (1.0 + 1e-9)) + 1):
        x, _ = graph.place(n * step, graph.low)
        pen.line((x, bottom, x, bottom + 4), fill=140)
        pen.text((x, bottom + 6), f"{n * step:g}", fill=230, font=small, anchor="ma")
    pen.text((right + 4, bottom + 6), " s", fill=230, font=small, anchor="la")
