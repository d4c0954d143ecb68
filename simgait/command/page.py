"""simgait page: the real model in one self-contained page."""

from __future__ import annotations

from pathlib import Path

from simgait.case import case_of_text
from simgait.case.arm_case import read_arm_case
from simgait.case.kinds import kind_of
from simgait.case.reading import read_bytes, tables_of, text_of
from simgait.command.page_file import page_place, write_page
from simgait.errors import one_line


def run_page(path: str, out: str | None) -> None:
    """Write the page of a case, which simulates it in the browser.

    path: of the case file; out: of the page, by default out/CASE.html.

    Raises:
        CaseError: the case is refused, or the page cannot be written.
    """
    place = page_place(out or str(Path("out") / f"{Path(path).stem}.html"))
    label = one_line(path)
    text = text_of(read_bytes(Path(path), label), label)
    write_page(page_of(path, text, label), place)


def page_of(path: str, text: str, label: str) -> str:
    """Return the page of a case of a leg or of an arm.

    path: of the case file; text: of it; label: what messages call it.

    Raises:
        CaseError: the case is refused.
    """
    if kind_of(tables_of(text, label)) == "arm":
        from simgait.page.arm_page import arm_page

        return arm_page(read_arm_case(path), Path(path).name)
    case = case_of_text(text, path)
    from simgait.page.stance_page import stance_page_text

    return stance_page_text(case, text, Path(path).name)
