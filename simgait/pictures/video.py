"""Frames handed to the program ffmpeg, where it is installed, for a film as MP4."""

import shutil
import subprocess
from collections.abc import Iterable, Sequence
from pathlib import Path

from PIL import Image

from simgait.errors import SimgaitError, one_line
from simgait.pictures.style import PAPER

__all__ = ["VideoError", "find_ffmpeg", "save_video"]

_ENCODERS = ("libx264", "libopenh264", "mpeg4")  # the first that ffmpeg has is taken
_QUALITY = {"libx264": ("-crf", "18", "-preset", "medium"), "mpeg4": ("-q:v", "3")}
_PATIENCE = 120.0  # [s] for the whole film


class VideoError(SimgaitError):
    """ffmpeg is missing, or could not make the film."""


def find_ffmpeg() -> str:
    """The program ffmpeg, as found on PATH.

    Raises
    ------
    VideoError : it is not there.
    """
    found = shutil.which("ffmpeg")
    if found is None:
        raise VideoError(
            "an .mp4 film needs the program ffmpeg, which is not on PATH (allowed without it: "
            ".gif, .webp)"
        )
    return found


def save_video(frames: Sequence[Image.Image], path: Path, note: str, shown: int, held: int) -> None:
    """Save frames as MP4, each shown so long [ms], the last one held [ms]; the note is a comment.

    Raises
    ------
    VideoError : ffmpeg is missing, or could not make the film.
    """
    program = find_ffmpeg()
    width, height = (side + side % 2 for side in frames[0].size)  # its usual colours need it even
    encoder = _encoder(program)
    order = [
        program, "-hide_banner", "-loglevel", "error", "-nostdin", "-y",
        "-f", "rawvideo", "-pix_fmt", "rgb24", "-s", f"{width}x{height}", "-r", f"1000/{shown}",
        "-i", "-", "-c:v", encoder, *_QUALITY.get(encoder, ()), "-pix_fmt", "yuv420p",
        "-threads", "1", "-fflags", "+bitexact", "-flags:v", "+bitexact", "-map_metadata", "-1",
        "-metadata", f"comment={note}", "-movflags", "+faststart", "-f", "mp4", f"./{path.name}",
    ]  # fmt: skip
    more = max(round(held / shown) - 1, 0)
    pieces = _raw([*frames, *[frames[-1]] * more], (width, height))
    try:
        done = subprocess.run(
            order, input=b"".join(pieces), capture_output=True, timeout=_PATIENCE, check=False,
            cwd=path.parent,
        )  # fmt: skip
    except subprocess.TimeoutExpired as trouble:
        raise VideoError(f"ffmpeg made no film within {_PATIENCE:.0f} s") from trouble
    except OSError as trouble:
        raise VideoError(f"ffmpeg cannot be started: {trouble.strerror}") from trouble
    if done.returncode != 0 or not path.is_file() or path.stat().st_size == 0:
        said = done.stderr.decode("utf-8", "replace").strip().splitlines() or ["it says nothing"]
        raise VideoError(
            one_line(f"ffmpeg made no film (exit code {done.returncode}): {said[-1].strip()}")
        )


def _encoder(program: str) -> str:
    """The first of the encoders that this ffmpeg has; the most usual one if it will not tell."""
    try:
        done = subprocess.run(
            [program, "-hide_banner", "-encoders"], capture_output=True, timeout=20, check=False
        )
    except (OSError, subprocess.TimeoutExpired):
        return _ENCODERS[0]
    known = done.stdout.decode("utf-8", "replace").split()
    return next((each for each in _ENCODERS if each in known), _ENCODERS[0])


def _raw(frames: Iterable[Image.Image], size: tuple[int, int]) -> Iterable[bytes]:
    """The bytes of each frame, red, green and blue, on paper of a size [pixel]."""
    for frame in frames:
        whole = Image.new("RGB", size, PAPER)
        whole.paste(frame.convert("RGB"), (0, 0))
        yield whole.tobytes()
