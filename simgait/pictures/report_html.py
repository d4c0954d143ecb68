"""A report as one HTML page without scripts or anything to fetch; it prints on two A4 sheets."""

from __future__ import annotations

import io
import re
from collections.abc import Iterable
from html import escape

from simgait.pictures.report_pages import BLANK_CODE, BLANK_DATE, cell_words
from simgait.pictures.report_strip import STRIP_WIDTH, draw_strip, scale_words
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour
from simgait.pictures.wording import alignment_labels
from simgait.report.content import Report

__all__ = ["html_page"]

SVG_SIZE = r' width="[0-9.]+pt" height="[0-9.]+pt"'
LINES = 20  # for notes; those that the page has no room for are not shown
NARROWER = 0.96  # of the letters of the PDF: other letters than its own may be a little wider
STYLE = """
:root { --ink: INK; --soft: SOFT; --accent: ACCENT; --desk: DESK; }
* { box-sizing: border-box; }
body { margin: 0; background: var(--desk); color: var(--ink);
  font-family: "DejaVu Sans", "Liberation Sans", Arial, Helvetica, sans-serif; line-height: 1.24; }
.page { width: 210mm; height: 297mm; margin: 6mm auto; padding: 10mm; background: #fff;
  display: flex; flex-direction: column; font-size: calc(6.6pt * var(--size)); }
header { display: flex; flex-wrap: wrap; justify-content: space-between; gap: 1mm 6mm;
  border-bottom: 1pt solid var(--accent); padding-bottom: 1mm; }
h1 { font-size: calc(12pt * var(--size)); margin: 0; flex: 1 1 70%; overflow-wrap: anywhere; }
.second h1 { font-size: calc(9pt * var(--size)); }
h2 { font-size: calc(8.4pt * var(--size)); margin: calc(1.6mm * var(--size)) 0 0.6mm;
  border-bottom: 0.5pt solid var(--soft); }
h3 { font-size: calc(7.2pt * var(--size)); margin: calc(0.7mm * var(--size)) 0 0; }
p, dl, ul { margin: 0; }
.small { font-size: calc(5.7pt * var(--size)); color: var(--soft); }
.facts { display: grid; grid-template-columns: repeat(3, 1fr); gap: 0 4mm; }
dt { display: inline; } dt::after { content: ": "; } dd { display: inline; margin: 0; }
dl div { break-inside: avoid; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.2mm 1.5mm 0.2mm 0; font-weight: normal; }
th[scope=row] { white-space: nowrap; } .measures th[scope] { white-space: normal; }
tr.base > *, th strong, thead th.base { font-weight: bold; }
th .small { font-weight: normal; }
.measures tbody tr { border-top: 0.25pt solid var(--soft); }
.measures th[scope=row] { width: 64mm; }
.small, td .small, th .small { display: block; }
figure { margin: 0; } svg { display: block; width: 100%; height: auto; }
.cautions { border-top: 1pt solid var(--accent); margin-top: 1.4mm; padding-top: 0.5mm;
  font-weight: bold; font-size: calc(7.2pt * var(--size)); }
.notes { flex: 1 1 0; min-height: 20mm; overflow: hidden; }
.notes i { display: block; height: 8mm; border-bottom: 0.3pt solid var(--soft); }
.sign { display: flex; justify-content: space-between; margin-top: 8mm; }
.sign span { border-top: 0.6pt solid var(--ink); width: 50mm; } .sign span + span { width: 90mm; }
@page { size: A4; margin: 0; }
@media print { body { background: none; } .page { margin: 0; break-after: page; }
  .page:last-child { break-after: auto; } * { print-color-adjust: exact; } }
@media screen and (max-width: 210mm) { .page { width: auto; height: auto; margin: 0;
  font-size: 10pt; padding: 4mm; } .page .small { font-size: 8.5pt; } .page h1 { font-size: 15pt; }
  .page h2, .page h3 { font-size: 11pt; } .facts { grid-template-columns: 1fr; }
  .scroll { overflow-x: auto; } .notes { display: none; } }
"""


def html_page(report: Report, strip: float, scales: tuple[float, float]) -> str:
    """Return the page; every text of the case is escaped.

    strip: height of the pictures [mm]; scales: of the letters of both pages.
    """
    return "\n".join(
        (
            "<!doctype html>",
            '<html lang="en"><head><meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta http-equiv="Content-Security-Policy" '
            "content=\"default-src 'none'; style-src 'unsafe-inline'\">",
            f"<title>{escape(report.title)}</title><style>{_style()}</style></head><body>",
            _first(report, strip, scales[0]),
            _second(report, scales[1]),
            "</body></html>",
            "",
        )
    )


def _style() -> str:
    found = STYLE
    for name, colour in (("INK", INK), ("SOFT", SOFT_INK), ("ACCENT", ACCENT), ("DESK", PAPER)):
        found = found.replace(name, hex_colour(colour))
    return found


def _first(report: Report, strip: float, scale: float) -> str:
    facts = "".join(
        f"<div><h3>{escape(group.heading)}</h3><dl>"
        + "".join(
            f"<div><dt>{escape(name)}</dt><dd>{escape(value)}</dd></div>"
            for name, value in group.lines
        )
        + "</dl></div>"
        for group in report.facts
    )
    return (
        f'<main class="page" style="--size:{NARROWER * scale:.3f}">{_head(report, 1)}'
        f'<div class="facts">{facts}</div>'
        f"<h2>Alignments compared</h2><div {_aside('alignments compared')}>{_runs(report)}</div>"
        f"{_small(report.shown_note)}"
        f"<h2>Pictures</h2><figure>{_drawing(report, strip)}"
        f"<figcaption>{_small(scale_words(report, strip))}</figcaption></figure>"
        f"<h2>Measures</h2><div {_aside('measures')}>{_measures(report)}</div></main>"
    )


def _second(report: Report, scale: float) -> str:
    changes = "".join(
        f"<h3>{change.number}: {escape(change.heading)}</h3>{_paragraphs(change.sentences)}"
        for change in report.changes
    )
    why = f"<h2>What changes, and why</h2>{_small(report.assumption)}{changes}" if changes else ""
    lists = "".join(
        f"<h2>{heading}</h2>{_small('. '.join(line.rstrip('.') for line in lines) + '.')}"
        for heading, lines in (
            ("Filled in where the case says nothing", report.filled),
            ("Sources of the numbers", report.sources),
        )
        if lines
    )
    return (
        f'<section class="page second" style="--size:{NARROWER * scale:.3f}">{_head(report, 2)}'
        f"{why}<h2>How certain this is</h2>{_paragraphs(report.uncertainty)}{lists}"
        f'<div class="cautions">{_paragraphs(report.cautions)}</div>'
        "<h2>Notes of the fitter</h2>"
        f'<div class="notes" aria-hidden="true">{"<i></i>" * LINES}</div>'
        '<div class="sign"><span class="small">date</span>'
        '<span class="small">signature</span></div></section>'
    )


def _head(report: Report, number: int) -> str:
    code = f"Wearer's code: {report.code}" if report.code else BLANK_CODE
    date = f"Date: {report.date}" if report.date else BLANK_DATE
    tag = "h1" if number == 1 else 'h1 aria-hidden="true"'
    return (
        f"<header><{tag}>{escape(report.title)}</h1>"
        f'<span class="small">simgait {escape(report.version)}, page {number} of 2</span>'
        f"<span>Report on alignment. {escape(code)}. {escape(date)}</span></header>"
    )


def _aside(name: str) -> str:
    """Return the attributes of a box that may be scrolled aside, also by keys."""
    return f'class="scroll" tabindex="0" role="region" aria-label="{name}"'


def _small(words: str) -> str:
    return f'<p class="small">{escape(words)}</p>' if words else ""


def _paragraphs(lines: Iterable[str]) -> str:
    return "".join(f"<p>{escape(line)}</p>" for line in lines)


def _runs(report: Report) -> str:
    heads = "".join(
        f'<th scope="col">{escape(title)} [{escape(unit)}]</th>'
        for title, unit in report.setting_names
    )
    rows = "".join(
        f'<tr{" class=base" if run.baseline else ""}><th scope="row">{run.number}'
        f"{' baseline' if run.baseline else ''}</th>"
        + "".join(f"<td>{escape(value)}</td>" for value in run.values)
        + f"<td>{escape(f'{run.ending}: {run.remarks}' if run.remarks else run.ending)}</td></tr>"
        for run in report.runs
    )
    return (
        f'<table><thead><tr><th scope="col">number</th>{heads}'
        f'<th scope="col">ended with</th></tr></thead><tbody>{rows}</tbody></table>'
    )


def _measures(report: Report) -> str:
    labels = alignment_labels(report.comparison.results)
    heads = "".join(
        f'<th scope="col"{" class=base" if run.baseline else ""}>{run.number}'
        f"{' baseline' if run.baseline else ''}"
        f'<span class="small">{escape(labels[index])}</span></th>'
        for run, index in zip(report.runs, report.shown, strict=True)
    )
    rows = "".join(
        f'<tr><th scope="row"><strong>{escape(row.title)} [{escape(row.unit)}]</strong>'
        f'<span class="small">{escape(row.sentence)}</span></th>'
        + "".join(
            f'<td>{escape(cell_words(cell))}<span class="small">{escape(cell.span)}</span></td>'
            for cell in row.cells
        )
        + "</tr>"
        for row in report.rows
    )
    corner = '<span class="small">In small print: 95 of 100 draws.</span>'
    return (
        f'<table class="measures"><thead><tr><th scope="col">measure{corner}</th>{heads}</tr>'
        f"</thead><tbody>{rows}</tbody></table>"
    )


def _drawing(report: Report, height: float) -> str:
    """Return the strip of pictures as SVG, with the words that a screen reader says instead."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(STRIP_WIDTH / 25.4, height / 25.4), facecolor="none")
    FigureCanvasAgg(figure)
    draw_strip(figure, report, (0.0, 0.0), height)
    text = io.StringIO()
    nothing = dict.fromkeys(("Date", "Creator", "Format", "Type"))
    figure.savefig(text, format="svg", metadata=nothing)
    drawn = text.getvalue()
    drawn = drawn[drawn.index("<svg") :]
    said = (
        "The limb in each alignment at two instants of stance, with the ground force and its lever "
        "at the knee; beside them the moments of knee and socket through stance."
    )
    return re.sub(SVG_SIZE, f' role="img" aria-label="{said}"', drawn, count=1)
