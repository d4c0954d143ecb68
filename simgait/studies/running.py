"""A study run: what is stored already is kept, the rest is computed part by part."""

from __future__ import annotations

import os
import secrets
import threading
import time
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from simgait.errors import one_line
from simgait.stance.provenance import model_version
from simgait.studies.design import Design, Rows
from simgait.studies.identity import digest, identity
from simgait.studies.manifest import cautions_of, manifest_of
from simgait.studies.parts import Part, make_ready, run_part
from simgait.studies.store import (
    CURVES,
    MANIFEST,
    TABLE,
    Stored,
    StoreError,
    clear_strays,
    counts,
    files_of,
    read_manifest,
    refusal,
    survey,
    update_manifest,
    write_file,
)
from simgait.studies.study import Study

Runner = Callable[[Iterable[tuple[int, Rows]], Callable[[Part], None]], None]
Told = Callable[[int], None]


@dataclass(frozen=True, kw_only=True)
class StudyRun:
    """What a run of a study, or of a shard of it, came to.

    The time counts from when the physics are compiled and loaded, to the last part on the disk.
    """

    out: Path
    rows: int  # of this run's share, now stored
    endings: dict[str, int]  # of this run's share
    seconds: float
    resumed_rows: int  # of this run's share, that were stored before
    cautions: tuple[str, ...]
    version: str

    @property
    def rate_per_s(self) -> float:
        """Rows computed a second; NaN if none was [1/s]."""
        fresh = self.rows - self.resumed_rows
        return fresh / self.seconds if fresh and self.seconds > 0.0 else float("nan")


def shard_of(study: Study, shard: tuple[int, int]) -> list[int]:
    """Return the numbers of the parts of shard i of n: every n-th, beginning with the i-th."""
    return list(range(shard[0] - 1, study.parts, shard[1]))


def run_study(
    study: Study,
    out: str | Path,
    *,
    jobs: int | None = None,
    shard: tuple[int, int] = (1, 1),
    cluster: str | None = None,
    command: tuple[str, ...] = (),
    begun: Told = lambda rows: None,
    told: Told = lambda rows: None,
) -> StudyRun:
    """Run a study, or one shard of it, into a folder; whole parts that are there are kept.

    jobs: threads, all cores by default; shard: i of n; cluster: address of a dask scheduler, whose
    workers then run the parts; command: as typed, for the manifest; begun: called once with the
    rows that are stored already; told: called with numbers of rows as they are run.

    Raises:
        StoreError: the folder holds another study, or cannot be written.
        KeyboardInterrupt: stopped by the person; whole parts are stored and the manifest says so.
    """
    design = Design(study)
    own = identity(study, design)
    if cluster is None:
        make_ready(study, design.rows(range(1)))
    record = {"command": list(command), "shard": list(shard), "jobs": jobs, "cluster": cluster}
    going = Going(study=study, folder=Path(out), key=digest(own), own=own, record=record)
    prepare(going.folder, going.key, own)
    mine = set(shard_of(study, shard))
    there = whole_parts(study, going.folder, going.key)
    resumed = rows_of(there, mine)
    begun(resumed)
    going.note("running", there)
    runner = _runner(study, going.key, jobs, cluster, told)
    missing = sorted(mine - there.keys())
    going.run(runner, ((number, design.rows(study.span_of(number))) for number in missing))
    seconds = going.seconds
    share = {number: part for number, part in going.note("finished").items() if number in mine}
    return StudyRun(
        out=going.folder,
        rows=rows_of(share, mine),
        endings=counts(share),
        seconds=seconds,
        resumed_rows=resumed,
        cautions=cautions_of(study),
        version=model_version(),
    )


def rows_of(parts: Mapping[int, Stored], mine: set[int]) -> int:
    """Return the rows of those stored parts that are among `mine`."""
    return sum(part.rows for number, part in parts.items() if number in mine)


@dataclass(frozen=True, kw_only=True)
class Going:
    """A run on its way: what it writes into, and what it notes of itself in the manifest."""

    study: Study
    folder: Path
    key: str
    own: Mapping[str, Any]
    record: Mapping[str, Any]
    name: str = field(default_factory=lambda: secrets.token_hex(8))
    begun: float = field(default_factory=time.perf_counter)  # [s]

    @property
    def seconds(self) -> float:
        """How long it has gone on [s]."""
        return time.perf_counter() - self.begun

    def note(self, ended: str, there: dict[int, Stored] | None = None) -> dict[int, Stored]:
        """Note in the manifest how the run stands; returns the parts that are stored.

        ended: "running", "finished", "interrupted" or "failed"; there: the parts, if known.

        Raises:
            StoreError: the manifest cannot be written, or a part is of another study.
        """
        spent = {"run": self.name, "seconds": round(self.seconds, 3), "ended": ended}
        stored = whole_parts(self.study, self.folder, self.key) if there is None else there
        update_manifest(
            self.folder,
            lambda old: manifest_of(
                old, self.study, self.key, self.own, stored, {**self.record, **spent}
            ),
        )
        return stored

    def run(self, runner: Runner, feed: Iterable[tuple[int, Rows]]) -> None:
        """Run parts and store each; what stops it is noted before it goes on its way."""
        try:
            runner(feed, lambda part: store_part(self.folder, part))
        except BaseException as trouble:
            with suppress(StoreError):  # a disk that is full may refuse that too
                self.note("interrupted" if isinstance(trouble, KeyboardInterrupt) else "failed")
            raise


def prepare(folder: Path, key: str, own: dict[str, Any]) -> None:
    """Make a folder ready to take a study's parts.

    Raises:
        StoreError: it holds another study, or cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if (folder / MANIFEST).exists():
            there = read_manifest(folder)
            if there["key"] != key:
                raise StoreError(_another(folder, there, own))
        elif any(True for path in folder.iterdir() if path.suffix == ".parquet") and not files_of(
            folder
        ):
            raise StoreError(f"{one_line(str(folder))} holds other tables; choose another folder")
        clear_strays(folder)
    except OSError as trouble:
        raise refusal(folder, trouble) from trouble


def _another(folder: Path, there: dict[str, Any], own: dict[str, Any]) -> str:
    """Return the message that a folder holds another study, and in what that one differs."""
    before = there.get("identity", {})
    differ = ", ".join(name for name in own if before.get(name) != own[name]) or "its key"
    return (
        f"{one_line(str(folder))} holds another study, {one_line(str(there.get('title')))!r} "
        f"(differs in: {differ}); parts are never mixed: choose another --out, or remove the folder"
    )


def whole_parts(study: Study, folder: Path, key: str) -> dict[int, Stored]:
    """Return the parts that are stored whole, with their curves where these are kept.

    Damaged files, and parts of which the curves are damaged or missing, count as not there; damaged
    files are removed, as they will be computed anew.

    Raises:
        StoreError: a part belongs to another study.
    """
    parts, curves, damaged = survey(folder, key)
    for path in damaged:
        path.unlink(missing_ok=True)
    return {
        number: part
        for number, part in parts.items()
        if part.rows == len(study.span_of(number))
        and (number in curves or not study.curves_of(number))
    }


def store_part(folder: Path, part: Part) -> None:
    """Write a part into a folder, its curves first, so that a part that is there is complete.

    Raises:
        StoreError: it cannot be written.
    """
    if part.curves is not None:
        write_file(folder, CURVES, part.number, part.curves)
    write_file(folder, TABLE, part.number, part.table)


def _runner(study: Study, key: str, jobs: int | None, cluster: str | None, told: Told) -> Runner:
    """Return what runs parts: this machine's threads, or a cluster."""
    if cluster is not None:
        from simgait.studies.cluster import cluster_runner

        return cluster_runner(study, key, cluster, told)
    workers = jobs or os.cpu_count() or 1
    return lambda feed, store: run_on_threads(study, key, feed, store, workers, told)


def run_on_threads(
    study: Study,
    key: str,
    feed: Iterable[tuple[int, Rows]],
    store: Callable[[Part], None],
    workers: int,
    told: Told,
) -> None:
    """Run parts on threads, one part a thread, and store each as it is done.

    feed: parts' numbers and inputs; store: called on the part's thread; workers: threads.

    Raises:
        StoreError: a part could not be stored; the others that were running are given up.
        KeyboardInterrupt: the person stopped it; what was running is given up.
    """
    halt = threading.Event()

    def task(number: int, rows: Rows) -> None:
        store(run_part(study, key, number, rows, halt.is_set, told))

    pool = ThreadPoolExecutor(workers)
    try:
        for done in in_turn(pool, task, feed, workers + 1):
            done.result()
    except BaseException:
        halt.set()
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def in_turn(
    pool: ThreadPoolExecutor,
    task: Callable[[int, Rows], None],
    feed: Iterable[tuple[int, Rows]],
    most: int,
) -> Iterator[Future[None]]:
    """Yield tasks as they are done, at most `most` of them handed out at a time: memory is flat."""
    open_tasks: set[Future[None]] = set()
    for number, rows in feed:
        open_tasks.add(pool.submit(task, number, rows))
        if len(open_tasks) >= most:
            done, open_tasks = wait(open_tasks, return_when=FIRST_COMPLETED)
            yield from done
    yield from wait(open_tasks).done
