"""Lines of letters on a matplotlib figure: broken to a width, and taken as they are."""

from collections.abc import Iterator
from contextlib import contextmanager

from simgait.pictures.still import wrapped
from simgait.pictures.style import font

__all__ = ["broken", "drawing"]

SMALL = 8.5  # [point]
PIXELS = 10  # a point, where the width of words is measured


def broken(words: str, width: float, size: float = SMALL, bold: bool = False) -> tuple[str, ...]:
    """Words in lines of at most `width` [inch] at font `size` [point]; long words are cut."""
    pixels, own = width * 72.0 * PIXELS, round(size * PIXELS)
    length = font(own, bold).getlength
    pieces: list[str] = []
    for word in words.split(" "):
        rest = word
        while len(rest) > 1 and length(rest) > pixels:
            fits = next(
                n for n in range(len(rest) - 1, 0, -1) if n < 2 or length(rest[:n]) <= pixels
            )
            pieces.append(rest[:fits])
            rest = rest[fits:]
        pieces.append(rest)
    return wrapped(" ".join(pieces), pixels, own, bold)


@contextmanager
def drawing() -> Iterator[None]:
    """Draw with texts taken as they are: a dollar sign in a title is no formula."""
    from matplotlib import rc_context

    with rc_context({"text.parse_math": False, "text.usetex": False, "hatch.linewidth": 0.8}):
        yield
