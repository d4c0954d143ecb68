"""A part of a study: some rows in a row, run, and made into the bytes of a parquet file."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from simgait.engines import compiled
from simgait.errors import CaseError, RangeError
from simgait.limb import limb_of
from simgait.stance.naming import ENDING_NAMES
from simgait.stance.running import simulate_stances
from simgait.studies.curves import curve_columns
from simgait.studies.design import Rows
from simgait.studies.lots import (
    CANNOT_BE_BUILT,
    NOT_BUILT,
    STUDY_ENDINGS,
    Lot,
    case_of_row,
    run_lot,
)
from simgait.studies.study import AIM, Study

LOT_ROWS = 1024  # run at a time; between lots a part can be stopped
SLOW_LOT_ROWS = 128  # the same where rows fall into groups, each of which is read by itself


class StoppedError(Exception):
    """A part was given up because the whole run is to stop."""


@dataclass(frozen=True, kw_only=True)
class Part:
    """A part that has been run, as files."""

    number: int
    rows: int
    endings: Mapping[str, int]
    table: bytes  # parquet
    curves: bytes | None  # parquet, where curves are kept


def make_ready(study: Study, rows: Rows) -> None:
    """Load the physics, once and before any thread asks for it, and compile what is not.

    rows: one row or more of the study, which are run.
    """
    compiled.kernel()
    run_lot(study, rows)


def run_part(
    study: Study,
    key: str,
    number: int,
    rows: Rows,
    stopped: Callable[[], bool] = lambda: False,
    told: Callable[[int], None] = lambda rows: None,
) -> Part:
    """Return a part, run on this thread.

    key: of the study; rows: inputs of the part's rows; stopped: asked between lots whether to give
    up; told: called with the number of rows that have been run since the last call.

    Raises:
        StoppedError: given up.
    """
    lots = []
    lot = SLOW_LOT_ROWS if study.grouping else LOT_ROWS
    for begin in range(0, len(rows.number), lot):
        if stopped():
            raise StoppedError
        lots.append(run_lot(study, rows.part(slice(begin, begin + lot))))
        told(len(lots[-1].ending))
    table = part_table(study, rows, lots)
    endings = ending_counts(np.concatenate([lot.ending for lot in lots]))
    notes = {"key": key, "part": number, "rows": len(rows.number), "endings": endings}
    kept = study.curves_of(number)
    return Part(
        number=number,
        rows=len(rows.number),
        endings=endings,
        table=written(table, notes),
        curves=written(curve_table(study, rows, kept), notes) if kept else None,
    )


def ending_counts(ending: np.ndarray) -> dict[str, int]:
    """Return how often each ending came out, those that did, by name."""
    names = {**ENDING_NAMES, NOT_BUILT: CANNOT_BE_BUILT}
    counts = Counter(names[code] for code in ending.tolist())
    return {name: counts[name] for name in STUDY_ENDINGS if counts[name]}


def part_table(study: Study, rows: Rows, lots: list[Lot]) -> pa.Table:
    """Return a part as a table: row, case, draw, what varies, ending, measures."""
    columns = {"row": pa.array(rows.number), "case": texts(study.cases_named, rows.case)}
    if study.draws > 1:
        columns["draw"] = pa.array(rows.draw)
    for name in study.names:
        columns[name] = value_column(rows.values[name])
        if name in rows.aims and any(error.name == name for error in study.errors):
            columns[name + AIM] = value_column(rows.aims[name])
    names = list(STUDY_ENDINGS)
    places = {code: names.index(name) for code, name in ENDING_NAMES.items()}
    places[NOT_BUILT] = names.index(CANNOT_BE_BUILT)
    ending = np.concatenate([lot.ending for lot in lots])
    columns["ending"] = texts(names, np.array([places[code] for code in ending.tolist()]))
    for name in study.measures:
        columns[name] = pa.array(np.concatenate([lot.measures[name] for lot in lots]))
    return pa.table(columns)


def texts(names: list[str], places: np.ndarray) -> pa.Array:
    """Return a column of texts that repeat, by their places in a list."""
    return pa.DictionaryArray.from_arrays(pa.array(places.astype(np.int32)), pa.array(names))


def value_column(values: np.ndarray) -> pa.Array:
    """Return a column of what varies: numbers as they are, texts as texts that repeat."""
    if values.dtype != object:
        return pa.array(values)
    return pa.array(values.tolist(), pa.string()).dictionary_encode()


def curve_table(study: Study, rows: Rows, kept: tuple[int, ...]) -> pa.Table:
    """Return the curves of some rows, one line a recorded instant; none of what cannot be built."""
    pieces = []
    for row in kept:
        try:
            case = case_of_row(study, rows, row - int(rows.number[0]))
            (result,) = simulate_stances((limb_of(case, case.baseline),))
        except (CaseError, RangeError):
            continue
        pieces.append(pa.table(curve_columns(row, result.curves)))
    return pa.concat_tables(pieces) if pieces else pa.table({"row": pa.array([], pa.int64())})


def written(table: pa.Table, notes: Mapping[str, object]) -> bytes:
    """Return a table as the bytes of a parquet file; the notes travel in its schema."""
    sink = pa.BufferOutputStream()
    marked = table.replace_schema_metadata({"simgait": json.dumps(notes, sort_keys=True)})
    types = {field.name: field.type for field in table.schema}
    pq.write_table(
        marked,
        sink,
        compression="lz4",
        use_dictionary=[name for name, kind in types.items() if pa.types.is_dictionary(kind)],
        use_byte_stream_split=[name for name, kind in types.items() if pa.types.is_floating(kind)],
        write_statistics=False,
    )
    return bytes(sink.getvalue())
