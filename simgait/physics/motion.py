"""The right-hand side: the rate of change of the whole state of a block of runs."""

from simgait.arrays import Array
from simgait.physics.chain import (
    accelerate,
    count_flows,
    place_chain,
)
from simgait.physics.layout import (
    ELEMENTS,
)
from simgait.physics.sole import (
    clear_sums,
    close_sums,
    delay_shear,
    press_sole,
)
from simgait.physics.wearer import (
    follow_curves,
    joint_torques,
    other_support,
    plan_support,
)


def move(
    lanes: int,
    time: float,
    state: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
    scratch: Array,
    rate: Array,
) -> None:
    """Fill `rate` with d(state)/dt at `time` [s] for the first `lanes` runs of the block."""
    plan(lanes, time, parameter, reference, scratch)
    move_on(lanes, 0, ELEMENTS, 0, 0, state, parameter, sole, scratch, rate)


def plan(lanes: int, time: float, parameter: Array, reference: Array, scratch: Array) -> None:
    """Fill what no state changes: reference curves, the other limb's plan, the shear's delay."""
    follow_curves(lanes, time, parameter, reference, scratch)
    plan_support(lanes, time, parameter, scratch)
    delay_shear(lanes, parameter, scratch)


def move_on(
    lanes: int,
    low: int,
    high: int,
    firm: int,
    loose: int,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
    rate: Array,
) -> None:
    """The same with the plan in `scratch`; elements below `low` and from `high` on are clear.

    Elements from `firm` to `loose` - 1 follow the floor, see `press_sole`.
    """
    place_chain(lanes, state, parameter, scratch)
    joint_torques(lanes, state, parameter, scratch)
    other_support(lanes, state, parameter, scratch)
    clear_sums(lanes, scratch)
    press_sole(lanes, low, high, firm, loose, state, parameter, sole, scratch, rate)
    close_sums(lanes, state, parameter, scratch)
    accelerate(lanes, state, parameter, scratch, rate)
    count_flows(lanes, state, parameter, scratch, rate)
