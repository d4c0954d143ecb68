"""Comparisons of levers and simple machines with a textbook's worked examples, as printed."""

from __future__ import annotations

from typing import Any

from agreement import Comparison, Got, as_printed
from simgait.levers import (
    Ledger,
    Weight,
    effort_to_hold,
    lever_advantage,
    pivot_force,
    pulley_effort,
    support_force,
)

TOPIC = "Levers and simple machines"
G = 9.80  # [m/s2] of the textbook
COLLEGE, SCHOOL = "openstax-college-physics", "openstax-physics"

FOREARM = (Weight(force=2.50 * G, arm=0.160), Weight(force=4.00 * G, arm=0.380))
BARROW = (Weight(force=45.0 * G, arm=0.0750),)
ENGINE = (115.0 + 7.00) * G  # [N] engine and pulleys
CHILD = (Weight(force=30.0 * G, arm=1.40),)
PUSH_UP = (Weight(force=147.0, arm=0.200),)
TURN = 120.0  # [rad/s2]


def muscle() -> float:
    """Return the force of the forearm's muscle [N]."""
    return effort_to_hold(FOREARM, 0.0400)


def line(place: str, printed: str, got: Got, unit: str, **more: Any) -> Comparison:
    """Return a comparison in the band of half of the printed figure's last digit."""
    low, high = more.pop("band", as_printed(printed))
    digits = len(printed.partition(".")[2])
    usual = {"source": COLLEGE, "grade": "published", "kind": "arithmetic", "digits": digits}
    return Comparison(
        topic=TOPIC, place=place, printed=printed, got=got, low=low, high=high, unit=unit,
        **{**usual, **more},
    )  # fmt: skip


LEVERS = (
    line("forearm level, third class: the muscle", "470", lambda: (muscle(),), "N"),
    line(
        "the same: the elbow", "407", lambda: (abs(pivot_force(FOREARM, muscle())),), "N",
    ),
    line(
        "the same: muscle over weight held", "7.38",
        lambda: (muscle() / sum(each.force for each in FOREARM),), "1",
    ),
    line("wheelbarrow, second class: the hands", "32.4",
         lambda: (effort_to_hold(BARROW, 1.02),), "N"),
    line(
        "the same: the wheel on the ground", "409",
        lambda: (pivot_force(BARROW, effort_to_hold(BARROW, 1.02)),), "N",
    ),
    line("the same: advantage", "13.6", lambda: (lever_advantage(1.02, 0.0750),), "1"),
    line("four strands, pulled up: the rope", "299",
         lambda: (pulley_effort(ENGINE, 4, 1.0),), "N"),
    line(
        "the same: the ceiling", "897",
        lambda: (support_force(ENGINE, pulley_effort(ENGINE, 4, 1.0), effort_upward=True),), "N",
    ),
    line(
        "seesaw, first class: where the lighter child sits", "2.33",
        lambda: (effort_to_hold(CHILD, 1.0) / (18.0 * G),), "m",
    ),
    line(
        "push-up: the triceps", "1680", lambda: (effort_to_hold(PUSH_UP, 0.0175),), "N",
        band=(1675.0, 1685.0), note="printed to three digits",
    ),
    line(
        "a lever's efficiency", "91",
        lambda: (100.0 * Ledger(work_in=11.0 * 0.4, work_out=40.0 * 0.1).efficiency,), "%",
        source=SCHOOL,
    ),
    line(
        "forearm turned by its muscle: moment of inertia", "0.50",
        lambda: (Weight(force=2.00e3, arm=0.0300).moment / TURN,), "kg m2",
    ),
)  # fmt: skip
