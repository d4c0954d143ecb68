"""One panel of a heat map: shades, hatching, numbers, contour."""

from typing import Any

import numpy as np

from simgait.pictures.studies.heat_field import Field, Range
from simgait.pictures.studies.heat_ticks import lies_flat, set_ticks
from simgait.pictures.studies.shades import ink_on, shades
from simgait.pictures.studies.words import exact, number
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

__all__ = ["HATCHES", "MOST_NUMBERED", "draw_panel", "shade_of"]

MOST_NUMBERED = 12  # cells a side that carry their numbers
_MOST_LINED = 24  # cells a side between which lines are drawn
_LARGEST, _SMALLEST = 8.5, 5.5  # [point] of the numbers

HATCHES = {
    "fell_forward": "////",
    "fell_backward": "\\\\\\\\",
    "knee_collapsed": "xxxx",
    "foot_slipped": "------",
    "step_limit": "....",
    "not_finite": "++++",
    "energy_drift": "oo",
    "cannot_be_built": "||||",
}


def draw_panel(
    axes: Any, field: Field, span: Range, limit: float | None, *, low_edge: bool, left_edge: bool
) -> None:
    """Draw a field; `low_edge` and `left_edge` say whether the panel writes its axes' levels."""
    _draw_shades(axes, field, span)
    size = _number_size(axes, field, span)
    _draw_endings(axes, field, span)
    _draw_contours(axes, field, span, limit, named=not size)
    if size:
        _write_numbers(axes, field, span, size)
    width = float(axes.get_position().width * axes.figure.get_size_inches()[0])
    set_ticks(axes.xaxis, field.x, written=low_edge, flat=lies_flat(field.x, width))
    set_ticks(axes.yaxis, field.y, written=left_edge)
    axes.set_xlim(field.x.edges[0], field.x.edges[-1])
    axes.set_ylim(field.y.edges[0], field.y.edges[-1])
    axes.tick_params(colors=hex_colour(INK), labelsize=8, length=3)
    for spine in axes.spines.values():
        spine.set_color(hex_colour(SOFT_INK))


def shade_of(share: float) -> str:
    """The colour at a share of the scale, as #rrggbb."""
    scale = shades()
    return hex_colour(scale[round(min(max(share, 0.0), 1.0) * (len(scale) - 1))])


def _draw_shades(axes: Any, field: Field, span: Range) -> None:
    from matplotlib.colors import ListedColormap

    colours = ListedColormap([hex_colour(colour) for colour in shades()])
    lined = max(field.values.shape) <= _MOST_LINED
    axes.pcolormesh(
        field.x.edges, field.y.edges, np.ma.masked_invalid(field.values), cmap=colours,
        vmin=span.low, vmax=span.high, edgecolors=hex_colour(PAPER) if lined else "face",
        linewidth=0.6 if lined else 0.2, gid="shades",
    )  # fmt: skip


def _draw_endings(axes: Any, field: Field, span: Range) -> None:
    """Hatch the share of each cell whose runs ended badly; a dot where nothing was run."""
    from matplotlib.patches import Rectangle

    for row, column in np.ndindex(*field.bad.shape):
        share = float(field.bad[row, column])
        left, right = field.x.edges[column : column + 2]
        low, high = field.y.edges[row : row + 2]
        if not np.isfinite(share):
            axes.plot((left + right) / 2, (low + high) / 2, ".", color=hex_colour(SOFT_INK),
                      markersize=3, gid="not run")  # fmt: skip
        if not share > 0.0:
            continue
        value = float(field.values[row, column])
        dark = np.isfinite(value) and not ink_on(span.share(value))
        colour = hex_colour(PAPER if dark else INK)
        axes.add_patch(
            Rectangle(
                (left, low), right - left, (high - low) * min(share, 1.0), facecolor="none",
                edgecolor=colour, linewidth=0.5,
                hatch=HATCHES.get(str(field.endings[row, column]), "**"),
                gid="ended badly" if share < 1.0 else "all ended badly",
            )
        )  # fmt: skip


def _draw_contours(
    axes: Any, field: Field, span: Range, limit: float | None, *, named: bool
) -> None:
    """The line of the limit, and in thin dashes the line at which the sign changes.

    named: whether the lines carry their values, where no numbers in cells are in their way.
    """
    from matplotlib import patheffects

    lines = [(limit, "solid", 2.0, "limit")] if limit is not None else []
    if limit != 0.0:
        lines.append((0.0, "dashed", 1.0, "zero"))
    if min(field.values.shape) < 2:
        return
    for level, style, width, gid in lines:
        inside = (
            np.nanmin(field.values, initial=np.inf)
            < level
            < np.nanmax(field.values, initial=-np.inf)
        )
        if not inside:
            continue
        colour = hex_colour(ACCENT if gid == "limit" else INK)
        drawn = axes.contour(
            field.x.centres, field.y.centres, np.ma.masked_invalid(field.values), levels=[level],
            colors=[colour], linewidths=width, linestyles=style,
        )  # fmt: skip
        drawn.set_gid(gid)
        casing = patheffects.Stroke(linewidth=width + 2.4, foreground=hex_colour(PAPER))
        drawn.set_path_effects([casing, patheffects.Normal()])
        if named:
            rim = patheffects.withStroke(linewidth=2.6, foreground=hex_colour(PAPER))
            for text in drawn.clabel(fmt=exact, fontsize=8):
                text.set(path_effects=[rim], color=hex_colour(INK), gid=f"{gid} named")


def _number_size(axes: Any, field: Field, span: Range) -> float:
    """The font size at which every number fits its cell [point]; 0 if none does."""
    if max(field.values.shape) > MOST_NUMBERED:
        return 0.0
    box = axes.get_position()
    wide, high = axes.figure.get_size_inches()
    points = 72.0 * box.width * wide, 72.0 * box.height * high
    cell = [
        side * float(np.diff(scale.edges).min() / (scale.edges[-1] - scale.edges[0]))
        for side, scale in zip(points, (field.x, field.y), strict=True)
    ]
    ends = (number(value, span.decimals) for value in (span.low, span.high))
    letters = max(len(text) for text in ends)
    size = min(_LARGEST, 0.86 * cell[0] / (0.64 * letters), 0.60 * cell[1])
    return size if size >= _SMALLEST else 0.0


def _write_numbers(axes: Any, field: Field, span: Range, size: float) -> None:
    """The numbers, each with a rim of its cell's shade, which lines and hatching leave free."""
    from matplotlib import patheffects

    for row, column in np.ndindex(*field.values.shape):
        value = float(field.values[row, column])
        if not np.isfinite(value):
            if field.bad[row, column] < 1.0:
                axes.text(
                    field.x.centres[column], field.y.centres[row], "\u2013", size=size, ha="center",
                    va="center", color=hex_colour(INK), gid="no number",
                )  # fmt: skip
            continue
        share = span.share(value)
        halo = patheffects.withStroke(linewidth=2.2, foreground=shade_of(share))
        hatched = float(field.bad[row, column]) > 0.0
        under = {"boxstyle": "square,pad=0.12", "facecolor": shade_of(share), "linewidth": 0}
        axes.text(
            (field.x.edges[column] + field.x.edges[column + 1]) / 2.0,
            (field.y.edges[row] + field.y.edges[row + 1]) / 2.0,
            number(value, span.decimals), size=size, ha="center", va="center",
            color=hex_colour(INK if ink_on(share) else PAPER), gid="number", zorder=6,
            path_effects=[halo], bbox=under if hatched else None,
        )  # fmt: skip
