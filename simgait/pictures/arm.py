"""The figure of an arm: pull through the range, trade-off, the arm to scale, lengths; its film."""

import os
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.arm.result import ArmResult
from simgait.arm.sheet import ArmSheet, arm_sheet
from simgait.files import write_whole
from simgait.pictures.arm_film import draw_lift_film
from simgait.pictures.arm_lengths import draw_lengths
from simgait.pictures.arm_panels import draw_device, draw_front, draw_pulls
from simgait.pictures.arm_scale import draw_arm_to_scale
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["arm_figure", "draw_arm", "draw_arm_still", "in_a_line"]

_WIDTH, _LINE, _TITLE_LINE, _MARGIN = 12.0, 0.19, 0.26, 0.30  # [inch]
_UPPER, _LOWER, _BETWEEN = 3.1, 3.9, 0.85  # [inch] heights of the rows, and between them
_LEFT, _RIGHT, _WIDE = 0.75, 6.75, 4.95  # [inch] left edges and width of the panels
_RESOLUTION = 110  # [pixel/inch]
_LETTERS_A_LINE = 190


def draw_arm(result: ArmResult, folder: str | os.PathLike[str]) -> tuple[Path, ...]:
    """Draw arm.png, and arm.gif where a cable lifts the elbow, into a folder; returns the files.

    Raises
    ------
    OSError : a file cannot be written.
    """
    sheet = arm_sheet(result)
    still = draw_arm_still(sheet, Path(folder) / "arm.png")
    if sheet.lifted is None:
        return (still,)
    return still, draw_lift_film(sheet, Path(folder) / "arm.gif")


def draw_arm_still(sheet: ArmSheet, path: Path) -> Path:
    """Draw the figure of a sheet and write it whole, as PNG; returns the file.

    Raises
    ------
    ValueError : no cautions.
    OSError : the file cannot be written.
    """
    figure = arm_figure(sheet)
    described = f"{' '.join(sheet.cautions)} simgait {sheet.version}"
    metadata: dict[str, Any] = {"Title": sheet.result.title, "Description": described}
    with write_whole(path) as partial:
        figure.savefig(
            partial, format="png", dpi=_RESOLUTION, metadata=metadata, facecolor=hex_colour(PAPER)
        )
    return path


def arm_figure(sheet: ArmSheet) -> "Figure":
    """The sheet as a matplotlib figure, for whoever wants to place it elsewhere.

    Raises
    ------
    ValueError : no cautions.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    if not sheet.cautions:
        raise ValueError("a picture without cautions is not drawn; pass the result's cautions")
    title = textwrap.wrap(sheet.result.title, 80) or [""]
    cautions = textwrap.wrap(" ".join(sheet.cautions), _LETTERS_A_LINE, break_on_hyphens=False)
    top = 0.35 + _TITLE_LINE * len(title) + 0.55
    lifts = sheet.pose is not None
    middle = _UPPER + (_BETWEEN + _LOWER if lifts else 0.0)
    height = top + middle + 0.75 + _LINE * len(cautions) + 0.12
    figure = Figure(figsize=(_WIDTH, height), facecolor=hex_colour(PAPER))
    FigureCanvasAgg(figure)
    high, soft = float(figure.get_size_inches()[1]), hex_colour(SOFT_INK)
    up = 1 - (0.38 + _TITLE_LINE * len(title)) / high
    figure.text(_MARGIN / _WIDTH, up, in_a_line(sheet), size=8.5, color=soft, gid="in a line")
    _write_words(figure, title, cautions, f"simgait {sheet.version}")
    upper = height - top - _UPPER
    if not lifts:
        draw_device(_axes(figure, (_LEFT, upper, _WIDE, _UPPER)), sheet)
        _draw_lengths(figure, sheet, upper, _UPPER)
        return figure
    lower = upper - _BETWEEN - _LOWER
    draw_pulls(_axes(figure, (_LEFT, upper, _WIDE, _UPPER)), sheet)
    draw_front(_axes(figure, (_RIGHT, upper, _WIDE, _UPPER)), sheet)
    draw_arm_to_scale(_axes(figure, (0.35, lower - 0.35, _WIDE + 0.40, _LOWER + 0.35)), sheet)
    _draw_lengths(figure, sheet, lower, _LOWER)
    return figure


def in_a_line(sheet: ArmSheet) -> str:
    """What came out, in one sentence; empty for an arm without positions."""
    result, place = sheet.result, sheet.result.recommended
    if place is not None:
        row = result.positions[place]
        stays = ""
        if result.stands_share is not None:
            share = result.stands_share
            draws = 100 if share == 1.0 else min(round(100.0 * share), 99)  # 100 only if all do
            stays = f"; stays within the limits in {draws} of 100 draws of the measuring errors"
        return (
            f"Recommended: loop {1000.0 * row.loop:.0f} mm, peak pull {row.peak_pull:.0f} N, "
            f"excursion {1000.0 * row.excursion:.0f} mm{stays}."
        )
    if not result.positions:
        return ""
    bound = ", ".join(
        f"{each.limit.replace('_', ' ')} at {each.positions}" for each in result.binding
    )
    return f"None of {len(result.positions)} positions fits. Exceeded: {bound}."


def _draw_lengths(figure: "Figure", sheet: ArmSheet, bottom: float, height: float) -> None:
    """Two panels one above the other, in the right column."""
    if not sheet.result.lengths:
        return
    each = (height - 0.35) / 2.0
    above = _axes(figure, (_RIGHT, bottom + each + 0.35, _WIDE, each))
    draw_lengths(above, _axes(figure, (_RIGHT, bottom, _WIDE, each)), sheet)


def _axes(figure: "Figure", box: tuple[float, float, float, float]) -> Any:
    """Axes at (left, bottom, width, height) [inch]."""
    wide, high = figure.get_size_inches()
    axes = figure.add_axes((box[0] / wide, box[1] / high, box[2] / wide, box[3] / high))
    axes.set_facecolor(hex_colour(PAPER))
    return axes


def _write_words(figure: "Figure", title: list[str], cautions: list[str], version: str) -> None:
    """Title, version, and the cautions under an accent rule."""
    from matplotlib.lines import Line2D

    high = float(figure.get_size_inches()[1])
    left, right = _MARGIN / _WIDTH, 1.0 - _MARGIN / _WIDTH
    for row, line in enumerate(title):
        up = 1 - (0.40 + _TITLE_LINE * row) / high
        figure.text(left, up, line, size=14, weight="bold", color=hex_colour(INK))
    soft = hex_colour(SOFT_INK)
    figure.text(right, 1 - 0.40 / high, version, size=8, color=soft, ha="right")
    for row, line in enumerate(cautions):
        up = (0.12 + _LINE * (len(cautions) - 1 - row)) / high
        figure.text(left, up, line, size=8.5, color=hex_colour(INK), gid="caution")
    rule = (0.14 + _LINE * len(cautions)) / high
    figure.add_artist(Line2D([left, right], [rule, rule], color=hex_colour(ACCENT), linewidth=1.2))
