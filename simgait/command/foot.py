"""simgait foot: a foot of the library on the simulated bench."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from simgait.command.running import print_json
from simgait.command.tables import console, print_notes
from simgait.library import read_figures, read_foot, source
from simgait.parts.rolling import roll_over
from simgait.parts.sole import BENCH_LOAD, forefoot_test, heel_test, solved_sole
from simgait.stance.provenance import model_version
from simgait.symbols import CAUTIONS
from simgait.units import mm_from_metres, newton_per_mm_from_newton_per_metre


def foot_entry(name: str) -> dict[str, Any]:
    """Return a foot's stated figures, its simulated bench test and its roll-over as JSON says it.

    Raises:
        CaseError: the library has no such foot.
        RangeError: no sole has its figures.
    """
    foot = read_foot(name)
    sole = solved_sole(foot)
    heel, toe, roll = heel_test(foot, sole), forefoot_test(foot, sole), roll_over(foot, sole)
    figures = read_figures("feet", name)
    return {
        "name": name,
        "stated": {key: figure.number for key, figure in figures.items()},
        "grades": {key: str(figure.grade) for key, figure in figures.items()},
        "bench": {
            "load_n": BENCH_LOAD,
            "heel_stiffness_n_mm": newton_per_mm_from_newton_per_metre(heel.stiffness),
            "heel_loss": heel.loss,
            "heel_deflection_mm": mm_from_metres(BENCH_LOAD / heel.stiffness),
            "forefoot_stiffness_n_mm": newton_per_mm_from_newton_per_metre(toe.stiffness),
            "forefoot_loss": toe.loss,
            "forefoot_deflection_mm": mm_from_metres(BENCH_LOAD / toe.stiffness),
        },
        "rollover_radius_mm": mm_from_metres(roll.radius),
        "rollover_centre_ahead_of_ankle_mm": mm_from_metres(roll.centre),
        "effective_length_ratio": foot.effective_length_ratio,
        "cautions": CAUTIONS,
        "sources": [source(k).line for k in dict.fromkeys(f.source for f in figures.values())],
        "version": model_version(),
    }


def run_foot(name: str, as_json: bool) -> None:
    """Print a foot's simulated bench test beside its stated figures.

    Raises:
        CaseError: the library has no such foot.
        RangeError: no sole has its figures.
    """
    entry = foot_entry(name)
    if as_json:
        print_json(entry)
        return
    stated, bench = entry["stated"], entry["bench"]
    table = Table(title=f"Foot {name} on the bench", title_justify="left", header_style="")
    for heading in ("test", "stated", "simulated", "unit"):
        table.add_column(heading, justify="left" if heading in ("test", "unit") else "right")
    for label, key, unit in (
        ("heel at 15 deg, stiffness at 800 N", "heel_stiffness_n_mm", "N/mm"),
        ("heel at 15 deg, energy lost", "heel_loss", "share"),
        ("forefoot at 20 deg, stiffness at 800 N", "forefoot_stiffness_n_mm", "N/mm"),
        ("forefoot at 20 deg, energy lost", "forefoot_loss", "share"),
    ):
        table.add_row(label, f"{stated[key]:g}", f"{bench[key]:.3f}", unit)
    terminal = console()
    terminal.print(table)
    terminal.print(
        f"Rolled under {BENCH_LOAD:g} N from 15 deg heel side to 20 deg toe side: radius "
        f"{entry['rollover_radius_mm']:.0f} mm, its centre "
        f"{entry['rollover_centre_ahead_of_ankle_mm']:.0f} mm ahead of the ankle axis."
    )
    print_notes(terminal, "Figures, with their grades", grade_lines(entry))
    print_notes(terminal, "Cautions", entry["cautions"])


def grade_lines(entry: dict[str, Any]) -> list[str]:
    """Return one line a stated figure: name, value, grade."""
    return [f"{key} = {value:g} ({entry['grades'][key]})" for key, value in entry["stated"].items()]
