"""A small graph over time, drawn in pixels for films."""

from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np
from PIL import Image, ImageChops, ImageDraw

from simgait.pictures.inputs import FloatArray
from simgait.pictures.limb import SAMPLES
from simgait.pictures.style import font

__all__ = ["Graph", "draw_graph", "round_step"]


@dataclass(frozen=True, kw_only=True)
class Graph:
    """A curve over time and the box that it is drawn in."""

    box: tuple[int, int, int, int]  # [pixel] left, top, width, height
    title: str
    end: float  # [s] right end of the axis
    time: FloatArray  # [n] [s]
    values: FloatArray  # [n]
    marks: tuple[float, ...]  # values at which a dashed line lies
    said: str  # beneath the graph

    @property
    def span(self) -> tuple[float, float]:
        """Lowest and highest value of the vertical axis."""
        shown = [*self.values[self.time <= self.end].tolist(), *self.marks, 0.0]
        return min(shown), max(shown) + 0.06 * max(max(shown) - min(shown), 1e-9)

    def place(self, time: float, value: float) -> tuple[float, float]:
        """Pixel of a time [s] and a value."""
        left, top, width, height = self.box
        low, high = self.span
        across = min(max(time / self.end, 0.0), 1.0)
        return left + across * width, top + height - (value - low) / (high - low) * height


def round_step(span: float, parts: int) -> float:
    """The round number, 1, 2 or 5 times a power of ten, that divides a span into some parts.

    >>> round_step(145.0, 4), round_step(1.2, 6)
    (50.0, 0.2)
    """
    rough = span / parts
    power = 10.0 ** floor(log10(rough))
    best = next(each for each in (1.0, 2.0, 5.0, 10.0) if each * power >= rough * 0.999)
    return float(best * power)


def draw_graph(ink: Image.Image, accent: Image.Image, graph: Graph) -> None:
    """Draw frame, ticks, marks and curve of a graph."""
    pen, brush = ImageDraw.Draw(ink), ImageDraw.Draw(accent)
    left, top, width, height = graph.box
    pen.text((left, top - 20), graph.title, fill=255, font=font(13, True))
    pen.line((left, top, left, top + height, left + width, top + height), fill=150)
    low, high = graph.span
    step = round_step(high - low, 4)
    for n in range(ceil(low / step), floor(high / step) + 1):
        _, y = graph.place(0.0, n * step)
        pen.line((left - 4, y, left, y), fill=150)
        pen.text((left - 7, y), f"{n * step:g}", fill=220, font=font(11), anchor="rm")
    step = round_step(graph.end, 6)
    for n in range(floor(graph.end / step) + 1):
        x, _ = graph.place(n * step, low)
        pen.line((x, top + height, x, top + height + 4), fill=150)
        pen.text((x, top + height + 6), f"{n * step:.2g}", fill=220, font=font(11), anchor="ma")
    for mark in graph.marks:
        _, y = graph.place(0.0, mark)
        for x in range(left, left + width, 12):
            brush.line((x, y, min(x + 7, left + width), y), fill=255, width=1)
    _write_said(pen, graph, top + height)
    shown = graph.time <= graph.end
    points = [
        graph.place(time, value)
        for time, value in np.column_stack([graph.time[shown], graph.values[shown]])[::5].tolist()
    ]
    _smooth_line(ink, points, graph.box)


def _smooth_line(
    ink: Image.Image, points: list[tuple[float, float]], box: tuple[int, int, int, int]
) -> None:
    """Draw a line enlarged, reduce it, and lay it over the ink in a box [pixel]."""
    left, top, width, height = box
    corner = (left - 3, top - 3)
    sheet = Image.new("L", ((width + 6) * SAMPLES, (height + 6) * SAMPLES))
    grown = [((x - corner[0]) * SAMPLES, (y - corner[1]) * SAMPLES) for x, y in points]
    ImageDraw.Draw(sheet).line(grown, fill=255, width=2 * SAMPLES, joint="curve")
    drawn = sheet.reduce(SAMPLES)
    under = ink.crop((*corner, corner[0] + drawn.width, corner[1] + drawn.height))
    ink.paste(ImageChops.lighter(under, drawn), corner)


def _write_said(pen: ImageDraw.ImageDraw, graph: Graph, bottom: int) -> None:
    """The words of a graph: beside its highest mark if it has one, else beneath its axis."""
    left, _, width, _ = graph.box
    if graph.marks:
        _, y = graph.place(0.0, max(graph.marks))
        pen.text((left + 6, y + 3), graph.said, fill=200, font=font(11))
        return
    pen.text((left + width, bottom + 20), graph.said, fill=220, font=font(11), anchor="ra")
