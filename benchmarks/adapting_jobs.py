"""The work of the jobs on adapting; each function does it once and returns what it did."""

import functools
import math
from collections.abc import Mapping
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ALIGNMENTS = 100
SPANS = {
    "foot_forward_mm": 20.0,
    "dorsiflexion_deg": 6.0,
    "socket_flexion_deg": 4.0,
    "length_change_mm": 15.0,
    "heel_rise_mm": 10.0,
}


@functools.cache
def problem(name: str):
    """Return the limb at ALIGNMENTS alignments about a case's own, and the walk that is kept."""
    import numpy as np

    from simgait.alignment import Alignment
    from simgait.case import read_case
    from simgait.limb import limb_of, many_alignments
    from simgait.stance.kept_walk import kept_walk

    case = read_case(ROOT / "models" / "cases" / f"{name}.toml")
    rng = np.random.default_rng(1)
    own = case.baseline.as_written()
    drawn = []
    for _ in range(ALIGNMENTS):
        values = {k: own[k] + float(rng.uniform(-span, span)) for k, span in SPANS.items()}
        values["heel_rise_mm"] = max(values["heel_rise_mm"], 0.0)
        drawn.append(Alignment.from_written(values))
    return limb_of(case, many_alignments(drawn)), kept_walk(limb_of(case, case.baseline))


def adapt(name: str) -> Mapping[str, int]:
    """Find how the wearer of a case adapts to ALIGNMENTS alignments, on all cores."""
    from simgait.stance.adapting import adaptation

    found = adaptation(*problem(name))
    if not math.isfinite(float(found.unknowns.sum())):
        raise ValueError("a wearer adapts by no number")
    return {"alignments": ALIGNMENTS, "walk": int(found.walks.sum())}


def everyday() -> Mapping[str, int]:
    """Adapt the wearer of the everyday case."""
    return adapt("everyday")


def smallest_step() -> Mapping[str, int]:
    """Adapt the wearer of the case whose light parts ask for the smallest step."""
    return adapt("short-residual-limb")


JOBS = (  # as `run.Job` takes them
    {
        "name": "adapt",
        "sentence": "how a wearer adapts to 100 alignments of the everyday case, on all cores",
        "work": everyday,
        "repeats": 10,
    },
    {
        "name": "adapt-smallest-step",
        "sentence": "the same in the case with the short residual limb: a step of 0.4 ms",
        "work": smallest_step,
        "repeats": 5,
    },
)
