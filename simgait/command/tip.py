"""simgait tip: what tips a standing wearer, and how often drawn pushes do."""

from __future__ import annotations

import math
import os
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from simgait.case import Case, read_case
from simgait.command.building import built_limbs
from simgait.command.running import (
    INTERRUPTED,
    print_json,
    ready_folder,
    refused_if_unwritable,
    refused_option,
)
from simgait.command.stand import stand_sources
from simgait.command.tip_draws import DRAWS, Asked, Found, draw_shares
from simgait.library.strengths import read_tipping_habit
from simgait.stance.provenance import model_version
from simgait.standing.names import GUARDS
from simgait.symbols import CAUTIONS
from simgait.tipping import Tipping, tip
from simgait.tipping.draws import Share, push_spread
from simgait.tipping.names import ENDINGS, TRIALS, assumptions
from simgait.units import metres_from_mm, mm_from_metres

MOST_JOBS = 3  # processes that look for thresholds
PUSHES = (0.1, 100.0)  # [N s] sizes of drawn pushes
FILM, STILL = "tip.gif", "tip.png"


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
    check_push(asked.push)
    folder = None
    if out is not None or not as_json:
        folder = ready_folder(out or str(Path("out") / Path(path).stem))
        clear_old(folder)
    found = tip(case, height, jobs=min(len(os.sched_getaffinity(0)), MOST_JOBS))
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


def check_push(push: float | None) -> None:
    """Refuse a size of drawn pushes that is none [N s].

    Raises:
        CaseError: it is not finite, or out of range.
    """
    low, high = PUSHES
    if push is None or low <= push <= high:
        return
    problem = "is out of range" if math.isfinite(push) else "is not finite"
    raise refused_option("--push-ns", f"{push:g}", problem, f"{low:g} to {high:g}")


def clear_old(folder: Path) -> None:
    """Take away what an earlier run wrote, so that nothing of it stands beside the new.

    Raises:
        CaseError: something is in the way.
    """
    for name in (FILM, STILL, DRAWS):
        with refused_if_unwritable(folder / name):
            (folder / name).unlink(missing_ok=True)


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
    allowed, near = f"{low} to {high}, hip to crown", str(low if height_mm < low else high)
    raise refused_option("--height-mm", f"{height_mm:g}", "is out of range", allowed, near)


def pictures(case: Case, found: Tipping, folder: Path) -> list[Path]:
    """Write film and still of the threshold cases; return their paths."""
    from simgait.pictures.tipping import draw_tipping
    from simgait.pictures.tipping_still import draw_tipping_still

    pairs, notes = found.pairs(), (cautions(), model_version())
    film_title = f"{case.title}: tipping, just below and just above"
    draw_tipping(film_title, pairs, notes, folder / FILM)
    draw_tipping_still(f"{case.title}: tipping, just above", pairs, notes, folder / STILL)
    return [folder / FILM, folder / STILL]


def cautions() -> tuple[str, ...]:
    """Return the cautions of tipping."""
    return (*CAUTIONS, GUARDS)


def tip_entry(case: Case, found: Tipping, asked: Asked, shares: Found | None) -> dict[str, Any]:
    """Return everything as JSON says it."""
    base = shares.shares[case.baseline_index] if shares else None
    entry: dict[str, Any] = {
        "title": case.title,
        "ending": found.ending,
        **found.values,
        "then": {name: each.ending for name, each in found.thresholds.items()},
        "between": {name: (each.low, each.high) for name, each in found.thresholds.items()},
        "push_height_mm": None if found.stand is None else mm_from_metres(found.stand.push_height),
        "alignment": case.baseline.as_written(),
        "runs": [share_entry(share, base) for share in shares.shares] if shares and base else [],
    }
    if shares is not None:
        entry["draws"] = {
            "asked": asked.draws,
            "done": shares.done,
            "seed": asked.seed,
            "push_sd_ns": push_spread(case, asked.push),
            "interval": "Wilson's score, 95 %, of each alignment alone",
        }
    return entry | {
        "assumptions": assumptions(read_tipping_habit()),
        "filled": case.filled,
        "cautions": cautions(),
        "sources": stand_sources(case),
        "version": model_version(),
    }


def share_entry(share: Share, base: Share) -> dict[str, Any]:
    """Return one alignment's share of draws that tip, and against the base, as JSON says it."""
    only_here, only_base = share.against(base)
    return {
        "alignment": share.alignment.as_written(),
        "tip_share": share.tip_share,
        "interval": share.interval,
        "endings": share.endings,
        "against_own_alignment": {"tips_only_here": only_here, "tips_only_there": only_base},
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
    terminal.print(f"Both feet: {(STANDING_ENDINGS | ENDINGS)[found.ending]}.")
    for caution in cautions():
        terminal.print(caution)
    if shares is not None:
        terminal.print(share_table(shares, shares.shares[case.baseline_index]))
    print_notes(terminal, "Assumed", assumptions(read_tipping_habit()))
    print_notes(terminal, "Filled in", case.filled)
    print_notes(terminal, "Written", [str(path) for path in written], wrap=False)


def share_table(found: Found, base: Share) -> Any:
    """Return the shares of all alignments as a table."""
    from rich.table import Table

    title = f"Share of {found.done} drawn pushes, with errors of measurement, that do not stay"
    table = Table(title=title, title_justify="left", header_style="")
    written = [share.alignment.as_written() for share in found.shares]
    names = [name for name in written[0] if len({row[name] for row in written}) > 1]
    for name in names:
        table.add_column(name, justify="right")
    for heading in ("share", "95 % interval", "only here", "only at own"):
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
