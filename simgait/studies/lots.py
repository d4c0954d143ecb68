"""Some rows of a study run at once: from their inputs to endings and measures.

Rows that share a foot and every name of a model are one case of many (`simgait.case.many`); rows
that cannot be built are told apart, never dropped.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array, many
from simgait.case import Case, case_of_text
from simgait.case.many import case_of_many
from simgait.errors import CaseError, RangeError
from simgait.limb import limb_of
from simgait.physics import layout
from simgait.stance.batch import Batch, batch_of_many
from simgait.stance.naming import ENDING_NAMES, MEASURE_ROWS
from simgait.stance.running import run_batch
from simgait.studies.design import Rows, Whole
from simgait.studies.reading import overrides_of
from simgait.studies.study import Level, Study
from simgait.symbols import BY_NAME

CANNOT_BE_BUILT = "cannot_be_built"
NOT_BUILT = -1  # stands for it beside the equations' numbers of endings
STUDY_ENDINGS = (*ENDING_NAMES.values(), CANNOT_BE_BUILT)


@dataclass(frozen=True, kw_only=True, eq=False)
class Lot:
    """What came out of some rows."""

    ending: Whole  # [n] the equations' number, or NOT_BUILT
    measures: dict[str, Array]  # [n] each, in the unit of the name; NaN unless toe-off


@dataclass(frozen=True, kw_only=True, eq=False)
class Group:
    """The rows of a lot that share one case of many, as far as they can be built."""

    place: Whole  # [m] in the lot
    batch: Batch
    mass: Array  # [m] kg


@functools.lru_cache(maxsize=256)
def group_case(text: str, label: str, overrides: tuple[tuple[str, str], ...]) -> Case | None:
    """Return a case with a group's overrides; None if the reader refuses it."""
    try:
        return case_of_text(text, label, dict(overrides))
    except CaseError:
        return None


def run_lot(study: Study, rows: Rows) -> Lot:
    """Return the endings and measures of some rows, run on this thread."""
    count = len(rows.number)
    ending = np.full(count, NOT_BUILT)
    values = np.full((count, layout.MEASURES), np.nan)
    mass = np.full(count, np.nan)
    groups = [group for place in grouped(study, rows) for group in built(study, rows, place)]
    if groups:
        place = np.concatenate([group.place for group in groups])
        outcome = run_batch(joined([group.batch for group in groups]), jobs=1)
        ending[place] = outcome.ends[:, layout.ENDING].astype(np.int64)
        values[place] = outcome.measures
        mass[place] = np.concatenate([group.mass for group in groups])
    measures = {
        name: np.asarray(
            BY_NAME[name].shown(many(values[:, MEASURE_ROWS[name]]), many(mass)), dtype=np.float64
        )
        for name in study.measures
    }
    return Lot(ending=ending, measures=measures)


def joined(batches: list[Batch]) -> Batch:
    """Return several batches as one."""
    if len(batches) == 1:
        return batches[0]
    return Batch(
        parameter=np.concatenate([batch.parameter for batch in batches]),
        sole=np.concatenate([batch.sole for batch in batches]),
        reference=np.concatenate([batch.reference for batch in batches]),
        state=np.concatenate([batch.state for batch in batches]),
    )


def grouped(study: Study, rows: Rows) -> list[Whole]:
    """Return the places of rows that share case, foot and models, group by group."""
    if not study.grouping and len(study.cases) == 1:
        return [np.arange(len(rows.number))]
    found: dict[tuple[Level, ...], list[int]] = {}
    for place in range(len(rows.number)):
        key = (int(rows.case[place]), *rows.values_of(place, study.grouping))
        found.setdefault(key, []).append(place)
    return [np.array(places) for places in found.values()]


def built(study: Study, rows: Rows, place: Whole) -> list[Group]:
    """Return a group's rows as a batch, without those that cannot be built; [] if none can."""
    case = study.cases[int(rows.case[place[0]])]
    own = overrides_of(study.grouping, rows.values_of(int(place[0]), study.grouping))
    free = tuple(name for name in study.names if name not in study.grouping)
    base = group_case(case.text, case.label, tuple(own.items()))
    if base is None and free:
        return [group for k in place for group in _built_alone(study, rows, int(k))]
    if base is None:
        return []
    return _built_together(base, place, {name: _numbers(rows, name, place) for name in free})


def _numbers(rows: Rows, name: str, place: Whole) -> Array:
    return np.asarray(rows.values[name][place], dtype=np.float64)


def _built_together(base: Case, place: Whole, values: Mapping[str, Array]) -> list[Group]:
    """Return the rows of a case of many, taking out those that a refusal names."""
    left = np.arange(len(place))
    while left.size:
        try:
            chosen = {name: column[left] for name, column in values.items()}
            case = case_of_many(base, chosen, len(left))
            limb = limb_of(case, case.baseline)
            batch = batch_of_many(limb)
        except RangeError as refusal:
            left = left[:0] if refusal.rows is None else left[~refusal.rows]
        else:
            mass = np.broadcast_to(np.asarray(limb.person.mass, dtype=np.float64), left.shape)
            return [Group(place=place[left], batch=batch, mass=mass)]
    return []


def case_of_row(study: Study, rows: Rows, place: int) -> Case:
    """Return the case of one row, as `simgait stance` reads it.

    Raises:
        CaseError: the reader refuses it.
    """
    case = study.cases[int(rows.case[place])]
    values = overrides_of(study.names, rows.values_of(place, study.names))
    return case_of_text(case.text, case.label, values)


def _built_alone(study: Study, rows: Rows, place: int) -> list[Group]:
    """Return one row as a group of its own: for where only all values together can be read."""
    try:
        base = case_of_row(study, rows, place)
    except CaseError:
        return []
    return _built_together(base, np.array([place]), {})
