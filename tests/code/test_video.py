"""MP4 through ffmpeg: what it is handed, and what happens where it is missing or fails."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from simgait.pictures import video
from simgait.pictures.reel import save_film
from simgait.pictures.video import VideoError, find_ffmpeg, save_video

KEEPS = """
import sys
if "-encoders" in sys.argv:
    print(" V....D mpeg4 MPEG-4 part 2")
    sys.exit()
data = sys.stdin.buffer.read()
open(sys.argv[-1], "wb").write(data)
open("order.txt", "w").write("\\n".join(sys.argv))
"""
FAILS = (
    "import sys; sys.stdin.buffer.read(); sys.stderr.write('first\\nno room\\x1b[31m'); sys.exit(3)"
)
SILENT = "import sys; sys.stdin.buffer.read()"
DEAF = "import sys; sys.exit(1)"
SLEEPS = "import time; time.sleep(60)"


def stand_in(folder: Path, program: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Put a program named ffmpeg on PATH, and nothing else."""
    place = folder / "bin"
    place.mkdir()
    file = place / "ffmpeg"
    file.write_text(f"#!{sys.executable}\n{program}", encoding="utf-8")
    file.chmod(0o755)
    monkeypatch.setenv("PATH", str(place))


def frames(width: int = 33, height: int = 20) -> list[Image.Image]:
    shades = (20, 120, 220)
    return [Image.new("RGB", (width, height), (s, s, 255 - s)) for s in shades]


def test_ffmpeg_gets_every_frame_and_the_held_one_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stand_in(tmp_path, KEEPS, monkeypatch)
    save_film(frames(), tmp_path / "-film.mp4", "a note", 200, 50)
    data = (tmp_path / "-film.mp4").read_bytes()
    whole = np.frombuffer(data, np.uint8).reshape(-1, 20, 34, 3)
    assert [picture[0, 0, 0] for picture in whole] == [20, 120, 220, 220, 220, 220]
    assert (whole[:, :, 33] == (247, 242, 232)).all()
    order = (tmp_path / "order.txt").read_text().split("\n")
    for words in ("34x20", "1000/50", "mpeg4", "comment=a note", "./-film.mp4", "+bitexact"):
        assert words in order
    assert "-crf" not in order


def test_a_missing_ffmpeg_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(VideoError, match=r"not on PATH .*\.gif, \.webp"):
        find_ffmpeg()
    with pytest.raises(VideoError):
        save_video(frames(), tmp_path / "film.mp4", "", 50, 200)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("program", "said"),
    [
        (FAILS, r"exit code 3\): no room\\x1b\[31m"),
        (SILENT, "it says nothing"),
        (DEAF, "it says nothing"),
    ],
)
def test_what_ffmpeg_complains_of_is_said_on_one_line(
    program: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stand_in(tmp_path, program, monkeypatch)
    large = frames(400, 300)  # more than a pipe holds
    with pytest.raises(VideoError, match=said) as refusal:
        save_video(large, tmp_path / "film.mp4", "", 50, 200)
    assert str(refusal.value).isprintable()
    assert not (tmp_path / "film.mp4").exists()


def test_an_ffmpeg_that_hangs_is_given_up(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stand_in(tmp_path, SLEEPS, monkeypatch)
    monkeypatch.setattr(video, "_PATIENCE", 0.2)
    monkeypatch.setattr(video, "_encoder", lambda program: "mpeg4")
    with pytest.raises(VideoError, match="no film within"):
        save_video(frames(), tmp_path / "film.mp4", "", 50, 200)


def test_a_program_that_cannot_be_started_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    stand_in(tmp_path, "", monkeypatch)
    (tmp_path / "bin" / "ffmpeg").write_text("#!/no/such/interpreter\n", encoding="utf-8")
    with pytest.raises(VideoError, match="cannot be started"):
        save_video(frames(), tmp_path / "film.mp4", "", 50, 200)


@pytest.mark.skipif(shutil.which("ffmpeg") is None, reason="ffmpeg is not installed")
def test_a_real_ffmpeg_gives_the_frames_back(tmp_path: Path) -> None:
    for name in ("one.mp4", "two.mp4"):
        save_film(frames(64, 48), tmp_path / name, "a note", 200, 50)
    assert (tmp_path / "one.mp4").read_bytes() == (tmp_path / "two.mp4").read_bytes()
    read = subprocess.run(
        ["ffmpeg", "-v", "error", "-i", str(tmp_path / "one.mp4"), "-f", "rawvideo", "-pix_fmt",
         "rgb24", "-"],
        capture_output=True, check=True,
    )  # fmt: skip
    whole = np.frombuffer(read.stdout, np.uint8).reshape(-1, 48, 64, 3)
    assert len(whole) == 6
    for picture, shade in zip(whole, (20, 120, 220, 220, 220, 220), strict=True):
        middle = picture[24, 32].astype(int)
        assert np.abs(middle - (shade, shade, 255 - shade)).max() < 12
