"""The films of the guide's page on films."""

from __future__ import annotations

from pathlib import Path

from making.runs import compared
from simgait.pictures.films.drawing import draw_stance_film
from simgait.pictures.films.wish import FilmWish
from simgait.stance.differing import most_different

SHOWN = "everyday"
WIDTH = 720  # [pixel]


def draw(layout: str, count: int, path: Path) -> None:
    """Draw the film of the shown case in one of the layouts, with this many runs."""
    comparison = compared(SHOWN)
    wish = FilmWish(
        layout=layout,
        together="hips",
        slow=None,
        curves=("knee-moment", "vertical-force"),
        width=WIDTH,
    )
    draw_stance_film(comparison, path, most_different(comparison, count), wish)


def draw_beside(path: Path) -> None:
    """Draw two limbs side by side."""
    draw("side-by-side", 2, path)


def draw_overlaid(path: Path) -> None:
    """Draw two limbs over each other."""
    draw("overlaid", 2, path)
