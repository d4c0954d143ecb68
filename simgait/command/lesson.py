"""simgait lesson: a lesson for a classroom as one file, or the list of them."""

from __future__ import annotations

from rich.table import Table

from simgait.command.page_file import page_place, write_page
from simgait.command.running import refused_option
from simgait.command.tables import console
from simgait.lessons.page import lesson_page
from simgait.lessons.shelf import LESSONS, read_lesson


def run_lesson(name: str | None, out: str | None, listed: bool) -> None:
    """Write the page of a lesson, or list all lessons.

    Raises:
        CaseError: no such lesson, no name at all, or a file that cannot be written.
    """
    if listed:
        print_list()
        return
    if name is None:
        raise refused_option(
            "NAME", "", "is missing: which lesson?", f"--list, or one of {', '.join(LESSONS)}"
        )
    lesson = read_lesson(name)
    write_page(lesson_page(name), page_place(out or f"{lesson.name}.html"))


def print_list() -> None:
    """Print name, idea and audience of every lesson."""
    table = Table(header_style="", show_lines=True)
    for heading in ("lesson", "idea", "for"):
        table.add_column(heading, no_wrap=heading == "lesson")
    for lesson in LESSONS.values():
        table.add_row(lesson.name, lesson.idea, lesson.audience)
    console().print(table)
