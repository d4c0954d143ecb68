"""The film of a lift: the arm to scale, and beside it flexion and pull over time."""

from dataclasses import dataclass
from math import ceil, degrees
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from simgait.arm.moving import ENDINGS, Lifted
from simgait.arm.pose import ArmPose
from simgait.arm.sheet import ArmSheet
from simgait.files import write_whole
from simgait.pictures.arm_graph import Graph, draw_graph
from simgait.pictures.inputs import FloatArray
from simgait.pictures.limb import SAMPLES, Sheet, View, draw_bone, draw_disc
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.poses import between
from simgait.pictures.reel import SHOWN_MS, require_film_name, save_film
from simgait.pictures.still import wrapped, write_lines
from simgait.pictures.style import font

__all__ = ["draw_lift_film"]

_SHELL, _LINE = 46, 255  # strength of ink
_WIDTHS = (0.045, 0.036, 0.024)  # [m] half widths at shoulder, elbow, wrist; drawn, not measured
_MARGIN, _ROW, _TITLE_ROW, _GAP = 16, 18, 24, 18  # [pixel]
_VIEW, _GRAPH = (330, 380), 400  # [pixel] the arm's window, width of the graphs
_AFTER = 0.6  # [s] shown after the end of the range is reached
_MOST_FRAMES, _STEP, _HELD_MS = 48, 0.02, 1600


@dataclass(frozen=True, kw_only=True)
class _Page:
    """Where everything stands [pixel], and the words, already broken."""

    view: View
    size: tuple[int, int]
    top: int
    title: tuple[str, ...]
    words: tuple[str, ...]
    cautions: tuple[str, ...]
    graphs: tuple[Graph, Graph]


def draw_lift_film(sheet: ArmSheet, path: Path) -> Path:
    """Draw the film of a sheet's lift and write it whole; returns the file.

    Raises
    ------
    ValueError : no lift, no cautions, or a name that no film is written under.
    OSError : the file cannot be written.
    """
    lifted = sheet.lifted
    if lifted is None or not sheet.cautions:
        raise ValueError("a film needs a lift that was played, and the result's cautions")
    require_film_name(path)
    times, slow = _clock(lifted)
    page = _page(sheet, lifted, float(times[-1]), slow)
    still = _static(page, sheet.version)
    pick = between(lifted.track.time, times)
    pose = ArmPose(**{name: pick(getattr(lifted.pose, name)) for name in ArmPose.__annotations__})
    flexion, pull = np.degrees(pick(lifted.track.flexion)), pick(lifted.track.pull)
    moving = Sheet(page.view.width, page.view.height)
    colours = palette_bytes()
    frames = []
    for frame, time in enumerate(times.tolist()):
        ink, accent = still[0].copy(), still[1].copy()
        moving.wipe()
        _draw_arm(moving, page.view, pose, frame)
        drawn = moving.reduced()
        ink.paste(drawn[0], (_MARGIN, page.top))
        accent.paste(drawn[1], (_MARGIN, page.top))
        for graph, value in zip(page.graphs, (flexion[frame], pull[frame]), strict=True):
            _mark(ink, accent, graph, time, float(value))
        frames.append(inked(ink, accent, colours))
    note = f"{sheet.result.title}. {' '.join(sheet.lift_cautions)} simgait {sheet.version}"
    with write_whole(path) as partial:
        save_film(frames, partial, note, _HELD_MS)
    return path


def _clock(lifted: Lifted) -> tuple[FloatArray, float]:
    """Frame times [s], and how many times slower than life they are shown."""
    end = float(lifted.track.time[-1])
    if np.isfinite(lifted.time_to_end):
        end = min(end, lifted.time_to_end + _AFTER)
    step = max(_STEP, ceil(end / (_MOST_FRAMES - 2) / 0.005) * 0.005)
    times: FloatArray = np.arange(ceil(end / step - 1e-9) + 1, dtype=np.float64) * step
    return np.minimum(times, lifted.track.time[-1]), SHOWN_MS / 1000.0 / step


def _page(sheet: ArmSheet, lifted: Lifted, end: float, slow: float) -> _Page:
    whole = _VIEW[0] + _GAP + _GRAPH
    title = wrapped(f"{sheet.result.title}: lifted by a given pull", whole - 190, 17, True)
    words = wrapped(_told(lifted, slow), whole, 13)
    cautions = wrapped(" ".join(sheet.lift_cautions), whole, 13)
    top = _MARGIN + _TITLE_ROW * len(title) + _ROW * len(words) + 14
    high = top + _VIEW[1] + 30 + _ROW * len(cautions) + 16
    left, each = _MARGIN + _VIEW[0] + _GAP + 44, (_VIEW[1] - 96) // 2
    stops = (degrees(sheet.result.arm.flexion_from), degrees(sheet.result.arm.flexion_to))
    track = lifted.track
    graphs = (
        Graph(
            box=(left, top + 24, _GRAPH - 50, each), title="elbow flexion [deg]", end=end,
            time=track.time, values=np.degrees(track.flexion), marks=stops, said="end of the range",
        ),
        Graph(
            box=(left, top + each + 72, _GRAPH - 50, each), title="pull at the harness [N]",
            end=end, time=track.time, values=track.pull, marks=(), said="time [s]",
        ),
    )  # fmt: skip
    return _Page(
        view=_view(lifted.pose), size=(whole + 2 * _MARGIN, high), top=top, title=title,
        words=words, cautions=cautions, graphs=graphs,
    )  # fmt: skip


def _told(lifted: Lifted, slow: float) -> str:
    """What happens, in sentences."""
    history = lifted.history
    given = (
        f"The pull rises to {history.pulls[-1]:.0f} N within {history.times[-1]:.1f} s and stays; "
        f"loop {1000.0 * lifted.loop:.0f} mm. "
    )
    if lifted.ending == "lifted":
        told = (
            f"The end of the range comes after {lifted.time_to_end:.2f} s; the tip reaches "
            f"{lifted.peak_tip_speed:.1f} m/s and runs {degrees(lifted.overshoot):.0f}\u00b0 into "
            "the stop, whose stiffness is assumed. "
        )
    else:
        told = f"Ending: {ENDINGS[lifted.ending]}. "
    return f"{given}{told}Nobody steers. {slow:.3g} times slower than life."


def _view(pose: ArmPose) -> View:
    """The window that holds the arm through the whole lift."""
    points = np.concatenate([pose.elbow, pose.shell_end, pose.tip, np.zeros((1, 2))])
    low, high = points.min(axis=0) - 0.075, points.max(axis=0) + 0.065
    size = high - low
    scale = min(_VIEW[0] / size[0], _VIEW[1] / size[1])
    left, bottom = (low + high) / 2.0 - np.array(_VIEW) / scale / 2.0
    return View(
        left=float(left), bottom=float(bottom), scale=float(scale), width=_VIEW[0], height=_VIEW[1]
    )


def _static(page: _Page, version: str) -> tuple[Image.Image, Image.Image]:
    """The layers of everything that does not move."""
    ink, accent = Image.new("L", page.size), Image.new("L", page.size)
    pen, brush = ImageDraw.Draw(ink), ImageDraw.Draw(accent)
    for row, line in enumerate(page.title):
        pen.text((_MARGIN, _MARGIN - 2 + row * _TITLE_ROW), line, fill=255, font=font(17, True))
    right = page.size[0] - _MARGIN
    pen.text((right, _MARGIN), f"simgait {version}", fill=150, font=font(12), anchor="ra")
    write_lines(pen, (_MARGIN, _MARGIN + _TITLE_ROW * len(page.title)), page.words, 190)
    for graph in page.graphs:
        draw_graph(ink, accent, graph)
    bar, corner = 0.1 * page.view.scale, (_MARGIN + 6, page.top + page.view.height + 12)
    pen.line((*corner, corner[0] + bar, corner[1]), fill=255, width=3)
    pen.text((corner[0] + bar + 8, corner[1]), "100 mm", fill=255, font=font(12), anchor="lm")
    top = page.size[1] - _ROW * len(page.cautions) - 12
    brush.line((_MARGIN, top - 5, right, top - 5), fill=255, width=2)
    write_lines(pen, (_MARGIN, top), page.cautions, 255)
    return ink, accent


def _draw_arm(sheet: Sheet, view: View, pose: ArmPose, frame: int) -> None:
    """Upper arm, forearm, device, cable and lever at one instant."""
    shoulder, elbow = np.zeros(2), pose.elbow[frame]
    wrist, tip = pose.shell_end[frame], pose.tip[frame]
    draw_bone(sheet, view, (shoulder, _WIDTHS[0]), (elbow, _WIDTHS[1]), _SHELL)
    draw_bone(sheet, view, (elbow, _WIDTHS[1]), (wrist, _WIDTHS[2]), _SHELL)
    along = tip - wrist
    across = np.array([-along[1], along[0]])
    share = np.linspace(0.0, 1.0, 15)[:, None]
    hook = wrist + share * along + 0.22 * np.sin(np.pi * share) * across
    sheet.ink.line(view.pixels(hook), fill=_LINE, width=3 * SAMPLES, joint="curve")
    for point in (shoulder, elbow):
        draw_disc(sheet, view, point, 0.011, 0, _LINE)
    guide, loop = pose.guide[frame], pose.loop[frame]
    lever = view.pixels(np.array([elbow, pose.lever_foot[frame]]))
    sheet.ink.line(lever, fill=_LINE, width=4 * SAMPLES)
    for ends, wide in (((guide, loop), 3), ((guide - 0.82 * elbow, guide), 1)):
        line = view.pixels(np.array(ends))
        sheet.ink.line(line, fill=0, width=(wide + 1) * SAMPLES)
        sheet.accent.line(line, fill=_LINE, width=wide * SAMPLES)
    for point in (guide, loop):
        ((x, y),) = view.pixels(point)
        r = 4.5 * SAMPLES
        sheet.ink.ellipse((x - r, y - r, x + r, y + r), fill=0)
        sheet.accent.ellipse((x - r, y - r, x + r, y + r), fill=_LINE)


def _mark(ink: Image.Image, accent: Image.Image, graph: Graph, time: float, value: float) -> None:
    """The dot of now on a graph, and its value beside the title."""
    x, y = graph.place(time, value)
    ImageDraw.Draw(ink).ellipse((x - 5, y - 5, x + 5, y + 5), fill=0)
    ImageDraw.Draw(accent).ellipse((x - 5, y - 5, x + 5, y + 5), fill=255)
    left, top, width, _ = graph.box
    ImageDraw.Draw(ink).text(
        (left + width, top - 20), f"{value:.0f}", fill=255, font=font(14, True), anchor="ra"
    )
