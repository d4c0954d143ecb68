"""The comparison figure: curves against percent of stance, and main measures as dot strips."""

import os
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.files import write_whole
from simgait.pictures.curves import PANELS, draw_panel
from simgait.pictures.inputs import ComparisonLike, require_drawable
from simgait.pictures.strips import draw_strips, strips_height
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour, line_looks
from simgait.pictures.wording import shared_settings, shown_note, shown_runs, sign_key

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["FigureSummary", "comparison_figure", "draw_comparison"]

_WIDTH, _PANEL, _LINE, _TITLE_LINE = 12.0, 2.35, 0.19, 0.26  # [inch]
_RESOLUTION = 120  # [pixel/inch]
_LETTERS_A_LINE = 175
_BETWEEN, _ABOVE_TABLE = 0.62, 0.30  # [inch] between the rows of panels, above the table


@dataclass(frozen=True, kw_only=True)
class FigureSummary:
    """What was written: the file and the indices of the runs shown by name."""

    path: Path
    shown: tuple[int, ...]


def draw_comparison(comparison: ComparisonLike, path: str | os.PathLike[str]) -> FigureSummary:
    """Draw the comparison figure and write it whole: PNG, or SVG if the name says so.

    Raises
    ------
    ValueError : nothing to draw, no cautions, or a name that ends in neither .png nor .svg.
    OSError : the file cannot be written.
    """
    final = Path(path)
    if final.suffix.lower() not in (".png", ".svg"):
        raise ValueError(f"a figure is written as .png or .svg, not as '{final.name}'")
    figure = comparison_figure(comparison)
    described = f"{' '.join(comparison.cautions)} simgait {comparison.version}"
    metadata: dict[str, Any] = {"Title": comparison.title, "Description": described}
    if final.suffix.lower() == ".svg":
        metadata["Date"] = None
    from matplotlib import rc_context

    with write_whole(final) as partial, rc_context({"svg.hashsalt": "simgait"}):
        figure.savefig(partial, dpi=_RESOLUTION, metadata=metadata, facecolor=hex_colour(PAPER))
    return FigureSummary(path=final, shown=shown_runs(comparison))


def comparison_figure(comparison: ComparisonLike) -> "Figure":
    """The comparison as a matplotlib figure, for whoever wants to place it elsewhere.

    Raises
    ------
    ValueError : nothing to draw or no cautions.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    require_drawable(comparison)
    shown = shown_runs(comparison)
    title = textwrap.wrap(comparison.title, 90) or [""]
    head = textwrap.wrap(_heading(comparison, shown), _LETTERS_A_LINE)
    cautions = textwrap.wrap(" ".join(comparison.cautions), _LETTERS_A_LINE)
    top = 0.20 + _TITLE_LINE * len(title) + _LINE * len(head) + 0.30
    middle = 2 * _PANEL + _BETWEEN + 0.28
    table = strips_height(len(shown))
    height = top + middle + _ABOVE_TABLE + table + 0.25 + _LINE * len(cautions) + 0.12
    figure = Figure(figsize=(_WIDTH, height), facecolor=hex_colour(PAPER))
    FigureCanvasAgg(figure)
    _write_head(figure, title, head, f"simgait {comparison.version}")
    _write_cautions(figure, cautions)
    looks = dict(zip(shown, line_looks(len(shown), 0), strict=True))
    for place, panel in enumerate(PANELS):
        row, column = divmod(place, 2)
        bottom = height - top - (row + 1) * _PANEL - row * _BETWEEN
        box = (0.70 + column * 5.75, bottom, 5.25, _PANEL)
        draw_panel(_axes(figure, box), panel, comparison, looks, row=row, name_endings=place == 2)
    below = height - top - middle - _ABOVE_TABLE - table
    draw_strips(figure, (0.30, below, _WIDTH - 0.60, table), comparison, looks)
    return figure


def _axes(figure: "Figure", box: tuple[float, float, float, float]) -> Any:
    """Axes at (left, bottom, width, height) [inch]."""
    wide, high = figure.get_size_inches()
    axes = figure.add_axes((box[0] / wide, box[1] / high, box[2] / wide, box[3] / high))
    axes.set_facecolor(hex_colour(PAPER))
    return axes


def _heading(comparison: ComparisonLike, shown: Sequence[int]) -> str:
    same, signs = shared_settings(comparison.results), sign_key(comparison.results)
    note = shown_note(comparison, shown)
    parts = [
        f"In all: {same}." if same else "",
        f"Signs: {signs}." if signs else "",
        f"{note}; the others are faint." if note else "",
    ]
    return " ".join(part for part in parts if part)


def _write_head(figure: "Figure", title: Sequence[str], head: Sequence[str], version: str) -> None:
    """Title, version, and what all runs share."""
    high = float(figure.get_size_inches()[1])
    left, right = 0.30 / _WIDTH, 1.0 - 0.30 / _WIDTH
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    for row, line in enumerate(title):
        up = 1 - (0.34 + _TITLE_LINE * row) / high
        figure.text(left, up, line, size=14, weight="bold", color=ink)
    figure.text(right, 1 - 0.34 / high, version, size=8, color=soft, ha="right")
    for row, line in enumerate(head):
        up = 1 - (0.30 + _TITLE_LINE * len(title) + _LINE * row) / high
        figure.text(left, up, line, size=8.5, color=soft)


def _write_cautions(figure: "Figure", cautions: Sequence[str]) -> None:
    """The cautions under an accent rule, at the foot of the figure."""
    from matplotlib.lines import Line2D

    high = float(figure.get_size_inches()[1])
    left, right = 0.30 / _WIDTH, 1.0 - 0.30 / _WIDTH
    for row, line in enumerate(cautions):
        up = 0.12 + _LINE * (len(cautions) - 1 - row)
        figure.text(left, up / high, line, size=8.5, color=hex_colour(INK), gid="caution")
    rule = (0.12 + _LINE * len(cautions)) / high
    accent = hex_colour(ACCENT)
    figure.add_artist(Line2D([left, right], [rule, rule], color=accent, linewidth=1.2))
