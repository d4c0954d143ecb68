"""The alignments of a case side by side in a terminal, in as many tables as its width asks for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from simgait.alignment import WRITTEN_NAMES
from simgait.command.tables import shown_value
from simgait.stance import Comparison
from simgait.symbols import MAIN_MEASURES

HEADINGS = {
    "foot_forward_mm": "foot\nforward\nmm",
    "dorsiflexion_deg": "dorsi-\nflexion\ndeg",
    "socket_flexion_deg": "socket\nflexion\ndeg",
    "length_change_mm": "length\nchange\nmm",
    "heel_rise_mm": "heel\nrise\nmm",
    "knee_flexion_moment_peak_nm_kg": "knee bent\nearly by\nN m/kg",
    "knee_extension_moment_peak_nm_kg": "knee forced\nback by\nN m/kg",
    "knee_flexion_least_deg": "knee bent\nat least\ndeg",
    "socket_flexion_moment_peak_nm": "socket\nflexing\nN m",
    "socket_extension_moment_peak_nm": "socket\nextending\nN m",
    "forward_thrust": "forward\nthrust\ndeg/s",
    "drop_off": "drop-\noff\nm/s",
    "heel_off_s": "heel\noff\ns",
    "hip_rise_mm": "hip\nrise\nmm",
}

ENDING = "ending"
KNEE_AND_SOCKET = tuple(name for name in MAIN_MEASURES if name.startswith(("knee", "socket")))
OTHERS = tuple(name for name in MAIN_MEASURES if name not in KNEE_AND_SOCKET)


def varied_names(comparison: Comparison) -> list[str]:
    """Return the alignment names that differ between runs (at least one)."""
    rows = [result.alignment.as_written() for result in comparison.results]
    varied = [name for name in WRITTEN_NAMES if len({row[name] for row in rows}) > 1]
    return varied or ["foot_forward_mm"]


def layouts(varied: Sequence[str]) -> Iterator[list[tuple[str, ...]]]:
    """Yield ways to spread the columns over tables, the widest first.

    All in one table; knee and socket first and then the rest, both beside the alignments; the
    alignments alone and the measures below, four or two at a time.

    >>> [len(layout) for layout in layouts(["foot_forward_mm"])]
    [1, 2, 4, 6]
    """
    yield [(*varied, *MAIN_MEASURES, ENDING)]
    yield [(*varied, *KNEE_AND_SOCKET), (*varied, *OTHERS, ENDING)]
    for count in (4, 2):
        parts = [MAIN_MEASURES[k : k + count] for k in range(0, len(MAIN_MEASURES), count)]
        yield [(*varied, ENDING), *parts]


def comparison_table(comparison: Comparison, columns: Sequence[str], *, title: bool) -> Table:
    """Return one table: a run a row, each measure with its change from the baseline.

    columns: names of alignment values and of measures, and "ending".
    """
    heading = Text(comparison.title) if title else None
    table = Table(title=heading, title_justify="left", header_style="")
    table.add_column("run", justify="right", no_wrap=True)
    for name in columns:
        side = "left" if name == ENDING else "right"
        table.add_column(HEADINGS.get(name, name), justify=side, no_wrap=True)  # type: ignore[arg-type]
    for number in range(len(comparison.results)):
        own = number == comparison.baseline
        table.add_row(
            f"{number + 1}" + (" base" if own else ""),
            *(_cell(comparison, number, name) for name in columns),
            style="bold" if own else "",
        )
    return table


def _cell(comparison: Comparison, number: int, name: str) -> str:
    result, base = comparison.results[number], comparison.results[comparison.baseline]
    if name == ENDING:
        return result.ending.replace("_", " ")
    if name in WRITTEN_NAMES:
        return f"{result.alignment.as_written()[name]:g}"
    own = number == comparison.baseline
    return shown_value(result.measures[name], name, None if own else base.measures[name])


def width_of(table: Table) -> int:
    """Return the columns of a terminal that a table needs for nothing to be cut off.

    >>> table = Table("name")
    >>> table.add_row("value")
    >>> width_of(table)
    9
    """
    wide = Console(width=10_000)
    return wide.measure(table).maximum


def comparison_tables(comparison: Comparison, width: int) -> list[Table]:
    """Return the comparison as tables no wider than `width`, as few as possible.

    In a terminal too narrow even for two measures at a time the tables are wider than it.
    """
    tables: list[Table] = []
    for layout in layouts(varied_names(comparison)):
        tables = [
            comparison_table(comparison, columns, title=place == 0)
            for place, columns in enumerate(layout)
        ]
        if max(map(width_of, tables)) <= width:
            break
    return tables


def print_comparison(out: Console, comparison: Comparison) -> None:
    """Print the comparison; a table wider than the terminal is printed whole all the same."""
    for table in comparison_tables(comparison, out.width):
        given = out.width
        out.width = max(given, width_of(table))
        out.print(table)
        out.width = given
