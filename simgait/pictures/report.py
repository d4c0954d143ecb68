"""A report as a file: two pages of PDF, or one HTML page that prints on two sheets."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from simgait.files import write_whole
from simgait.pictures.letters import drawing
from simgait.pictures.report_html import html_page
from simgait.pictures.report_pages import fitted, page_one, page_two
from simgait.pictures.report_pen import HIGH, LEFT, WIDE, Pen
from simgait.pictures.report_strip import draw_strip
from simgait.report.content import Report

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["ENDINGS", "draw_report"]

ENDINGS = (".html", ".pdf")
STRIP = (58.0, 124.0)  # [mm] least and greatest height of the pictures
NOTES = (38.0, 120.0)  # [mm] of the lines for notes


def draw_report(report: Report, path: str | os.PathLike[str]) -> Path:
    """Write a report whole, as .html or .pdf by its name; return its path.

    The same report gives the same file to the byte.

    Raises
    ------
    ValueError : the name ends otherwise, or there are no cautions.
    OSError : the file cannot be written.
    """
    final = Path(path)
    if final.suffix.lower() not in ENDINGS:
        raise ValueError(f"a report is written as .html or .pdf, not as '{final.name}'")
    if not report.cautions:
        raise ValueError("a report without cautions is not drawn; pass the comparison's cautions")
    scale, strip = fitted(page_one, report, *STRIP)
    with write_whole(final) as partial, _settings():
        if final.suffix.lower() == ".pdf":
            _write_pdf(report, scale, strip, partial)
        else:
            scales = scale, fitted(page_two, report, *NOTES)[0]
            partial.write_text(html_page(report, strip, scales), encoding="utf-8")
    return final


@contextmanager
def _settings() -> Iterator[None]:
    """Draw the same file each time, with letters that a reader can search."""
    from matplotlib import rc_context

    with drawing(), rc_context({"svg.hashsalt": "simgait", "pdf.fonttype": 42}):
        yield


def _write_pdf(report: Report, scale: float, strip: float, path: Path) -> None:
    from matplotlib.backends.backend_pdf import PdfPages

    first = _sheet()
    pen = Pen(first, scale)
    page_one(pen, report, strip)
    draw_strip(first, report, (LEFT, HIGH - pen.picture_top - strip), strip)
    second = _sheet()
    small, notes = fitted(page_two, report, *NOTES)
    page_two(Pen(second, small), report, notes)
    said = " ".join((*report.cautions, f"simgait {report.version}"))
    about = {"Title": report.title, "Subject": said, "CreationDate": None, "Creator": "simgait"}
    with PdfPages(path, metadata=about) as pages:
        for figure in (first, second):
            pages.savefig(figure)


def _sheet() -> Figure:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    figure = Figure(figsize=(WIDE / 25.4, HIGH / 25.4), facecolor="white")
    FigureCanvasAgg(figure)
    return figure
