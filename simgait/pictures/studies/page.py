"""The sheet that every picture of a study stands on: title, runs and seed, notes, cautions."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from simgait.files import write_whole
from simgait.pictures.letters import broken, drawing
from simgait.pictures.studies.words import ending_name, ending_order
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["Box", "Page", "StudyLike", "broken", "drawing", "dress", "open_page", "write_page"]

Box = tuple[float, float, float, float]  # left, bottom, width, height [inch]

MARGIN = 0.32  # [inch] left and right
_LINE, _TITLE_LINE, _TOP, _FOOT = 0.19, 0.27, 0.20, 0.12  # [inch]
_SMALL, _TITLE = 8.5, 14.0  # [point]
_RESOLUTION = 120  # [pixel/inch]


class StudyLike(Protocol):
    """What is known of a study as a whole, from its store."""

    @property
    def title(self) -> str: ...
    @property
    def rows(self) -> int: ...  # stored
    @property
    def planned(self) -> int: ...
    @property
    def endings(self) -> Mapping[str, int]: ...  # runs by ending
    @property
    def seed(self) -> int: ...
    @property
    def method(self) -> str: ...  # "grid", "sobol", "lhs"
    @property
    def cautions(self) -> Sequence[str]: ...
    @property
    def version(self) -> str: ...


_METHODS = {
    "grid": "grid",
    "sobol": "Sobol sample",
    "lhs": "Latin hypercube",
    "saltelli": "design for Sobol indices",
    "morris": "Morris' trajectories",
}


@dataclass(frozen=True, kw_only=True)
class Page:
    """A figure with its head and foot; the body between them is free."""

    figure: "Figure"
    study: StudyLike
    body: Box

    def axes(self, box: Box) -> Any:
        """Axes at a place of the body, measured from the body's lower left corner [inch]."""
        wide, high = self.figure.get_size_inches()
        left, bottom = self.body[0] + box[0], self.body[1] + box[1]
        axes = self.figure.add_axes((left / wide, bottom / high, box[2] / wide, box[3] / high))
        axes.set_facecolor(hex_colour(PAPER))
        return axes


def open_page(
    study: StudyLike, subject: str, notes: Sequence[str], *, width: float, height: float
) -> Page:
    """A page whose body is `width` by `height` [inch], under the study's title and what is shown.

    notes: sentences under the title, one after the other.

    Raises
    ------
    ValueError : the study has no cautions.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    if not study.cautions:
        raise ValueError("a picture without cautions is not drawn; pass the study's cautions")
    version = f"simgait {study.version}"
    room = width - 0.1 - len(version) * 0.075
    title = broken(study.title, room, _TITLE, True) or ("",)
    head = [*broken(subject, width, 10.5, True)]
    small = [*broken(_runs(study), width)]
    small += broken(" ".join(note for note in notes if note), width)
    feet = broken(" ".join(study.cautions), width)
    top = _TOP + _TITLE_LINE * len(title) + 0.22 * len(head) + _LINE * len(small) + 0.14
    bottom = _FOOT + _LINE * len(feet) + 0.20
    figure = Figure(
        figsize=(width + 2.0 * MARGIN, top + height + bottom), facecolor=hex_colour(PAPER)
    )
    FigureCanvasAgg(figure)
    _write_head(figure, title, head, small, version)
    _write_feet(figure, feet)
    return Page(figure=figure, study=study, body=(MARGIN, bottom, width, height))


def _runs(study: StudyLike) -> str:
    """How many runs, how they were chosen, how they ended."""
    method = _METHODS.get(study.method, study.method)
    stored = f"{study.rows:,} runs"
    if study.rows < study.planned:
        stored = f"{study.rows:,} of {study.planned:,} planned runs"
    bad = {name: study.endings[name] for name in ending_order(study.endings) if name != "toe_off"}
    total = sum(bad.values())
    ended = "all ended with toe-off" if not total else f"{total:,} ended badly"
    counted = ", ".join(f"{ending_name(name)} {count:,}" for name, count in bad.items() if count)
    return f"{stored} ({method}, seed {study.seed}); {ended}{f': {counted}' if total else ''}."


def _write_head(
    figure: "Figure",
    title: Sequence[str],
    head: Sequence[str],
    small: Sequence[str],
    version: str,
) -> None:
    wide, high = figure.get_size_inches()
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    down = _TOP + 0.14
    figure.text(1.0 - MARGIN / wide, 1.0 - down / high, version, size=8, color=soft, ha="right")
    blocks = ((title, _TITLE, "bold", ink, _TITLE_LINE), (head, 10.5, "bold", ink, 0.22))
    for lines, size, weight, colour, step in (*blocks, (small, _SMALL, "normal", ink, _LINE)):
        for line in lines:
            figure.text(
                MARGIN / wide, 1.0 - down / high, line, size=size, weight=weight, color=colour
            )
            down += step


def _write_feet(figure: "Figure", feet: Sequence[str]) -> None:
    """The cautions under an accent rule, at the foot of the figure."""
    from matplotlib.lines import Line2D

    wide, high = figure.get_size_inches()
    left, right = MARGIN / wide, 1.0 - MARGIN / wide
    for row, line in enumerate(feet):
        up = _FOOT + _LINE * (len(feet) - 1 - row)
        figure.text(left, up / high, line, size=_SMALL, color=hex_colour(INK), gid="caution")
    rule = (_FOOT + _LINE * len(feet)) / high
    figure.add_artist(Line2D([left, right], [rule, rule], color=hex_colour(ACCENT), linewidth=1.2))


def dress(axes: Any, *, grid: str = "both") -> None:
    """A quiet frame: left and lower edge, faint grid ("both", "x", or "none")."""
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(soft)
    axes.tick_params(colors=ink, labelsize=8, length=3)
    if grid != "none":
        axes.grid(True, axis=grid, color=soft, alpha=0.22, linewidth=0.5)
    axes.set_axisbelow(True)


def write_page(page: Page, path: str | os.PathLike[str]) -> Path:
    """Write the page whole, as PNG that carries title, version and cautions; return its path.

    Raises
    ------
    ValueError : the name does not end in .png.
    OSError : the file cannot be written.
    """
    final = Path(path)
    if final.suffix.lower() != ".png":
        raise ValueError(f"a picture of a study is written as .png, not as '{final.name}'")
    study = page.study
    said = " ".join((_runs(study), *study.cautions, f"simgait {study.version}"))
    metadata = {"Title": study.title, "Description": said}
    with write_whole(final) as partial, drawing():
        page.figure.savefig(
            partial, dpi=_RESOLUTION, metadata=metadata, facecolor=hex_colour(PAPER)
        )
    return final
