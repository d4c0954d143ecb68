"""Where everything stands in a stance film, with every text already broken to fit."""

from collections.abc import Sequence
from dataclasses import dataclass

from simgait.pictures.films.graphs import GraphBox, graph_boxes
from simgait.pictures.films.window import window
from simgait.pictures.films.wish import NARROW, FilmWish
from simgait.pictures.inputs import ComparisonLike
from simgait.pictures.limb import FORCE_SCALE, View
from simgait.pictures.poses import Poses
from simgait.pictures.still import wrapped
from simgait.pictures.wording import alignment_labels, shared_settings, sign_key

__all__ = ["KEY_BAR", "Page", "page_of"]

KEY_BAR = 0.2  # [m] length of the scale bar
_WIDE = 900  # [pixel] from here on four limbs stand in a row
_LIMBS = {1: 0.50, 2: 0.60}  # share of the width for the limbs, where curves stand beside them
_MOST_HIGH = 0.52  # of a limb's window, as a share of the film's width


@dataclass(frozen=True, kw_only=True)
class Page:
    """Places [pixel] and words of a film."""

    width: int
    height: int
    em: int  # size of letters
    title: tuple[str, ...]
    heading: tuple[str, ...]
    cautions: tuple[str, ...]
    key: tuple[tuple[str, ...], ...]  # words beside arrow, bar and lever; then what else to know
    labels: tuple[tuple[str, ...], ...]  # of the runs shown
    corners: tuple[tuple[int, int], ...]  # upper left of each window of limbs
    label_height: int  # above each window
    view: View
    graphs: tuple[GraphBox, ...]
    key_top: int

    @property
    def row(self) -> int:
        """Height of a line of words [pixel]."""
        return round(1.35 * self.em)

    @property
    def margin(self) -> int:
        """Empty border [pixel]."""
        return margin_of(self.em)


def em_of(width: int) -> int:
    """Size of letters [pixel] in a film of a width [pixel].

    >>> em_of(480), em_of(960), em_of(1600)
    (11, 14, 20)
    """
    return min(max(round(width / 68), 11), 20)


def margin_of(em: int) -> int:
    """Empty border [pixel] for letters of a size [pixel]."""
    return round(1.15 * em)


def page_of(
    comparison: ComparisonLike,
    shown: Sequence[int],
    tracks: Sequence[Poses | None],
    wish: FilmWish,
    slow: float,
) -> Page:
    """The page of a film that shows these runs."""
    em = em_of(wish.width)
    row, margin, gap = round(1.35 * em), margin_of(em), round(0.8 * em)
    whole = wish.width - 2 * margin
    title = wrapped(comparison.title, whole - 11 * em, round(1.4 * em), True)
    heading = wrapped(_heading(comparison, shown, slow), whole - 6 * em, em)
    top = margin + round(1.9 * em) * len(title) + row * len(heading) + gap
    windows = 1 if wish.overlaid else len(shown)
    beside = wish.width >= NARROW and windows <= 2 and 1 <= len(wish.curves) <= 3
    columns = _columns(windows, wish.width)
    limbs = round(whole * _LIMBS[windows]) if beside else whole
    cell = (limbs - gap * (columns - 1)) // columns
    labels = _labels(comparison, shown, cell - (9 if wish.overlaid else 6) * em, em)
    label_height = row * (sum if wish.overlaid else max)(map(len, labels)) + round(0.6 * em)
    state = row * (len(shown) if wish.overlaid else 2) + round(0.7 * em)
    most = (cell, round(_MOST_HIGH * wish.width))
    view = window([comparison.results[index] for index in shown], tracks, most, state)
    step = (cell + gap, view.height + gap)
    corners = _corners(windows, columns, (margin, top), step, label_height)
    bottom = corners[-1][1] + view.height
    box = (margin + limbs + gap, top, whole - limbs - gap, bottom - top)
    if not beside:
        box = (margin, bottom + gap, whole, 0)
    graphs = graph_boxes(wish.panels, box, em, 1 if beside or wish.width < NARROW else 3)
    key = _key(comparison, wish, view, whole, em)
    key_top = max([bottom, *(graph.bottom for graph in graphs)]) + gap
    cautions = wrapped(" ".join(comparison.cautions), whole, em)
    return Page(
        width=wish.width, height=_height(key_top, key, len(cautions), em), em=em, title=title,
        heading=heading,
        cautions=cautions, key=key, labels=labels, corners=corners, label_height=label_height,
        view=view, graphs=graphs, key_top=key_top,
    )  # fmt: skip


def _height(key_top: int, key: Sequence[Sequence[str]], cautions: int, em: int) -> int:
    """Height of the film [pixel], even; cautions: rows of them."""
    row = round(1.35 * em)
    rows = row * (sum(len(words) for words in key) + cautions)
    high = key_top + rows + round(0.4 * em) * len(key) + 2 * round(0.8 * em)
    return high + high % 2


def _corners(
    windows: int, columns: int, first: tuple[int, int], step: tuple[int, int], label_height: int
) -> tuple[tuple[int, int], ...]:
    """Upper left pixels of windows in rows; step: from window to window, without labels."""
    return tuple(
        (
            first[0] + (i % columns) * step[0],
            first[1] + label_height + (i // columns) * (step[1] + label_height),
        )
        for i in range(windows)
    )


def _columns(windows: int, width: int) -> int:
    """How many windows of limbs stand in a row."""
    if windows == 4:
        return 4 if width >= _WIDE else 2
    return min(windows, 3 if width >= NARROW else 2)


def _heading(comparison: ComparisonLike, shown: Sequence[int], slow: float) -> str:
    same = shared_settings([comparison.results[index] for index in shown])
    total = len(comparison.results)
    return " ".join(
        part
        for part in (
            f"In all: {same}." if same else "",
            f"{len(shown)} of {total} alignments." if len(shown) < total else "",
            f"{slow:.3g} times slower than life, one clock from heel contact."
            if slow != 1.0
            else "As fast as life, one clock from heel contact.",
        )
        if part
    )


def _labels(
    comparison: ComparisonLike, shown: Sequence[int], width: int, em: int
) -> tuple[tuple[str, ...], ...]:
    """The label of each run shown, broken to a width [pixel]."""
    named = alignment_labels([comparison.results[index] for index in shown])
    return tuple(
        wrapped(f"baseline: {label}" if index == comparison.baseline else label, width, em, True)
        for index, label in zip(shown, named, strict=True)
    )


def _key(
    comparison: ComparisonLike, wish: FilmWish, view: View, whole: int, em: int
) -> tuple[tuple[str, ...], ...]:
    """Words beside the arrow with the bar, beside the lever, and the rest, broken to fit."""
    signs = sign_key(comparison.results)
    arrow, bar = FORCE_SCALE * view.scale, KEY_BAR * view.scale
    rest = [
        "Thick sole: pressed on the floor. Widths of the limbs are drawn, not measured.",
        f"Signs: {signs}." if signs else "",
        f"The limbs are moved along the floor until the {wish.together} are together; heights are "
        "true."
        if wish.overlaid
        else "",
    ]
    room = whole - round(arrow + bar) - 5 * em
    return (
        wrapped(
            "200 mm, and the ground force of one body weight, to the scale of the limbs", room, em
        ),
        wrapped(
            "knee lever, square to the force line: + force behind the knee, tends to bend it; "
            "\u2212 ahead of the knee, tends to straighten it",
            whole - 5 * em,
            em,
        ),
        wrapped(" ".join(filter(None, rest)), whole, em),
    )
