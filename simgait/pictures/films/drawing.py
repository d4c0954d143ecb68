"""The stance film for showing: every frame drawn, and the whole written."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageChops

from simgait.files import write_whole
from simgait.pictures.films.clock import HELD_MS, Clock, clock_of
from simgait.pictures.films.graphs import Growing
from simgait.pictures.films.moving import draw_alone, draw_clock, draw_heads, draw_over
from simgait.pictures.films.page import Page, page_of
from simgait.pictures.films.static import draw_static
from simgait.pictures.films.window import moved_together
from simgait.pictures.films.wish import MOST_RUNS, FilmWish
from simgait.pictures.inputs import ComparisonLike, require_drawable
from simgait.pictures.limb import Sheet
from simgait.pictures.palette import inked, palette_bytes
from simgait.pictures.poses import Poses, poses_at
from simgait.pictures.reel import require_film_name, save_film

__all__ = ["StanceFilm", "draw_stance_film"]


@dataclass(frozen=True, kw_only=True)
class StanceFilm:
    """What was written: file, frames, size [pixel], slow motion factor, indices of runs shown."""

    path: Path
    frames: int
    width: int
    height: int
    slow_motion: float
    shown: tuple[int, ...]


def draw_stance_film(
    comparison: ComparisonLike,
    path: str | os.PathLike[str],
    shown: Sequence[int],
    wish: FilmWish,
) -> StanceFilm:
    """Draw a stance film and write it whole: GIF, WebP or MP4, as the name says.

    shown: indices of the runs, in this order; an overlaid film draws the first pale under the
    others.  MP4 needs the program ffmpeg.

    Raises
    ------
    ValueError : nothing to draw, no cautions, no run or too many, or a name of another kind.
    SimgaitError : ffmpeg is missing, or could not make the film.
    OSError : the file cannot be written.
    """
    require_drawable(comparison)
    final = Path(path)
    require_film_name(final)
    most = MOST_RUNS[wish.layout]
    if not 1 <= len(shown) <= most:
        raise ValueError(f"{len(shown)} runs; a film with this layout shows 1 to {most}")
    results = [comparison.results[index] for index in shown]
    clock = clock_of(results, wish.slow)
    tracks: Sequence[Poses | None] = [poses_at(each.curves, clock.times) for each in results]
    if wish.overlaid:
        tracks = moved_together(tracks, wish.together)
    page = page_of(comparison, shown, tracks, wish, clock.slow)
    frames = list(_frames(comparison, tuple(shown), tracks, wish, page, clock))
    note = f"{comparison.title}. {' '.join(comparison.cautions)} simgait {comparison.version}"
    with write_whole(final) as partial:
        save_film(frames, partial, note, HELD_MS, clock.shown_ms)
    return StanceFilm(
        path=final, frames=len(frames), width=page.width, height=page.height,
        slow_motion=clock.slow, shown=tuple(shown),
    )  # fmt: skip


def _frames(
    comparison: ComparisonLike,
    shown: tuple[int, ...],
    tracks: Sequence[Poses | None],
    wish: FilmWish,
    page: Page,
    clock: Clock,
) -> Iterator[Image.Image]:
    results = [comparison.results[index] for index in shown]
    graphs = [Growing(box, results, clock.times) for box in page.graphs]
    still = draw_static(comparison, shown, wish, page, graphs)
    sheet, colours = Sheet(page.view.width, page.view.height), palette_bytes()
    for frame, time in enumerate(clock.times.tolist()):
        ink, accent = still[0].copy(), still[1].copy()
        draw_clock(ink, page, time)
        if wish.overlaid:
            drawn = [draw_over(sheet, page, tracks, frame, shown, results)]
        else:
            drawn = [
                draw_alone(sheet, page, track, frame, result)
                for track, result in zip(tracks, results, strict=True)
            ]
        for corner, (limb_ink, limb_accent) in zip(page.corners, drawn, strict=True):
            ink.paste(limb_ink, corner)
            accent.paste(limb_accent, corner)
        for graph in graphs:
            graph.grow(frame)
            layer, corner = graph.curves()
            _lay(ink, layer, corner)
            draw_heads(ink, graph, shown, page.em)
        yield inked(ink, accent, colours)


def _lay(ink: Image.Image, layer: Image.Image, corner: tuple[int, int]) -> None:
    """Lay a layer over the ink, the stronger of both."""
    box = (*corner, corner[0] + layer.width, corner[1] + layer.height)
    ink.paste(ImageChops.lighter(ink.crop(box), layer), corner)
