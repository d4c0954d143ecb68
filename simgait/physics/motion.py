"""The right-hand side: the rate of change of the whole state of a block of runs."""

from simgait.arrays import Array
from simgait.physics.chain import (
    accelerate,
    count_flows,
    place_chain,
)
from simgait.physics.sole import (
    clear_sums,
    press_sole,
)
from simgait.physics.wearer import (
    follow_curves,
    joint_torques,
    other_support,
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
    follow_curves(lanes, time, parameter, reference, scratch)
    move_on(lanes, time, state, parameter, sole, scratch, rate)


def move_on(
    lanes: int,
    time: float,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
    rate: Array,
) -> None:
    """The same, where `scratch` already holds the reference curves at `time` [s]."""
    place_chain(lanes, state, parameter, scratch)
    joint_torques(lanes, state, parameter, scratch)
    other_support(lanes, time, state, parameter, scratch)
    clear_sums(lanes, scratch)
    press_sole(lanes, state, parameter, sole, scratch, rate)
    accelerate(lanes, state, parameter, scratch, rate)
    count_flows(lanes, state, parameter, scratch, rate)
