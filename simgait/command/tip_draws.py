"""The draws of simgait tip: played with a bar, each kept as soon as it is known."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

from simgait.case import Case
from simgait.command.running import refused_if_unwritable
from simgait.tipping.draws import Draw, Share, drawn, play_draws, tally
from simgait.units import degrees_from_radians, mm_from_metres

DRAWS = "tip_draws.csv"


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
    with refused_if_unwritable(folder / DRAWS), open(folder / DRAWS, "w", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        names = list(case.baseline.as_written())
        table.writerow(["draw", *names, *DRAWN, "ending"])

        def keep(number: int, row: tuple[str, ...]) -> None:
            errors = drawn_cells(draws[number])
            for alignment, ending in zip(case.alignments(), row, strict=True):
                table.writerow([number, *alignment.as_written().values(), *errors, ending])
            file.flush()

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
    values = {
        **asdict(draw),
        "height": mm_from_metres(draw.height),
        "residual_limb": mm_from_metres(draw.residual_limb),
        "foot_forward": mm_from_metres(draw.foot_forward),
        "dorsiflexion": degrees_from_radians(draw.dorsiflexion),
    }
    return [round(value, 6) for value in values.values()]


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
