"""Simple machines: bars, pulleys, slopes, screws, wheels, gears, and machines made of these.

Small pure functions, each one formula with its citation. Forces are in newtons, lengths in metres,
angles in radians; a ratio has no unit, so that any one unit may be used for both of its terms.

Two ratios describe any machine. The *motion ratio* is how far the effort moves for each metre that
the load moves; geometry alone sets it. The *force ratio* is how many newtons of load each newton of
effort moves: the motion ratio times the efficiency. What is gained in one is paid in the other.
"""

from simgait.levers.bar import (
    LeverClass,
    Weight,
    effort_to_hold,
    lever_advantage,
    lever_class,
    pivot_force,
)
from simgait.levers.ledger import Ledger, work_ledger
from simgait.levers.machine import Machine, compound
from simgait.levers.pulleys import block_efficiency, pulley_advantage, pulley_effort, support_force
from simgait.levers.slopes import (
    holds_by_itself,
    ramp_advantage,
    ramp_efficiency,
    screw_advantage,
    screw_efficiency,
    wedge_advantage,
)
from simgait.levers.wheels import gear_ratio, train_ratio, wheel_advantage

__all__ = [
    "Ledger",
    "LeverClass",
    "Machine",
    "Weight",
    "block_efficiency",
    "compound",
    "effort_to_hold",
    "gear_ratio",
    "holds_by_itself",
    "lever_advantage",
    "lever_class",
    "pivot_force",
    "pulley_advantage",
    "pulley_effort",
    "ramp_advantage",
    "ramp_efficiency",
    "screw_advantage",
    "screw_efficiency",
    "support_force",
    "train_ratio",
    "wedge_advantage",
    "wheel_advantage",
    "work_ledger",
]
