"""The bench sheet of a transfer: one A4 page with chains, a drawing to scale and a check bar."""

from __future__ import annotations

import os
from collections.abc import Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from simgait.files import write_whole
from simgait.pictures.letters import drawing
from simgait.pictures.report_pen import BOTTOM, HIGH, LEFT, TOP, WIDE, WIDTH, Pen
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour
from simgait.pictures.transfer_drawing import Window, draw_chain, window_of
from simgait.symbols import BY_NAME
from simgait.transfer import Fitted, Transfer, ahead_words, plate_words, tilt_words
from simgait.units import degrees_from_radians, mm_from_metres

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["CHECK_BAR", "draw_transfer"]

BODY, SMALL, TINY = 8.0, 7.2, 6.0  # [point]
DRAWING = 116.0  # [mm] width of the drawing's box
CHECK_BAR = 50.0  # [mm]
HEADS = ("", "tube cut [mm]", "good from to [mm]", "upper tilt [deg]", "lower tilt [deg]",
         "plate [mm]", "ankle off [mm]", "foot off [deg]")  # fmt: skip
COLUMNS = (9.0, 25.0, 36.0, 26.0, 26.0, 20.0, 24.0, 24.0)  # [mm]
SCALE_STEP, SMALLEST = 0.04, 0.6
LEAST_DRAWING = 105.0  # [mm] height


def draw_transfer(made: Transfer, path: str | os.PathLike[str]) -> Path:
    """Draw the bench sheet of a transfer's best chain as PDF; return its path.

    The same transfer gives the same file to the byte.

    Raises
    ------
    ValueError : the name does not end in .pdf, or there are no cautions.
    OSError : the file cannot be written.
    """
    from matplotlib import rc_context
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.backends.backend_pdf import PdfPages
    from matplotlib.figure import Figure

    final = Path(path)
    if final.suffix.lower() != ".pdf":
        raise ValueError(f"a bench sheet is written as .pdf, not as '{final.name}'")
    if not made.cautions:
        raise ValueError("a bench sheet without cautions is not drawn; pass the transfer's")
    with write_whole(final) as part, drawing(), rc_context({"pdf.fonttype": 42}):
        figure = Figure(figsize=(WIDE / 25.4, HIGH / 25.4), facecolor="white")
        FigureCanvasAgg(figure)
        _write_sheet(figure, made)
        said = " ".join((*made.cautions, f"simgait {made.version}"))
        about = {"Title": made.title, "Subject": said, "CreationDate": None, "Creator": "simgait"}
        with PdfPages(part, metadata=about) as pages:
            pages.savefig(figure)
    return final


def _write_sheet(figure: Figure, made: Transfer) -> None:
    """Write what stands above and below, and draw the chain in what is left between."""
    scale = 1.0
    while True:
        above, below = Pen(None, scale), Pen(None, scale)
        _write_above(above, made)
        _write_below(below, made, made.fitted[0], None)
        room = BOTTOM - above.down - (below.down - TOP)
        if room >= LEAST_DRAWING or scale <= SMALLEST:
            break
        scale -= SCALE_STEP
    pen = Pen(figure, scale)
    _write_above(pen, made)
    box = (LEFT, HIGH - pen.down - room, DRAWING, room)
    window = window_of(made, made.fitted[0], box)
    draw_chain(figure, window, made, made.fitted[0])
    _write_beside(pen, made, made.fitted[0])
    _draw_check_bar(figure, box)
    pen.down = HIGH - box[1]
    _write_below(pen, made, made.fitted[0], window)


def _write_above(pen: Pen, made: Transfer) -> None:
    """Write the head, the pose and the table of chains."""
    pen.text(made.title, 12.0, bold=True, width=WIDTH - 45.0)
    pen.text(f"Bench sheet for the finished limb. simgait {made.version}", TINY, colour=SOFT_INK)
    pen.space(0.8)
    pen.rule(ACCENT, 1.0)
    pose = made.pose
    whose = "the adjustable unit" if made.unit is not None else "the alignment of the case"
    pen.space(0.8)
    pen.text(
        f"Pose to keep, from {whose}: ankle axis {ahead_words(pose.forward)} the socket's axis "
        f"and {mm_from_metres(pose.below):.1f} mm below the socket's end, foot turned "
        f"{degrees_from_radians(pose.turn):+.2f} deg against that axis. + is toe up and foot "
        "forward; at 0 the unloaded sole, on the heel that the foot is built for, is square to the "
        f"axis. {side_words(made)} heel rise of the shoe {heel_mm(made):g} mm.",
        BODY,
    )
    pen.heading("Chains that keep it, the best first")
    _write_row(pen, HEADS, True)
    for number, fitted in enumerate(made.fitted, start=1):
        _write_row(pen, _row(number, fitted), number == 1)
    tolerance = mm_from_metres(made.hardware.tolerance)
    turn = degrees_from_radians(made.hardware.turn_tolerance)
    pen.text(
        f"Within {tolerance:g} mm and {turn:g} deg. Good from, to: lengths of the tube with which "
        "the ankle stays within, the tilts as set.",
        TINY,
        colour=SOFT_INK,
    )


def _row(number: int, fitted: Fitted) -> tuple[str, ...]:
    found, chain = fitted.found, fitted.found.chain
    span = f"{mm_from_metres(found.cut_from):.1f} to {mm_from_metres(found.cut_to):.1f}"
    return (
        str(number),
        f"{mm_from_metres(found.pylon):.1f}",
        span,
        f"{degrees_from_radians(chain.upper_tilt):+.2f}",
        f"{degrees_from_radians(chain.lower_tilt):+.2f}",
        f"{mm_from_metres(chain.offset):+g}" if chain.offset else "none",
        f"{mm_from_metres(found.error):.2f}",
        f"{degrees_from_radians(abs(found.turn_error)):.2f}",
    )


def _write_row(pen: Pen, texts: Sequence[str], bold: bool) -> None:
    lefts = [LEFT + sum(COLUMNS[:place]) for place in range(len(COLUMNS))]
    pen.side_by_side(
        [
            partial(Pen.text, words=words, size=SMALL, left=left, width=wide - 1.5, bold=bold)
            for words, left, wide in zip(texts, lefts, COLUMNS, strict=True)
        ]
    )


def _write_beside(pen: Pen, made: Transfer, fitted: Fitted) -> None:
    """Write what to do with chain 1, beside its drawing."""
    left, width = LEFT + DRAWING + 4.0, WIDTH - DRAWING - 4.0
    chain, turn = fitted.found.chain, made.limb.pylon.turn
    pen.space(4.0)
    pen.text("Chain 1", 9.0, bold=True, left=left, width=width)
    hardware = made.hardware
    lines = [
        f"Cut the tube to {mm_from_metres(fitted.found.pylon):.1f} mm "
        f"({mm_from_metres(fitted.found.cut_from):.1f} to "
        f"{mm_from_metres(fitted.found.cut_to):.1f} will do).",
        *(["Not before the parts are measured: see the last caution."] if made.unmeasured else []),
        f"{plate_words(chain.offset).capitalize()}.",
        f"Upper tilt {tilt_words(chain.upper_tilt, turn)}.",
        f"Lower tilt {tilt_words(chain.lower_tilt, turn)}.",
        f"Between the centres of both tilts: {mm_from_metres(chain.span):.1f} mm, of which the "
        f"clamps are {mm_from_metres(hardware.clamps):g}. Socket's end to upper tilt "
        f"{mm_from_metres(chain.socket_adapter):g}, lower tilt to ankle axis "
        f"{mm_from_metres(chain.foot_adapter):g} mm.",
        *(f"Look twice: {remark}." for remark in fitted.remarks),
    ]
    for line in lines:
        pen.space(1.0)
        pen.text(line, SMALL, left=left, width=width)
    pen.space(3.0)
    pen.text("Measured on the finished limb", BODY, bold=True, left=left, width=width)
    for words, wanted in measured_lines(made, fitted):
        pen.space(2.6)
        pen.text(f"{words} ({wanted})  ____________", SMALL, left=left, width=width)


def measured_lines(made: Transfer, fitted: Fitted) -> tuple[tuple[str, str], ...]:
    """Return what is measured on the finished limb, and what each should be with a chain."""
    kept = fitted.found.chain.pose
    side = "ahead of" if kept.forward >= 0.0 else "behind"
    return (
        ("tube cut, mm", f"{mm_from_metres(fitted.found.pylon):.1f}"),
        ("ankle below the socket's end, mm", f"{mm_from_metres(kept.below):.1f}"),
        (f"ankle {side} the socket's axis, mm", f"{mm_from_metres(abs(kept.forward)):.1f}"),
        ("foot against the socket's axis, deg", f"{degrees_from_radians(kept.turn):+.2f}"),
        ("heel rise of the shoe, mm", f"{heel_mm(made):g}"),
    )


def heel_mm(made: Transfer) -> float:
    """Return the heel rise of the shoe in which the pose was found [mm]."""
    return round(mm_from_metres(made.limb.alignment.heel_rise), 1)


def side_words(made: Transfer) -> str:
    """Return which leg it is, with a comma behind it."""
    return f"{made.side.capitalize()} leg," if made.side else "Side not stated,"


def _draw_check_bar(figure: Figure, box: tuple[float, float, float, float]) -> None:
    """Draw a bar by which a print is checked, at the right edge above the drawing's lower edge."""
    from matplotlib.lines import Line2D

    left, up = LEFT + DRAWING + 4.0, box[1] + 6.0
    ends = [left / WIDE, (left + CHECK_BAR) / WIDE]
    for x, y in (
        (ends, [up, up]),
        ([ends[0]] * 2, [up - 1.5, up + 1.5]),
        ([ends[1]] * 2, [up - 1.5, up + 1.5]),
    ):
        figure.add_artist(
            Line2D(
                x,
                [each / HIGH for each in y],
                color=hex_colour(INK),
                linewidth=0.9,
                gid="check bar",
            )
        )
    words = f"{CHECK_BAR:g} mm when printed at true size"
    figure.text(ends[0], (up + 2.4) / HIGH, words, size=TINY, color=hex_colour(INK))


def _write_below(pen: Pen, made: Transfer, fitted: Fitted, window: Window | None) -> None:
    """Write the scale, what the errors change, what was filled in, and the cautions."""
    scale = 1.0 if window is None else window.scale
    behind = " Dashed: the adjustable unit." if made.unit is not None else ""
    pen.text(
        f"Drawn 1 : {scale:g}, the socket's axis upright; widths are drawn, not measured.{behind}",
        TINY,
        colour=SOFT_INK,
    )
    pen.heading("What the error of chain 1 changes in the step")
    pen.text(effect_words(made, fitted), SMALL)
    if made.filled:
        pen.heading("Filled in where the case says nothing")
        pen.text(". ".join(line.rstrip(".") for line in made.filled) + ".", TINY)
    pen.space(1.2)
    pen.rule(ACCENT, 1.0)
    for caution in made.cautions:
        pen.text(caution, SMALL, bold=True)


def effect_words(made: Transfer, fitted: Fitted) -> str:
    """Return by how much each main measure changes with a chain, in words."""
    if fitted.result.ending != "toe_off" or made.result.ending != "toe_off":
        ends = [run.result.ending.replace("_", " ") for run in (made, fitted)]
        return f"None to tell: the stance ends with {ends[0]}, and with chain 1 with {ends[1]}."
    parts = []
    for name, change in made.changes(fitted).items():
        measure = BY_NAME[name]
        if round(change, measure.digits) != 0.0:
            title = measure.title.replace(", ", " ")
            parts.append(f"{title} {change:+.{measure.digits}f} {measure.unit}")
    told = "; ".join(parts) or "None of the main measures by as much as its last digit shown"
    return f"{told}. The wearer keeps the same strategy."
