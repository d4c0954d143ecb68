"""The work of the stance jobs; each function does it once and returns what it did, as counts."""

import functools
import json
import os
import subprocess
import sysconfig
import tempfile
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
EVERYDAY = ROOT / "models" / "cases" / "everyday.toml"
BATCH = 4096


def compare_command(cache: str | None = None) -> Mapping[str, int]:
    """Run `simgait compare` on nine alignments in a new process, film included."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    environment = dict(os.environ)
    with tempfile.TemporaryDirectory() as room:
        if cache == "empty":
            environment["SIMGAIT_CACHE"] = str(Path(room) / "cache")
        subprocess.run(
            [command, "compare", str(EVERYDAY), "--out", str(Path(room) / "out")],
            check=True,
            capture_output=True,
            env=environment,
        )
    return {"alignments": 9, "films": 1}


def command_alone(verb: str, name: str = "everyday") -> Mapping[str, int]:
    """Run a verb on a case of the library in a new process, for one JSON object."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    case = ROOT / "models" / "cases" / f"{name}.toml"
    subprocess.run([command, verb, str(case), "--json"], check=True, capture_output=True)
    return {"alignments": 1}


# Three goals over five numbers of the alignment that no setting meets: the longest search.
GOALS = """
[goal]
knee_flexion_moment_peak_nm = { below = 13 }
knee_extension_moment_peak_nm = { below = 22 }
toe_lever_mm = { near = 110, within = 4 }

[adjust]
heel_rise_mm = { from = 0, to = 30, step = 1 }
"""


def advise_command() -> Mapping[str, int]:
    """Run `simgait advise` on goals that cannot all be met, over five axes, in a new process."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    with tempfile.TemporaryDirectory() as room:
        case = Path(room) / "case.toml"
        case.write_text(EVERYDAY.read_text(encoding="utf-8") + GOALS, encoding="utf-8")
        done = subprocess.run(
            [command, "advise", str(case), "--json"], check=True, capture_output=True
        )
    return {"alignments": json.loads(done.stdout)["runs"], "goals": 3, "axes": 5}


def report_command() -> Mapping[str, int]:
    """Run `simgait report` to PDF in a new process."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    with tempfile.TemporaryDirectory() as room:
        out = str(Path(room) / "report.pdf")
        subprocess.run(
            [command, "report", str(EVERYDAY), "-o", out], check=True, capture_output=True
        )
    return {"alignments": 9, "pages": 2}


def first_compare_command() -> Mapping[str, int]:
    """Run it with nothing compiled before."""
    return compare_command("empty")


@functools.cache
def batch():
    """Return the columns of BATCH stances: the nine alignments, foot shifts spread by 0.1 mm."""
    from simgait.case import read_case
    from simgait.limb import limbs_of
    from simgait.stance.batch import batch_of

    limbs = limbs_of(read_case(EVERYDAY))
    spread = []
    for k in range(144):
        limb = limbs[k % len(limbs)]
        shift = limb.alignment.foot_forward + 1e-4 * (k // len(limbs))
        spread.append(replace(limb, alignment=replace(limb.alignment, foot_forward=shift)))
    few = batch_of(spread)
    import numpy as np

    return few.part(np.arange(BATCH) % len(few))


def many_stances() -> Mapping[str, int]:
    """Run BATCH stances on all cores, from touch-down to the last measure."""
    from simgait.stance.running import run_batch

    run_batch(batch())
    return {"stances": BATCH, "steps_of_1_ms_a_stance": 680}


def single_stances() -> Mapping[str, int]:
    """Run one stance 100 times, one after the other."""
    import numpy as np

    from simgait.stance.running import run_batch

    one = batch().part(np.arange(1))
    for _ in range(100):
        run_batch(one, jobs=1)
    return {"stances": 100}
