"""The fixed jobs: what is timed, in which words, and how often."""

import functools
import subprocess
import sysconfig
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import adapting_jobs
import arm_jobs
import operations
import page_jobs
import script_jobs
import side_by_side
import stance_jobs


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
        name="report",
        sentence="wall time of `simgait report CASE -o FILE.pdf`: nine alignments, 400 draws",
        work=stance_jobs.report_command,
        repeats=5,
    ),
    Job(
        name="transfer",
        sentence="wall time of `simgait transfer CASE --json`, process start included",
        work=functools.partial(stance_jobs.command_alone, "transfer"),
        repeats=5,
    ),
    Job(
        name="advise",
        sentence="wall time of `simgait advise CASE --json`: three goals over five numbers, no fit",
        work=stance_jobs.advise_command,
        repeats=5,
    ),
    Job(
        name="advise-met",
        sentence="the same of a case whose complaint one adjustment relieves",
        work=functools.partial(stance_jobs.command_alone, "advise", "fitting/pushed-forward"),
        repeats=5,
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
    Job(
        name="adapt",
        sentence="how a wearer adapts to 100 alignments of the everyday case, on all cores",
        work=adapting_jobs.everyday,
        repeats=10,
    ),
    Job(
        name="adapt-smallest-step",
        sentence="the same in the case with the short residual limb, which asks for a step of 0.4 "
        "ms",
        work=adapting_jobs.smallest_step,
        repeats=5,
    ),
)
