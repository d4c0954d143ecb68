"""The look of every picture: warm paper, dark ink, one accent, told apart without colour."""

import colorsys
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.ImageFont import FreeTypeFont

__all__ = [
    "ACCENT",
    "INK",
    "PAPER",
    "SOFT_INK",
    "Colour",
    "LineLook",
    "font",
    "hex_colour",
    "line_looks",
]

Colour = tuple[int, int, int]
Dashes = tuple[float, ...]

PAPER: Colour = (247, 242, 232)
INK: Colour = (43, 37, 32)
SOFT_INK: Colour = (118, 107, 95)
ACCENT: Colour = (176, 70, 34)

_ACCENT_HUE = 17.0 / 360.0  # the hue of ACCENT
_DARKEST, _LIGHTEST = 0.20, 0.60
_PATTERNS: tuple[Dashes, ...] = ((), (5.0, 1.8), (1.2, 1.5), (7.0, 1.6, 1.2, 1.6))


@dataclass(frozen=True, kw_only=True)
class LineLook:
    """How one run is drawn: colour (0 to 255 each), width [pt], dash pattern (empty = solid)."""

    colour: Colour
    width: float
    dashes: Dashes


def hex_colour(colour: Colour) -> str:
    """The colour as #rrggbb.

    >>> hex_colour((255, 0, 16))
    '#ff0010'
    """
    return "#{:02x}{:02x}{:02x}".format(*colour)


def line_looks(count: int, baseline: int) -> tuple[LineLook, ...]:
    """Looks of `count` runs: baseline thick dark solid, the others thin, of one hue, dark to light.

    The lightness rises in the order of the runs and the dash pattern changes from run to run,
    so that neighbours stay apart in a grey copy.

    >>> looks = line_looks(3, 1)
    >>> looks[1].dashes, looks[1].width > looks[0].width
    ((), True)
    """
    others = max(count - 1, 1)
    looks = []
    for rank in range(count):
        if rank == baseline:
            looks.append(LineLook(colour=INK, width=2.8, dashes=()))
            continue
        place = rank if rank < baseline else rank - 1
        lightness = _DARKEST + (_LIGHTEST - _DARKEST) * place / max(others - 1, 1)
        looks.append(
            LineLook(
                colour=_of_lightness(lightness), width=1.4, dashes=_PATTERNS[place % len(_PATTERNS)]
            )
        )
    return tuple(looks)


def _of_lightness(lightness: float) -> Colour:
    red, green, blue = colorsys.hls_to_rgb(_ACCENT_HUE, lightness, 0.55)
    return (round(255 * red), round(255 * green), round(255 * blue))


@cache
def font(size: int, bold: bool = False) -> "FreeTypeFont":
    """A DejaVu Sans font of `size` [pixel], from the files that ship with matplotlib.

    Raises
    ------
    OSError : the font file is not there.
    """
    import matplotlib
    from PIL import ImageFont

    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    file = Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name
    return ImageFont.truetype(str(file), size)
