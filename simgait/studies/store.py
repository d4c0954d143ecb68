"""The folder of a study: parquet parts named by their content, and a manifest.

A part's file is named by its number and a hash of its bytes, so that a damaged or cut file is
known by reading it; the key of its study stands inside.  Files take their names only once they
are whole and on the disk, so that a kill at any time leaves whole parts and stray temporary
files, nothing between.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import time
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pyarrow as pa
import pyarrow.parquet as pq

from simgait.errors import SimgaitError, one_line
from simgait.files import write_whole

MANIFEST = "manifest.json"
TABLE, CURVES = "part", "curves"
FILE = re.compile(r"(part|curves)-(\d{7})-([0-9a-f]{16})\.parquet")
STRAY_AFTER = 900.0  # [s] a temporary file older than this is nobody's any more


class StoreError(SimgaitError):
    """A folder that cannot be taken, written or read as the store of a study."""


@dataclass(frozen=True, kw_only=True)
class Stored:
    """One whole file of a store."""

    path: Path
    kind: str  # "part" or "curves"
    number: int
    key: str
    rows: int
    endings: Mapping[str, int]


def content_hash(content: bytes) -> str:
    """Return the hash that names a file.

    >>> len(content_hash(b""))
    16
    """
    return hashlib.sha256(content).hexdigest()[:16]


def refusal(path: Path, trouble: OSError) -> StoreError:
    """Return what is said when a file of a store cannot be written or read."""
    return StoreError(
        f"{one_line(str(path))}: {trouble.strerror or trouble}; what is stored stays, and the same "
        "command goes on from there"
    )


def write_durably(path: Path, content: bytes) -> None:
    """Write a file that takes its name only once its bytes are on the disk.

    Raises:
        StoreError: the disk is full, or the folder cannot be written; no half file stays.
    """
    try:
        with write_whole(path) as partial, partial.open("wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        with suppress(OSError, AttributeError):  # not every system can sync a folder
            folder = os.open(path.parent, os.O_RDONLY)
            try:
                os.fsync(folder)
            finally:
                os.close(folder)
    except OSError as trouble:
        raise refusal(path, trouble) from trouble


def write_file(folder: Path, kind: str, number: int, content: bytes) -> None:
    """Write one part or its curves under the name that its content gives.

    Raises:
        StoreError: it cannot be written.
    """
    write_durably(folder / f"{kind}-{number:07d}-{content_hash(content)}.parquet", content)


def files_of(folder: Path) -> list[Path]:
    """Return the files that are named as parts or curves, in order of number."""
    return sorted(path for path in folder.iterdir() if FILE.fullmatch(path.name))


def whole_content(path: Path) -> bytes | None:
    """Return a file's bytes, or None if they are not those that its name states.

    Raises:
        StoreError: it cannot be read.
    """
    found = FILE.fullmatch(path.name)
    try:
        content = path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as trouble:
        raise refusal(path, trouble) from trouble
    return content if found and content_hash(content) == found[3] else None


def read_stored(path: Path) -> Stored | None:
    """Return what a file of a store says of itself; None if it is damaged or cut short."""
    content, named = whole_content(path), FILE.fullmatch(path.name)
    if content is None or named is None:
        return None
    try:
        schema = pq.read_schema(pa.BufferReader(content))
        notes = json.loads(schema.metadata[b"simgait"])
        return Stored(
            path=path,
            kind=named[1],
            number=int(named[2]),
            key=notes["key"],
            rows=notes["rows"],
            endings=notes["endings"],
        )
    except (pa.ArrowInvalid, KeyError, TypeError, ValueError):
        return None


def clear_strays(folder: Path) -> None:
    """Remove temporary files that a killed run left; those of a run still going are younger."""
    for path in folder.glob(".*.part.*"):
        with suppress(OSError):
            if time.time() - path.stat().st_mtime > STRAY_AFTER:
                path.unlink()


def survey(folder: Path, key: str) -> tuple[dict[int, Stored], set[int], list[Path]]:
    """Return the whole parts by number, the numbers whose curves are whole, and damaged files.

    Raises:
        StoreError: a part belongs to another study.
    """
    parts: dict[int, Stored] = {}
    curves: set[int] = set()
    damaged = []
    for path in files_of(folder):
        stored = read_stored(path)
        if stored is None:
            damaged.append(path)
            continue
        if stored.key != key:
            raise StoreError(
                f"{one_line(str(path))} is a part of another study (key {stored.key}, here {key}); "
                "parts are never mixed: move it away, or choose another folder"
            )
        if stored.kind == TABLE:
            parts.setdefault(stored.number, stored)
        else:
            curves.add(stored.number)
    return parts, curves, damaged


def read_manifest(folder: Path) -> dict[str, Any]:
    """Return the manifest of a store.

    Raises:
        StoreError: there is none, or it cannot be read.
    """
    path = folder / MANIFEST
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError as trouble:
        raise StoreError(
            f"{one_line(str(folder))} is not the folder of a study: it has no {MANIFEST}"
        ) from trouble
    except OSError as trouble:
        raise refusal(path, trouble) from trouble
    except ValueError as trouble:
        raise StoreError(f"{one_line(str(path))} is not JSON: {trouble}") from trouble
    if not isinstance(found, dict) or "key" not in found:
        raise StoreError(f"{one_line(str(path))} is not the manifest of a study")
    return found


@contextmanager
def manifest_lock(folder: Path) -> Iterator[None]:
    """Hold the right to write the manifest, so that two shards do not write over each other.

    Where the system has no such lock the manifest may lack a part's counts for a while; the parts
    themselves are what is read.
    """
    try:
        import fcntl
    except ImportError:
        yield
        return
    with (folder / ".lock").open("w") as stream:
        with suppress(OSError):
            fcntl.flock(stream, fcntl.LOCK_EX)
        yield


def update_manifest(folder: Path, change: Callable[[dict[str, Any]], dict[str, Any]]) -> None:
    """Replace the manifest by what `change` makes of the one that is there ({} if none).

    Raises:
        StoreError: it cannot be written.
    """
    try:
        with manifest_lock(folder):
            there = read_manifest(folder) if (folder / MANIFEST).exists() else {}
            text = json.dumps(change(there), indent=1, ensure_ascii=False) + "\n"
            write_durably(folder / MANIFEST, text.encode())
    except OSError as trouble:
        raise refusal(folder, trouble) from trouble


def counts(parts: Mapping[int, Stored]) -> dict[str, int]:
    """Return how often each ending occurs in the stored parts."""
    total: Counter[str] = Counter()
    for part in parts.values():
        total.update(part.endings)
    return dict(sorted(total.items(), key=lambda item: (-item[1], item[0])))
