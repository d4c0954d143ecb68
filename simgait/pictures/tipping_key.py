"""The key under the pictures of tipping: arrows, bar and mark, circle, scale, how to read."""

import numpy as np
from PIL import Image, ImageDraw

from simgait.pictures.limb import FORCE_SCALE, SAMPLES, Sheet, draw_arrow
from simgait.pictures.shots import TiltedView
from simgait.pictures.still import wrapped, write_lines
from simgait.pictures.style import font
from simgait.pictures.wearer import OWN_ARROW, SOUND_ARROW, draw_centre, draw_mark

__all__ = ["draw_key", "key_height"]

_LINE, _SIZE, _LEAST = 15, 12, 60  # [pixel]
_NARROW = 850  # [pixel] of a page on which the four texts stand in two rows
# [pixel] left to the sign before each text, and the text
_TEXTS = (
    (
        40,
        "floor's force, this long: half the body weight; broad pale: sound foot, narrow: "
        "prosthesis",
    ),
    (
        64,
        "bar: from heel end to toe end of the feet; diamond: where the body is heading "
        "(extrapolated centre)",
    ),
    (24, "the body's centre"),
    (
        0,
        "Gravity points down the page. Push arrows have no scale. Dark under the sole: what is "
        "stepped on. Paler leg: sound side, behind. Widths are drawn, not measured.",
    ),
)


def key_height(width: int) -> int:
    """Height of the key across a page of a width [pixel]."""
    return sum(_heights(width)) + 6


def draw_key(
    ink: Image.Image, accent: Image.Image, corner: tuple[int, int], width: int, scale: float
) -> None:
    """Draw the key from its upper left corner; scale: of the panels [pixel/m]."""
    pen = ImageDraw.Draw(ink)
    lines, heights = _broken(width), _heights(width)
    columns = len(_TEXTS) // len(heights)
    for n, (shift, _) in enumerate(_TEXTS):
        row, column = divmod(n, columns)
        x = corner[0] + column * (width // columns)
        y = corner[1] + sum(heights[:row])
        _paste_sign(ink, accent, n, (x, y), scale)
        write_lines(pen, (x + shift, y + 3), lines[n], 220, _SIZE, _LINE)
    bar = 0.2 * scale
    row, column = divmod(2, columns)
    x, y = corner[0] + column * (width // columns), corner[1] + sum(heights[:row]) + 42
    pen.line((x, y, x + bar, y), fill=255, width=3)
    for end in (x, x + bar):
        pen.line((end, y - 5, end, y + 5), fill=255, width=2)
    pen.text((x + bar + 8, y), "200 mm", fill=255, font=font(_SIZE), anchor="lm")


def _paste_sign(
    ink: Image.Image, accent: Image.Image, number: int, place: tuple[int, int], scale: float
) -> None:
    """The sign that stands before a text."""
    wide, high = max(_TEXTS[number][0], 1), _LEAST
    sheet = Sheet(wide, high)
    flat = TiltedView(
        left=0.0, bottom=-high / scale, scale=scale, width=wide, height=high, slope=0.0, pivot=0.0
    )
    tall = min(0.5 * FORCE_SCALE * scale, high - 8.0)
    if number == 0:
        for x, strength, broad in ((9.0, SOUND_ARROW, 2.2), (26.0, OWN_ARROW, 1.0)):
            ends = [(x * SAMPLES, (tall + 4.0) * SAMPLES), (x * SAMPLES, 4.0 * SAMPLES)]
            draw_arrow(sheet, ends, strength, broad)
    elif number == 1:
        draw_mark(sheet, flat, (3.0 / scale, 40.0 / scale), 53.0 / scale, 11.0 / scale)
    elif number == 2:
        draw_centre(sheet, flat, np.array([8.0, -11.0]) / scale)
    for layer, part in zip((ink, accent), sheet.reduced(), strict=True):
        layer.paste(part, place)


def _broken(width: int) -> list[tuple[str, ...]]:
    """The texts broken into lines."""
    columns = 2 if width < _NARROW else 4
    return [wrapped(text, width // columns - shift - 14, _SIZE) for shift, text in _TEXTS]


def _heights(width: int) -> list[int]:
    """Height of each row of texts [pixel]."""
    tall = [max(_LINE * len(lines) + 6, _LEAST) for lines in _broken(width)]
    return [max(tall)] if width >= _NARROW else [max(tall[:2]), max(tall[2:])]
