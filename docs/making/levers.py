"""The generated parts of the guide's page on levers."""

from __future__ import annotations

from making.text import plain, shown, table
from simgait.levers import (
    Ledger,
    Machine,
    compound,
    lever_advantage,
    lever_class,
    pulley_advantage,
    screw_advantage,
    screw_efficiency,
    wheel_advantage,
    work_ledger,
)

FULCRUM = 0.0
BARS = (  # what, place of the load, place of the effort [m]
    ("seesaw, two children", -1.40, 2.33),
    ("wheelbarrow", 0.075, 1.02),
    ("forearm, load in the hand, cable 50 mm from the elbow", 0.30, 0.05),
)
LOAD, TRAVEL = 40.0, 0.05  # [N], [m]
PULLEY = Machine(motion_ratio=2.0, efficiency=0.9)
HOUSING = Machine(motion_ratio=1.0, efficiency=0.8)
PLAIN = Machine(motion_ratio=1.0, efficiency=1.0)


def bars() -> str:
    """Return the three classes as a table."""
    rows = [
        (
            what,
            f"{lever_class(FULCRUM, load, effort)}",
            shown(lever_advantage(abs(effort), abs(load)), 2),
            shown(abs(effort) / abs(load) * 10.0, 1),
        )
        for what, load, effort in BARS
    ]
    heads = ("bar", "class", "load for each newton of effort", "mm of effort for 10 mm of load")
    return table(heads, rows, right=3)


def machines() -> str:
    """Return some machines as a table."""
    rows = (
        ("rope over two strands", pulley_advantage(2)),
        ("wheel of 60 mm on an axle of 15 mm", wheel_advantage(0.060, 0.015)),
        ("screw of 1 mm lead, key of 80 mm", screw_advantage(0.080, 0.001)),
    )
    return table(("machine, without friction", "advantage"), [(a, shown(b, 1)) for a, b in rows], 1)


def ledger_row(name: str, machine: Machine) -> tuple[str, ...]:
    """Return the ledger of one machine as a row."""
    entry: Ledger = work_ledger(machine, LOAD, TRAVEL)
    return (
        name,
        shown(machine.effort(LOAD), 1),
        shown(1000.0 * machine.effort_travel(TRAVEL), 0),
        shown(entry.work_in, 2),
        shown(entry.work_out, 2),
        shown(entry.loss, 2),
        shown(100.0 * entry.efficiency, 0),
    )


def ledgers() -> str:
    """Return the ledgers of a cable with and without a housing and a moving pulley."""
    heads = (
        "between harness and arm", "pull N", "travel mm", "work in J", "work out J", "lost J",
        "efficiency %",
    )  # fmt: skip
    rows = [
        ledger_row("a straight cable", PLAIN),
        ledger_row("a housing", HOUSING),
        ledger_row("a housing and a two-to-one pulley", compound([HOUSING, PULLEY])),
    ]
    said = (
        f"The cable's end moves {plain(1000.0 * TRAVEL)} mm against {plain(LOAD)} N. The housing "
        f"lets {plain(100.0 * HOUSING.efficiency)} % through, the pulley "
        f"{plain(100.0 * PULLEY.efficiency)} %; both figures are invented."
    )
    return f"{said}\n\n{table(heads, rows, right=6)}"


def screw() -> str:
    """Return what friction makes of a set screw, in a sentence."""
    lead, diameter, friction = 0.001, 0.0054, 0.15
    share = 100.0 * screw_efficiency(lead, diameter, friction)
    return (
        f"A thread of {plain(1000.0 * lead)} mm lead and {plain(1000.0 * diameter)} mm mean "
        f"diameter with a friction of {plain(friction)} passes on {shown(share, 0)} % of the work: "
        "most of what the hand gives is lost, and that very loss keeps the screw from running back."
    )


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the guide's page on levers."""
    return {"bars": bars(), "machines": machines(), "ledgers": ledgers(), "screw": screw()}
