"""Results as tables in a terminal."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence

from rich.console import Console
from rich.table import Table

from simgait.alignment import WRITTEN_NAMES
from simgait.stance import Comparison, StanceResult
from simgait.symbols import BY_NAME, MAIN_MEASURES, MEASURES

WIDTH_OF_A_FILE = 150  # columns, where the output is no terminal

HEADINGS = {
    "foot_forward_mm": "foot\nforward\nmm",
    "dorsiflexion_deg": "dorsi-\nflexion\ndeg",
    "socket_flexion_deg": "socket\nflexion\ndeg",
    "length_change_mm": "length\nchange\nmm",
    "heel_rise_mm": "heel\nrise\nmm",
    "knee_flexion_moment_peak_nm_kg": "knee bent\nearly by\nN m/kg",
    "knee_extension_moment_peak_nm_kg": "knee forced\nback by\nN m/kg",
    "socket_flexion_moment_peak_nm": "socket\nflexing\nN m",
    "socket_extension_moment_peak_nm": "socket\nextending\nN m",
    "forward_thrust": "forward\nthrust\ndeg/s",
    "drop_off": "drop-\noff\nm/s",
    "heel_off_s": "heel\noff\ns",
    "hip_rise_mm": "hip\nrise\nmm",
}


def console() -> Console:
    """Return a console as wide as the terminal, or wide enough for any table in a file."""
    return Console(width=None if sys.stdout.isatty() else WIDTH_OF_A_FILE, highlight=False)


def digits_of(name: str) -> int:
    """Return how many decimals a measure is shown with.

    >>> digits_of("knee_flexion_moment_peak_nm_kg"), digits_of("hip_rise_mm")
    (3, 1)
    """
    unit = BY_NAME[name].unit
    few = {"mm", "deg", "deg/s", "N m", "N", "N s", "%", "% of stance", "J", "body weights/s"}
    return 0 if unit == "N" else 1 if unit in few else 3


def shown_value(value: float, name: str, base: float | None = None) -> str:
    """Return a measure as text, with its change from the baseline's value if one is given."""
    if not math.isfinite(value):
        return "-"
    digits = digits_of(name)
    text = f"{value:.{digits}f}"
    if base is None or not math.isfinite(base):
        return text
    return f"{text} {value - base:+.{digits}f}"


def varied_names(comparison: Comparison) -> list[str]:
    """Return the alignment names that differ between runs (at least one)."""
    rows = [result.alignment.as_written() for result in comparison.results]
    varied = [name for name in WRITTEN_NAMES if len({row[name] for row in rows}) > 1]
    return varied or ["foot_forward_mm"]


def comparison_table(comparison: Comparison) -> Table:
    """Return the comparison: a run a row, each main measure with its change from the baseline."""
    names = varied_names(comparison)
    table = Table(title=comparison.title, title_justify="left", header_style="")
    table.add_column("run", justify="right")
    for name in (*names, *MAIN_MEASURES):
        table.add_column(HEADINGS[name], justify="right", no_wrap=True)
    table.add_column("ending")
    base = comparison.results[comparison.baseline].measures
    for number, result in enumerate(comparison.results):
        own = number == comparison.baseline
        written = result.alignment.as_written()
        table.add_row(
            f"{number + 1}" + (" base" if own else ""),
            *(f"{written[name]:g}" for name in names),
            *(
                shown_value(result.measures[name], name, None if own else base[name])
                for name in MAIN_MEASURES
            ),
            result.ending.replace("_", " "),
            style="bold" if own else "",
        )
    return table


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


def print_notes(out: Console, title: str, lines: Sequence[str]) -> None:
    """Print a heading and its lines, indented, if there are any."""
    if lines:
        out.print(f"{title}:")
        for line in lines:
            out.print(f"  {line}", markup=False)
