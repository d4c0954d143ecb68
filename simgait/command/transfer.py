"""simgait transfer: the finished chain that keeps the foot where the adjustable unit had it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.case import read_case
from simgait.command.building import built_limbs
from simgait.command.running import print_json, ready_folder, refused_if_unwritable
from simgait.command.tables import console, print_notes, shown_value
from simgait.parts.pylon import screw_turns
from simgait.symbols import BY_NAME, MAIN_MEASURES
from simgait.transfer import Fitted, Pose, Transfer, ahead_words, transfer
from simgait.units import degrees_from_radians, mm_from_metres

if TYPE_CHECKING:
    from rich.table import Table

SHEET = "transfer.pdf"
DIGITS = 6  # of lengths in mm and angles in deg, as JSON says them


def rounded(value: float) -> float:
    """Return a value as JSON says it, without the noise of the last digits.

    >>> rounded(0.30000000000000004)
    0.3
    """
    return round(value, DIGITS) + 0.0


def pose_entry(pose: Pose) -> dict[str, float]:
    """Return a pose as JSON says it."""
    return {
        "forward_mm": rounded(mm_from_metres(pose.forward)),
        "below_mm": rounded(mm_from_metres(pose.below)),
        "turn_deg": rounded(degrees_from_radians(pose.turn)),
    }


def chain_entry(made: Transfer, fitted: Fitted) -> dict[str, Any]:
    """Return a chain as JSON says it: first the agreed names, then what stands beside them."""
    found, chain = fitted.found, fitted.found.chain
    turn = made.limb.pylon.turn
    return {
        "pylon_mm": rounded(mm_from_metres(found.pylon)),
        "upper_tilt_deg": rounded(degrees_from_radians(chain.upper_tilt)),
        "lower_tilt_deg": rounded(degrees_from_radians(chain.lower_tilt)),
        "offset_mm": rounded(mm_from_metres(chain.offset)),
        "error_mm": rounded(mm_from_metres(found.error)),
        "error_deg": rounded(degrees_from_radians(abs(found.turn_error))),
        "cut_from_mm": rounded(mm_from_metres(found.cut_from)),
        "cut_to_mm": rounded(mm_from_metres(found.cut_to)),
        "upper_turns": rounded(screw_turns(chain.upper_tilt, turn)),
        "lower_turns": rounded(screw_turns(chain.lower_tilt, turn)),
        "alignment": fitted.alignment.as_written(),
        "ending": fitted.result.ending,
        "measures": {name: fitted.result.measures[name] for name in MAIN_MEASURES},
        "changes": dict(made.changes(fitted)),
        "remarks": fitted.remarks,
    }


def transfer_entry(made: Transfer) -> dict[str, Any]:
    """Return a transfer as JSON says it."""
    return {
        "title": made.title,
        "pose": pose_entry(made.pose),
        "from_unit": made.unit is not None,
        "alignment": made.limb.alignment.as_written(),
        "measures": {name: made.result.measures[name] for name in MAIN_MEASURES},
        "ending": made.result.ending,
        "tolerance_mm": rounded(mm_from_metres(made.hardware.tolerance)),
        "tolerance_deg": rounded(degrees_from_radians(made.hardware.turn_tolerance)),
        "chains": [chain_entry(made, fitted) for fitted in made.fitted],
        "filled": made.filled,
        "cautions": made.cautions,
        "sources": made.sources,
        "version": made.version,
    }


def run_transfer(case: str, out: str | None, as_json: bool) -> None:
    """Find the finished chains of a case, print them, and write the bench sheet.

    case: path of the case file; out: folder [out/CASE]; as_json: one JSON object is printed, and
    nothing is written unless `out` is given.

    Raises:
        CaseError: the case is refused, no chain keeps the pose, or the folder cannot be written.
    """
    checked = read_case(case)
    built_limbs(case, checked, (checked.baseline,))
    made = transfer(checked, case)
    written: list[Path] = []
    if out is not None or not as_json:
        from simgait.pictures.transfer import draw_transfer

        folder = ready_folder(out or str(Path("out") / Path(case).stem))
        with refused_if_unwritable(folder):
            written = [draw_transfer(made, folder / SHEET)]
    if as_json:
        print_json(transfer_entry(made))
        return
    _print(made, written)


def _print(made: Transfer, written: list[Path]) -> None:
    terminal = console()
    pose = pose_entry(made.pose)
    terminal.print(made.title, markup=False)
    whose = "as the unit reads" if made.unit is not None else "of [alignment]"
    words = (
        f"Pose of the foot {whose}: ankle {ahead_words(made.pose.forward)} the socket's axis "
        f"and {pose['below_mm']:.1f} mm below its end, foot turned {pose['turn_deg']:+.2f} deg "
        "(+ toe up)."
    )
    terminal.print(words, markup=False)
    terminal.print(chains_table(made))
    terminal.print(effects_table(made))
    for number, fitted in enumerate(made.fitted, start=1):
        print_notes(terminal, f"Chain {number}", fitted.remarks)
    print_notes(terminal, "Filled in", made.filled)
    print_notes(terminal, "Cautions", made.cautions)
    print_notes(terminal, "Written", [str(path) for path in written], wrap=False)


def chains_table(made: Transfer) -> Table:
    """Return the chains as a table, the best first."""
    from rich.table import Table

    table = Table(title="Chains that keep it", title_justify="left", header_style="")
    heads = ("", "tube cut\nmm", "cut from to\nmm", "upper tilt\ndeg", "lower tilt\ndeg")
    for head in (*heads, "plate\nmm", "ankle off\nmm", "foot off\ndeg"):
        table.add_column(head, justify="right", no_wrap=True)
    for number, fitted in enumerate(made.fitted, start=1):
        entry = chain_entry(made, fitted)
        table.add_row(
            str(number),
            f"{entry['pylon_mm']:.1f}",
            f"{entry['cut_from_mm']:.1f} {entry['cut_to_mm']:.1f}",
            f"{entry['upper_tilt_deg']:+.2f}",
            f"{entry['lower_tilt_deg']:+.2f}",
            f"{entry['offset_mm']:+g}",
            f"{entry['error_mm']:.2f}",
            f"{entry['error_deg']:.2f}",
        )
    return table


def effects_table(made: Transfer) -> Table:
    """Return what the chains' errors do to the main measures, as a table."""
    from rich.table import Table

    table = Table(title="What the errors change", title_justify="left", header_style="")
    table.add_column("measure", no_wrap=True)
    table.add_column("unit", no_wrap=True)
    pose = "unit's pose" if made.unit is not None else "case's pose"
    table.add_column(pose, justify="right", no_wrap=True)
    for number in range(1, len(made.fitted) + 1):
        table.add_column(f"chain {number}", justify="right", no_wrap=True)
    for name in MAIN_MEASURES:
        before = made.result.measures[name]
        table.add_row(
            BY_NAME[name].title,
            BY_NAME[name].unit,
            shown_value(before, name),
            *(shown_value(each.result.measures[name], name, before) for each in made.fitted),
        )
    return table
