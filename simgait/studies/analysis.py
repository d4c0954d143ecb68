"""What the stored runs of a study say: sensitivities, differences, trade-offs, maps, endings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from simgait.arrays import Array
from simgait.studies.cells import cells_of
from simgait.studies.differences import LEAST_DRAWS, paired_differences
from simgait.studies.front import trade_off
from simgait.studies.report import Stock, stock_of
from simgait.studies.sensitivity import (
    Index,
    Screening,
    first_order_indices,
    morris_screening,
    sobol_indices,
)
from simgait.studies.store import read_manifest
from simgait.studies.study import AIM, Level
from simgait.studies.table import read_study
from simgait.studies.wishes import Wishes


@dataclass(frozen=True, kw_only=True)
class Varied:
    """One name that varies: levels, or a span."""

    name: str
    levels: tuple[Level, ...]
    low: float
    high: float

    @property
    def numeric(self) -> bool:
        """Whether its values are numbers."""
        return not any(isinstance(level, str) for level in self.levels)


@dataclass(frozen=True, kw_only=True, eq=False)
class Report:
    """Everything that is told of a study."""

    stock: Stock
    wishes: Wishes
    axes: tuple[Varied, ...]
    cases: tuple[str, ...]
    frame: pd.DataFrame
    base: Mapping[str, Level]
    indices: Mapping[tuple[str, str], tuple[Index, ...]] = field(default_factory=dict)
    screenings: Mapping[tuple[str, str], tuple[Screening, ...]] = field(default_factory=dict)
    differences: pd.DataFrame | None = None
    front: Mapping[str, pd.DataFrame] = field(default_factory=dict)  # by case
    cells: pd.DataFrame | None = None  # of the first two axes of numbers, by case
    across: tuple[str, ...] = ()  # those two axes
    held: Mapping[str, Level] = field(default_factory=dict)  # what the others are held at
    unsaid: tuple[str, ...] = ()  # what could not be told, and why

    @property
    def names(self) -> tuple[str, ...]:
        """The names that vary."""
        return tuple(axis.name for axis in self.axes)


def report_of(folder: str | Path) -> Report:
    """Return what the stored runs of a study say; nothing is simulated.

    Sensitivities where the study is a sample, differences where a grid has draws of its errors,
    maps where a grid has two axes of numbers, a front where the study file names goals.

    Raises:
        StoreError: no study's folder, or a damaged part.
    """
    place = Path(folder)
    stock, frame, manifest = stock_of(place), read_study(place), read_manifest(place)
    wishes = Wishes.from_written(manifest.get("report", {}))
    axes = tuple(_varied(entry) for entry in manifest["specification"]["vary"])
    report = Report(
        stock=stock,
        wishes=wishes,
        axes=axes,
        cases=tuple(manifest["specification"]["cases"]),
        frame=frame,
        base=base_of(axes, wishes),
    )
    unsaid: list[str] = []
    told: dict[str, Any] = {}
    if stock.method in ("sobol", "lhs", "saltelli"):
        told["indices"] = by_measure(report, indices_of, unsaid)
    if stock.method == "morris":
        told["screenings"] = by_measure(report, screening_of, unsaid)
    if stock.method == "grid":
        told |= cells_at_base(report)
        told["differences"] = differences_of(report, unsaid)
    if wishes.goals:
        told["front"] = {
            case: trade_off(part, wishes.goals)
            for case in report.cases
            if len(part := part_of(report, case).dropna(subset=list(wishes.goals)))
        }
    return Report(**{**vars(report), **told, "unsaid": tuple(unsaid)})


def _varied(entry: Mapping[str, Any]) -> Varied:
    return Varied(
        name=entry["name"],
        levels=tuple(entry.get("levels", ())),
        low=float(entry.get("from", np.nan)),
        high=float(entry.get("to", np.nan)),
    )


def aimed(frame: pd.DataFrame, name: str) -> pd.Series[Any]:
    """Return what a name was set to, before its error of measurement if it has one."""
    column: pd.Series[Any] = frame[f"{name}{AIM}" if f"{name}{AIM}" in frame else name]
    return column


def base_of(axes: tuple[Varied, ...], wishes: Wishes) -> dict[str, Level]:
    """Return the setting to compare with: as wished, else each axis' middle level."""
    return {
        axis.name: wishes.base.get(axis.name, axis.levels[len(axis.levels) // 2])
        for axis in axes
        if axis.levels
    }


def part_of(report: Report, case: str) -> pd.DataFrame:
    """Return the rows of one case."""
    return report.frame[report.frame["case"].astype(str) == case]


def by_measure(
    report: Report, tell: Callable[[Report, pd.DataFrame, str], Any], unsaid: list[str]
) -> dict[tuple[str, str], Any]:
    """Return what is told of every case and measure; what cannot be told is noted."""
    found = {}
    for case in report.cases:
        part = part_of(report, case)
        for measure in report.wishes.measures:
            try:
                found[case, measure] = tell(report, part, measure)
            except ValueError as trouble:
                unsaid.append(f"{case}, {measure}: {trouble}")
    return found


def indices_of(report: Report, part: pd.DataFrame, measure: str) -> tuple[Index, ...]:
    """Return the indices of a measure over the rows of one case.

    Raises:
        ValueError: too few runs gave a number, or the measure never changes.
    """
    outputs = part[measure].to_numpy(dtype=np.float64)
    if report.stock.method == "saltelli":
        length = len(report.axes) + 2
        whole = len(outputs) // length * length
        return sobol_indices(report.names, outputs[:whole], report.stock.seed)
    points = shares_of(report, part)
    return first_order_indices(report.names, points, outputs, report.stock.seed)


def screening_of(report: Report, part: pd.DataFrame, measure: str) -> tuple[Screening, ...]:
    """Return the elementary effects on a measure over the rows of one case.

    Raises:
        ValueError: too few trajectories are whole, or the measure never changes.
    """
    length = len(report.axes) + 1
    whole = len(part) // length * length
    outputs = part[measure].to_numpy(dtype=np.float64)[:whole]
    points = shares_of(report, part)[:whole]
    return morris_screening(report.names, points, outputs, report.stock.seed)


def shares_of(report: Report, part: pd.DataFrame) -> Array:
    """Return where in its span each varied value lies, 0 to 1 [rows, names].

    A list is taken by the places of its levels, evenly spread.
    """
    columns = []
    for axis in report.axes:
        values = aimed(part, axis.name)
        if axis.levels:
            place = {level: k for k, level in enumerate(axis.levels)}
            last = max(len(axis.levels) - 1, 1)
            columns.append(np.array([place[value] / last for value in values]))
        else:
            columns.append((values.to_numpy(dtype=np.float64) - axis.low) / (axis.high - axis.low))
    return np.stack(columns, axis=-1)


def differences_of(report: Report, unsaid: list[str]) -> pd.DataFrame | None:
    """Return the paired differences of every setting from the base, by case; None without draws.

    Too few draws are noted in `unsaid`.
    """
    names = list(report.names)
    if "draw" not in report.frame or not names:
        return None
    tables = []
    for case in report.cases:
        part = part_of(report, case)
        draws = part["draw"].nunique()
        if draws < LEAST_DRAWS:
            unsaid.append(f"{case}: differences need {LEAST_DRAWS} draws, there are {draws}")
            continue
        told = part[["draw", *report.wishes.measures]].assign(
            **{name: aimed(part, name) for name in names}
        )
        base = [report.base[name] for name in names]
        found = paired_differences(told, names, base, report.wishes.measures)
        tables.append(found.assign(case=case))
    return pd.concat(tables, ignore_index=True) if tables else None


def cells_at_base(report: Report) -> dict[str, Any]:
    """Return the cells of a grid's first two axes of numbers, the other axes held at the base.

    Nothing if the grid has no two such axes.
    """
    numbers = [axis.name for axis in report.axes if axis.numeric and len(axis.levels) > 1]
    if len(numbers) < 2:
        return {}
    across = tuple(numbers[:2])
    held = {name: level for name, level in report.base.items() if name not in across}
    chosen = report.frame
    for name, level in held.items():
        chosen = chosen[aimed(chosen, name) == level]
    named = chosen.assign(case=chosen["case"].astype(str))
    cells = cells_of(named, across, report.wishes.measures, by=("case",))
    return {"cells": cells, "across": across, "held": held}
