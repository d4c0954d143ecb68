"""Pictures of results: they turn numbers into ink and compute none.

`draw_comparison` makes the comparison figure, `draw_film` the stance film. Importing this room
loads no drawing library; each function loads what it needs.
"""

import os
from typing import TYPE_CHECKING

from simgait.pictures.inputs import ComparisonLike

if TYPE_CHECKING:
    from simgait.pictures.comparison import FigureSummary
    from simgait.pictures.film import FilmSummary

__all__ = ["draw_comparison", "draw_film"]


def draw_comparison(comparison: ComparisonLike, path: str | os.PathLike[str]) -> "FigureSummary":
    """Draw the comparison figure; see `simgait.pictures.comparison.draw_comparison`."""
    from simgait.pictures.comparison import draw_comparison as draw

    return draw(comparison, path)


def draw_film(comparison: ComparisonLike, path: str | os.PathLike[str]) -> "FilmSummary":
    """Draw the stance film; see `simgait.pictures.film.draw_film`."""
    from simgait.pictures.film import draw_film as draw

    return draw(comparison, path)
