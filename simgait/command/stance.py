"""simgait stance: one stance, all measures, and the energy ledger."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from rich.console import Console

from simgait.case import Case, read_case
from simgait.command.assuming import STRATEGIES, changes_line, refused_without_walk
from simgait.command.building import built_limbs
from simgait.command.compare import run_entry
from simgait.command.running import overrides_of, print_json
from simgait.command.tables import console, ledger_table, measures_table, print_notes
from simgait.errors import CaseError
from simgait.stance import StanceResult, simulate_stance, simulate_stance_in_bodies
from simgait.stance.adapting import Adaptation, adaptation, with_adaptation
from simgait.stance.comparing import NOT_ADAPTED
from simgait.stance.kept_walk import kept_walk
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.symbols import ADAPTS_CAUTIONS, CAUTIONS, ENDING_SENTENCES


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


def case_kept(path: str, settings: tuple[str, ...]) -> Case:
    """Return the case whose walk a wearer who adapts keeps: as set, at the file's own alignment.

    Raises:
        CaseError: the file's own alignment is refused.
    """
    own = tuple(word for word in settings if not word.strip().startswith("alignment."))
    return case_with(path, own)


def run_stance(
    case: str,
    settings: tuple[str, ...],
    as_json: bool,
    engine: str = "compiled",
    assumption: str = "keeps",
) -> None:
    """Simulate the case's own alignment and print what came out.

    case: path of the case file; settings: ``KEY=VALUE`` that replace what it says; engine:
    "compiled" or "bodies"; assumption: of the wearer, "keeps", "adapts" or "both": one who adapts
    keeps the walk at the alignment that the file states.

    Raises:
        CaseError: the case, or a setting, is refused, or the limb cannot be built, or a wearer who
            adapts has no walk to keep.
    """
    checked = case_with(case, settings)
    (limb,) = built_limbs(case, checked, (checked.baseline,))
    run = simulate_stance_in_bodies if engine == "bodies" else simulate_stance
    stances = [] if assumption == "adapts" else [Stance(result=run(limb))]
    if assumption != "keeps":
        own = case_kept(case, settings)
        (at_home,) = built_limbs(case, own, (own.baseline,))
        with refused_without_walk(case):
            found = adaptation(limb, kept_walk(at_home))
        stances.append(Stance(result=run(with_adaptation(limb, found)), found=found))
    cautions = stance_cautions(checked, stances)
    if as_json:
        print_json(
            {
                "title": checked.title,
                **stances[0].entry(),
                **({"adapts": stances[1].entry()} if len(stances) > 1 else {}),
                "assumption": assumption,
                "filled": checked.filled,
                "cautions": cautions,
                "sources": case_sources(checked),
                "version": model_version(),
            }
        )
        return
    terminal = console()
    terminal.print(checked.title, markup=False)
    for stance in stances:
        print_stance(terminal, stance)
    print_notes(terminal, "Filled in", checked.filled)
    print_notes(terminal, "Cautions", cautions)


@dataclass(frozen=True, kw_only=True)
class Stance:
    """One stance and what was assumed of its wearer."""

    result: StanceResult
    found: Adaptation | None = None  # of a wearer who adapts

    @property
    def changes(self) -> Mapping[str, float] | None:
        """How the wearer adapts [deg]; None where nobody does, or it is not adapted."""
        return self.found.as_written(0) if self.found and self.found.walks[0] else None

    def entry(self) -> dict[str, Any]:
        """The stance as JSON says it."""
        ledger = self.result.ledger
        return {
            **run_entry(self.result),
            "ledger": {**asdict(ledger), "error_percent": ledger.error_percent},
            **({"adaptation": self.changes} if self.found else {}),
        }


def stance_cautions(case: Case, stances: Sequence[Stance]) -> tuple[str, ...]:
    """Return the cautions of some stances of a case, each once."""
    found: list[str] = []
    for stance in stances:
        found += case_cautions(case, ADAPTS_CAUTIONS if stance.found else CAUTIONS)
        if stance.found and stance.changes is None:
            found.append(NOT_ADAPTED.capitalize())
    return tuple(dict.fromkeys(found))


def print_stance(terminal: Console, stance: Stance) -> None:
    """Print what came out of one stance."""
    result = stance.result
    written = result.alignment.as_written()
    terminal.print("  ".join(f"{name} = {value:g}" for name, value in written.items()))
    terminal.print(STRATEGIES["adapts" if stance.found else "keeps"])
    if stance.changes is not None:
        terminal.print(f"references moved: {changes_line(stance.changes)}")
    terminal.print(f"ending: {result.ending} after {result.end_time:.3f} s")
    terminal.print(ENDING_SENTENCES[result.ending])
    terminal.print(measures_table(result))
    terminal.print(ledger_table(result))
    print_notes(terminal, "Remarks", result.remarks)
