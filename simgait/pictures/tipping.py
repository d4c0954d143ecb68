"""The film of tipping: for each way of disturbing, just below and just above what is too much."""

import os
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw

from simgait.files import write_whole
from simgait.pictures.film import FilmSummary
from simgait.pictures.inputs import FloatArray, TippingPairLike, TippingSceneLike
from simgait.pictures.limb import Sheet
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.reel import SHOWN_MS, require_film_name, save_film
from simgait.pictures.shots import Shot, shot_of
from simgait.pictures.style import font
from simgait.pictures.tipping_page import (
    Notes,
    Page,
    cross_out,
    found_words,
    page_of,
    paint_panel,
    sizes_in_words,
    static_page,
)
from simgait.tipping.names import STAYS

__all__ = ["draw_tipping", "pace_in_words", "paces"]

_PACES = (4.0, 3.0, 2.0, 1.5, 1.0, 1.0 / 1.5, 1.0 / 2.0, 1.0 / 3.0, 1.0 / 4.0)  # times slower
_MOST_FRAMES = 50
_HELD_MS = 2200  # [ms] the last frame is shown
_PANEL = 214  # [pixel]

Panel = tuple[TippingPairLike, TippingSceneLike, Shot]


def draw_tipping(
    title: str, pairs: Sequence[TippingPairLike], notes: Notes, path: str | os.PathLike[str]
) -> FilmSummary:
    """Draw the film of the thresholds and write it whole: GIF, or WebP if the name says so.

    Each pair stands side by side, just below on the left, just above on the right, and runs at its
    own pace, which is written there. The last frame is held.

    notes: the cautions, of which there must be some, and the version.

    Raises
    ------
    ValueError : nothing to draw, no cautions, or a name that no film is written under.
    OSError : the file cannot be written.
    """
    final = Path(path)
    require_film_name(final)
    scenes = [s for pair in pairs for s in (pair.below, pair.above) if s is not None]
    columns = min(len(pairs), 2 if len(pairs) < 5 else 3)
    page = page_of(title, notes, scenes, (len(pairs), columns, 2), _PANEL, 1)
    slow = paces(pairs)
    clocks = [_clock(pair, pace) for pair, pace in zip(pairs, slow, strict=True)]
    frames = _frames(page, pairs, clocks, slow)
    cautions, version = notes
    with write_whole(final) as partial:
        save_film(frames, partial, f"{title}. {' '.join(cautions)} simgait {version}", _HELD_MS)
    width, height = page.size
    return FilmSummary(
        path=final,
        frames=len(frames),
        width=width,
        height=height,
        slow_motion=max(slow),
        shown=tuple(range(len(pairs))),
    )


def paces(pairs: Sequence[TippingPairLike]) -> tuple[float, ...]:
    """How many times slower than life each pair is shown: the slowest that fits into the film."""
    step = SHOWN_MS / 1000.0
    found = []
    for pair in pairs:
        fitting = (p for p in _PACES if _longest(pair) / step * p <= _MOST_FRAMES - 2)
        found.append(next(fitting, step * (_MOST_FRAMES - 2) / _longest(pair)))
    return tuple(found)


def pace_in_words(slow: float) -> str:
    """The pace of a scene that is shown so many times slower than life.

    >>> pace_in_words(1.5), pace_in_words(1.0), pace_in_words(0.5)
    ('1.5 times slower than life', 'as fast as life', '2 times faster than life')
    """
    if slow == 1.0:
        return "as fast as life"
    if slow > 1.0:
        return f"{slow:.2g} times slower than life"
    return f"{1.0 / slow:.2g} times faster than life"


def _longest(pair: TippingPairLike) -> float:
    """How long the longer scene of a pair lasts [s]."""
    scenes = [scene for scene in (pair.below, pair.above) if scene is not None]
    return max(float(scene.track.time[-1]) for scene in scenes)


def _clock(pair: TippingPairLike, slow: float) -> FloatArray:
    """Times of the frames [s], the last at or after the end of both scenes."""
    step = SHOWN_MS / 1000.0 / slow
    count = int(np.ceil(_longest(pair) / step - 1e-9)) + 1
    times: FloatArray = np.arange(count, dtype=np.float64) * step
    return times


def _frames(
    page: Page,
    pairs: Sequence[TippingPairLike],
    clocks: Sequence[FloatArray],
    slow: Sequence[float],
) -> list[Image.Image]:
    heads = [
        (found_words(pair), pace_in_words(pace)) for pair, pace in zip(pairs, slow, strict=True)
    ]
    still = static_page(page, heads)
    panels: dict[tuple[int, int], Panel] = {}
    for cell, (pair, times) in enumerate(zip(pairs, clocks, strict=True)):
        _write_sizes(still[0], page, cell, pair)
        for side, scene in enumerate((pair.below, pair.above)):
            if scene is not None:
                panels[cell, side] = (pair, scene, shot_of(scene, times))
    sheet, colours, frames = Sheet(page.view.width, page.view.height), palette_bytes(), []
    over: set[tuple[int, int]] = set()
    for frame in range(max(len(times) for times in clocks)):
        for key, (pair, scene, shot) in panels.items():
            if key in over:
                continue
            painted = paint_panel(sheet, page, scene, shot, frame, pair.body_weight)
            for layer, part in zip(still, painted, strict=True):
                layer.paste(part, page.corner(*key))
            if shot.limb.done[frame]:
                over.add(key)
                if scene.track.ending != STAYS:
                    cross_out(still[1], page, *key)
        frames.append(inked(*still, colours))
    return frames


def _write_sizes(ink: Image.Image, page: Page, cell: int, pair: TippingPairLike) -> None:
    """Over each panel of a pair how large its disturbance is."""
    pen = ImageDraw.Draw(ink)
    low, high = sizes_in_words(pair)
    for side, words in enumerate((f"just below: {low}", f"just above: {high}")):
        x, y = page.corner(cell, side)
        if side and pair.above is None:
            place = (x + page.view.width // 2, y + page.view.height // 2)
            pen.text(place, "not reached", fill=190, font=font(13), anchor="mm")
            continue
        pen.text((x + 6, y - 18), words, fill=255, font=font(13))
