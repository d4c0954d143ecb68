"""The manifest of a study's folder: what it is, what made it, what is in it."""

from __future__ import annotations

import os
import platform
import time
from collections.abc import Mapping
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from simgait.stance.provenance import case_cautions, model_version
from simgait.studies.identity import cases_read
from simgait.studies.store import Stored, counts
from simgait.studies.study import Study

LIBRARIES = ("numpy", "scipy", "numba", "pandas", "pyarrow", "SALib")
MOST_RUNS = 100  # that a manifest remembers


def library_versions() -> dict[str, str]:
    """Return the versions of Python and of the libraries that a study's numbers pass through."""
    found = {"python": platform.python_version()}
    for name in LIBRARIES:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            continue
    return found


def machine() -> dict[str, Any]:
    """Return what kind of machine this is; not its name."""
    return {
        "system": platform.system(),
        "processor": platform.processor() or platform.machine(),
        "cores": os.cpu_count(),
    }


def cautions_of(study: Study) -> tuple[str, ...]:
    """Return the cautions of a study: those of its cases, and those of how it was sampled."""
    found = [caution for case in cases_read(study) for caution in case_cautions(case)]
    if study.method == "grid" and study.size is not None and not study.errors:
        found.append("The size of the sample plays no part in a grid without errors.")
    if study.method == "sobol" and study.points & (study.points - 1):
        found.append(
            f"{study.points} is no power of two: a Sobol sample of such a size is less balanced."
        )
    return tuple(dict.fromkeys(found))


def manifest_of(
    old: Mapping[str, Any],
    study: Study,
    key: str,
    identity: Mapping[str, Any],
    parts: Mapping[int, Stored],
    run: Mapping[str, Any],
) -> dict[str, Any]:
    """Return the manifest after a run has begun or ended.

    old: the manifest that was there; parts: that are stored whole; run: command, shard, jobs,
    seconds, and how it ended ("running" at its beginning).
    """
    rows = sum(part.rows for part in parts.values())
    others = [each for each in old.get("runs", []) if each.get("run") != run["run"]]
    record = {
        **run,
        "machine": machine(),
        "at": time.strftime("%Y-%m-%dT%H:%M:%SZ", time.gmtime()),
    }
    return {
        "title": study.title,
        "key": key,
        "identity": identity,
        "version": model_version(),
        "libraries": library_versions(),
        "machine": machine(),
        "command": run["command"],
        "specification": study.specification(),
        "report": study.wishes.as_written(),
        "case_texts": {case.label: case.text for case in study.cases},
        "rows": study.rows,
        "rows_stored": rows,
        "complete": rows == study.rows,
        "interrupted": run["ended"] == "interrupted",
        "endings": counts(parts),
        "cautions": cautions_of(study),
        "runs": [*others, record][-MOST_RUNS:],
    }
