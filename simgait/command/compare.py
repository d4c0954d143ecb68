"""simgait compare: the alignments of a case side by side, as table, figure and film."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.case import Case, read_case
from simgait.command.assuming import (
    DISAGREE,
    STRATEGIES,
    adaptation_lines,
    disagreement_lines,
    refused_without_walk,
)
from simgait.command.building import built_limbs
from simgait.command.running import print_json, ready_folder, refused_if_unwritable
from simgait.command.side_by_side import print_comparison
from simgait.command.tables import console, print_notes
from simgait.parts.pylon import screw_turns
from simgait.stance import Comparison, StanceResult, compare
from simgait.stance.disagreeing import disagreements
from simgait.units import degrees_from_radians, radians_from_degrees

if TYPE_CHECKING:
    import pandas as pd

BESIDE = (
    "Beside each value: its change from the baseline. Moments are external and net: equal and "
    "opposite to those of the muscles, positive where the step tends to do what the heading says."
)


def run_entry(result: StanceResult) -> dict[str, Any]:
    """Return one run as JSON says it."""
    return {
        "alignment": result.alignment.as_written(),
        "ending": result.ending,
        "measures": dict(result.measures),
        "remarks": result.remarks,
    }


def comparison_entry(comparison: Comparison, adapts: Comparison | None = None) -> dict[str, Any]:
    """Return a comparison as JSON says it.

    adapts: the same with a wearer who adapts, to be said beside it.
    """
    runs = [run_entry(result) for result in comparison.results]
    for entry, changes in zip(runs, comparison.adaptations, strict=False):
        entry["adaptation"] = changes
    if adapts is not None:
        apart = disagreements(comparison, adapts)
        others = comparison_entry(adapts)["runs"]
        for entry, other, names in zip(runs, others, apart, strict=True):
            entry["adapts"] = {key: part for key, part in other.items() if key != "alignment"}
            entry["disagree"] = names
    return {
        "title": comparison.title,
        "runs": runs,
        "baseline": comparison.baseline,
        "assumption": comparison.assumption if adapts is None else "both",
        "filled": comparison.filled,
        "cautions": all_cautions(comparison, adapts),
        "sources": comparison.sources,
        "version": comparison.version,
    }


def all_cautions(comparison: Comparison, adapts: Comparison | None) -> tuple[str, ...]:
    """Return the cautions of one comparison, or of two, each once."""
    more = adapts.cautions if adapts is not None else ()
    return tuple(dict.fromkeys((*comparison.cautions, *more)))


def written_table(comparison: Comparison) -> pd.DataFrame:
    """Return the table as it is written: one row a run, its last columns what it rests on."""
    return comparison.table().assign(
        assumption=comparison.assumption,
        cautions=" ".join(comparison.cautions),
        version=comparison.version,
    )


def write_files(comparison: Comparison, folder: Path, adapts: Comparison | None) -> list[Path]:
    """Write table, figure and film: all beside the folder's files, then all take their names.

    adapts: the same with a wearer who adapts: its rows below in the table, a figure and a film of
    its own.

    Raises:
        OSError: the folder cannot be written.
    """
    import pandas as pd

    from simgait.pictures import draw_comparison, draw_film

    shown = {"": comparison} if adapts is None else {"": comparison, "_adapts": adapts}
    table = pd.concat([written_table(each) for each in shown.values()])
    table.attrs = {"title": comparison.title}
    with tempfile.TemporaryDirectory(dir=folder, prefix=".part-") as room:
        made = [Path(room) / "table.csv", Path(room) / "table.parquet"]
        table.to_csv(made[0], encoding="utf-8", lineterminator="\n")
        table.to_parquet(made[1])
        for ending, each in shown.items():
            made += [Path(room) / f"comparison{ending}.png", Path(room) / f"stance{ending}.gif"]
            draw_comparison(each, made[-2])
            draw_film(each, made[-1])
        for path in made:
            os.replace(path, folder / path.name)
    return [folder / path.name for path in made]


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


def run_compare(case: str, out: str | None, as_json: bool, assumption: str = "keeps") -> None:
    """Simulate all alignments of a case, print the comparison, and write its files.

    case: path of the case file; out: folder [out/CASE]; as_json: one JSON object is printed, and
    nothing is written unless `out` is given; assumption: of the wearer: "keeps", "adapts", "both".

    Raises:
        CaseError: the case is refused, an alignment cannot be built, a folder cannot be written,
            or a wearer who adapts has no walk to keep.
    """
    checked = read_case(case)
    built_limbs(case, checked, checked.alignments())
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(case).stem))
    with refused_without_walk(case):
        comparison = compare(checked, assumption="keeps" if assumption == "both" else assumption)
        adapts = compare(checked, assumption="adapts") if assumption == "both" else None
    written: list[Path] = []
    if folder is not None:
        with refused_if_unwritable(folder):
            written = write_files(comparison, folder, adapts)
    if as_json:
        print_json(comparison_entry(comparison, adapts))
        return
    terminal = console()
    for each in (comparison, adapts):
        if each is not None:
            print_comparison(terminal, each)
            terminal.print(f"{STRATEGIES[each.assumption]} {BESIDE}")
            print_notes(terminal, "How the wearer adapts", adaptation_lines(each))
            print_notes(terminal, "Remarks", remark_lines(each))
    if adapts is not None:
        print_notes(terminal, DISAGREE, disagreement_lines(comparison, adapts))
    print_notes(terminal, "On the bench", turn_lines(checked))
    print_notes(terminal, "Filled in", comparison.filled)
    print_notes(terminal, "Cautions", all_cautions(comparison, adapts))
    print_notes(terminal, "Written", [str(path) for path in written], wrap=False)
