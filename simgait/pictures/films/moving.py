"""What moves in a stance film: limbs in their windows, the words under them, heads of curves."""

from collections.abc import Sequence

import numpy as np
from PIL import Image, ImageChops, ImageDraw
from PIL.ImageFont import FreeTypeFont

from simgait.pictures.films.graphs import Growing
from simgait.pictures.films.page import Page
from simgait.pictures.inputs import ResultLike
from simgait.pictures.limb import Sheet, View, draw_limb
from simgait.pictures.poses import Poses
from simgait.pictures.reel import draw_cross
from simgait.pictures.style import font
from simgait.pictures.wording import ended_badly, ending_words, signed

__all__ = ["Lever", "draw_alone", "draw_clock", "draw_heads", "draw_over", "spread", "write_lever"]

Lever = tuple[float, tuple[float, float]]  # [m] signed, and where it ends [pixel]
Layers = tuple[Image.Image, Image.Image]

_OVER = {False: (0.85, 0.6), True: (0.6, 0.5)}  # shares of ink and accent that stay: good, bad end
_PALE = [round(0.42 * s) for s in range(256)]
_CLEAR = [round(0.45 * s if s <= 120 else 54 + (s - 120) * 201 / 135) for s in range(256)]
_MIDDLE = [round(0.12 * s if s <= 120 else 14 + (s - 120) * 146 / 135) for s in range(256)]
_LOOKS = (_PALE, _CLEAR, _MIDDLE)  # of limbs over each other, from the hindmost


def draw_alone(
    sheet: Sheet, page: Page, track: Poses | None, frame: int, result: ResultLike
) -> Layers:
    """The ink and accent of a window with one limb."""
    view, em = page.view, page.em
    ink, accent, lever = _limb(sheet, view, track, frame, result)
    pen = ImageDraw.Draw(ink)
    _draw_floor(pen, view)
    if track is None:
        pen.text((8, 8), f"not drawn: {ending_words(result)}", fill=255, font=font(em, True))
        return ink, accent
    if track.done[frame] and ended_badly(result):
        draw_cross(accent)
    floor = view.height + view.bottom * view.scale
    top, left = round(floor + 0.6 * em), round(4.5 * em)
    percent = min(max(float(track.percent[frame]), 0.0), 100.0)
    pen.text((left - 8, top), f"{percent:.0f} %", fill=255, font=font(em, True), anchor="ra")
    bar = (left, top + 3, view.width - 8, top + em)
    pen.rectangle(bar, outline=150)
    if percent > 0.0:
        pen.rectangle((*bar[:2], left + (bar[2] - left) * percent / 100.0, bar[3]), fill=200)
    words = _state(track, frame, result, lever)
    bad = bool(track.done[frame]) and ended_badly(result)
    room = view.width - 10
    pen.text((6, top + page.row), words, fill=255, font=_fitting(words, em, bad, room))
    if lever is not None and not track.done[frame]:
        write_lever(pen, lever, em, view.width)
    return ink, accent


def draw_over(
    sheet: Sheet,
    page: Page,
    tracks: Sequence[Poses | None],
    frame: int,
    shown: Sequence[int],
    results: Sequence[ResultLike],
) -> Layers:
    """The ink and accent of the window in which the limbs lie over each other."""
    view, em = page.view, page.em
    inks, accents = [], []
    said: list[tuple[str, str, bool]] = []
    for place, (track, index, result) in enumerate(zip(tracks, shown, results, strict=True)):
        ink, accent, lever = _limb(sheet, view, track, frame, result)
        inks.append(ink.point(_LOOKS[place]))
        accents.append(accent.point(_PALE) if place == 0 else accent)
        words = ending_words(result) if track is None else _state(track, frame, result, lever)
        share = "-" if track is None else f"{min(float(track.percent[frame]), 100.0):.0f} %"
        bad = ended_badly(result) and (track is None or bool(track.done[frame]))
        said.append((f"{index + 1}", f"{share}\t{words}", bad))
    ink, accent = inks[0], accents[0]
    for more_ink, more_accent in zip(inks[1:], accents[1:], strict=True):
        ink, accent = ImageChops.lighter(ink, more_ink), ImageChops.lighter(accent, more_accent)
    pen = ImageDraw.Draw(ink)
    _draw_floor(pen, view)
    top = round(view.height + view.bottom * view.scale + 0.6 * em)
    for place, (number, told, bad) in enumerate(said):
        y, (share, words) = top + place * page.row, told.split("\t")
        pen.text((8, y), number, fill=255, font=font(em, True))
        pen.text((round(6.2 * em), y), share, fill=255, font=font(em, True), anchor="ra")
        room = view.width - round(9 * em)
        at = (round(6.9 * em), y)
        pen.text(at, words, fill=255, font=_fitting(words, em, bad, room))
        if bad:
            draw_cross(accent, (view.width - 28, y - 3))
    return ink, accent


def _limb(
    sheet: Sheet, view: View, track: Poses | None, frame: int, result: ResultLike
) -> tuple[Image.Image, Image.Image, Lever | None]:
    """Ink and accent of one limb at one frame, fainter after its end, and its lever."""
    sheet.wipe()
    if track is None:
        return *sheet.reduced(), None
    lever = draw_limb(sheet, view, track, frame, result.body_weight)
    ink, accent = sheet.reduced()
    if track.done[frame]:
        stays = _OVER[ended_badly(result)]
        ink = ink.point(lambda s: s * stays[0])
        accent = accent.point(lambda s: s * stays[1])
    return ink, accent, lever


def _draw_floor(pen: ImageDraw.ImageDraw, view: View) -> None:
    """The floor line at y = 0 with short strokes under it."""
    y = round(view.height + view.bottom * view.scale)
    pen.line((0, y, view.width, y), fill=230)
    for x in range(6, view.width + 6, 14):
        pen.line((x, y + 1, x - 5, y + 6), fill=100)


def _state(track: Poses, frame: int, result: ResultLike, lever: Lever | None) -> str:
    """The ending once it is reached; before it the lever in words."""
    if track.done[frame]:
        said = "ended: " if ended_badly(result) else ""
        return f"{said}{ending_words(result)} at {float(np.nanmax(result.curves.time)):.2f} s"
    if lever is None:
        return "foot unloaded"
    millimetres = signed(1000.0 * lever[0], 0)
    tends = "" if millimetres == "0" else (": bends" if lever[0] > 0.0 else ": straightens")
    return f"knee lever {millimetres} mm{tends}"


def _fitting(words: str, em: int, bold: bool, room: float) -> FreeTypeFont:
    """The largest font up to `em` [pixel] in which the words keep within `room` [pixel]."""
    sizes = range(em, 8, -1)
    fits = (size for size in sizes if font(size, bold).getlength(words) <= room)
    return font(next(fits, 9), bold)


def write_lever(pen: ImageDraw.ImageDraw, lever: Lever, em: int, width: int) -> None:
    """The lever's size [mm] beside its end, within a window of a width [pixel]."""
    (length, (x, y)) = lever
    words, letters = signed(1000.0 * length, 0), font(em, True)
    wide = letters.getlength(words) + 10.0
    ahead = (length < 0.0 or x < wide) and x + wide <= width
    place = (min(max(x, 0.0), width) + (8 if ahead else -8), y - 12)
    pen.text(place, words, fill=255, font=letters, anchor="lm" if ahead else "rm")


def draw_clock(ink: Image.Image, page: Page, time: float) -> None:
    """The time since heel contact, in the right corner under the version."""
    place = (page.width - page.margin, page.margin + round(1.9 * page.em))
    words, large = f"{time:.2f} s", font(round(1.3 * page.em), True)
    ImageDraw.Draw(ink).text(place, words, fill=255, font=large, anchor="ra")


def draw_heads(ink: Image.Image, graph: Growing, shown: Sequence[int], em: int) -> None:
    """A dot at the head of each curve, and the run's number beside it, none over another."""
    pen = ImageDraw.Draw(ink)
    heads = [(at[1], at[0], index) for at, index in zip(graph.heads, shown, strict=True) if at]
    for y, x, _ in heads:
        pen.ellipse((x - 3, y - 3, x + 3, y + 3), fill=255)
    heads.sort()
    rows = spread([(x, y) for y, x, _ in heads], em)
    for (_, x, index), row in zip(heads, rows, strict=True):
        pen.text((x + 7, row), str(index + 1), fill=255, font=font(em - 1, True), anchor="lm")


def spread(places: Sequence[tuple[float, float]], em: int) -> list[float]:
    """Rows [pixel] for the numbers of places (x, y), given in order of y; none covers another.

    Numbers that would overlap stand around the middle of their places.  em: height of one [pixel].

    >>> spread([(5.0, 10.0), (5.0, 12.0), (90.0, 13.0)], 10)
    [6.0, 16.0, 13.0]
    """
    rows = [0.0] * len(places)
    for column in _columns([x for x, _ in places], 1.6 * em):
        blocks: list[list[float]] = []  # places of numbers in touch, less a number's height each
        for n, i in enumerate(column):
            blocks.append([places[i][1] - n * em])
            while len(blocks) > 1 and _mean(blocks[-2]) >= _mean(blocks[-1]):
                last = blocks.pop()
                blocks[-1] += last
        means = [_mean(block) for block in blocks for _ in block]
        for n, i in enumerate(column):
            rows[i] = means[n] + n * em
    return rows


def _mean(values: Sequence[float]) -> float:
    return sum(values) / len(values)


def _columns(places: Sequence[float], apart: float) -> list[list[int]]:
    """Indices of places in groups whose neighbours are closer than `apart` [pixel], in order."""
    groups: list[list[int]] = []
    order = sorted(range(len(places)), key=lambda i: places[i])
    for before, i in zip([None, *order], order, strict=False):
        if before is not None and places[i] - places[before] < apart:
            groups[-1].append(i)
        else:
            groups.append([i])
    return [sorted(group) for group in groups]
