"""Run the fixed jobs and write one JSON record for each; see README.md beside this file."""

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import time
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
from jobs import JOBS, Job

HERE = Path(__file__).resolve().parent
RECORDS = HERE / "records"
LIBRARIES = (
    *("simgait", "numpy", "scipy", "numba", "llvmlite", "matplotlib", "pillow"),
    *("mujoco", "pymunk", "playwright"),
)


def time_job(job: Job, repeats: int | None = None) -> tuple[list[float], dict[str, int]]:
    """Return the seconds of each measured repeat, and the counts of one repeat."""
    counts: dict[str, int] = {}
    for _ in range(job.warm_up):
        job.work()
    seconds = []
    for _ in range(repeats or job.repeats):
        start = time.perf_counter()
        done = job.work()
        seconds.append(time.perf_counter() - start)
        if counts and counts != dict(done):
            raise RuntimeError(f"{job.name}: repeats differ in work: {counts}, {dict(done)}")
        counts = dict(done)
    return seconds, counts


def spread(seconds: Sequence[float]) -> dict[str, float]:
    """Return median, quartiles and extremes [s] of one or more times."""
    if len(seconds) > 1:
        lower, _, upper = statistics.quantiles(seconds, n=4, method="inclusive")
    else:
        lower = upper = seconds[0]
    return {
        "median": statistics.median(seconds),
        "lower_quartile": lower,
        "upper_quartile": upper,
        "smallest": min(seconds),
        "largest": max(seconds),
    }


def processor() -> str:
    """Return the processor's model name, or the architecture where the name is not told."""
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        lines = []
    named = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return named[0] if named else platform.processor() or platform.machine()


def machine() -> dict[str, str | int]:
    """Return what of the machine bears on speed; its name does not."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    return {
        "processor": processor(),
        "cores": cores or 1,
        "architecture": platform.machine(),
        "system": platform.system(),
    }


def versions() -> dict[str, str | None]:
    """Return the versions of Python and of the libraries; None for one that is not installed."""
    found: dict[str, str | None] = {"python": platform.python_version()}
    for name in LIBRARIES:
        try:
            found[name] = version(name)
        except PackageNotFoundError:
            found[name] = None
    return found


def revision() -> str | None:
    """Return the git revision, "+changes" added if the tree differs from it; None outside git."""
    try:
        head = subprocess.run(
            ["git", "rev-parse", "HEAD"], cwd=HERE, check=True, capture_output=True, text=True
        )
        changed = subprocess.run(
            ["git", "status", "--porcelain"], cwd=HERE, check=True, capture_output=True, text=True
        )
    except (OSError, subprocess.CalledProcessError):
        return None
    return head.stdout.strip() + ("+changes" if changed.stdout.strip() else "")


def record(job: Job, seconds: Sequence[float], counts: Mapping[str, int]) -> dict[str, object]:
    """Return the record of one job."""
    return {
        "job": job.name,
        "sentence": job.sentence,
        "date": datetime.now(UTC).isoformat(timespec="seconds"),
        "machine": machine(),
        "versions": versions(),
        "revision": revision(),
        "warm_up": job.warm_up,
        "repeats": len(seconds),
        "counts": dict(counts),
        "seconds": {**spread(seconds), "all": list(seconds)},
    }


def write_record(made: Mapping[str, object], folder: Path) -> Path:
    """Write one record and return its path; never replaces an older one."""
    folder.mkdir(parents=True, exist_ok=True)
    stamp = str(made["date"]).replace(":", "").replace("+0000", "Z")
    path = folder / f"{stamp}-{made['job']}.json"
    with path.open("x", encoding="utf-8") as file:
        file.write(json.dumps(made, indent=1) + "\n")
    return path


def chosen(names: Sequence[str]) -> list[Job]:
    """Return the jobs of these names, all jobs for none; exits with a message for a wrong one."""
    known = {job.name: job for job in JOBS}
    wrong = [name for name in names if name not in known]
    if wrong:
        sys.exit(f"unknown job: {', '.join(wrong)}; there are: {', '.join(known)}")
    return [known[name] for name in names] if names else list(JOBS)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the jobs that the command line names."""
    parser = argparse.ArgumentParser(description="Run the fixed jobs and record their times.")
    parser.add_argument("names", nargs="*", metavar="JOB", help="jobs to run (default: all)")
    parser.add_argument("--repeats", type=int, help="instead of each job's own number")
    parser.add_argument("--out", type=Path, default=RECORDS, help="folder of the records")
    parser.add_argument("--list", action="store_true", help="list the jobs and stop")
    given = parser.parse_args(arguments)
    if given.repeats is not None and given.repeats < 1:
        parser.error("--repeats must be at least 1")
    for job in chosen(given.names):
        if given.list:
            print(f"{job.name}: {job.sentence}")
            continue
        seconds, counts = time_job(job, given.repeats)
        path = write_record(record(job, seconds, counts), given.out)
        print(f"{job.name}: median {statistics.median(seconds):.4g} s  ({path.name})")


if __name__ == "__main__":
    main()
