"""The shades of a heat map: even steps of lightness, so that a grey copy reads the same."""

from functools import cache
from math import cos, pi, radians, sin

from simgait.pictures.style import Colour

__all__ = ["SHADES", "ink_on", "lightness", "shade", "shades"]

SHADES = 256
_LIGHTEST, _DARKEST = 90.0, 20.0  # CIE L*; the paper has 95.5
_FAINT, _FULL = 11.0, 33.0  # CIE chroma at the ends and what is added in the middle
_HUE_LIGHT, _HUE_DARK = 78.0, 38.0  # [degree] CIE hue: of warm sand to the accent's red brown
_WHITE = (0.95047, 1.0, 1.08883)  # D65
_KINK = 6.0 / 29.0  # of the CIE curve


def shade(share: float) -> Colour:
    """The colour at a share of the scale, 0 light to 1 dark; lightness falls in even steps.

    CIE 1976 L*a*b* to sRGB (IEC 61966-2-1).

    >>> lightness(shade(0.0)) > lightness(shade(0.5)) > lightness(shade(1.0))
    True
    """
    light = _LIGHTEST + (_DARKEST - _LIGHTEST) * share
    chroma = _FAINT + _FULL * sin(pi * share) ** 2
    hue = radians(_HUE_LIGHT + (_HUE_DARK - _HUE_LIGHT) * share)
    high = (light + 16.0) / 116.0
    roots = (high + chroma * cos(hue) / 500.0, high, high - chroma * sin(hue) / 200.0)
    x, y, z = (white * _cubed(root) for white, root in zip(_WHITE, roots, strict=True))
    red = 3.2406 * x - 1.5372 * y - 0.4986 * z
    green = -0.9689 * x + 1.8758 * y + 0.0415 * z
    blue = 0.0557 * x - 0.2040 * y + 1.0570 * z
    return (_coded(red), _coded(green), _coded(blue))


@cache
def shades() -> tuple[Colour, ...]:
    """The whole scale, light to dark."""
    return tuple(shade(step / (SHADES - 1)) for step in range(SHADES))


def lightness(colour: Colour) -> float:
    """CIE L* of a colour, 0 black to 100 white (IEC 61966-2-1 and CIE 1976).

    >>> round(lightness((255, 255, 255)), 1), round(lightness((0, 0, 0)), 1)
    (100.0, 0.0)
    """
    weights = (0.2126, 0.7152, 0.0722)
    shone = sum(weight * _decoded(part) for weight, part in zip(weights, colour, strict=True))
    root = shone ** (1.0 / 3.0) if shone > _KINK**3 else shone / (3.0 * _KINK**2) + 4.0 / 29.0
    return 116.0 * root - 16.0


def ink_on(share: float) -> bool:
    """Whether dark ink, not paper, is legible on the shade at a share."""
    return share < 0.52


def _cubed(root: float) -> float:
    return root**3 if root > _KINK else 3.0 * _KINK**2 * (root - 4.0 / 29.0)


def _coded(part: float) -> int:
    part = min(max(part, 0.0), 1.0)
    coded = 12.92 * part if part <= 0.0031308 else 1.055 * part ** (1.0 / 2.4) - 0.055
    return round(255.0 * coded)


def _decoded(part: int) -> float:
    coded = part / 255.0
    return float(coded / 12.92 if coded <= 0.04045 else ((coded + 0.055) / 1.055) ** 2.4)
