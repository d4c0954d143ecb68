"""Reading films back, and hearing every word while it is written on one."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageDraw


@dataclass(frozen=True, kw_only=True)
class Reel:
    """A film as read: frames [n, height, width, 3], their times [ms], how often it is shown."""

    frames: np.ndarray
    durations: list[int]
    loop: int


def read_film(path: Path) -> Reel:
    """Return every frame of a GIF or WebP."""
    frames, durations = [], []
    with Image.open(path) as film:
        loop = film.info["loop"]
        for place in range(film.n_frames):
            film.seek(place)
            frames.append(np.asarray(film.convert("RGB")))
            durations.append(int(film.info["duration"]))
    return Reel(frames=np.array(frames), durations=durations, loop=loop)


def luminance(frames: np.ndarray) -> np.ndarray:
    """Return the relative luminance, 0 to 1, as WCAG 2 defines it for sRGB.

    >>> luminance(np.array([[255.0, 255.0, 255.0]])).round(3).tolist()
    [1.0]
    """
    share = frames / 255.0
    linear = np.where(share <= 0.04045, share / 12.92, ((share + 0.055) / 1.055) ** 2.4)
    return linear @ np.array([0.2126, 0.7152, 0.0722])


@dataclass(frozen=True, kw_only=True)
class Word:
    """A text as it was written: on a picture of a size, filling a box [pixel], how strongly."""

    text: str
    size: tuple[int, int]
    box: tuple[float, float, float, float]
    fill: int

    @property
    def inside(self) -> bool:
        """Whether all of it is on the picture."""
        left, top, right, bottom = self.box
        wide, high = self.size
        return left >= 0 and top >= 0 and right <= wide and bottom <= high


@contextmanager
def hearing(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[Word]]:
    """Yield the list of every text that is written meanwhile."""
    heard: list[Word] = []
    write = ImageDraw.ImageDraw.text

    def text(pen: Any, xy: Any, words: str, **how: Any) -> None:
        asked = {"font": how["font"], "anchor": how.get("anchor")}
        box = pen.textbbox(xy, words, **asked)
        heard.append(Word(text=words, size=pen.im.size, box=box, fill=how["fill"]))
        write(pen, xy, words, **how)

    with monkeypatch.context() as patch:
        patch.setattr(ImageDraw.ImageDraw, "text", text)
        yield heard
