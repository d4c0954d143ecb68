"""The figure of standing: limb to scale, load line and levers, on both feet and alone."""

import os
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw
from PIL.PngImagePlugin import PngInfo

from simgait.files import write_whole
from simgait.pictures.limb import FORCE_SCALE, SAMPLES, Sheet, View, draw_arrow, draw_limb
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.poses import Poses
from simgait.pictures.still import wrapped
from simgait.pictures.style import font
from simgait.standing import Standing
from simgait.standing.names import ENDINGS, LIMITS
from simgait.standing.outline import Outline, outline

__all__ = ["draw_standing"]

_WIDTH, _SCALE, _MARGIN, _GAP, _LINE = 470, 560.0, 18, 14, 17
_UNDER = 0.13  # [m] shown below the floor, for the levers
_ABOVE = 0.09  # [m] shown above the body's centre
_LEFT = -0.29  # [m] left edge; the ankle axis is at 0


@dataclass(frozen=True, kw_only=True)
class _Panel:
    """One way of standing: its heading, its points, and the lines beneath it."""

    heading: str
    points: Outline
    body_weight: float
    standing: Standing
    lines: tuple[str, ...]


def draw_standing(
    title: str,
    both: Standing,
    alone: Standing,
    notes: tuple[Sequence[str], str],
    path: str | os.PathLike[str],
) -> Path:
    """Draw both ways of standing side by side and write the figure whole, as PNG.

    notes: the cautions, of which there must be some, and the version.

    Raises
    ------
    ValueError : no cautions.
    OSError : the file cannot be written.
    """
    cautions, version = notes
    if not cautions:
        raise ValueError("a picture without cautions is not drawn; pass the result's cautions")
    panels = (_panel("On both feet", both), _panel("On the prosthesis alone", alone))
    whole = 2 * _WIDTH + _GAP
    heads = wrapped(title, whole - 200, 19, True)
    feet = wrapped(" ".join(cautions), whole, 13)
    view = _view(panels)
    top = _MARGIN + 24 * len(heads) + 30
    texts = max(len(panel.lines) for panel in panels)
    below = top + view.height + 8 + _LINE * texts
    size = (whole + 2 * _MARGIN, below + 14 + _LINE * (len(feet) + 1) + 8)
    ink, accent = Image.new("L", size), Image.new("L", size)
    _write_head(ink, heads, version)
    for column, panel in enumerate(panels):
        _place(ink, accent, panel, view, (_MARGIN + column * (_WIDTH + _GAP), top))
    _write_feet(ink, accent, feet, below + 6)
    final = Path(path)
    said = PngInfo()
    said.add_text("Title", title)
    said.add_text("Description", " ".join((*cautions, f"simgait {version}")))
    with write_whole(final) as partial:
        inked(ink, accent, palette_bytes()).save(partial, pnginfo=said)
    return final


def _panel(heading: str, standing: Standing) -> _Panel:
    return _Panel(
        heading=heading,
        points=outline(standing),
        body_weight=standing.stance.limb.body_weight,
        standing=standing,
        lines=_lines(standing),
    )


def _lines(standing: Standing) -> tuple[str, ...]:
    """What is written beneath the limb."""
    m = standing.measures
    if standing.ending != "stands":
        return wrapped(ENDINGS[standing.ending], _WIDTH, 13)
    where = "ahead of" if m["load_line_ahead_of_knee_mm"] >= 0.0 else "behind"
    bends = "bends" if m["knee_flexion_moment_nm"] >= 0.0 else "straightens"
    tilt = m["pelvic_tilt_deg"]
    texts = [
        f"Prosthesis carries {100 * m['prosthesis_load_share']:.0f} % of the weight, "
        f"{100 * m['heel_share']:.0f} % of it behind the ankle.",
        f"Load line {abs(m['load_line_ahead_of_knee_mm']):.0f} mm {where} the knee: "
        f"{abs(m['knee_flexion_moment_nm']):.1f} Nm, {bends} it. "
        f"Knee flexion {m['knee_flexion_deg']:.1f}\u00b0.",
        f"Effort: knee {m['knee_effort_percent']:.0f} %, hip {m['hip_effort_percent']:.0f} % of "
        "the greatest.",
        _tips("forward", standing),
        _tips("backward", standing),
    ]
    if isfinite(tilt):
        texts.append(
            f"Pelvic tilt {tilt:.1f}\u00b0, heel mismatch {m['heel_mismatch_deg']:.1f}\u00b0."
        )
    return tuple(line for text in texts for line in wrapped(text, _WIDTH, 13))


def _tips(way: str, standing: Standing) -> str:
    m = standing.measures
    reason = LIMITS[standing.limits[f"{way} push"].reason]
    return (
        f"Tips {way} at {m[f'tips_{way}_slope_deg']:.1f}\u00b0 of slope or "
        f"{m[f'tips_{way}_push_n']:.0f} N of push: {reason}."
    )


def _view(panels: Sequence[_Panel]) -> View:
    tall = max(max(p.points.centre_height, float(p.points.hip[1])) for p in panels) + _ABOVE
    return View(
        left=_LEFT,
        bottom=-_UNDER,
        scale=_SCALE,
        width=_WIDTH,
        height=round((tall + _UNDER) * _SCALE),
    )


def _place(
    ink: Image.Image, accent: Image.Image, panel: _Panel, view: View, corner: tuple[int, int]
) -> None:
    """Draw a panel and paste it in, with its heading and its lines."""
    sheet = Sheet(view.width, view.height)
    draw_limb(sheet, view, _poses(panel.points), 0, panel.body_weight)
    _draw_line(sheet, view, panel.points)
    _draw_levers(sheet, view, panel.points)
    reduced = sheet.reduced()
    pen = ImageDraw.Draw(reduced[0])
    _draw_floor(pen, view)
    _write_levers(pen, view, panel)
    _draw_scale(pen, reduced[1], view)
    for layer, part in zip((ink, accent), reduced, strict=True):
        layer.paste(part, corner)
    x, y = corner
    whole = ImageDraw.Draw(ink)
    whole.rectangle((x - 1, y - 25, x + view.width, y + view.height), outline=110)
    whole.text((x + 8, y - 21), panel.heading, fill=255, font=font(14, True))
    for row, line in enumerate(panel.lines):
        place = (x, y + view.height + 8 + row * _LINE)
        whole.text(place, line, fill=255, font=font(13))


def _poses(points: Outline) -> Poses:
    """The points as one instant of a stance."""
    return Poses(
        hip=points.hip[None],
        knee=points.knee[None],
        brim=points.brim[None],
        limb_end=points.limb_end[None],
        socket_end=points.socket_end[None],
        ankle=points.ankle[None],
        sole=points.sole[None],
        pressure_x=np.array([points.pressure]),
        force=np.array([[0.0, points.carried]]),
        percent=np.zeros(1),
        done=np.zeros(1, dtype=bool),
    )


def _draw_line(sheet: Sheet, view: View, points: Outline) -> None:
    """The load line in dashes from the floor past the hip, and the mark of the body's centre."""
    top = points.centre_height
    for low in np.arange(0.0, top, 0.030):
        ends = np.array([[points.pressure, low], [points.pressure, min(low + 0.016, top)]])
        sheet.accent.line(view.pixels(ends), fill=255, width=round(1.6 * SAMPLES))
    ((x, y),) = view.pixels(np.array([points.pressure, top]))
    r = 7 * SAMPLES
    sheet.ink.ellipse((x - r, y - r, x + r, y + r), outline=255, width=round(1.5 * SAMPLES))
    sheet.ink.line(((x - r, y), (x + r, y)), fill=255, width=SAMPLES)
    sheet.ink.line(((x, y - r), (x, y + r)), fill=255, width=SAMPLES)


def _draw_levers(sheet: Sheet, view: View, points: Outline) -> None:
    """From hip and ankle to the load line; under the floor heel end, load line and toe end."""
    for joint in (points.hip, points.ankle):
        across = np.array([joint, [points.pressure, joint[1]]])
        sheet.ink.line(view.pixels(across), fill=255, width=2 * SAMPLES)
    depth = -0.040
    ends = [points.heel_end, points.pressure, points.toe_end]
    places = view.pixels(np.array([[x, depth] for x in ends]))
    sheet.ink.line((places[0], places[-1]), fill=255, width=round(2.2 * SAMPLES))
    for x, y in (places[0], places[-1]):
        sheet.ink.line(((x, y - 7 * SAMPLES), (x, y + 7 * SAMPLES)), fill=255, width=2 * SAMPLES)
    x, y = places[1]
    r = 4 * SAMPLES
    sheet.accent.ellipse((x - r, y - r, x + r, y + r), fill=255)


def _draw_floor(pen: ImageDraw.ImageDraw, view: View) -> None:
    y = round(view.height + view.bottom * view.scale)
    pen.line((0, y, view.width, y), fill=230)
    for x in range(4, view.width, 14):
        pen.line((x, y + 1, x - 5, y + 6), fill=110)


def _write_levers(pen: ImageDraw.ImageDraw, view: View, panel: _Panel) -> None:
    """The lengths beside the levers."""
    points, m = panel.points, panel.standing.measures
    if not isfinite(m["forward_reserve_mm"]):
        return
    floor = round(view.height + view.bottom * view.scale)
    middle = (points.heel_end + points.pressure) / 2.0, (points.toe_end + points.pressure) / 2.0
    for place, name in zip(middle, ("backward_reserve_mm", "forward_reserve_mm"), strict=True):
        x = (place - view.left) * view.scale
        pen.text((x, floor + 32), f"{m[name]:.0f} mm", fill=255, font=font(13), anchor="mt")
    for end, words, anchor in (
        (points.heel_end, "heel end", "rm"),
        (points.toe_end, "toe end", "lm"),
    ):
        x = (end - view.left) * view.scale + (8 if anchor == "lm" else -8)
        pen.text((x, floor + 22), words, fill=190, font=font(12), anchor=anchor)
    _write_point(pen, view, points.knee, f"{m['load_line_ahead_of_knee_mm']:+.0f} mm", 14)
    _write_point(pen, view, points.ankle, f"{m['load_line_ahead_of_ankle_mm']:+.0f} mm", 30)
    _write_point(pen, view, points.hip, f"{m['load_line_ahead_of_hip_mm']:+.0f} mm", 40)


def _write_point(
    pen: ImageDraw.ImageDraw, view: View, point: np.ndarray, words: str, gap: int
) -> None:
    """A number to the left of a joint: how far the load line passes ahead of it."""
    x = (float(point[0]) - view.left) * view.scale - gap - 40
    y = view.height - (float(point[1]) - view.bottom) * view.scale
    pen.text((x, y), words.replace("-", "\u2212"), fill=255, font=font(13, True), anchor="rm")


def _draw_scale(pen: ImageDraw.ImageDraw, accent: Image.Image, view: View) -> None:
    """What the arrow, the circle and the numbers beside the joints mean, and a scale bar."""
    texts = (
        "+ load line ahead of the joint",
        "circle: height of the body's centre",
        "dashes: load line; bar: knee lever",
    )
    right = view.width - 8
    for row, text in enumerate(texts):
        pen.text((right, 10 + row * 16), text, fill=190, font=font(12), anchor="ra")
    y, length = 72, 0.1 * view.scale
    pen.line((right - length, y, right, y), fill=255, width=3)
    pen.text((right - length - 8, y), "100 mm", fill=255, font=font(12), anchor="rm")
    key = Sheet(20, round(FORCE_SCALE * view.scale * 0.5) + 8)
    tall = FORCE_SCALE * view.scale * 0.5
    draw_arrow(key, [(10 * SAMPLES, (tall + 4) * SAMPLES), (10 * SAMPLES, 4 * SAMPLES)])
    accent.paste(key.reduced()[1], (right - 20, 88))
    for row, text in enumerate(("force of half", "the body weight")):
        pen.text((right - 26, 120 + row * 16), text, fill=190, font=font(12), anchor="rm")


def _write_head(ink: Image.Image, heads: Sequence[str], version: str) -> None:
    pen = ImageDraw.Draw(ink)
    for row, line in enumerate(heads):
        pen.text((_MARGIN, _MARGIN - 4 + row * 24), line, fill=255, font=font(19, True))
    place = (ink.size[0] - _MARGIN, _MARGIN)
    pen.text(place, f"simgait {version}", fill=150, font=font(12), anchor="ra")


def _write_feet(ink: Image.Image, accent: Image.Image, feet: Sequence[str], top: int) -> None:
    pen, brush = ImageDraw.Draw(ink), ImageDraw.Draw(accent)
    note = "Only the prosthesis' side is drawn. Widths are drawn, not measured."
    pen.text((_MARGIN, top), note, fill=190, font=font(12))
    line = top + _LINE + 2
    brush.line((_MARGIN, line, ink.size[0] - _MARGIN, line), fill=255, width=2)
    for row, words in enumerate(feet):
        brush.text((_MARGIN, line + 6 + row * _LINE), words, fill=255, font=font(13))
