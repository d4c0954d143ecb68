"""The pages of the gallery: one a case, with scenario, figure and answer."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from making.answers import ANSWERS
from making.ink import save
from making.listing import Page, Picture
from making.runs import compared, scenario
from making.text import page
from simgait.library import names
from simgait.pictures import draw_film
from simgait.pictures.comparison import comparison_figure

FILMED = "everyday"
FIGURE_RESOLUTION = 100  # [pixel/inch]


def draw_figure(name: str, path: Path) -> None:
    """Draw the comparison figure of a case, smaller than the command does."""
    save(comparison_figure(compared(name)), path, FIGURE_RESOLUTION)


def film(path: Path) -> None:
    """Draw the stance film of the filmed case."""
    draw_film(compared(FILMED), path)


def case_page(name: str) -> str:
    """Return the page of one case."""
    comparison = compared(name)
    parts = [
        f"An invented case: no real person stands behind it. {scenario(name)}",
        f"```\nsimgait compare models/cases/{name}.toml\n```",
        f"![{len(comparison.results)} alignments compared: knee moment, socket moment, vertical "
        f"force, centre of pressure, and main measures]({name}.png)",
        f"## Answer\n\n{ANSWERS[name]()}",
    ]
    if name == FILMED:
        parts.append(
            "## Film\n\nThe same limbs side by side, to scale and in slow motion. The arrow is "
            "the ground force from the pressure point, the bar at the knee its "
            f"lever.\n\n![Stance film of the alignments side by side]({name}.gif)"
        )
    parts.append("## Cautions\n\n" + "\n".join(f"* {caution}" for caution in comparison.cautions))
    return page(comparison.title, *parts)


def pages() -> list[Page]:
    """Return the gallery's pages; every case of the library has one."""
    if set(ANSWERS) != set(names("cases")):
        raise KeyError(f"cases {names('cases')}; answers for {sorted(ANSWERS)}")
    return [
        Page(path=f"gallery/{name}.md", make=partial(case_page, name), band=0.01)
        for name in names("cases")
    ]


def pictures() -> list[Picture]:
    """Return the gallery's figures and its film."""
    figures = [
        Picture(path=f"gallery/{name}.png", draw=partial(draw_figure, name))
        for name in names("cases")
    ]
    return [*figures, Picture(path=f"gallery/{FILMED}.gif", draw=film, most_kb=2048)]
