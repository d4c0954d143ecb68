"""One block of stances, from touch-down to each run's ending, by Runge and Kutta's method."""

from simgait.arrays import Array
from simgait.physics.layout import (
    CHANNELS,
    DEPTH,
    DEPTH_RATE,
    END_STATE,
    END_STEP,
    END_TIME,
    ENDING,
    ENERGY_END,
    ENERGY_START,
    FELL_BACKWARD,
    FELL_FORWARD,
    FOOT_SLIPPED,
    HIP_X,
    HIP_Y,
    KNEE_COLLAPSED,
    LEG_LENGTH,
    NOT_FINITE,
    PIVOT_X,
    RESIDUAL,
    RUN_ON,
    RUNNING,
    SLIP,
    STANCE_TIME,
    STATES,
    STEP_LIMIT,
    THIGH,
    TOE_OFF,
    W,
)
from simgait.physics.ledger import (
    mechanical_energy,
)
from simgait.physics.motion import (
    move,
    move_on,
    plan,
)
from simgait.physics.record import (
    record_depths,
    record_forces,
)
from simgait.physics.sole import (
    end_of_reach,
    first_in_reach,
)

EARLIEST_TOE_OFF = 0.5  # share of the nominal stance time before which lost contact is a bounce
LATEST_END = 1.5  # share of the nominal stance time at which a run is stopped
LOWEST_HIP = 0.6  # share of the leg length below which the wearer has fallen
FARTHEST_HIP = 0.75  # share of the leg length ahead of or behind the socket at which he has fallen
MOST_FLEXION = 1.75  # [rad] knee flexion at which the knee has collapsed
MOST_EXTENSION = -0.35  # [rad]
FARTHEST_SLIP = 0.10  # [m]


def advance(
    lanes: int,
    low: int,
    high: int,
    time: float,
    step: float,
    state: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
    scratch: Array,
    rate: Array,
    base: Array,
    first: Array,
    total: Array,
) -> None:
    """Carry `state` on by one step of the classical Runge-Kutta method (order 4).

    `rate` holds d(state)/dt at the start.  On return `base` and `first` hold the state and its
    rate as they were at the start, and `scratch` the plan at the end of the step.  Only elements
    `low` to `high` - 1 of the sole may touch the floor within it.
    """
    half = 0.5 * step
    for j in range(STATES * W):  # all lanes, used or not: one long loop is the fastest
        k = rate[j]
        base[j] = state[j]
        first[j] = k
        total[j] = k
        state[j] += half * k
    plan(lanes, time + half, parameter, reference, scratch)
    move_on(lanes, low, high, state, parameter, sole, scratch, rate)
    for j in range(STATES * W):
        k = rate[j]
        total[j] += 2.0 * k
        state[j] = base[j] + half * k
    move_on(lanes, low, high, state, parameter, sole, scratch, rate)
    for j in range(STATES * W):
        k = rate[j]
        total[j] += 2.0 * k
        state[j] = base[j] + step * k
    plan(lanes, time + step, parameter, reference, scratch)
    move_on(lanes, low, high, state, parameter, sole, scratch, rate)
    sixth = step / 6.0
    for j in range(STATES * W):
        state[j] = base[j] + sixth * (total[j] + rate[j])


def hermite(u: float, step: float, y0: float, d0: float, y1: float, d1: float) -> float:
    """Cubic through y0 and y1 with the slopes d0 and d1, at the share u of the step."""
    v = 1.0 - u
    return (
        v * v * (1.0 + 2.0 * u) * y0
        + u * v * v * step * d0
        + u * u * (3.0 - 2.0 * u) * y1
        - u * u * v * step * d1
    )


def crossing(step: float, y0: float, d0: float, y1: float, d1: float) -> float:
    """Share of the step at which the cubic through y0 and y1, of opposite sign, is zero."""
    low = 0.0
    high = 1.0
    for _ in range(50):
        middle = 0.5 * (low + high)
        y = hermite(middle, step, y0, d0, y1, d1)
        if (y > 0.0) == (y0 > 0.0):
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def ending_of(
    i: int,
    time: float,
    row: int,
    state: Array,
    parameter: Array,
    scratch: Array,
    curves: Array,
) -> int:
    """The ending that lane `i` has reached at this step, or RUNNING."""
    leg = parameter[LEG_LENGTH * W + i]
    flexion = state[RESIDUAL * W + i] - state[THIGH * W + i]
    ahead = state[HIP_X * W + i] - scratch[PIVOT_X * W + i]
    sound = state[HIP_X * W + i] * 0.0 + flexion * 0.0
    stance = parameter[STANCE_TIME * W + i]
    if not sound == 0.0:
        return NOT_FINITE
    if parameter[RUN_ON * W + i] == 0.0:
        if (
            curves[row + DEPTH * W + i] < 0.0
            and time > EARLIEST_TOE_OFF * stance
            and curves[row - CHANNELS * W + DEPTH * W + i] >= 0.0
        ):
            return TOE_OFF
        if flexion > MOST_FLEXION or flexion < MOST_EXTENSION:
            return KNEE_COLLAPSED
        if state[HIP_Y * W + i] < LOWEST_HIP * leg or abs(ahead) > FARTHEST_HIP * leg:
            return FELL_FORWARD if ahead > 0.0 else FELL_BACKWARD
        if state[SLIP * W + i] > FARTHEST_SLIP:
            return FOOT_SLIPPED
    if time > LATEST_END * stance:
        return STEP_LIMIT
    return RUNNING


def close_run(
    i: int,
    n: int,
    ending: int,
    step: float,
    state: Array,
    rate: Array,
    base: Array,
    first: Array,
    parameter: Array,
    curves: Array,
    ends: Array,
) -> None:
    """Write lane `i`'s ending, its time and its final state, toe-off located within the step."""
    u = 1.0
    if ending == TOE_OFF:
        row = n * CHANNELS * W + i
        before = row - CHANNELS * W
        u = crossing(
            step,
            curves[before + DEPTH * W],
            curves[before + DEPTH_RATE * W],
            curves[row + DEPTH * W],
            curves[row + DEPTH_RATE * W],
        )
    for j in range(STATES):
        k = j * W + i
        if ending == TOE_OFF:
            ends[END_STATE * W + k] = hermite(u, step, base[k], first[k], state[k], rate[k])
        else:
            ends[END_STATE * W + k] = state[k]
    ends[ENDING * W + i] = ending
    ends[END_TIME * W + i] = (n - 1 + u) * step
    ends[END_STEP * W + i] = n - 1 if u < 1.0 else n
    ends[ENERGY_END * W + i] = mechanical_energy(i, ends, END_STATE, parameter)


def close_ended(
    lanes: int,
    n: int,
    step: float,
    state: Array,
    rate: Array,
    base: Array,
    first: Array,
    parameter: Array,
    scratch: Array,
    curves: Array,
    ends: Array,
) -> int:
    """Close every lane that has reached its ending at instant `n`; returns how many did."""
    row = n * CHANNELS * W
    ended = 0
    for i in range(lanes):
        if ends[ENDING * W + i] == RUNNING:
            ending = ending_of(i, n * step, row, state, parameter, scratch, curves)
            if ending != RUNNING:
                close_run(i, n, ending, step, state, rate, base, first, parameter, curves, ends)
                ended += 1
    return ended


def run_stance(
    lanes: int,
    steps: int,
    step: float,
    state: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
    scratch: Array,
    rate: Array,
    base: Array,
    first: Array,
    total: Array,
    curves: Array,
    ends: Array,
) -> int:
    """Run a block until every lane has ended or `steps` are done; returns the steps recorded.

    `step`: [s]; `curves` receives CHANNELS rows a step, `ends` one column a run.
    """
    for i in range(lanes):
        ends[ENDING * W + i] = RUNNING
        ends[ENERGY_START * W + i] = mechanical_energy(i, state, 0, parameter)
    p = parameter
    move(lanes, 0.0, state, p, sole, reference, scratch, rate)
    record_forces(lanes, 0, state, p, scratch, rate, curves)
    record_depths(lanes, 0, state, sole, scratch, curves)
    open_runs = lanes
    for n in range(1, steps):
        time = (n - 1) * step
        low = first_in_reach(step, lanes, state, sole, scratch)
        high = end_of_reach(low, step, lanes, state, sole, scratch)
        advance(
            lanes, low, high, time, step, state, p, sole, reference, scratch, rate, base, first,
            total,
        )  # fmt: skip
        row = n * CHANNELS * W
        move_on(lanes, low, high, state, p, sole, scratch, rate)
        record_forces(lanes, row, state, p, scratch, rate, curves)
        record_depths(lanes, row, state, sole, scratch, curves)
        open_runs -= close_ended(lanes, n, step, state, rate, base, first, p, scratch, curves, ends)
        if open_runs == 0:
            return n + 1
    return steps
