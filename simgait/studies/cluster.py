"""A study's parts as tasks of a dask cluster; what comes back goes into the same store.

Workers need the same release of this package, not the study's files: cases travel as text, and each
worker proves by the study's key that it would compute the same.
"""

from __future__ import annotations

import functools
import threading
import time
from collections.abc import Callable, Iterable
from concurrent.futures import CancelledError
from typing import Any

from simgait.errors import SimgaitError, one_line
from simgait.studies.design import Design, Rows
from simgait.studies.identity import digest, identity
from simgait.studies.parts import Part, make_ready, run_part
from simgait.studies.study import Study

REACHED_WITHIN = 15.0  # [s] of a scheduler, and of its first worker
LOOKED_AT_EVERY = 2.0  # [s] whether there are workers left
WITHOUT_WORKERS = 30.0  # [s] after which a cluster without workers is given up

_one_at_a_time = threading.Lock()


class ClusterError(SimgaitError):
    """A cluster that cannot be reached, or that lost its workers."""


@functools.lru_cache(maxsize=8)
def key_here(study: Study) -> str:
    """Return the key that a study has on this machine."""
    return digest(identity(study, Design(study)))


def run_elsewhere(study: Study, key: str, number: int, rows: Rows) -> Part:
    """Return a part, run on a worker.

    Raises:
        ClusterError: the worker's program, models or libraries would give other rows.
    """
    with _one_at_a_time:
        make_ready(study, rows.part(slice(0, 1)))
        here = key_here(study)
    if here != key:
        raise ClusterError(
            "a worker runs another release of the program, its models or the sampler's library; "
            "install the same on every machine"
        )
    return run_part(study, key, number, rows)


def cluster_runner(
    study: Study, key: str, address: str, told: Callable[[int], None]
) -> Callable[[Iterable[tuple[int, Rows]], Callable[[Part], None]], None]:
    """Return what runs parts on the cluster whose scheduler has an address.

    key: of the study; told: called with the rows of each part that is stored.

    Raises:
        ClusterError: dask is not installed.
    """
    try:
        import distributed
    except ImportError as trouble:
        raise ClusterError('running on a cluster needs dask: install "simgait[dask]"') from trouble

    reach: Any = distributed.Client

    def run(feed: Iterable[tuple[int, Rows]], store: Callable[[Part], None]) -> None:
        try:
            with reach(address, timeout=REACHED_WITHIN) as client:
                client.wait_for_workers(1, timeout=REACHED_WITHIN)
                _run_on(distributed, client, (study, key), feed, store, told)
        except (TimeoutError, OSError, ValueError) as trouble:
            raise ClusterError(
                f"{one_line(address)}: no cluster with workers can be reached: {trouble}"
            ) from trouble
        except CancelledError as trouble:
            raise ClusterError(
                f"{one_line(address)}: the scheduler was lost; what is stored stays, and the same "
                "command goes on from there"
            ) from trouble
        except distributed.KilledWorker as trouble:
            raise ClusterError(
                f"workers were lost again and again on one part ({trouble.task}); what is stored "
                "stays, and the same command goes on from there"
            ) from trouble

    return run


def _run_on(
    distributed: Any,
    client: Any,
    what: tuple[Study, str],
    feed: Iterable[tuple[int, Rows]],
    store: Callable[[Part], None],
    told: Callable[[int], None],
) -> None:
    """Hand out parts, twice as many as the workers have threads, and store each that comes back."""
    waiting = iter(feed)
    out: set[Any] = set()
    more = True
    while more or out:
        most = 2 * max(sum(client.nthreads().values()), 1)
        while more and len(out) < most:
            task = next(waiting, None)
            more = task is not None
            if task is not None:
                out.add(client.submit(run_elsewhere, *what, *task, pure=False))
        done, out = _some_done(distributed, client, out) if out else (set(), out)
        for future in done:
            part = future.result()
            store(part)
            told(part.rows)


def _some_done(distributed: Any, client: Any, out: set[Any]) -> tuple[set[Any], set[Any]]:
    """Return the tasks that are done, once one is, and the others.

    Raises:
        ClusterError: the cluster has had no workers for a while.
    """
    seen = time.monotonic()
    while True:
        try:
            return tuple(
                distributed.wait(out, timeout=LOOKED_AT_EVERY, return_when="FIRST_COMPLETED")
            )
        except TimeoutError:
            if client.scheduler_info(n_workers=-1)["workers"]:
                seen = time.monotonic()
            elif time.monotonic() - seen > WITHOUT_WORKERS:
                raise ClusterError(
                    "the cluster has no workers left; what is stored stays, and the same command "
                    "goes on from there"
                ) from None
