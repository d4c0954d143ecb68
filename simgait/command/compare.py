"""simgait compare: the alignments of a case side by side, as table, figure and film."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.case import Case, read_case
from simgait.command.building import built_limbs
from simgait.command.running import print_json, ready_folder, refused_if_unwritable
from simgait.command.side_by_side import print_comparison
from simgait.command.tables import console, print_notes
from simgait.parts.pylon import screw_turns
from simgait.stance import Comparison, StanceResult, compare
from simgait.units import degrees_from_radians, radians_from_degrees

if TYPE_CHECKING:
    import pandas as pd


def run_entry(result: StanceResult) -> dict[str, Any]:
    """Return one run as JSON says it."""
    return {
        "alignment": result.alignment.as_written(),
        "ending": result.ending,
        "measures": dict(result.measures),
        "remarks": result.remarks,
    }


def comparison_entry(comparison: Comparison) -> dict[str, Any]:
    """Return a comparison as JSON says it."""
    return {
        "title": comparison.title,
        "runs": [run_entry(result) for result in comparison.results],
        "baseline": comparison.baseline,
        "filled": comparison.filled,
        "cautions": comparison.cautions,
        "sources": comparison.sources,
        "version": comparison.version,
    }


def written_table(comparison: Comparison) -> pd.DataFrame:
    """Return the table as it is written: one row a run, cautions and version its last columns."""
    return comparison.table().assign(
        cautions=" ".join(comparison.cautions), version=comparison.version
    )


def write_files(comparison: Comparison, folder: Path) -> list[Path]:
    """Write table, figure and film: all four beside the folder's files, then all take their names.

    Raises:
        OSError: the folder cannot be written.
    """
    from simgait.pictures import draw_comparison, draw_film

    names = ("table.csv", "table.parquet", "comparison.png", "stance.gif")
    table = written_table(comparison)
    table.attrs = {"title": comparison.title}
    with tempfile.TemporaryDirectory(dir=folder, prefix=".part-") as room:
        made = [Path(room) / name for name in names]
        table.to_csv(made[0], encoding="utf-8", lineterminator="\n")
        table.to_parquet(made[1])
        draw_comparison(comparison, made[2])
        draw_film(comparison, made[3])
        for path in made:
            os.replace(path, folder / path.name)
    return [folder / name for name in names]


def remark_lines(comparison: Comparison) -> list[str]:
    """Return one line for each run that has remarks or did not end with toe-off."""
    return [
        f"run {number}: {'; '.join(result.remarks)}"
        for number, result in enumerate(comparison.results, start=1)
        if result.remarks
    ]


def turn_lines(case: Case) -> list[str]:
    """Return how far the unit's screws go for the tilts that a case compares, if it does."""
    base = case.baseline
    tilts = {
        round(abs(degrees_from_radians(getattr(setting, name) - getattr(base, name))), 6)
        for setting in case.alignments()
        for name in ("dorsiflexion", "socket_flexion")
    } - {0.0}
    if not tilts:
        return []
    turn = case.pylon.turn
    shares = ", ".join(
        f"{tilt:g} deg = {screw_turns(radians_from_degrees(tilt), turn):.2f}"
        for tilt in sorted(tilts)
    )
    return [f"whole turns of a set screw, at {degrees_from_radians(turn):.1f} deg a turn: {shares}"]


def run_compare(case: str, out: str | None, as_json: bool) -> None:
    """Simulate all alignments of a case, print the comparison, and write its files.

    case: path of the case file; out: folder [out/CASE]; as_json: one JSON object is printed, and
    nothing is written unless `out` is given.

    Raises:
        CaseError: the case is refused, an alignment cannot be built, a folder cannot be written.
    """
    checked = read_case(case)
    built_limbs(case, checked, checked.alignments())
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(case).stem))
    comparison = compare(checked)
    written: list[Path] = []
    if folder is not None:
        with refused_if_unwritable(folder):
            written = write_files(comparison, folder)
    if as_json:
        print_json(comparison_entry(comparison))
        return
    terminal = console()
    print_comparison(terminal, comparison)
    terminal.print(
        "The wearer keeps the same strategy throughout. Beside each value: its change from the "
        "baseline. Moments are external and net: equal and opposite to those of the muscles, "
        "positive where the step tends to do what the heading says."
    )
    print_notes(terminal, "Remarks", remark_lines(comparison))
    print_notes(terminal, "On the bench", turn_lines(checked))
    print_notes(terminal, "Filled in", comparison.filled)
    print_notes(terminal, "Cautions", comparison.cautions)
    print_notes(terminal, "Written", [str(path) for path in written], wrap=False)
