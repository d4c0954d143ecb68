"""The still of tipping: four instants just above each threshold, for print."""

import os
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw
from PIL.PngImagePlugin import PngInfo

from simgait.files import write_whole
from simgait.pictures.inputs import FloatArray, TippingPairLike, TippingSceneLike
from simgait.pictures.limb import Sheet
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.shots import shot_of
from simgait.pictures.style import font
from simgait.pictures.tipping_page import (
    Notes,
    cross_out,
    page_of,
    paint_panel,
    sizes_in_words,
    static_page,
)
from simgait.tipping.names import STAYS

__all__ = ["draw_tipping_still", "told"]

_PANEL = 152  # [pixel]
_PUSHED = 0.05  # [s] after a push, for the first instant


def draw_tipping_still(
    title: str, pairs: Sequence[TippingPairLike], notes: Notes, path: str | os.PathLike[str]
) -> Path:
    """Draw four instants of each trial just above its threshold and write them whole, as PNG.

    The third is when the extrapolated centre leaves the feet for good. Of a trial that was stood
    up to the largest, that is shown.

    notes: the cautions, of which there must be some, and the version.

    Raises
    ------
    ValueError : nothing to draw, or no cautions.
    OSError : the file cannot be written.
    """
    scenes = [pair.below if pair.above is None else pair.above for pair in pairs]
    page = page_of(title, notes, scenes, (len(pairs), min(len(pairs), 2), 4), _PANEL, 0)
    layers = static_page(page, [_head(pair) for pair in pairs])
    sheet, pen = Sheet(page.view.width, page.view.height), ImageDraw.Draw(layers[0])
    for cell, (pair, scene) in enumerate(zip(pairs, scenes, strict=True)):
        times, words = told(scene)
        shot = shot_of(scene, times)
        for panel, said in enumerate(words):
            painted = paint_panel(sheet, page, scene, shot, panel, pair.body_weight)
            x, y = page.corner(cell, panel)
            for layer, part in zip(layers, painted, strict=True):
                layer.paste(part, (x, y))
            pen.text((x + 6, y - 18), said, fill=220, font=font(12))
        if scene.track.ending != STAYS:
            cross_out(layers[1], page, cell, 3)
    return _save(inked(*layers, palette_bytes()), title, notes, Path(path))


def told(scene: TippingSceneLike) -> tuple[FloatArray, tuple[str, ...]]:
    """Four instants [s] that tell a scene, and what is said over them.

    The disturbance begins, half way, the mark leaves the feet for good (two thirds of the scene if
    it never does), the end.
    """
    time, place = scene.track.time, scene.track.extrapolated
    inside = (place >= scene.reach[:, 0]) & (place <= scene.reach[:, 1])
    end = float(time[-1])
    begins = scene.push_time + _PUSHED if scene.push_sense else 0.0
    first = "pushed" if scene.push_sense else "at rest"
    if inside[-1]:
        third, said = begins + 2.0 / 3.0 * (end - begins), ""
    else:
        third, said = float(time[np.flatnonzero(inside)[-1] + 1]), "goes beyond the feet"
    times = np.array([begins, (begins + third) / 2.0, third, end])
    return times, (first, "", said, "")


def _head(pair: TippingPairLike) -> tuple[str, str]:
    """The bold line of a strip, and nothing beside it."""
    low, high = sizes_in_words(pair)
    if pair.above is None:
        return f"{pair.title}, the largest tried: {low}", ""
    return f"{pair.title}, just above the threshold: {high}", ""


def _save(picture: Image.Image, title: str, notes: Notes, final: Path) -> Path:
    said = PngInfo()
    said.add_text("Title", title)
    said.add_text("Description", " ".join((*notes[0], f"simgait {notes[1]}")))
    with write_whole(final) as partial:
        picture.save(partial, pnginfo=said)
    return final
