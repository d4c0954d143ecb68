"""The generated parts of the guide's page on a wearer who adapts."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from adapting_walkers import (
    ANGLES,
    READS,
    SHIFTS,
    WALKING_CASES,
    limb_named,
    removed,
    socket_impulse,
)
from making.text import plain, shown, table
from simgait.alignment import Alignment
from simgait.arrays import many
from simgait.stance.adaptation_model import NAMES, adaptation_model
from simgait.stance.adapting import adaptation
from simgait.stance.kept_walk import SHARES, USUAL, Yardsticks, kept_walk
from walkers import WEARERS

LIMBS = (*WEARERS, *WALKING_CASES)
FREE = 1e6  # so large a yardstick that nothing is held by it
VARIED: dict[str, Yardsticks] = {
    "as assumed": USUAL,
    "hip and knee freer: 6 deg": replace(USUAL, hip=2 * USUAL.hip, knee=2 * USUAL.knee),
    "speed held less: 0.04 m/s": replace(USUAL, speed=2 * USUAL.speed),
    "speed held more: 0.01 m/s": replace(USUAL, speed=USUAL.speed / 2),
    "shank held less: 2 deg": replace(USUAL, lean=2 * USUAL.lean, progress=2 * USUAL.progress),
    "shank held more: 0.5 deg": replace(USUAL, lean=USUAL.lean / 2, progress=USUAL.progress / 2),
    "mean lean free, progress held": replace(USUAL, lean=FREE),
    "speed free": replace(USUAL, speed=FREE),
}
SHOWN_LIMBS = (*WEARERS, "heavy-worker")
SPANS = (0.020, math.radians(6.0), math.radians(4.0), 0.015, 0.010)  # of the quadratic's sample
SAMPLE = 100


def percent(value: float) -> str:
    """Return a share in whole per cent."""
    return shown(100.0 * value, 0)


def yardsticks_table() -> str:
    """Return what counts as one."""
    y = USUAL
    rows = (
        ("change of the reference of thigh lean, constant and linear part", y.hip, "deg"),
        ("change of the reference of knee flexion, constant and linear part", y.knee, "deg"),
        ("mean forward speed of the hip, and its change over stance", y.speed, "m/s"),
        ("mean lean of the shank", y.lean, "deg"),
        ("lean of the shank less that mean, root mean square", y.progress, "deg"),
    )
    shares = ", ".join(plain(100.0 * share) for share in SHARES)
    text = table(
        ("what", "counts as one", "grade"),
        [
            (what, f"{plain(math.degrees(v) if unit == 'deg' else v)} {unit}", "assumed")
            for what, v, unit in rows
        ],
    )
    return f"{text}\nThe shank's lean is compared at {shares} % of the nominal stance time.\n"


def impulse_table() -> str:
    """Return the share of the strategy-kept change of the socket's impulse that is removed."""
    rows = [
        (
            name,
            *(percent(removed(name, "foot_forward", by)) for by in SHIFTS),
            *(percent(removed(name, "dorsiflexion", by)) for by in ANGLES),
        )
        for name in LIMBS
    ]
    return table(("limb", "5 mm, %", "10 mm, %", "3 deg, %", "6 deg, %"), rows, right=4)


def least_and_most(values: Iterable[float]) -> str:
    """Return the smallest and the largest share in per cent."""
    known = sorted(values)
    return f"{percent(known[0])} to {percent(known[-1])}"


def measures_table() -> str:
    """Return the same for other readings, least and most over the library's wearers."""
    rows = []
    for name, read in READS.items():
        row = [f"`{name}`" if "_" in name else name]
        for what, by in (("foot_forward", SHIFTS[1]), ("dorsiflexion", ANGLES[1])):
            row.append(least_and_most(removed(limb, what, by, read) for limb in WEARERS))
        rows.append(tuple(row))
    return table(("what is read", "10 mm, %", "6 deg, %"), rows, right=2)


def sensitivity_table() -> str:
    """Return how the removed shares of the impulse hang on what counts as one."""
    rows = []
    for words, yardsticks in VARIED.items():
        cells = []
        for name in SHOWN_LIMBS:
            both = (
                removed(name, what, by, socket_impulse, yardsticks)
                for what, by in (("foot_forward", SHIFTS[1]), ("dorsiflexion", ANGLES[1]))
            )
            cells.append(" / ".join(map(percent, both)))
        rows.append((words, *cells))
    return table(("what counts as one", *SHOWN_LIMBS), rows, right=len(SHOWN_LIMBS))


def sampled(own: Alignment, runs: int, seed: int) -> Alignment:
    """Return alignments drawn within SPANS about one."""
    rng = np.random.default_rng(seed)
    return Alignment(
        **{
            name: many(np.maximum(getattr(own, name) + rng.uniform(-span, span, runs), lowest))
            for name, span, lowest in zip(NAMES, SPANS, (-1.0, -1.0, -1.0, -1.0, 0.0), strict=True)
        }
    )


def quadratic_table() -> str:
    """Return what the quadratic is off by, as it says and on alignments that it has not seen."""
    rows = []
    for name in WALKING_CASES:
        limb = limb_named(name)
        kept, own = kept_walk(limb), limb.alignment
        model = adaptation_model(replace(limb, alignment=sampled(own, SAMPLE, 1)), kept)
        new = replace(limb, alignment=sampled(own, SAMPLE, 2))
        found = adaptation(new, kept)
        off = np.degrees(model.unknowns(new.alignment) - found.unknowns)[found.walks]
        size = np.degrees(found.unknowns)[found.walks]
        rows.append(
            (
                name,
                shown(math.degrees(float(np.sqrt((model.error**2).mean()))), 2),
                shown(float(np.sqrt((off**2).mean())), 2),
                shown(float(np.abs(off).max()), 1),
                shown(float(np.sqrt((size**2).mean())), 2),
            )
        )
    heads = ("case", "says of itself, deg", "new alignments, deg", "worst, deg", "adaptation, deg")
    return table(heads, rows, right=4)


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the page."""
    return {
        "yardsticks": yardsticks_table(),
        "impulse": impulse_table(),
        "measures": measures_table(),
        "sensitivity": sensitivity_table(),
        "quadratic": quadratic_table(),
    }
