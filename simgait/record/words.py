"""Texts of a record: made fit for lines, and numbers as they are written."""

from __future__ import annotations

import unicodedata

_JOINERS = "\u200c\u200d"  # without a shape of their own, and needed to write several languages
_BREAKS = ("\r\n", "\r", "\x0b", "\x0c", "\x85", "\u2028", "\u2029")


def cleaned(text: str) -> str:
    """Return a text that can stand in a record: same words, no character that hides or acts.

    Every kind of line break becomes one, tabs become spaces, spaces at ends of lines and empty
    lines at both ends go, characters composed of several become one (Unicode NFC), and whatever
    does not print is written as its escape.

    >>> cleaned("  steady\\r\\n\\tstep \\x1b[31m ")
    'steady\\n step \\\\x1b[31m'
    """
    for mark in _BREAKS:
        text = text.replace(mark, "\n")
    text = unicodedata.normalize("NFC", text.replace("\t", " "))
    plain = "".join(
        mark
        if mark == "\n" or mark in _JOINERS or mark.isprintable() or mark == "\u00a0"
        else mark.encode("unicode_escape", "surrogatepass").decode("ascii")
        for mark in text
    )
    lines = [line.rstrip() for line in plain.split("\n")]
    return "\n".join(lines).strip("\n").lstrip(" ")


def number_text(value: float) -> str:
    """Return a number as a record writes it: as short as reads back the same.

    >>> number_text(-10.0), number_text(0.1), number_text(-0.0)
    ('-10', '0.1', '0')
    """
    text = repr(float(value) + 0.0)
    return text.removesuffix(".0")
