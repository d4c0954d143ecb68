"""Results as tables in a terminal."""

from __future__ import annotations

import math
import os
import sys
from collections.abc import Sequence

from rich.console import Console
from rich.table import Table

from simgait.stance import StanceResult
from simgait.symbols import BY_NAME, MEASURES

WIDTH_OF_A_FILE = 150  # columns, where the output is no terminal


def console() -> Console:
    """Return a console as wide as the terminal, or as COLUMNS says; in a file, a fixed width."""
    known = sys.stdout.isatty() or "COLUMNS" in os.environ
    return Console(width=None if known else WIDTH_OF_A_FILE, highlight=False)


def digits_of(name: str) -> int:
    """Return how many decimals a measure is shown with.

    >>> digits_of("knee_flexion_moment_peak_nm_kg"), digits_of("hip_rise_mm")
    (3, 1)
    """
    return BY_NAME[name].digits


def shown_value(value: float, name: str, base: float | None = None) -> str:
    """Return a measure as text, with its change from the baseline's value if one is given."""
    if not math.isfinite(value):
        return "-"
    digits = digits_of(name)
    text = f"{value:.{digits}f}"
    if base is None or not math.isfinite(base):
        return text
    return f"{text} {value - base:+.{digits}f}"


def measures_table(result: StanceResult) -> Table:
    """Return all measures of one stance, with unit and plain sentence."""
    table = Table(header_style="", show_lines=False)
    table.add_column("measure", no_wrap=True)
    table.add_column("value", justify="right", no_wrap=True)
    table.add_column("unit", no_wrap=True)
    table.add_column("what it says")
    for measure in MEASURES:
        table.add_row(
            measure.name,
            shown_value(result.measures[measure.name], measure.name),
            measure.unit,
            measure.sentence,
        )
    return table


def ledger_table(result: StanceResult) -> Table:
    """Return the energy ledger of one stance [J]."""
    ledger = result.ledger
    rows = (
        ("work of the hip muscles", ledger.hip),
        ("work of the knee muscles", ledger.knee),
        ("work of the other limb", ledger.other_limb),
        ("work of trunk and swinging leg", ledger.trunk),
        ("work of the sole (stored and lost there if negative)", ledger.sole),
        ("work of friction", ledger.friction),
        ("lost in socket and soft tissue", -ledger.lost_in_socket),
        ("mechanical energy gained", ledger.gained),
    )
    table = Table(title="Energy ledger", title_justify="left", header_style="")
    table.add_column("flow")
    table.add_column("J", justify="right")
    for name, value in rows:
        table.add_row(name, f"{value:.3f}")
    table.add_row("left unexplained, % of all exchanged", f"{ledger.error_percent:.6f}")
    return table


def print_notes(out: Console, title: str, lines: Sequence[str], *, wrap: bool = True) -> None:
    """Print a heading and its lines, indented, if there are any.

    wrap: break long lines between words; without it a path stays in one piece.
    """
    if lines:
        out.print(f"{title}:")
        for line in lines:
            out.print(f"  {line}", markup=False, soft_wrap=not wrap)
