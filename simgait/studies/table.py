"""What is stored, as tables."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pandas as pd
import pyarrow as pa
import pyarrow.parquet as pq

from simgait.errors import one_line
from simgait.studies.store import CURVES, FILE, TABLE, StoreError, files_of, read_manifest, survey


def read_study(folder: str | Path, columns: Sequence[str] | None = None) -> pd.DataFrame:
    """Return what a study has stored: one line a run, in the order of its rows.

    Columns: the case; the draw, where each combination of a grid has several; what varies, by its
    dotted name and as it was simulated (with `.aim` behind the name, before its measurement error);
    the ending; every measure kept, in the unit of its name, NaN unless the run ended with toe-off.
    The index is the row's number, from 0.  `attrs` holds title, version, cautions and how many rows
    the whole study has; a study that was stopped gives the rows that are there.

    folder: of the study; columns: those to read, all by default (a million rows of all measures
    take half a gigabyte).

    Raises:
        StoreError: no study, a damaged part, or a part of another study.
    """
    place = Path(folder)
    manifest = read_manifest(place)
    table = _stored_table(place, TABLE, manifest["key"], columns)
    frame: pd.DataFrame = table.to_pandas(split_blocks=True, self_destruct=True).set_index("row")
    frame.attrs = {
        "title": manifest["title"],
        "version": manifest["version"],
        "cautions": list(manifest["cautions"]),
        "rows": manifest["rows"],
    }
    return frame


def read_curves(folder: str | Path) -> pd.DataFrame:
    """Return the curves that a study has kept: one line a recorded instant, by row and time.

    Raises:
        StoreError: no study, or a damaged file.
    """
    place = Path(folder)
    table = _stored_table(place, CURVES, read_manifest(place)["key"], None)
    frame: pd.DataFrame = table.to_pandas()
    return frame


def _stored_table(folder: Path, kind: str, key: str, columns: Sequence[str] | None) -> pa.Table:
    """Return the stored files of a kind as one table, in the order of the parts."""
    _, _, damaged = survey(folder, key)
    if damaged:
        names = ", ".join(path.name for path in damaged[:5])
        raise StoreError(
            f"{one_line(str(folder))}: damaged ({len(damaged)}): {names}; run the study again into "
            "this folder, which computes them anew"
        )
    chosen = None if columns is None else ["row", *columns]
    paths: dict[int, Path] = {}
    for path in files_of(folder):
        named = FILE.fullmatch(path.name)
        if named and named[1] == kind:
            paths.setdefault(int(named[2]), path)
    if not paths:
        raise StoreError(f"{one_line(str(folder))} has stored no {kind} yet")
    try:
        tables = [pq.read_table(path, columns=chosen) for path in paths.values()]
    except (OSError, pa.ArrowInvalid) as trouble:
        raise StoreError(f"{one_line(str(folder))} cannot be read: {trouble}") from trouble
    filled = [table for table in tables if table.num_columns > 1]
    return pa.concat_tables(filled or tables).unify_dictionaries().replace_schema_metadata(None)
