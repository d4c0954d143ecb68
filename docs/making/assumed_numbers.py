"""The numbers that the model takes for granted, read from the program, with their grades."""

from __future__ import annotations

import math

from making.text import plain
from simgait import people
from simgait.arm import moving
from simgait.engines import plain as readable
from simgait.library import read_defaults
from simgait.limb import columns
from simgait.parts import sole
from simgait.physics import bench, layout
from simgait.stance import targets
from simgait.stance.kept_walk import USUAL
from simgait.wearer import GRAVITY, REFERENCE_SPAN, STEP_EXPONENT

Row = tuple[str, ...]
KERNEL = readable.kernel()  # every constant of simgait/physics under one roof
TAKEN = "assumed, no published figure"
DEFINED = "definition of this project"


def number(value: float, unit: str) -> str:
    """Return a value with its unit."""
    return f"{plain(value)} {unit}" if unit else plain(value)


SOLE: tuple[Row, ...] = (
    ("Elements of a sole", number(layout.ELEMENTS, ""), DEFINED, "simgait/physics/layout.py"),
    (
        "Bench load of the secant stiffness",
        number(sole.BENCH_LOAD, "N"),
        DEFINED,
        "simgait/parts/sole.py",
    ),
    ("Bench cycle", number(sole.BENCH_PERIOD, "s"), DEFINED, "simgait/parts/sole.py"),
    ("Onset a of an element", number(1000 * sole.ONSET, "mm"), TAKEN, "simgait/parts/sole.py"),
    (
        "Sinking speed v0 at which the loss is full",
        number(3.0 / sole.QUICKNESS, "m/s"),
        TAKEN,
        "simgait/parts/sole.py",
    ),
    (
        "Heel rounded over",
        number(sole.HEEL_ROUNDING, "heel levers"),
        TAKEN,
        "simgait/parts/sole.py",
    ),
    (
        "Forefoot rises from",
        number(sole.FOREFOOT_BREAK, "toe levers"),
        TAKEN,
        "simgait/parts/sole.py",
    ),
    (
        "All heel behind the ankle by",
        number(sole.HEEL_UNTIL, "heel levers"),
        TAKEN,
        "simgait/parts/sole.py",
    ),
    (
        "All forefoot ahead of it by",
        number(sole.FOREFOOT_FROM, "toe levers"),
        TAKEN,
        "simgait/parts/sole.py",
    ),
    (
        "Slide of the sole before friction is used up",
        number(1500.0 / columns.SHEAR_SHARPNESS, "mm"),
        TAKEN,
        "simgait/limb/columns.py",
    ),
    (
        "Tangential damping per unit of friction",
        number(columns.SHEAR_DAMPING, "s/m"),
        TAKEN,
        "simgait/limb/columns.py",
    ),
    (
        "Depth at which an element follows the floor fully",
        number(1000.0 / KERNEL.FULL_GRIP, "mm"),
        TAKEN,
        "simgait/physics/sole.py",
    ),
    (
        "Depth from which it keeps its deflection",
        number(1000.0 / KERNEL.FULL_HOLD, "mm"),
        TAKEN,
        "simgait/physics/sole.py",
    ),
    (
        "Time in which a lifted element forgets",
        number(1000.0 / KERNEL.RELEASE, "ms"),
        TAKEN,
        "simgait/physics/sole.py",
    ),
    (
        "Friction, if a case gives none",
        number(read_defaults()["friction"].number, ""),
        "memory: dry shoe on floor, 0.5 to 0.9",
        "models/defaults.toml",
    ),
)

where = "simgait/physics/bench.py"
quoted = "quoted, drillis-contini-1966"
shares = (
    ("Ankle height", people.ANKLE_HEIGHT_FRACTION),
    ("Knee height", people.KNEE_HEIGHT_FRACTION),
    ("Hip height", people.HIP_HEIGHT_FRACTION),
    ("Thigh", people.THIGH_FRACTION),
    ("Foot length", people.FOOT_FRACTION),
)
BODY: tuple[Row, ...] = (
    *(
        (f"{name}, if not measured", number(share, "of stature"), quoted, "simgait/people.py")
        for name, share in shares
    ),
    ("Gravity", number(GRAVITY, "m/s2"), DEFINED, "simgait/wearer.py"),
    (
        "Socket flexion of the bench alignment",
        number(round(math.degrees(bench.BASE_FLEXION), 6), "degrees"),
        "memory, practice",
        where,
    ),
    (
        "Middle of the socket's brim ahead of the ankle axis, on the bench",
        number(1000 * bench.BRIM_AHEAD_OF_ANKLE, "mm"),
        "memory, practice: 25 to 38 mm",
        where,
    ),
    (
        "Unloaded sole to a level floor, pylon upright, at a dorsiflexion of 0",
        number(math.degrees(bench.BENCH_TILT), "deg"),
        TAKEN,
        where,
    ),
    (
        "Share of the foot behind the ankle axis",
        number(bench.HEEL_BEHIND_ANKLE, ""),
        TAKEN,
        where,
    ),
    (
        "Heel contact to forefoot contact over foot length",
        number(bench.STANDING_SPAN, ""),
        "derived",
        where,
    ),
)

WEARER: tuple[Row, ...] = (
    (
        "Nodes of a reference curve",
        number(layout.NODES, ""),
        DEFINED,
        "simgait/physics/layout.py",
    ),
    (
        "Reference curves run to",
        number(REFERENCE_SPAN, "stance times"),
        DEFINED,
        "simgait/wearer.py",
    ),
    (
        "Step length grows as speed to the power",
        number(STEP_EXPONENT, ""),
        "memory: Grieve & Gear 1966",
        "simgait/wearer.py",
    ),
    (
        "Knee targets reshaped up to",
        number(100 * targets.LOADING_ENDS, "% of stance"),
        TAKEN,
        "simgait/stance/targets.py",
    ),
    (
        "and as published from",
        number(100 * targets.SWING_BEGINS, "% of stance"),
        TAKEN,
        "simgait/stance/targets.py",
    ),
    (
        "Adapting: change of thigh or knee reference that counts as one",
        number(math.degrees(USUAL.hip), "deg"),
        TAKEN,
        "simgait/stance/kept_walk.py",
    ),
    ("against a speed of", number(USUAL.speed, "m/s"), TAKEN, "simgait/stance/kept_walk.py"),
    (
        "and a lean of the shank of",
        number(math.degrees(USUAL.lean), "deg"),
        TAKEN,
        "simgait/stance/kept_walk.py",
    ),
)

ends, read = "simgait/physics/stance.py", "simgait/physics"
READING: tuple[Row, ...] = (
    (
        "Lost contact is toe-off from",
        number(KERNEL.EARLIEST_TOE_OFF, "stance times"),
        DEFINED,
        ends,
    ),
    ("A run is stopped at", number(KERNEL.LATEST_END, "stance times"), DEFINED, ends),
    ("Fallen: hip below", number(KERNEL.LOWEST_HIP, "leg lengths"), DEFINED, ends),
    (
        "Fallen: hip ahead or behind by",
        number(KERNEL.FARTHEST_HIP, "leg lengths"),
        DEFINED,
        ends,
    ),
    ("Knee collapsed: bent beyond", number(KERNEL.MOST_FLEXION, "rad"), DEFINED, ends),
    (
        "Knee collapsed: forced back beyond",
        number(-KERNEL.MOST_EXTENSION, "rad"),
        DEFINED,
        ends,
    ),
    (
        "Foot slipped away: slid beyond",
        number(1000 * KERNEL.FARTHEST_SLIP, "mm"),
        DEFINED,
        ends,
    ),
    (
        "Energy drift: ledger error above",
        number(100 * KERNEL.MOST_LEDGER_ERROR, "%"),
        DEFINED,
        read,
    ),
    ("Foot loaded: vertical force above", number(KERNEL.LOADED, "body weights"), DEFINED, read),
    (
        "Pendulum of the extrapolated centre of mass",
        number(KERNEL.PENDULUM, "hip heights"),
        "memory; formula: quoted, hof-2005",
        read,
    ),
    (
        "Forward thrust read from and to",
        f"{plain(100 * KERNEL.DRIVEN_FROM)} and {plain(100 * KERNEL.DRIVEN_UNTIL)} % of stance",
        DEFINED,
        read,
    ),
)

MOVING: tuple[Row, ...] = (
    (
        "Stiffness of the elbow's stop",
        number(moving.STOP_STIFFNESS, "N m/rad"),
        TAKEN,
        "simgait/arm/moving.py",
    ),
    (
        "Loss in it, for each rad/s into the stop",
        number(moving.STOP_LOSS, "s/rad"),
        TAKEN,
        "simgait/arm/moving.py",
    ),
    (
        "Pull of a film: built up within",
        number(moving.PULL_RISE, "s"),
        TAKEN,
        "simgait/arm/moving.py",
    ),
    (
        "and up to",
        number(moving.PULL_SURPLUS, "times the peak pull of a slow lift"),
        TAKEN,
        "simgait/arm/moving.py",
    ),
)
