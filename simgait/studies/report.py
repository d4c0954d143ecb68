"""What a study's folder holds, told from the store alone: the place where analysis and pictures
begin."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from simgait.studies.store import StoreError, counts, read_manifest, survey


@dataclass(frozen=True, kw_only=True)
class Stock:
    """What is stored of a study."""

    folder: Path
    title: str
    rows: int  # stored whole
    planned: int  # of the whole study
    endings: dict[str, int]
    seed: int
    method: str
    seconds: float  # that the runs noted in the manifest took
    damaged: int  # files
    cautions: tuple[str, ...]
    version: str


def stock_of(folder: str | Path) -> Stock:
    """Return what a study's folder holds; nothing is computed or changed.

    Raises:
        StoreError: not the folder of a study, or it holds parts of another one.
    """
    place = Path(folder)
    if not place.is_dir():
        raise StoreError(f"{place} is not a folder")
    manifest = read_manifest(place)
    parts, _, damaged = survey(place, manifest["key"])
    sample = manifest["specification"]["sample"]
    return Stock(
        folder=place,
        title=manifest["title"],
        rows=sum(part.rows for part in parts.values()),
        planned=manifest["rows"],
        endings=counts(parts),
        seed=sample["seed"],
        method=sample["method"],
        seconds=sum(float(run.get("seconds", 0.0)) for run in manifest["runs"]),
        damaged=len(damaged),
        cautions=tuple(manifest["cautions"]),
        version=manifest["version"],
    )
