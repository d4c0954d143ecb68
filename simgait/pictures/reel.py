"""What films share: how long frames are shown, the mark of a bad ending, writing to a file."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from PIL import Image, ImageDraw

from simgait.pictures.video import save_video

__all__ = ["FILM_ENDINGS", "SHOWN_MS", "draw_cross", "require_film_name", "save_film"]

SHOWN_MS = 80  # [ms] each frame is shown
FILM_ENDINGS = (".gif", ".webp", ".mp4")
_WEBP: dict[str, Any] = {"lossless": True, "quality": 0, "method": 0}


def require_film_name(path: Path) -> None:
    """Refuse a name that no film is written under.

    Raises
    ------
    ValueError : the name ends in neither .gif nor .webp nor .mp4.
    """
    if path.suffix.lower() not in FILM_ENDINGS:
        raise ValueError(f"a film is written as .gif or .webp, or .mp4, not as '{path.name}'")


def draw_cross(accent: Image.Image, corner: tuple[int, int] = (10, 10)) -> None:
    """Draw the mark of a run that ended badly, its upper left corner at a pixel."""
    pen = ImageDraw.Draw(accent)
    x, y = corner
    pen.line((x, y, x + 18, y + 18), fill=255, width=4)
    pen.line((x, y + 18, x + 18, y), fill=255, width=4)


def save_film(
    frames: Sequence[Image.Image], path: Path, note: str, held: int, shown: int = SHOWN_MS
) -> None:
    """Save frames as GIF, or as WebP or MP4 if the name says so; the last one is held [ms].

    shown: [ms] of every other frame.  A GIF keeps of each frame only the pixels that changed.

    Raises
    ------
    VideoError : an MP4 was asked for, and ffmpeg is missing or could not make it.
    """
    if path.suffix.lower() == ".mp4":
        save_video(frames, path, note, shown, held)
        return
    durations = [shown] * (len(frames) - 1) + [held]
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
