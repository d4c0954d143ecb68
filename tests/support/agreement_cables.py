"""Comparisons of arms as levers: the exact table, the capstan, and figures of the trade."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np

from agreement import Comparison, Got, as_printed
from arms import LOOPS, TABLE_MOMENT, arm, cable, harness, light_arm, weighing
from simgait.arm.device import device_cable
from simgait.arm.geometry import excursion
from simgait.arm.judging import judge
from simgait.arm.lengths import level_moment, shoulder_inertia
from simgait.arm.lifting import lever_of, lift, pull_at, setting_of
from simgait.arm.running import usual_minimum
from simgait.parts.arm import Arm
from simgait.parts.cable import capstan_efficiency

TOPIC = "Arms"
RIGHT = math.pi / 2.0
TABLE = (  # a and r [mm]; excursion, lever at 90 [mm], pull at 90 and at 10 degrees [N], as printed
    (75, 25, "39.7", "23.7", "57.1", "72.0"),
    (75, 38, "57.5", "33.9", "39.9", "53.5"),
    (75, 51, "72.5", "42.2", "32.1", "44.4"),
    (100, 44, "67.9", "40.3", "33.6", "44.1"),
)
COLUMNS = ("excursion", "lever at 90 degrees", "pull at 90 degrees", "pull at 10 degrees")
CAPSTAN = (  # friction [1], bend [deg], as printed
    (0.04, 45, "0.969"), (0.04, 90, "0.939"), (0.04, 180, "0.882"),
    (0.15, 45, "0.889"), (0.15, 90, "0.790"), (0.15, 180, "0.624"),
)  # fmt: skip


def line(source: str, place: str, printed: str, got: Got, **more: Any) -> Comparison:
    """Return a comparison of arms, as printed unless it brings a band of its own."""
    low, high = more.pop("band", None) or as_printed(printed)
    usual = {"grade": "derived", "kind": "arithmetic", "digits": 1, "unit": "1"}
    return Comparison(
        topic=TOPIC, source=source, place=place, printed=printed, got=got, low=low, high=high,
        **{**usual, **more},
    )  # fmt: skip


def table_cell(guide: int, loop: int, column: str) -> tuple[float, ...]:
    """Return one figure of the exact table, worked out by the lift itself [mm or N].

    guide, loop: [mm].
    """
    made = setting_of(
        weighing(TABLE_MOMENT), cable(), harness(), guide / 1000.0, np.array([loop / 1000.0])
    )
    curves = lift(made)
    found = {
        "excursion": 1000.0 * curves.drawn[0, -1],
        "lever at 90 degrees": 1000.0 * lever_of(made, np.array([RIGHT]))[0, 0],
        "pull at 90 degrees": pull_at(made, RIGHT)[0],
        "pull at 10 degrees": curves.pull[0, 0],
    }
    return (float(found[column]),)


def table_band(column: str, printed: str) -> tuple[float, float]:
    """Return the band of a figure of the table: half of its last digit, and for a pull half of the
    last digit of the weight moment as well, which the table prints to four digits."""
    low, high = as_printed(printed)
    share = 0.0005 / TABLE_MOMENT if column.startswith("pull") else 0.0
    return low * (1.0 - share), high * (1.0 + share)


def table_lines() -> tuple[Comparison, ...]:
    """Return every figure of every row of the exact table."""
    return tuple(
        line(
            "own-arithmetic", f"{column}, guide {guide} mm, loop {loop} mm", printed,
            partial(table_cell, guide, loop, column), digits=2,
            unit="N" if column.startswith("pull") else "mm",
            band=table_band(column, printed),
            note="the weight moment, 1.353 N m, is itself printed to four digits"
            if column.startswith("pull")
            else "",
        )
        for guide, loop, *row in TABLE
        for column, printed in zip(COLUMNS, row, strict=True)
    )  # fmt: skip


def through(friction: float, bend: float) -> tuple[float, ...]:
    """Return what a bend [deg] lets through at a friction [1]."""
    return (capstan_efficiency(friction, [math.radians(bend)]),)


def capstan_lines() -> tuple[Comparison, ...]:
    """Return the shares that bends let through, and the worked figure of five turns."""
    bends = tuple(
        line(
            "own-arithmetic", f"share through {bend} degrees of housing, friction {friction:g}",
            printed, partial(through, friction, bend), digits=4,
        )
        for friction, bend, printed in CAPSTAN
    )  # fmt: skip
    turns = line(
        "capstan", "pull in over pull out, five turns, friction 0.6", "153552935",
        lambda: (1.0 / capstan_efficiency(0.6, [2.0 * math.pi] * 5),), grade="quoted", digits=0,
    )  # fmt: skip
    return (*bends, turns)


def textbook_muscle() -> tuple[float, ...]:
    """Return the muscle's force of the textbook's forearm at 90 degrees [N]."""
    held = arm(
        forearm_mass=2.50, forearm_centre=0.160, device_mass=0.0, held_mass=4.00,
        device_centre=0.380, tip=0.40,
    )  # fmt: skip
    return (held.weight_moment(gravity=9.80) / 0.0400,)


def loop_for(drawn: float) -> tuple[float, ...]:
    """Return the loop at which bending the elbow draws so much cable, guides 75 and 100 mm [mm].

    drawn: [m].
    """
    loops = np.linspace(0.010, 0.090, 8001)
    ends = (math.radians(10.0), math.radians(135.0))
    return tuple(
        1000.0 * float(loops[np.argmin(np.abs(excursion(*ends, guide=guide, loop=loops) - drawn))])
        for guide in (0.075, 0.100)
    )


def light_pulls() -> tuple[float, ...]:
    """Return the pulls at 90 degrees of a light arm over the loops in use [N]."""
    made = setting_of(light_arm(), cable(), harness(), 0.075, LOOPS)
    return tuple(float(pull) for pull in pull_at(made, RIGHT)[[0, -1]])


def steps_outwards(read: str) -> tuple[float, ...]:
    """Return by which factor pull or excursion changes with each loop farther out [1]."""
    curves = lift(setting_of(arm(), cable(), harness(), 0.075, LOOPS))
    values = curves.pull.max(axis=1) if read == "pull" else curves.drawn[:, -1]
    return tuple(float(ratio) for ratio in values[1:] / values[:-1])


def shortened(read: Callable[[Arm], float]) -> tuple[float, ...]:
    """Return by which factor 38 mm less forearm change what an arm weighs or how it turns [1]."""
    return (read(arm().with_forearm(-0.038)) / read(arm()),)


def feasible_positions(pull: float, drawn: float) -> tuple[float, ...]:
    """Return how many loops in use a wearer of a pull [N] and an excursion [m] can work [1]."""
    wires, wearer = cable(device_pull=60.0), harness(max_pull=pull, max_excursion=drawn)
    made = setting_of(light_arm(), wires, wearer, 0.075, LOOPS)
    return (float(judge(made, lift(made), wires, wearer).feasible.sum()),)


def housing_loss() -> tuple[float, ...]:
    """Return what a lined housing with 180 degrees of bends loses in a cycle [N mm]."""
    made = cable(friction=0.04, bends=(math.pi / 2.0, math.pi / 2.0), device_pull=60.0)
    row = device_cable(made, harness(), usual_minimum("forearm"))
    return () if row is None else (1000.0 * row.lost,)


def tireless(pull: float) -> tuple[float, ...]:
    """Return the fatigue-free pull of a wearer who can pull so much [N]."""
    return (harness(max_pull=pull).fatigue_free_pull,)


LESS, MORE = (0.0, 0.999), (1.001, math.inf)
PRACTICE: dict[str, Any] = {"grade": "practice", "kind": "predicted", "digits": 3}
QUOTED: dict[str, Any] = {"grade": "quoted", "kind": "predicted"}
PUBLISHED: dict[str, Any] = {"grade": "published", "kind": "predicted"}
NOTES = "arm-teaching-notes"

CABLES = (
    *table_lines(),
    *capstan_lines(),
    line("openstax-college-physics", "forearm at 90 degrees as an arm case: muscle", "470",
         textbook_muscle, grade="published", unit="N", digits=1,
         note="gravity 9.80 m/s2, as there"),
    line(NOTES, "loop at which full flexion draws 64 mm (2.5 in)", "25 to 51 in use",
         partial(loop_for, 0.064), band=(25.0, 51.0), unit="mm", **{**QUOTED, "grade": "memory"},
         note="guides 75 and 100 mm; the excursion is quoted, the loops in use are from memory"),
    line(NOTES, "pull at 90 degrees, loops 25 and 51 mm", "9 to 31, by loop position",
         light_pulls, band=(9.0, 31.0), unit="N", **QUOTED,
         note="a light shell and an aluminium hook, nothing held; a heavier arm asks for more"),
    line("memory", "pull to bend the elbow from 90 degrees, nothing held, at a checkout",
         "at most 44.5", light_pulls, band=(-math.inf, 44.5), unit="N",
         grade="memory", kind="predicted"),
    line(NOTES, "peak pull with each loop farther out, over the one before", "less",
         partial(steps_outwards, "pull"), band=LESS, **{**QUOTED, "digits": 3}),
    line(NOTES, "excursion with each loop farther out, over the one before", "more",
         partial(steps_outwards, "excursion"), band=MORE, **{**QUOTED, "digits": 3}),
    line("common-practice", "moment about the shoulder with 38 mm less forearm, over before",
         "less", partial(shortened, level_moment), band=LESS, **PRACTICE),
    line("common-practice", "inertia about the shoulder with 38 mm less forearm, over before",
         "less", partial(shortened, shoulder_inertia), band=LESS, **PRACTICE),
    line("duke-mec", "moment of an arm held out", "5.4 for a powered arm",
         lambda: (level_moment(light_arm()), level_moment(arm())), band=(-math.inf, 5.4),
         unit="N m", **{**PUBLISHED, "digits": 2},
         note="body-powered arms are lighter; only an upper bound"),
    line("kitayama-1999", "loops in use that a wearer of 100 N and 100 mm can work",
         "about 100 N and 100 mm at upper-arm level", partial(feasible_positions, 100.0, 0.100),
         band=(1.0, math.inf), **{**PUBLISHED, "digits": 0},
         note="plausible if at least one; light arm, device of 60 N and 38 mm"),
    line("hichert-2018", "fatigue-free pull of the weakest wearer (87 N)",
         "devices need 33 to 131: none", partial(tireless, 87.0), band=(-math.inf, 33.0),
         unit="N", grade="published", kind="arithmetic"),
    line("hichert-2018", "fatigue-free pull of the strongest wearer (538 N)",
         "devices need 33 to 131: some", partial(tireless, 538.0), band=(33.0, 131.0), unit="N",
         grade="published", kind="arithmetic"),
    line("smit-2010", "work lost in a cycle by a lined housing of 180 degrees",
         "52 to 1409 by devices", housing_loss, band=(52.0, 1409.0), unit="N mm",
         **{**PUBLISHED, "digits": 0},
         note="plausibility of the size only: there the devices' own loss, here the housing's"),
    line("uw-upper-limb", "efficiency of a lined housing with 180 degrees of bends",
         "at least 0.80", partial(through, 0.04, 180), band=(0.80, math.inf),
         **{**QUOTED, "digits": 3}, note="friction 0.04, PTFE on steel, published"),
    line("uw-upper-limb", "efficiency of a dry steel housing with 90 degrees of bends",
         "fails 0.80", partial(through, 0.3, 90), band=(-math.inf, 0.80),
         **{**QUOTED, "digits": 3}, note="friction 0.3, steel on steel, dry, published"),
)  # fmt: skip
