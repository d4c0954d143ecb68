"""simgait stance: one stance, all measures, and the energy ledger."""

from __future__ import annotations

from dataclasses import asdict

from simgait.case import Case, read_case
from simgait.command.building import built_limbs
from simgait.command.compare import run_entry
from simgait.command.running import overrides_of, print_json
from simgait.command.tables import console, ledger_table, measures_table, print_notes
from simgait.errors import CaseError
from simgait.stance import simulate_stance, simulate_stance_in_bodies
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.symbols import ENDING_SENTENCES


def case_with(path: str, settings: tuple[str, ...]) -> Case:
    """Return a case with ``--set`` settings in place of what it says.

    Raises:
        CaseError: with the faults of the settings' form, the file and the values, all at once.
    """
    found, faults = overrides_of(settings)
    try:
        case = read_case(path, found)
    except CaseError as refusal:
        raise CaseError((*faults, *refusal.faults)) from None
    if faults:
        raise CaseError(faults)
    return case


def run_stance(
    case: str, settings: tuple[str, ...], as_json: bool, engine: str = "compiled"
) -> None:
    """Simulate the case's own alignment and print what came out.

    case: path of the case file; settings: ``KEY=VALUE`` that replace what it says; engine:
    "compiled" or "bodies".

    Raises:
        CaseError: the case, or a setting, is refused, or the limb cannot be built.
    """
    checked = case_with(case, settings)
    (limb,) = built_limbs(case, checked, (checked.baseline,))
    run = simulate_stance_in_bodies if engine == "bodies" else simulate_stance
    result = run(limb)
    cautions = case_cautions(checked)
    if as_json:
        print_json(
            {
                "title": checked.title,
                **run_entry(result),
                "ledger": {**asdict(result.ledger), "error_percent": result.ledger.error_percent},
                "filled": checked.filled,
                "cautions": cautions,
                "sources": case_sources(checked),
                "version": model_version(),
            }
        )
        return
    terminal = console()
    terminal.print(checked.title, markup=False)
    written = result.alignment.as_written()
    terminal.print("  ".join(f"{name} = {value:g}" for name, value in written.items()))
    terminal.print(f"ending: {result.ending} after {result.end_time:.3f} s")
    terminal.print(ENDING_SENTENCES[result.ending])
    terminal.print(measures_table(result))
    terminal.print(ledger_table(result))
    print_notes(terminal, "Remarks", result.remarks)
    print_notes(terminal, "Filled in", checked.filled)
    print_notes(terminal, "Cautions", cautions)
