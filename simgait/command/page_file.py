"""Where a page is written, and writing it; for every verb that makes one."""

from __future__ import annotations

from pathlib import Path

import click

from simgait.command.running import ready_folder, refused_if_unwritable, refused_option
from simgait.errors import one_line
from simgait.files import write_whole

SUFFIXES = (".html", ".htm")


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
