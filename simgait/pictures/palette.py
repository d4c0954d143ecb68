"""One palette of paper, ink and accent: strengths of the two become colours without a search."""

from functools import cache

from PIL import Image, ImageChops

from simgait.pictures.style import ACCENT, INK, PAPER, Colour

__all__ = ["inked", "palette_bytes"]

_INKS, _ACCENTS = 24, 10  # steps of strength; 240 colours


@cache
def palette_bytes() -> bytes:
    """The shared palette: colour of ink step i and accent step a stands at place i + 24 a."""
    colours = bytearray()
    for accent in range(_ACCENTS):
        for ink in range(_INKS):
            under = _mix(PAPER, INK, ink / (_INKS - 1))
            colours += bytes(_mix(under, ACCENT, accent / (_ACCENTS - 1)))
    return bytes(colours.ljust(768, b"\x00"))


def inked(ink: Image.Image, accent: Image.Image, colours: bytes) -> Image.Image:
    """The picture with the shared palette from two layers of strength, 0 to 255."""
    steps_ink = [round(s / 255 * (_INKS - 1)) for s in range(256)]
    steps_accent = [_INKS * round(s / 255 * (_ACCENTS - 1)) for s in range(256)]
    places = ImageChops.add(ink.point(steps_ink), accent.point(steps_accent))
    picture = Image.frombytes("P", places.size, places.tobytes())
    picture.putpalette(colours)
    return picture


def _mix(under: Colour, over: Colour, share: float) -> Colour:
    red, green, blue = (round(u + (o - u) * share) for u, o in zip(under, over, strict=True))
    return (red, green, blue)
