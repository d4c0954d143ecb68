"""Invented material for the pictures of studies, and what reads a figure; nothing simulated."""

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from simgait.pictures.studies import (
    draw_differences,
    draw_front,
    draw_heat_map,
    draw_screening,
    draw_small_multiples,
    draw_tornado,
)
from simgait.studies.differences import paired_differences
from simgait.studies.front import trade_off
from simgait.studies.sensitivity import Index, Screening

FORWARD, TOE = "alignment.foot_forward_mm", "alignment.dorsiflexion_deg"
PEAK, THRUST = "knee_flexion_moment_peak_nm", "drop_off"
NAN = float("nan")


@dataclass(frozen=True, kw_only=True)
class Told:
    """What a store would tell of an invented study."""

    title: str = "Invented: a $10 foot_shift$ of nobody"
    rows: int = 96
    planned: int = 96
    endings: dict[str, int] = field(default_factory=lambda: {"toe_off": 90, "fell_forward": 6})
    seed: int = 4711
    method: str = "grid"
    cautions: tuple[str, ...] = ("Planning aid, not a prescription.", "Guard every trial.")
    version: str = "0+invented"


def a_grid(side: int = 3) -> pd.DataFrame:
    """Cells in which the value is ten times x plus y, the last of which all ended badly."""
    levels = range(side)
    rows = [(10.0 * x, float(y), 100.0 * x + y, 2, 0.0, "") for x in levels for y in levels]
    cells = pd.DataFrame(rows, columns=[FORWARD, TOE, PEAK, "runs", "bad", "ending"])
    cells.loc[len(cells) - 1, [PEAK, "bad", "ending"]] = [NAN, 1.0, "fell_forward"]
    cells.loc[0, ["bad", "ending"]] = [0.5, "foot_slipped"]
    return cells


def an_index(name: str, first: float, total: float) -> Index:
    return Index(
        name=name,
        first=first,
        first_low=first - 0.02,
        first_high=first + 0.02,
        total=total,
        total_low=total - 0.03,
        total_high=total + 0.03,
    )


def some_runs() -> pd.DataFrame:
    rng = np.random.default_rng(5)
    table = pd.DataFrame({PEAK: rng.uniform(10, 60, 80), THRUST: rng.uniform(0, 1, 80)})
    table[FORWARD] = rng.uniform(-20, 20, 80)
    table["ending"] = "toe_off"
    table.loc[:3, [PEAK, THRUST]] = NAN
    table.loc[:3, "ending"] = "foot_slipped"
    return table


def some_changes() -> pd.DataFrame:
    rng = np.random.default_rng(6)
    steps = np.repeat([-5.0, 0.0, 20.0], 32)
    table = pd.DataFrame({FORWARD: steps, "draw": np.tile(np.arange(32), 3)})
    table[PEAK] = 40.0 + 0.2 * steps + np.tile(rng.normal(0, 1.0, 32), 3)
    return paired_differences(table, [FORWARD], [0.0], [PEAK])


def draw(name: str, path: Path, study: Any) -> Path:
    """Draw one picture of each kind from small invented material."""
    over = {"study": study, "x": FORWARD, "y": TOE, "measure": PEAK}
    two = pd.concat([a_grid().assign(case="a.toml"), a_grid().assign(case="heavy-worker.toml")])
    runs = some_runs()
    goals: dict[str, Any] = {PEAK: "low", THRUST: "low"}
    effect = Screening(name=TOE, mean=-3.0, mean_size=4.0, half_interval=0.5, spread=2.0)
    kinds: dict[str, Callable[[], Path]] = {
        "heat": lambda: draw_heat_map(a_grid(), path, limit=150.0, **over),
        "multiples": lambda: draw_small_multiples(two, path, **over),
        "tornado": lambda: draw_tornado({PEAK: [an_index(TOE, 0.3, 0.4)]}, path, study=study),
        "screening": lambda: draw_screening({PEAK: [effect]}, path, study=study),
        "front": lambda: draw_front(
            runs, trade_off(runs, goals), path, study=study, goals=goals, settings=[FORWARD],
            baseline={PEAK: 30.0, THRUST: 0.5, FORWARD: 0.0},
        ),
        "differences": lambda: draw_differences(
            some_changes(), path, study=study, settings=[FORWARD], base={FORWARD: 0.0}
        ),
    }  # fmt: skip
    return kinds[name]()


KINDS = ("heat", "multiples", "tornado", "screening", "front", "differences")


def marked(figure: Any, gid: str) -> list[Any]:
    return figure.findobj(lambda artist: artist.get_gid() == gid)


def texts_of(figure: Any) -> list[Any]:
    from matplotlib.text import Text

    return [text for text in figure.findobj(Text) if text.get_text().strip()]


def grey_of(colour: Any) -> float:
    """Grey value 0 to 1 as ITU-R BT.601 weighs the colours, which is what a grey copy shows."""
    return (0.299 * colour[0] + 0.587 * colour[1] + 0.114 * colour[2]) / 255.0
