"""Run the fixed jobs and write one JSON record for each; see README.md beside this file."""

import argparse
import functools
import json
import os
import platform
import statistics
import subprocess
import sys
import sysconfig
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
import adapting_jobs
import arm_jobs
import operations
import page_jobs
import script_jobs
import side_by_side
import stance_jobs

HERE = Path(__file__).resolve().parent
RECORDS = HERE / "records"
LIBRARIES = (
    *("simgait", "numpy", "scipy", "numba", "llvmlite", "matplotlib", "pillow"),
    *("mujoco", "pymunk", "playwright"),
)


@dataclass(frozen=True, kw_only=True)
class Job:
    """A piece of work that is always the same."""

    name: str
    sentence: str
    work: Callable[[], Mapping[str, int]]  # does it once; returns what was done, as counts
    repeats: int
    warm_up: int = 1


def help_screen() -> Mapping[str, int]:
    """Run `simgait --help` as a person would: a new process, the installed command."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    subprocess.run([command, "--help"], check=True, capture_output=True)
    return {"processes": 1}


JOBS: tuple[Job, ...] = (
    Job(
        name="help",
        sentence="wall time of `simgait --help`, process start included",
        work=help_screen,
        repeats=20,
        warm_up=2,
    ),
    Job(
        name="stances",
        sentence="4,096 different stances on all cores, all measures, columns ready",
        work=stance_jobs.many_stances,
        repeats=10,
    ),
    Job(
        name="stance",
        sentence="one stance at a time, 100 times, all measures, columns ready",
        work=stance_jobs.single_stances,
        repeats=10,
    ),
    Job(
        name="compare",
        sentence="wall time of `simgait compare`, nine alignments and the film, compiled before",
        work=stance_jobs.compare_command,
        repeats=5,
    ),
    Job(
        name="stand",
        sentence="wall time of `simgait stand CASE --json`, process start included",
        work=functools.partial(stance_jobs.command_alone, "stand"),
        repeats=5,
    ),
    Job(
        name="tip",
        sentence="wall time of `simgait tip CASE --json`: six thresholds of one alignment",
        work=functools.partial(stance_jobs.command_alone, "tip"),
        repeats=3,
    ),
    Job(
        name="arm",
        sentence="wall time of `simgait arm --json`: 200 loops, 50 lengths, 1,000 draws",
        work=arm_jobs.arm_command,
        repeats=10,
    ),
    Job(
        name="script",
        sentence="100 different stances in JavaScript, one by one, warm Node process, all measures",
        work=script_jobs.script_stances,
        repeats=10,
        warm_up=2,
    ),
    Job(
        name="page-drag",
        sentence="100 moves of the foot dragged in a page, each simulated and drawn, Chromium",
        work=page_jobs.page_drag,
        repeats=10,
        warm_up=2,
    ),
    Job(
        name="page-play",
        sentence="120 frames of a stance that plays in a page, paced by Chromium (60/s is 2 s)",
        work=page_jobs.page_play,
        repeats=5,
        warm_up=1,
    ),
    Job(
        name="first-compare",
        sentence="the same with nothing compiled before",
        work=stance_jobs.first_compare_command,
        repeats=2,
        warm_up=0,
    ),
)


JOBS += (
    Job(
        name="against-lanes",
        sentence="1,024 stances on one core, all measures; error of both knee peaks below 0.1 %",
        work=side_by_side.lanes,
        repeats=10,
    ),
    Job(
        name="against-mujoco",
        sentence="one stance stepped by MuJoCo in its C loop, the laws of sole and wearer compiled",
        work=side_by_side.mujoco,
        repeats=10,
    ),
    Job(
        name="against-pymunk",
        sentence="one stance moved by pymunk from Python, the laws of sole and wearer compiled",
        work=side_by_side.pymunk,
        repeats=10,
    ),
    Job(
        name="against-solve-ivp",
        sentence="one stance by SciPy's solve_ivp (RK45) with the plain right-hand side",
        work=side_by_side.solve_ivp_python,
        repeats=5,
    ),
    Job(
        name="arithmetic-peak",
        sentence="fused multiply-adds on one core; counted operations of one stance beside them",
        work=operations.arithmetic_peak,
        repeats=10,
    ),
)
JOBS += tuple(Job(**each) for each in adapting_jobs.JOBS)


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
