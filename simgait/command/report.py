"""simgait report: two pages for the record, as HTML or PDF."""

from __future__ import annotations

import re
from datetime import date as day
from pathlib import Path
from typing import Any

from simgait.case import read_case
from simgait.command.building import built_limbs
from simgait.command.running import refused_if_unwritable, refused_option
from simgait.command.tables import console, print_notes
from simgait.errors import CaseError, shown
from simgait.library import nearest
from simgait.stance import compare

ENDINGS = (".html", ".pdf")
LONGEST_CODE = 40  # characters
DATE = re.compile(r"\d{4}-\d{2}-\d{2}")


def is_date(text: str) -> bool:
    """Return whether a text is a day that there is, as YEAR-MONTH-DAY.

    >>> is_date("2026-01-31"), is_date("2026-13-01"), is_date("20260131")
    (True, False, False)
    """
    try:
        return bool(DATE.fullmatch(text)) and day.fromisoformat(text) is not None
    except ValueError:
        return False


def refused_words(out: str, code: str, date: str) -> list[CaseError]:
    """Return the refusals of a file's ending, a code and a date."""
    found = []
    ending = Path(out).suffix
    if ending.lower() not in ENDINGS:
        near = nearest(ending.lower(), ENDINGS) or ENDINGS[0]
        found.append(
            refused_option("--out", shown(out), "is neither page nor PDF", ".html, .pdf", near)
        )
    if len(code) > LONGEST_CODE or not code.isprintable():
        found.append(
            refused_option(
                "--code",
                shown(code),
                "does not fit on one line",
                f"up to {LONGEST_CODE} characters, and no name",
            )
        )
    if date and not is_date(date):
        found.append(refused_option("--date", shown(date), "is no date", "YEAR-MONTH-DAY"))
    return found


def places_of(runs: tuple[int, ...], total: int, baseline: int, most: int) -> tuple[int, ...]:
    """Return the places of runs that were asked for by number.

    Raises:
        CaseError: a number is no run, or there are too many of them.
    """
    for number in runs:
        if not 1 <= number <= total:
            near = str(min(max(number, 1), total))
            raise refused_option("--run", str(number), "is no alignment", f"1 to {total}", near)
    places = sorted({number - 1 for number in runs} | {baseline})
    if len(places) > most:
        raise refused_option(
            "--run",
            ", ".join(map(str, runs)),
            "are too many for two pages",
            f"up to {most - 1} beside the baseline, {baseline + 1}",
        )
    return tuple(places)


def run_report(
    case: str,
    out: str,
    *,
    runs: tuple[int, ...] = (),
    code: str = "",
    date: str = "",
    draws: int = 400,
    seed: int = 1,
) -> None:
    """Compare the alignments of a case and write the report.

    case: path of the case file; out: file to write; runs: numbers of the alignments to show; code,
    date: as they shall stand on the pages; draws, seed: of the errors of measurement.

    Raises:
        CaseError: the case or an option is refused, an alignment cannot be built, or the file
            cannot be written.
    """
    refused = refused_words(out, code, date)
    if refused:
        raise CaseError([fault for refusal in refused for fault in refusal.faults])
    checked = read_case(case)
    from simgait.report import report_of
    from simgait.report.making import MOST_SHOWN

    places: tuple[int, ...] = ()
    if runs:
        total = len(checked.alignments())
        places = places_of(runs, total, checked.baseline_index, MOST_SHOWN)
    built_limbs(case, checked, checked.alignments())
    asked: dict[str, Any] = {"draws": draws, "seed": seed, "code": code, "date": date}
    made = report_of(checked, compare(checked), adapting=True, runs=places, **asked)
    from simgait.pictures.report import draw_report

    with refused_if_unwritable(out):
        written = draw_report(made, out)
    terminal = console()
    terminal.print(made.title, markup=False)
    print_notes(terminal, "Cautions", made.cautions)
    print_notes(terminal, "Written", [str(written)], wrap=False)
