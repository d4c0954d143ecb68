"""Cases with goals or signs, made from the library's, for what tests of advice share."""

from __future__ import annotations

from simgait.case import Case, case_of_text
from simgait.library import models_folder

WALKING = ("everyday", "heavy-worker", "length-mismatch", "short-residual-limb")


def case_with_tables(name: str, tables: str) -> Case:
    """Return a library case with further tables."""
    return case_of_text(text_with_tables(name, tables), f"{name}.toml")


def text_with_tables(name: str, tables: str) -> str:
    """Return the text of a library case without [compare], with further tables."""
    text = (models_folder() / "cases" / f"{name}.toml").read_text(encoding="utf-8")
    return f"{text.partition('[compare]')[0]}\n{tables}\n"


def complaint(name: str) -> str:
    """Return the table of a case whose wearer has one complaint."""
    return f'[goal]\ncomplaints = ["{name}"]'
