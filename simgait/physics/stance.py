"""One block of stances, from touch-down to each run's ending, by Runge and Kutta's method."""

from simgait.arrays import Array
from simgait.physics.between import (
    fill_between,
)
from simgait.physics.layout import (
    CHANNELS,
    DEPTH,
    DEPTH_RATE,
    END_INSTANT,
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
    MOST_INSTANTS,
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
    end_of_firm,
    end_of_reach,
    first_firm,
    first_in_reach,
)

EARLIEST_TOE_OFF = 0.5  # share of the nominal stance time before which lost contact is a bounce
LATEST_END = 1.5  # share of the nominal stance time at which a run is stopped
LOWEST_HIP = 0.6  # share of the leg length below which the wearer has fallen
FARTHEST_HIP = 0.75  # share of the leg length ahead of or behind the socket at which he has fallen
MOST_FLEXION = 1.75  # [rad] knee flexion at which the knee has collapsed
MOST_EXTENSION = -0.35  # [rad]
FARTHEST_SLIP = 0.10  # [m]
LEAST_FINE = 10  # instants before the first double step: polynomials reach back so far


def advance(
    lanes: int,
    low: int,
    high: int,
    firm: int,
    loose: int,
    time: float,
    step: float,
    state: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
    scratch: Array,
    rate: Array,
    base: Array,
    second: Array,
    third: Array,
) -> None:
    """Carry `state` on by one step of the classical Runge-Kutta method (order 4).

    `rate` holds d(state)/dt at the start and is kept.  On return `base` holds the state as it was
    at the start, and `scratch` the plan at the end of the step; `second` and `third` are worked
    in.  Only elements `low` to `high` - 1 of the sole may touch the floor within it; those from
    `firm` to `loose` - 1 follow it.
    """
    half = 0.5 * step
    for j in range(STATES * W):  # all lanes, used or not: one long loop is the fastest
        base[j] = state[j]
        state[j] += half * rate[j]
    plan(lanes, time + half, parameter, reference, scratch)
    move_on(lanes, low, high, firm, loose, state, parameter, sole, scratch, second)
    for j in range(STATES * W):
        state[j] = base[j] + half * second[j]
    move_on(lanes, low, high, firm, loose, state, parameter, sole, scratch, third)
    for j in range(STATES * W):
        state[j] = base[j] + step * third[j]
        second[j] += third[j]
    plan(lanes, time + step, parameter, reference, scratch)
    move_on(lanes, low, high, firm, loose, state, parameter, sole, scratch, third)
    sixth = step / 6.0
    for j in range(STATES * W):
        state[j] = base[j] + sixth * (rate[j] + 2.0 * second[j] + third[j])


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
    for _ in range(30):
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
    before: int,
    state: Array,
    parameter: Array,
    scratch: Array,
    curves: Array,
) -> int:
    """The ending that lane `i` has reached at the end of this step, or RUNNING.

    row, before: entries at which the record of this instant and of the step's start begin.
    """
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
            and curves[before + DEPTH * W + i] >= 0.0
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


def none_ends(
    lanes: int,
    time: float,
    row: int,
    state: Array,
    parameter: Array,
    scratch: Array,
    curves: Array,
) -> bool:
    """Whether every lane stands on the floor, well within all limits of `ending_of`."""
    lanes = min(lanes, W)
    row = min(max(row, 0), MOST_INSTANTS * CHANNELS * W)
    doubtful = 0
    for i in range(lanes):
        leg = parameter[LEG_LENGTH * W + i]
        flexion = state[RESIDUAL * W + i] - state[THIGH * W + i]
        height = state[HIP_Y * W + i]
        ahead = state[HIP_X * W + i] - scratch[PIVOT_X * W + i]
        room = min(curves[row + DEPTH * W + i], height - LOWEST_HIP * leg)
        room = min(room, FARTHEST_HIP * leg - abs(ahead))
        room = min(room, min(MOST_FLEXION - flexion, flexion - MOST_EXTENSION))
        room = min(room, FARTHEST_SLIP - state[SLIP * W + i])
        room = min(room, LATEST_END * parameter[STANCE_TIME * W + i] - time)
        room += 0.0 * (ahead + flexion + height)  # not a number if one of them is not
        doubtful += 0 if room > 0.0 else 1
    return doubtful == 0


def close_run(
    i: int,
    n: int,
    size: int,
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
    """Write lane `i`'s ending, its time and its final state, toe-off located within the step.

    The step ended at instant `n` and was `size` instants long.
    """
    u = 1.0
    if ending == TOE_OFF:
        row = n * CHANNELS * W + i
        before = row - size * CHANNELS * W
        u = crossing(
            size * step,
            curves[before + DEPTH * W],
            curves[before + DEPTH_RATE * W],
            curves[row + DEPTH * W],
            curves[row + DEPTH_RATE * W],
        )
    for j in range(STATES):
        k = j * W + i
        if ending == TOE_OFF:
            ends[END_STATE * W + k] = hermite(u, size * step, base[k], first[k], state[k], rate[k])
        else:
            ends[END_STATE * W + k] = state[k]
    ends[ENDING * W + i] = ending
    ends[END_TIME * W + i] = (n - size + size * u) * step
    ends[END_STEP * W + i] = n - size + int(size * u) if u < 1.0 else n
    ends[END_INSTANT * W + i] = n
    ends[ENERGY_END * W + i] = mechanical_energy(i, ends, END_STATE, parameter)


def close_ended(
    lanes: int,
    n: int,
    size: int,
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
    if none_ends(lanes, n * step, row, state, parameter, scratch, curves):
        return 0
    before = row - size * CHANNELS * W
    ended = 0
    for i in range(lanes):
        if ends[ENDING * W + i] == RUNNING:
            ending = ending_of(i, n * step, row, before, state, parameter, scratch, curves)
            if ending != RUNNING:
                close_run(
                    i, n, size, ending, step, state, rate, base, first, parameter, curves, ends
                )
                ended += 1
    return ended


def run_stance(
    lanes: int,
    steps: int,
    fine: int,
    step: float,
    state: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
    scratch: Array,
    rate: Array,
    base: Array,
    second: Array,
    third: Array,
    curves: Array,
    ends: Array,
) -> int:
    """Run a block until every lane has ended or `steps` are done; returns the instants recorded.

    `step`: between instants [s]; `fine`: instant from which on two are taken in one step, never
    before `LEAST_FINE`; `curves` receives CHANNELS rows an instant, `ends` one column a run.
    """
    fine = max(fine, LEAST_FINE)
    for i in range(lanes):
        ends[ENDING * W + i] = RUNNING
        ends[ENERGY_START * W + i] = mechanical_energy(i, state, 0, parameter)
    p = parameter
    move(lanes, 0.0, state, p, sole, reference, scratch, rate)
    record_forces(lanes, 0, state, p, scratch, rate, curves)
    record_depths(lanes, 0, state, sole, scratch, curves)
    open_runs = lanes
    n = 0
    for _ in range(steps - 1):
        if n < steps - 1 and open_runs > 0:
            size = 1 if n < fine or n + 2 >= steps else 2
            span = size * step
            low = first_in_reach(span, lanes, state, sole, scratch)
            high = end_of_reach(low, span, lanes, state, sole, scratch)
            firm = first_firm(low, high, span, lanes, state, p, sole, scratch)
            loose = end_of_firm(firm, high, span, lanes, state, p, sole, scratch)
            advance(
                lanes, low, high, firm, loose, n * step, span, state, p, sole, reference, scratch,
                rate, base, second, third,
            )  # fmt: skip
            n += size
            move_on(lanes, low, high, firm, loose, state, p, sole, scratch, third)
            record_forces(lanes, n * CHANNELS * W, state, p, scratch, third, curves)
            record_depths(lanes, n * CHANNELS * W, state, sole, scratch, curves)
            open_runs -= close_ended(
                lanes, n, size, step, state, third, base, rate, p, scratch, curves, ends
            )
            rate, third = third, rate
    for i in range(lanes):
        if ends[ENDING * W + i] == RUNNING:
            ends[END_INSTANT * W + i] = n
    fill_between(lanes, fine, n + 1, step, curves, ends)
    return n + 1
