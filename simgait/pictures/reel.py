"""What films share: how long frames are shown, the mark of a bad ending, writing to a file."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw

__all__ = ["SHOWN_MS", "draw_cross", "require_film_name", "save_film"]

SHOWN_MS = 80  # [ms] each frame is shown
_WEBP: dict[str, Any] = {"lossless": True, "quality": 0, "method": 0}


def require_film_name(path: Path) -> None:
    """Refuse a name that no film is written under.

    Raises
    ------
    ValueError : the name ends in neither .gif nor .webp.
    """
    if path.suffix.lower() not in (".gif", ".webp"):
        raise ValueError(f"a film is written as .gif or .webp, not as '{path.name}'")


def draw_cross(accent: Image.Image, corner: tuple[int, int] = (10, 10)) -> None:
    """Draw the mark of a run that ended badly, its upper left corner at a pixel."""
    pen = ImageDraw.Draw(accent)
    x, y = corner
    pen.line((x, y, x + 18, y + 18), fill=255, width=4)
    pen.line((x, y + 18, x + 18, y), fill=255, width=4)


def save_film(frames: Sequence[Image.Image], path: Path, note: str, held: int) -> None:
    """Save frames as GIF, or as WebP if the name says so; the last one is held [ms].

    A GIF keeps of each frame only the pixels that changed.
    """
    durations = [SHOWN_MS] * (len(frames) - 1) + [held]
    if path.suffix.lower() == ".webp":
        first, *rest = [frame.convert("RGB") for frame in frames]
        first.save(path, save_all=True, append_images=rest, duration=durations, loop=0, **_WEBP)
        return
    frames[0].save(
        path,
        save_all=True,
        append_images=frames[1:],
        duration=durations,
        loop=0,
        optimize=True,
        comment=note.encode(),
    )
