"""simgait compare: the alignments of a case side by side, as table, figure and film."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from simgait.case import read_case
from simgait.command.running import print_json, ready_folder
from simgait.command.tables import comparison_table, console, print_notes
from simgait.files import write_whole
from simgait.stance import Comparison, StanceResult, compare


def run_entry(result: StanceResult) -> dict[str, Any]:
    """Return one run as JSON says it."""
    return {
        "alignment": result.alignment.as_written(),
        "ending": result.ending,
        "measures": dict(result.measures),
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


def write_files(comparison: Comparison, folder: Path) -> list[Path]:
    """Write table, figure and film; each takes its name only when it is whole."""
    from simgait.pictures import draw_comparison, draw_film

    paths = [
        folder / name for name in ("table.csv", "table.parquet", "comparison.png", "stance.gif")
    ]
    table = comparison.table()
    notes = "".join(f"# {line}\n" for line in (*comparison.cautions, comparison.version))
    with write_whole(paths[0]) as partial:
        partial.write_text(notes + table.to_csv(), encoding="utf-8")
    with write_whole(paths[1]) as partial:
        table.attrs = {"title": comparison.title, "cautions": list(comparison.cautions)}
        table.to_parquet(partial)
    draw_comparison(comparison, paths[2])
    draw_film(comparison, paths[3])
    return paths


def run_compare(case: str, out: str | None, as_json: bool) -> None:
    """Run the verb; see `simgait.command.compare`."""
    checked = read_case(case)
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(case).stem))
    comparison = compare(checked)
    written = write_files(comparison, folder) if folder is not None else []
    if as_json:
        print_json(comparison_entry(comparison))
        return
    terminal = console()
    terminal.print(comparison_table(comparison))
    terminal.print(
        "The wearer keeps the same strategy throughout. Beside each value: its change from the "
        "baseline. Moments are external: what the ground does to the joint."
    )
    print_notes(terminal, "Filled in", comparison.filled)
    print_notes(terminal, "Cautions", comparison.cautions)
    print_notes(terminal, "Written", [str(path) for path in written])
