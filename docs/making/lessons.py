"""The generated part of the guide's page on lessons: what there is."""

from __future__ import annotations

from making.text import table
from simgait.lessons.shelf import LESSONS


def guide_parts() -> dict[str, str]:
    """Return the lessons as a table, in the order in which they build on each other."""
    rows = [
        (f"`{lesson.name}`", lesson.title, lesson.control.label.lower(), lesson.audience)
        for lesson in LESSONS.values()
    ]
    return {"lessons": table(("name", "scene", "what is moved", "for"), rows)}
