"""Figures in the house look, for the documentation's own pictures."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from simgait.files import write_whole
from simgait.pictures.style import INK, PAPER, SOFT_INK, hex_colour

COLOURS = 48  # of a saved picture: paper, ink, accent and what lies between
RESOLUTION = 110  # [pixel/inch]


def sheet(width: float, height: float) -> Figure:
    """Return an empty figure of a size [inch] on warm paper."""
    figure = Figure(figsize=(width, height), facecolor=hex_colour(PAPER), layout="constrained")
    FigureCanvasAgg(figure)
    return figure


def dress(axes: Any, title: str, across: str, up: str) -> None:
    """Give axes the house look: paper, quiet frame, words in ink."""
    axes.set_facecolor(hex_colour(PAPER))
    axes.set_title(title, loc="left", size=9.5, color=hex_colour(INK), weight="bold")
    axes.set_xlabel(across, size=8.5, color=hex_colour(SOFT_INK))
    axes.set_ylabel(up, size=8.5, color=hex_colour(SOFT_INK))
    axes.tick_params(labelsize=8, colors=hex_colour(SOFT_INK))
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(hex_colour(SOFT_INK))


def save(figure: Figure, path: Path, resolution: int = RESOLUTION) -> None:
    """Write a figure as a PNG of few colours, whole or not at all."""
    raw = io.BytesIO()
    figure.savefig(raw, format="png", dpi=resolution, facecolor=figure.get_facecolor())
    picture = Image.open(raw).convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    with write_whole(path) as partial:
        picture.save(partial, format="PNG", optimize=True)
