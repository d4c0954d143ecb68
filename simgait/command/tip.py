"""simgait tip: what tips a standing wearer, and how often drawn pushes do."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, TextIO

import click

from simgait.case import Case, read_case
from simgait.command.building import built_limbs
from simgait.command.running import INTERRUPTED, print_json, ready_folder, refused_if_unwritable
from simgait.command.stand import stand_sources
from simgait.errors import CaseError, Fault
from simgait.library.strengths import read_tipping_habit
from simgait.stance.provenance import model_version
from simgait.standing.names import GUARDS
from simgait.symbols import CAUTIONS
from simgait.tipping import Tipping, tip
from simgait.tipping.draws import Draw, Share, drawn, play_draws, tally
from simgait.tipping.names import ENDINGS, TRIALS, assumptions
from simgait.units import metres_from_mm, mm_from_metres

FILM, STILL, DRAWS = "tip.gif", "tip.png", "tip_draws.csv"


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What the person wants drawn."""

    draws: int  # 0: nothing
    seed: int
    push: float | None  # [N s] standard deviation; None: the usual one


@dataclass(frozen=True, kw_only=True)
class Found:
    """What the draws gave, as far as they went."""

    shares: tuple[Share, ...]
    done: int
    whole: bool  # False: the person stopped them


def run_tip(
    path: str, out: str | None, as_json: bool, height_mm: float | None, asked: Asked
) -> None:
    """Tip the wearer of a case; print thresholds and shares, and draw the threshold cases.

    path: of the case file; out: folder of film and draws, by default out/CASE, and none with JSON;
    as_json: print one JSON object and nothing else; height_mm: of pushes above the floor.

    Raises:
        CaseError: the case or the height is refused, a limb cannot be built, or the folder cannot
            be written.
    """
    case = read_case(path)
    built_limbs(path, case, case.alignments() if asked.draws else (case.baseline,))
    height = checked_height(case, height_mm)
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(path).stem))
    found = tip(case, height)
    written: list[Path] = []
    if folder is not None and found.stand is not None:
        with refused_if_unwritable(folder):
            written = pictures(case, found, folder)
    shares = draw_shares(case, asked, folder, written)
    if as_json:
        print_json(tip_entry(case, found, asked, shares))
    else:
        print_tipping(case, found, shares, written)
    if shares is not None and not shares.whole:
        click.echo(f"stopped after {shares.done} of {asked.draws} draws", err=True)
        raise click.exceptions.Exit(INTERRUPTED)


def checked_height(case: Case, height_mm: float | None) -> float | None:
    """Return the height of pushes [m], or None for the body's centre.

    Raises:
        CaseError: it is not between hip and crown.
    """
    if height_mm is None:
        return None
    low, high = (round(mm_from_metres(x)) for x in (case.person.hip_height, case.person.stature))
    if low <= height_mm <= high:
        return metres_from_mm(height_mm)
    fault = Fault(
        file="--height-mm",
        field="",
        value=f"{height_mm:g}",
        allowed=f"{low} to {high}, hip to crown",
        nearest=str(low if height_mm < low else high),
        problem="is out of range",
    )
    raise CaseError([fault])


def pictures(case: Case, found: Tipping, folder: Path) -> list[Path]:
    """Write film and still of the threshold cases; return their paths."""
    from simgait.pictures.tipping import draw_tipping
    from simgait.pictures.tipping_still import draw_tipping_still

    title = f"{case.title}: tipping, just below and just above"
    pairs, notes = found.pairs(), (cautions(), model_version())
    draw_tipping(title, pairs, notes, folder / FILM)
    draw_tipping_still(title, pairs, notes, folder / STILL)
    return [folder / FILM, folder / STILL]


def cautions() -> tuple[str, ...]:
    """Return the cautions of tipping."""
    return (*CAUTIONS, GUARDS)


def draw_shares(case: Case, asked: Asked, folder: Path | None, written: list[Path]) -> Found | None:
    """Return what the draws give, each kept in the folder's file as soon as it is known."""
    if not asked.draws:
        return None
    draws = [drawn(case, asked.seed, number, asked.push) for number in range(asked.draws)]
    with kept(case, draws, folder) as keep, progress(asked.draws) as step:

        def done(number: int, row: tuple[str, ...]) -> None:
            keep(number, row)
            step()

        rows, whole = play_draws(case, draws, done)
    if folder is not None:
        written.append(folder / DRAWS)
    return Found(shares=tally(case, rows), done=len(rows), whole=whole)


@contextmanager
def kept(
    case: Case, draws: Sequence[Draw], folder: Path | None
) -> Iterator[Callable[[int, tuple[str, ...]], None]]:
    """Yield what writes the endings of one draw as lines of a table; nothing without a folder."""
    if folder is None:
        yield lambda number, row: None
        return
    with refused_if_unwritable(folder), open(folder / DRAWS, "w", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        names = list(case.baseline.as_written())
        table.writerow(["draw", *names, *DRAWN, "ending"])

        def keep(number: int, row: tuple[str, ...]) -> None:
            errors = drawn_cells(draws[number])
            for alignment, ending in zip(case.alignments(), row, strict=True):
                table.writerow([number, *alignment.as_written().values(), *errors, ending])
            flush(file)

        yield keep


DRAWN = (
    "push_ns",
    "push_height_mm",
    "mass_error_kg",
    "residual_limb_error_mm",
    "foot_forward_error_mm",
    "dorsiflexion_error_deg",
    "stiffness_factor",
    "strength_factor",
)


def drawn_cells(draw: Draw) -> list[float]:
    """Return a draw's values in the units of DRAWN."""
    scale = (1.0, 1e3, 1.0, 1e3, 1e3, 57.29577951308232, 1.0, 1.0)
    return [round(value * by, 6) for value, by in zip(asdict(draw).values(), scale, strict=True)]


def flush(file: TextIO) -> None:
    """Hand what was written to the system, so that it outlives this process."""
    file.flush()


@contextmanager
def progress(count: int) -> Iterator[Callable[[], None]]:
    """Yield what moves a progress bar one draw on; a bar shows only in a terminal."""
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TimeRemainingColumn

    terminal = Console(stderr=True)
    columns = ("draws", BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=terminal, disable=not terminal.is_terminal) as bar:
        task = bar.add_task("draws", total=count)
        yield lambda: bar.advance(task)


def tip_entry(case: Case, found: Tipping, asked: Asked, shares: Found | None) -> dict[str, Any]:
    """Return everything as JSON says it."""
    entry: dict[str, Any] = {
        "title": case.title,
        "ending": found.ending,
        **found.values,
        "then": {name: each.ending for name, each in found.thresholds.items()},
        "runs": [share_entry(share) for share in shares.shares] if shares else [],
    }
    if shares is not None:
        entry["draws"] = {"asked": asked.draws, "done": shares.done, "seed": asked.seed}
    return entry | {
        "assumptions": assumptions(read_tipping_habit()),
        "filled": case.filled,
        "cautions": cautions(),
        "sources": stand_sources(case),
        "version": model_version(),
    }


def share_entry(share: Share) -> dict[str, Any]:
    """Return one alignment's share of draws that tip, as JSON says it."""
    return {
        "alignment": share.alignment.as_written(),
        "tip_share": share.tip_share,
        "interval": share.interval,
        "endings": share.endings,
    }


def print_tipping(
    case: Case, found: Tipping, shares: Found | None, written: Sequence[Path]
) -> None:
    """Print thresholds, shares and notes."""
    from rich.table import Table

    from simgait.command.tables import console, print_notes
    from simgait.standing.names import ENDINGS as STANDING_ENDINGS

    terminal = console()
    table = Table(title=case.title, title_justify="left", header_style="")
    for heading, side in (("trial", "left"), ("too much from", "right"), ("unit", "left")):
        table.add_column(heading, justify="right" if side == "right" else "left")
    table.add_column("just above")
    for trial in TRIALS:
        each = found.thresholds.get(trial.name)
        value = f"{each.value:.3g}" if each is not None and each.above is not None else "-"
        words = ENDINGS[each.ending] if each else "-"
        table.add_row(trial.title, value, trial.unit, words)
    terminal.print(table)
    terminal.print(f"Both feet: {STANDING_ENDINGS[found.ending]}.")
    if shares is not None:
        terminal.print(share_table(shares))
    print_notes(terminal, "Assumed", assumptions(read_tipping_habit()))
    print_notes(terminal, "Filled in", case.filled)
    print_notes(terminal, "Cautions", cautions())
    print_notes(terminal, "Written", [str(path) for path in written], wrap=False)


def share_table(found: Found) -> Any:
    """Return the shares of all alignments as a table."""
    from rich.table import Table

    title = f"Share of {found.done} drawn pushes, with errors of measurement, that do not stay"
    table = Table(title=title, title_justify="left", header_style="")
    written = [share.alignment.as_written() for share in found.shares]
    names = [name for name in written[0] if len({row[name] for row in written}) > 1]
    for name in names:
        table.add_column(name, justify="right")
    for heading in ("share", "95 % interval"):
        table.add_column(heading, justify="right")
    table.add_column("endings")
    for share, row in zip(found.shares, written, strict=True):
        low, high = share.interval
        endings = ", ".join(f"{name} {count}" for name, count in sorted(share.endings.items()))
        shown = "-" if not share.count else f"{share.tip_share:.2f}"
        table.add_row(
            *(f"{row[name]:g}" for name in names), shown, f"{low:.2f} to {high:.2f}", endings
        )
    return table
