"""The stance film: limbs side by side in one clock, in slow motion, all to one scale."""

import os
from dataclasses import dataclass
from math import ceil
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from simgait.files import write_whole
from simgait.pictures.inputs import ComparisonLike, FloatArray, ResultLike, require_drawable
from simgait.pictures.limb import Sheet, View, draw_limb
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.poses import Poses, poses_at
from simgait.pictures.reel import SHOWN_MS, draw_cross, require_film_name, save_film
from simgait.pictures.still import Layout, lay_out, static_layers
from simgait.pictures.style import font
from simgait.pictures.wording import ended_badly, ending_words, shown_runs, signed

__all__ = ["FilmSummary", "draw_film"]

_HELD_MS = 1200  # [ms] the last frame is shown
_STEP = 0.020  # [s] simulated between frames
_MOST_FRAMES = 48


@dataclass(frozen=True, kw_only=True)
class FilmSummary:
    """What was written: file, frames, size [pixel], slow motion factor, indices of runs shown."""

    path: Path
    frames: int
    width: int
    height: int
    slow_motion: float
    shown: tuple[int, ...]


def draw_film(comparison: ComparisonLike, path: str | os.PathLike[str]) -> FilmSummary:
    """Draw the stance film of a comparison and write it whole: GIF, or WebP if the name says so.

    All limbs run on one clock from heel contact, seen by a camera fixed in the room. Up to nine
    alignments are shown, the baseline first; of more, the extremes of the main measures.

    Raises
    ------
    ValueError : nothing to draw, no cautions, or a name that no film is written under.
    OSError : the file cannot be written.
    """
    require_drawable(comparison)
    final = Path(path)
    require_film_name(final)
    shown = shown_runs(comparison)
    results = [comparison.results[i] for i in shown]
    times, step = _clock(results)
    slow = SHOWN_MS / 1000.0 / step
    tracks = [poses_at(result.curves, times) for result in results]
    layout = lay_out(comparison, shown, tracks)
    frames = _frames(comparison, shown, tracks, layout, slow, len(times))
    note = f"{comparison.title}. {' '.join(comparison.cautions)} simgait {comparison.version}"
    with write_whole(final) as partial:
        save_film(frames, partial, note, _HELD_MS)
    width, height = layout.size
    return FilmSummary(
        path=final, frames=len(times), width=width, height=height, slow_motion=slow, shown=shown
    )


def _clock(results: list[ResultLike]) -> tuple[FloatArray, float]:
    """Frame times [s] from heel contact to the end of the longest run, and their step [s]."""
    ends = [float(np.nanmax(r.curves.time)) for r in results if np.isfinite(r.curves.time).any()]
    longest = max(ends, default=0.0)
    step = max(_STEP, ceil(longest / (_MOST_FRAMES - 2) / 0.005) * 0.005)
    times: FloatArray = np.arange(ceil(longest / step - 1e-9) + 1, dtype=np.float64) * step
    return times, step


def _frames(
    comparison: ComparisonLike,
    shown: tuple[int, ...],
    tracks: list[Poses | None],
    layout: Layout,
    slow: float,
    count: int,
) -> list[Image.Image]:
    still_ink, still_accent = static_layers(comparison, shown, layout, slow)
    sheet = Sheet(layout.view.width, layout.view.height)
    colours = palette_bytes()
    frames = []
    for frame in range(count):
        ink, accent = still_ink.copy(), still_accent.copy()
        for cell, index in enumerate(shown):
            panel = _panel(sheet, layout.view, tracks[cell], frame, comparison.results[index])
            corner = layout.corner(cell)
            ink.paste(panel[0], corner)
            accent.paste(panel[1], corner)
        frames.append(inked(ink, accent, colours))
    return frames


def _panel(
    sheet: Sheet, view: View, track: Poses | None, frame: int, result: ResultLike
) -> tuple[Image.Image, Image.Image]:
    """The ink and accent of one moving panel at one frame."""
    sheet.wipe()
    if track is None:
        ink, accent = sheet.reduced()
        _draw_floor(ink, view)
        _write(ImageDraw.Draw(ink), (8, 8), f"not drawn: {ending_words(result)}", True)
        return ink, accent
    over = bool(track.done[frame])
    lever = draw_limb(sheet, view, track, frame, result.body_weight)
    ink, accent = sheet.reduced()
    if over:
        ink, accent = ink.point(lambda s: s * 0.45), accent.point(lambda s: s * 0.35)
        if ended_badly(result):
            draw_cross(accent)
    _draw_floor(ink, view)
    _write_state(ink, view, track, frame, result, lever)
    return ink, accent


def _draw_floor(ink: Image.Image, view: View) -> None:
    """The floor line at y = 0 with short strokes under it."""
    pen = ImageDraw.Draw(ink)
    y = round(view.height + view.bottom * view.scale)
    pen.line((0, y, view.width, y), fill=230)
    for x in range(6, view.width + 6, 14):
        pen.line((x, y + 1, x - 5, y + 6), fill=100)


def _write_state(
    ink: Image.Image,
    view: View,
    track: Poses,
    frame: int,
    result: ResultLike,
    lever: tuple[float, tuple[float, float]] | None,
) -> None:
    """Percent of stance with its bar, the lever in millimetres, and the ending once reached."""
    pen = ImageDraw.Draw(ink)
    percent = min(max(float(track.percent[frame]), 0.0), 100.0)
    top = view.height - 36
    _write(pen, (6, top), f"{percent:3.0f} %", True)
    left, right = 54, view.width - 8
    pen.rectangle((left, top + 4, right, top + 12), outline=150)
    pen.rectangle((left, top + 4, left + (right - left) * percent / 100.0, top + 12), fill=200)
    if track.done[frame]:
        said = "ended: " if ended_badly(result) else ""
        words = f"{said}{ending_words(result)} at {float(np.nanmax(result.curves.time)):.2f} s"
        _write(pen, (6, top + 17), words, ended_badly(result))
        return
    if lever is None:
        _write(pen, (6, top + 17), "foot unloaded", False)
        return
    length, end = lever
    millimetres = signed(1000.0 * length, 0)
    tends = "" if millimetres == "0" else (": bends" if length > 0.0 else ": straightens")
    _write(pen, (6, top + 17), f"knee lever {millimetres} mm{tends}", False)
    side = end[0] + 8 if length < 0.0 else end[0] - 8
    anchor = "lm" if length < 0.0 else "rm"
    _write(pen, (side, end[1] - 12), f"{millimetres}", True, anchor)


def _write(
    pen: ImageDraw.ImageDraw,
    place: tuple[float, float],
    words: str,
    bold: bool,
    anchor: str = "la",
) -> None:
    pen.text(place, words, fill=255, font=font(13, bold), anchor=anchor)
