"""The two pages of a report, written with a pen; the same functions measure and draw."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from simgait.pictures.report_pen import BOTTOM, LEFT, WIDTH, Pen
from simgait.pictures.report_strip import scale_words
from simgait.pictures.style import ACCENT, SOFT_INK
from simgait.pictures.wording import alignment_labels
from simgait.report.content import Cell, Facts, Report

__all__ = ["BLANK_CODE", "BLANK_DATE", "Page", "fitted", "page_one", "page_two"]

Page = Callable[[Pen, Report, float], None]
BODY, SMALL, TINY = 7.2, 6.6, 5.7  # [point]
TITLES = 64.0  # [mm] width of the first column of the table of measures
BLANK_CODE = "Wearer's code: ____________________"
BLANK_DATE = "Date: ____________________"
SMALLEST, SCALE_STEP = 0.5, 0.02


def fitted(page: Page, report: Report, least: float, most: float) -> tuple[float, float]:
    """Return the scale of the letters and the height [mm] of what can be taller or lower.

    page: measured with ever smaller letters until it fits; least, most: of that height.

    Raises:
        ValueError: it does not even fit with the smallest letters.
    """
    steps = round((1.0 - SMALLEST) / SCALE_STEP) + 1
    for step in range(steps):
        scale = 1.0 - SCALE_STEP * step
        pen = Pen(None, scale)
        page(pen, report, least)
        if pen.down <= BOTTOM:
            return scale, min(most, least + BOTTOM - pen.down)
    raise ValueError("the report does not fit on its pages")


def page_one(pen: Pen, report: Report, strip: float) -> None:
    """Write the first page; where the pictures go, `strip` [mm] are left."""
    write_head(pen, report, 1)
    pen.space(1.0)
    third = WIDTH / len(report.facts)
    pen.side_by_side(
        [
            partial(_write_facts, facts=facts, left=LEFT + place * third, width=third - 4.0)
            for place, facts in enumerate(report.facts)
        ]
    )
    pen.heading("Alignments compared")
    _write_runs(pen, report)
    pen.heading("Pictures")
    pen.picture(strip)
    pen.text(scale_words(report, strip), TINY, colour=SOFT_INK)
    pen.heading("Measures")
    _write_measures(pen, report)


def write_head(pen: Pen, report: Report, number: int) -> None:
    """Write title, code, date, version and page."""
    pen.text(report.title, 12.0 if number == 1 else 9.0, bold=True, width=WIDTH - 45.0)
    start = pen.down
    pen.down = start - 4.5 * pen.scale
    words = f"simgait {report.version}, page {number} of 2"
    pen.put([words], TINY, left=LEFT + WIDTH, colour=SOFT_INK, align="right")
    pen.down = start
    code = f"Wearer's code: {report.code}" if report.code else BLANK_CODE
    date = f"Date: {report.date}" if report.date else BLANK_DATE
    pen.space(1.0)
    pen.text(f"Report on alignment. {code}. {date}", BODY)
    pen.space(0.8)
    pen.rule(ACCENT, 1.0)


def _write_facts(pen: Pen, facts: Facts, left: float, width: float) -> None:
    pen.text(facts.heading, BODY, left=left, width=width, bold=True)
    for name, value in facts.lines:
        pen.text(f"{name}: {value}", SMALL, left=left, width=width)


def _write_runs(pen: Pen, report: Report) -> None:
    """Write the table of alignments."""
    widths = (20.0, *(23.0 for _ in report.setting_names), WIDTH - 20.0 - 23.0 * 5)
    heads = ("", *(f"{title} [{unit}]" for title, unit in report.setting_names), "ended with")
    lefts = [LEFT + sum(widths[:place]) for place in range(len(widths))]
    _write_line(pen, heads, lefts, widths, True)
    for run in report.runs:
        name = f"{run.number} baseline" if run.baseline else f"{run.number}"
        end = f"{run.ending}: {run.remarks}" if run.remarks else run.ending
        _write_line(pen, (name, *run.values, end), lefts, widths, run.baseline)
    if report.shown_note:
        pen.text(report.shown_note, TINY, colour=SOFT_INK)


def _write_line(
    pen: Pen, texts: tuple[str, ...], lefts: list[float], widths: tuple[float, ...], bold: bool
) -> None:
    pen.side_by_side(
        [
            partial(Pen.text, words=words, size=SMALL, left=left, width=width - 1.5, bold=bold)
            for words, left, width in zip(texts, lefts, widths, strict=True)
        ]
    )


def page_two(pen: Pen, report: Report, notes: float) -> None:
    """Write the second page; for the notes, `notes` [mm] are ruled."""
    write_head(pen, report, 2)
    if report.changes:
        pen.heading("What changes, and why")
        pen.text(report.assumption, SMALL, colour=SOFT_INK)
        for change in report.changes:
            pen.space(0.8)
            pen.text(f"{change.number}: {change.heading}", BODY, bold=True)
            for sentence in change.sentences:
                pen.text(sentence, SMALL)
    pen.heading("How certain this is")
    for sentence in report.uncertainty:
        pen.text(sentence, SMALL)
    for heading, lines in (
        ("Filled in where the case says nothing", report.filled),
        ("Sources of the numbers", report.sources),
    ):
        if lines:
            pen.heading(heading)
            pen.text(". ".join(line.rstrip(".") for line in lines) + ".", TINY)
    pen.space(1.4)
    pen.rule(ACCENT, 1.0)
    for caution in report.cautions:
        pen.text(caution, BODY, bold=True)
    pen.heading("Notes of the fitter")
    _rule_notes(pen, notes)


def _rule_notes(pen: Pen, height: float) -> None:
    """Leave lines to write on, and at their end one for date and signature."""
    end = pen.down + height
    while pen.down + 16.0 < end:
        pen.down += 8.0
        pen.rule(thick=0.3)
    pen.down = end - 4.0
    for left, words in ((LEFT, "date"), (LEFT + WIDTH - 90.0, "signature")):
        pen.rule(thick=0.6, left=left, width=50.0 if left == LEFT else 90.0)
        down = pen.down
        pen.put([words], TINY, left=left, colour=SOFT_INK)
        pen.down = down
    pen.down = end


def _write_measures(pen: Pen, report: Report) -> None:
    """Write the table of measures, with changes and spans."""
    wide = (WIDTH - TITLES) / len(report.shown)
    labels = alignment_labels(report.comparison.results)
    heads = [partial(_write_title, title="", sentence="In small print: 95 of 100 draws.")]
    for place, (run, index) in enumerate(zip(report.runs, report.shown, strict=True)):
        words = f"{run.number} baseline" if run.baseline else f"{run.number}"
        left = LEFT + TITLES + place * wide
        heads.append(partial(_write_cell, top=words, small=labels[index], left=left, width=wide))
    pen.side_by_side(heads)
    for row in report.rows:
        pen.space(0.5)
        pen.rule(thick=0.25)
        parts = [partial(_write_title, title=f"{row.title} [{row.unit}]", sentence=row.sentence)]
        for place, cell in enumerate(row.cells):
            left = LEFT + TITLES + place * wide
            parts.append(
                partial(_write_cell, top=cell_words(cell), small=cell.span, left=left, width=wide)
            )
        pen.side_by_side(parts)


def cell_words(cell: Cell) -> str:
    """Return value and change; a change that is not told apart stands in brackets."""
    if not cell.change:
        return cell.value
    return f"{cell.value}  {cell.change if cell.told_apart else f'[{cell.change}]'}"


def _write_title(pen: Pen, title: str, sentence: str) -> None:
    if title:
        pen.text(title, SMALL, width=TITLES - 3.0, bold=True)
    pen.text(sentence, TINY, width=TITLES - 3.0, colour=SOFT_INK)


def _write_cell(pen: Pen, top: str, small: str, left: float, width: float) -> None:
    pen.text(top, SMALL, left=left, width=width - 1.0)
    if small:
        pen.text(small, TINY, left=left, width=width - 1.0, colour=SOFT_INK)
