"""What stands still in a stance film: title, labels, frames, axes, key, cautions."""

from collections.abc import Sequence

from PIL import Image, ImageDraw

from simgait.pictures.films.graphs import Growing, draw_axes, draw_sample
from simgait.pictures.films.page import KEY_BAR, Page
from simgait.pictures.films.wish import FilmWish
from simgait.pictures.inputs import ComparisonLike
from simgait.pictures.limb import FORCE_SCALE, SAMPLES, Sheet, draw_arrow
from simgait.pictures.still import write_lines
from simgait.pictures.style import font

__all__ = ["draw_static"]


def draw_static(
    comparison: ComparisonLike,
    shown: Sequence[int],
    wish: FilmWish,
    page: Page,
    graphs: Sequence[Growing],
) -> tuple[Image.Image, Image.Image]:
    """The ink and accent layers of everything that does not move."""
    size = (page.width, page.height)
    ink, accent = Image.new("L", size), Image.new("L", size)
    pen = ImageDraw.Draw(ink)
    large, left, right = round(1.4 * page.em), page.margin, page.width - page.margin
    for i, line in enumerate(page.title):
        place = (left, page.margin - 3 + i * round(1.9 * page.em))
        pen.text(place, line, fill=255, font=font(large, True))
    version = f"simgait {comparison.version}"
    pen.text((right, page.margin), version, fill=160, font=font(page.em - 2), anchor="ra")
    below = page.margin + round(1.9 * page.em) * len(page.title)
    write_lines(pen, (left, below), page.heading, 200, page.em, page.row)
    if wish.overlaid:
        _draw_overlaid_head(pen, comparison, shown, page, bool(graphs))
    else:
        for cell, index in enumerate(shown):
            _draw_cell_head(pen, page, cell, index, index == comparison.baseline)
            if graphs:
                x, y = page.corners[cell]
                middle = y - page.label_height + 4 + round(0.6 * page.em)
                ends = (x + page.view.width - 3 * page.em, x + page.view.width - 8, middle)
                draw_sample(pen, cell, ends, index == comparison.baseline)
    for graph in graphs:
        draw_axes(ink, graph, page.em)
    _draw_key(ink, accent, page)
    _draw_cautions(pen, ImageDraw.Draw(accent), page)
    return ink, accent


def _draw_cell_head(
    pen: ImageDraw.ImageDraw, page: Page, cell: int, index: int, is_baseline: bool
) -> None:
    """Frame, number and label of one window."""
    x, y = page.corners[cell]
    head, right, bottom = y - page.label_height, x + page.view.width, y + page.view.height
    pen.rectangle((x - 1, head - 1, right, bottom), outline=255 if is_baseline else 110)
    if is_baseline:
        pen.rectangle((x - 1, head - 1, right, y - 2), fill=235)
    strength, em = 0 if is_baseline else 255, page.em
    pen.text((x + 5, head + 3), str(index + 1), fill=strength, font=font(em + 1, True))
    for i, line in enumerate(page.labels[cell]):
        place = (x + round(2.2 * em), head + 4 + i * page.row)
        pen.text(place, line, fill=strength, font=font(em, True))


def _draw_overlaid_head(
    pen: ImageDraw.ImageDraw,
    comparison: ComparisonLike,
    shown: Sequence[int],
    page: Page,
    graphs: bool,
) -> None:
    """Frame of the one window, and above it one row a run: look, number, label."""
    (x, y), em = page.corners[0], page.em
    head, right, bottom = y - page.label_height, x + page.view.width, y + page.view.height
    pen.rectangle((x - 1, head - 1, right, bottom), outline=110)
    line = 0
    for place, index in enumerate(shown):
        top = head + 4 + line * page.row
        fill, outline = ((46, 110), (30, 255), (0, 150))[min(place, 2)]
        box = (x + 6, top + 2, x + 6 + 2 * em, top + em + 1)
        pen.rectangle(box, fill=fill, outline=outline, width=2)
        pen.text((x + round(3.2 * em), top), str(index + 1), fill=255, font=font(em, True))
        bold = index == comparison.baseline
        for i, words in enumerate(page.labels[place]):
            at = (x + round(4.7 * em), top + i * page.row)
            pen.text(at, words, fill=255, font=font(em, bold))
        if graphs:
            ends = (right - 3 * em, right - 8, top + round(0.6 * em))
            draw_sample(pen, place, ends)
        line += len(page.labels[place])


def _draw_key(ink: Image.Image, accent: Image.Image, page: Page) -> None:
    """Scale bar with the arrow of one body weight, the lever, and what else to know."""
    pen, em = ImageDraw.Draw(ink), page.em
    left, top, gap = page.margin, page.key_top, round(0.4 * page.em)
    bar, arrow = round(KEY_BAR * page.view.scale), round(FORCE_SCALE * page.view.scale)
    middle = top + page.row // 2
    pen.line((left, middle, left + bar, middle), fill=255, width=3)
    for end in (left, left + bar):
        pen.line((end, middle - 5, end, middle + 5), fill=255, width=2)
    sheet = Sheet(arrow + 8, 16)
    draw_arrow(sheet, [(4 * SAMPLES, 8 * SAMPLES), ((arrow + 4) * SAMPLES, 8 * SAMPLES)])
    accent.paste(sheet.reduced()[1], (left + bar + em, middle - 8))
    x = left + bar + arrow + round(2.6 * em)
    write_lines(pen, (x, top), page.key[0], 230, em, page.row)
    top += page.row * len(page.key[0]) + gap
    middle, end = top + page.row // 2, left + round(2.6 * em)
    pen.line((left + 4, middle, end, middle), fill=255, width=4)
    for dot in (left + 4, end):
        pen.ellipse((dot - 4, middle - 4, dot + 4, middle + 4), fill=255)
    write_lines(pen, (end + em, top), page.key[1], 230, em, page.row)
    top += page.row * len(page.key[1]) + gap
    write_lines(pen, (left, top), page.key[2], 230, em, page.row)


def _draw_cautions(pen: ImageDraw.ImageDraw, brush: ImageDraw.ImageDraw, page: Page) -> None:
    """The cautions under an accent rule, at the foot of the film."""
    top = page.height - page.row * len(page.cautions) - round(0.6 * page.em)
    right = page.width - page.margin
    brush.line((page.margin, top - 5, right, top - 5), fill=255, width=2)
    write_lines(pen, (page.margin, top), page.cautions, 255, page.em, page.row)
