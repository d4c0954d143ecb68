"""All pictures of one study's report."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.pictures.studies.changes import MOST_ROWS, draw_differences
from simgait.pictures.studies.front import draw_front
from simgait.pictures.studies.heat import MOST_PANELS, draw_heat_map, draw_small_multiples
from simgait.pictures.studies.tornado import draw_screening, draw_tornado

if TYPE_CHECKING:
    from simgait.studies.analysis import Report

__all__ = ["draw_study"]


def draw_study(report: Report, folder: Path) -> list[Path]:
    """Draw everything that a report tells into a folder; return the pictures' paths.

    Pictures of the same name are replaced.

    Raises
    ------
    OSError : a file cannot be written.
    """
    return [
        *_heat(report, folder),
        *_bars(report, folder),
        *_fronts(report, folder),
        *_changes(report, folder),
    ]


def _name(kind: str, *parts: str) -> str:
    return "-".join((kind, *(part for part in parts if part))) + ".png"


def _case_part(report: Report, case: str) -> str:
    """What a file's name says of the case: nothing if there is but one."""
    return Path(case).stem if len(report.cases) > 1 else ""


def _heat(report: Report, folder: Path) -> list[Path]:
    if report.cells is None:
        return []
    x, y = report.across
    made = []
    for measure in report.wishes.measures:
        words: dict[str, Any] = {"study": report.stock, "x": x, "y": y, "measure": measure}
        limit = report.wishes.limits.get(measure)
        path = folder / _name("map", measure)
        if 1 < len(report.cases) <= MOST_PANELS:
            labels: Mapping[object, str] = {case: Path(case).stem for case in report.cases}
            made.append(
                draw_small_multiples(report.cells, path, limit=limit, labels=labels, **words)
            )
        elif len(report.cases) == 1:
            made.append(draw_heat_map(report.cells, path, limit=limit, **words))
    return made


def _bars(report: Report, folder: Path) -> list[Path]:
    made = []
    spans = {axis.name: (axis.low, axis.high) for axis in report.axes if not axis.levels}
    for case in report.cases:
        name = _case_part(report, case)
        indices = {m: found for (c, m), found in report.indices.items() if c == case}
        screenings = {m: found for (c, m), found in report.screenings.items() if c == case}
        if indices:
            path = folder / _name("sensitivities", name)
            made.append(draw_tornado(indices, path, study=report.stock, spans=spans))
        if screenings:
            path = folder / _name("screening", name)
            made.append(draw_screening(screenings, path, study=report.stock, spans=spans))
    return made


def _fronts(report: Report, folder: Path) -> list[Path]:
    made = []
    for case, found in report.front.items():
        part = report.frame[report.frame["case"].astype(str) == case]
        path = folder / _name("front", _case_part(report, case))
        goals, settings = report.wishes.goals, report.names
        made.append(
            draw_front(part, found, path, study=report.stock, goals=goals, settings=settings)
        )
    return made


def _changes(report: Report, folder: Path) -> list[Path]:
    if report.differences is None:
        return []
    made, names = [], report.names
    for case in report.cases:
        part = report.differences[report.differences["case"] == case]
        if not 0 < len(part[[*names]].drop_duplicates()) <= MOST_ROWS:
            continue
        path = folder / _name("differences", _case_part(report, case))
        base = dict(report.base)
        made.append(draw_differences(part, path, study=report.stock, settings=names, base=base))
    return made
