"""simgait arm: where the cable pulls, how long the arm is, and what arrives at the device."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.arm.entries import arm_entry
from simgait.arm.names import REMEDIES, WANTED
from simgait.arm.provenance import arm_case_sources, arm_cautions, arm_version
from simgait.arm.running import work_arm
from simgait.case.arm_case import read_arm_case
from simgait.command.running import plain, print_json, ready_folder
from simgait.files import write_whole

if TYPE_CHECKING:
    from rich.console import Console

POSITION_COLUMNS = (
    ("loop_mm", 1), ("guide_mm", 1), ("peak_pull_n", 1), ("pull_at_90_n", 1), ("excursion_mm", 1),
    ("device_excursion_left_mm", 1), ("work_j", 2), ("feasible", 0), ("fatigue_free", 0),
    ("opens_while_lifting", 0),
)  # fmt: skip
LENGTH_COLUMNS = (
    ("forearm_change_mm", 0), ("shoulder_moment_nm", 2), ("inertia_kg_m2", 3), ("brim_force_n", 0),
    ("reach_mm", 0), ("other_side_difference_mm", 0), ("mouth_reached", 0), ("midline_reached", 0),
    ("within_capacity", 0),
)  # fmt: skip
MOST_ROWS = 24  # of positions in the terminal; the files hold all


def run_arm(path: str, out: str | None, as_json: bool, draws: int, seed: int) -> None:
    """Work out an arm's case; print what comes out, and write its tables and pictures.

    path: of the case file; out: folder of them, by default out/CASE, and none with JSON;
    as_json: print one JSON object and nothing else; draws: of errors of measurement [1]; seed: of
    the draws.

    Raises:
        CaseError: the case is refused, or the folder cannot be written.
    """
    case = read_arm_case(path)
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out if out is not None else str(Path("out") / Path(path).stem))
    result = work_arm(case, draws, seed)
    answer = {
        "title": case.title,
        **arm_entry(result),
        "draws": draws,
        "seed": seed,
        "filled": case.filled,
        "cautions": arm_cautions(result),
        "sources": arm_case_sources(case),
        "version": arm_version(),
    }
    written = []
    if folder is not None:
        from simgait.pictures.arm import draw_arm

        written = write_tables(folder, answer) + [str(file) for file in draw_arm(result, folder)]
    if as_json:
        print_json(answer)
    else:
        print_arm(answer, written)


def write_tables(folder: Path, answer: Mapping[str, Any]) -> list[str]:
    """Write positions.csv and lengths.csv, as far as there are rows; return what was written."""
    written = []
    for name in ("positions", "lengths"):
        rows = [plain(row) for row in answer[name]]
        if not rows:
            continue
        keys = [key for key, value in rows[0].items() if not isinstance(value, list)]
        with (
            write_whole(folder / f"{name}.csv") as partial,
            partial.open("w", encoding="utf-8", newline="") as stream,
        ):
            table = csv.DictWriter(stream, keys, extrasaction="ignore")
            table.writeheader()
            table.writerows(rows)
        written.append(str(folder / f"{name}.csv"))
    return written


def cell(value: Any, digits: int) -> str:
    """Return a value as a table shows it: yes or no, a number, a dash where there is none.

    >>> cell(True, 0), cell(3.14159, 2), cell(None, 1)
    ('yes', '3.14', '-')
    """
    value = plain(value)
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{round(value, digits) + 0.0:.{digits}f}"


def print_rows(
    out: Console,
    title: str,
    rows: Sequence[Mapping[str, Any]],
    columns: Sequence[tuple[str, int]],
    marked: Mapping[str, Any] | None,
) -> None:
    """Print rows as a table, the recommended one marked; nothing if there are none."""
    from rich.table import Table

    if not rows:
        return
    table = Table(title=title, title_justify="left", header_style="")
    table.add_column("", no_wrap=True)
    shown = [column for column in columns if any(plain(row[column[0]]) is not None for row in rows)]
    for name, _ in shown:
        table.add_column(name.replace("_", " "), justify="right")
    keys = [name for name, _ in shown]
    for row in rows:
        here = marked is not None and all(row[key] == marked[key] for key in keys)
        table.add_row(">" if here else "", *(cell(row[name], digits) for name, digits in shown))
    out.print(table)


def some(rows: Sequence[Mapping[str, Any]], keep: int | None) -> list[Mapping[str, Any]]:
    """Return at most `MOST_ROWS` rows, evenly picked, with the one at a place kept."""
    if len(rows) <= MOST_ROWS:
        return list(rows)
    step = -(-len(rows) // MOST_ROWS)
    return [row for place, row in enumerate(rows) if place % step == 0 or place == keep]


def print_arm(answer: Mapping[str, Any], written: Sequence[str]) -> None:
    """Print a result: the answer of the JSON, in tables and sentences."""
    from simgait.command.tables import console, print_notes

    out = console()
    out.print(answer["title"], markup=False)
    best = answer["recommended"]
    rows = some(answer["positions"], None if best is None else best["place"])
    print_rows(out, "Positions of guide and loop", rows, POSITION_COLUMNS, best)
    print_rows(
        out, "Lengths, the arm held straight out", answer["lengths"], LENGTH_COLUMNS,
        answer["recommended_length"],
    )  # fmt: skip
    print_notes(out, "Recommended", recommended_lines(answer))
    print_notes(out, "What binds", binding_lines(answer))
    print_notes(out, "Remedies", remedy_lines(answer))
    print_notes(out, "Cable to the device", device_lines(answer))
    print_notes(out, "Filled in", answer["filled"])
    print_notes(out, "Cautions", answer["cautions"])
    print_notes(out, "Written", written, wrap=False)


def recommended_lines(answer: Mapping[str, Any]) -> list[str]:
    """Return what is recommended, in sentences."""
    lines = []
    best = answer["recommended"]
    if best is not None:
        left = ", ".join(
            f"{name.replace('_', ' ')} {margin:.0f} %"
            for name, margin in best["margins_percent"].items()
        )
        lines.append(f"loop at {best['loop_mm']:g} mm; what is left of each limit: {left}")
        lines.append(
            f"against the pull that does not tire: {best['fatigue_free_margin_percent']:.0f} %"
        )
        if best["stays_feasible_share"] is not None:
            lines.append(
                f"it stays feasible in {100.0 * best['stays_feasible_share']:.0f} % of "
                f"{answer['draws']} draws of the errors of measurement"
            )
    elif answer["positions"]:
        lines.append("no position: none keeps within all limits")
    length = answer["recommended_length"]
    if length is not None:
        lines.append(
            f"forearm changed by {length['forearm_change_mm']:g} mm: the shoulder holds it, and "
            f"{length['reach_lost_mm']:g} mm of reach are lost"
        )
    return lines


def binding_lines(answer: Mapping[str, Any]) -> list[str]:
    """Return what binds, in sentences."""
    return [
        f"{row['limit'].replace('_', ' ')}: exceeded at {row['positions']} positions; at the one "
        f"nearest to fitting, loop {row['nearest_loop_mm']:g} mm, by "
        f"{row['excess_at_nearest_percent']:.0f} %"
        for row in answer["binding"]
    ]


def remedy_lines(answer: Mapping[str, Any]) -> list[str]:
    """Return what each remedy does, in sentences."""
    return [
        f"{row['remedy'].replace('_', ' ')} by {row['change']:g} {row['unit']} "
        f"({REMEDIES[row['remedy']]}): peak pull {row['peak_pull_change_n']:+.1f} N, excursion "
        f"{row['excursion_change_mm']:+.1f} mm; for {WANTED[row['wanted']]} "
        + (
            "it is not enough alone"
            if row["needed_change"] is None
            else f"{row['needed_change']:.3g} {row['unit']} are needed"
        )
        for row in answer["remedies"]
    ]


def device_lines(answer: Mapping[str, Any]) -> list[str]:
    """Return what the cable to the device asks for, in sentences."""
    row = answer["device"]
    if row is None:
        return []
    verdict = "as usual or better" if row["efficient"] else "less than usual"
    return [
        f"pull up to {row['peak_pull_n']:.1f} N over {row['excursion_mm']:.0f} mm; "
        f"{'' if row['feasible'] else 'more than this wearer can; '}"
        f"{'' if row['fatigue_free'] else 'not '}within the pull that does not tire",
        f"efficiency {row['efficiency']:.2f}, usual minimum {row['usual_minimum']:.2f}: {verdict}",
        f"lost in the housing in a whole cycle: {row['lost_n_mm']:.0f} N mm",
    ]
