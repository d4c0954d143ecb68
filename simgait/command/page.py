"""simgait page: the real model in one self-contained page."""

from __future__ import annotations

from pathlib import Path

import click

from simgait.case import case_of_text
from simgait.case.arm_case import read_arm_case
from simgait.case.kinds import kind_of
from simgait.case.reading import read_bytes, tables_of, text_of
from simgait.command.running import ready_folder, refused_if_unwritable, refused_option
from simgait.errors import one_line
from simgait.files import write_whole

SUFFIXES = (".html", ".htm")


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


def page_place(out: str) -> Path:
    """Return where a page is written.

    Raises:
        CaseError: it does not end as a page does, or is a folder.
    """
    place = Path(out)
    if place.suffix.lower() not in SUFFIXES:
        near = str(place.with_suffix(".html")) if place.name else None
        raise refused_option("--out", out, "is not the name of a page", "a name in .html", near)
    if place.is_dir():
        raise refused_option("--out", out, "is a folder", "the name of a file")
    return place


def write_page(page: str, place: Path) -> None:
    """Write a page whole, and say where it is and how large.

    Raises:
        CaseError: the place cannot be written.
    """
    ready_folder(str(place.parent))
    content = page.encode("utf-8")
    with refused_if_unwritable(place), write_whole(place) as partial:
        partial.write_bytes(content)
    click.echo(f"{one_line(str(place))}  {len(content) / 1000:.0f} kB; open it in a browser")
