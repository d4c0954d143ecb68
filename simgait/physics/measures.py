"""The outcome measures of one stance, read from its series; all in SI."""

from simgait.arrays import Array
from simgait.physics.layout import (
    ABSORBED_SOLE,
    BODY_WEIGHT,
    BRAKING_IMPULSE,
    BRAKING_PEAK,
    BRIM_FORCE,
    END_STATE,
    END_STEP,
    END_TIME,
    ENDING,
    ENERGY_DRIFT,
    ENERGY_END,
    ENERGY_START,
    EXCHANGED,
    FOOT_LOST,
    FOOT_RETURNED,
    FOOT_STORED,
    FORCE_BEHIND_KNEE,
    HEEL_LEVER,
    HIP_VX,
    KNEE_EXTENSION_IMPULSE,
    KNEE_EXTENSION_PEAK,
    KNEE_EXTENSION_PEAK_WHEN,
    KNEE_FLEXION_IMPULSE,
    KNEE_FLEXION_PEAK,
    KNEE_FLEXION_PEAK_WHEN,
    KNEE_MIDSTANCE,
    LEAST_FLEXION,
    LEDGER_ERROR,
    LIMB_END_FORCE,
    LOADING_FLEXION,
    LOADING_RATE,
    LOSS_SOCKET,
    LOSS_SOLE,
    MEASURES,
    NOT_A_NUMBER,
    PROPULSIVE_IMPULSE,
    PROPULSIVE_PEAK,
    SLIP,
    SLIP_LENGTH,
    SOCKET_30,
    SOCKET_45,
    SOCKET_75,
    SOCKET_COUPLE,
    SOCKET_DEPTH,
    SOCKET_EXTENSION_PEAK,
    SOCKET_FLEXION_PEAK,
    SPEED_CHANGE,
    TOE_LEVER,
    TOE_OFF,
    UP_IMPULSE,
    UP_PEAK,
    UP_PEAK_FIRST,
    UP_PEAK_SECOND,
    UTILISED_FRICTION,
    WORK_FRICTION,
    WORK_HIP,
    WORK_KNEE,
    WORK_OTHER,
    WORK_SOLE,
    WORK_TRUNK,
    Y_BEHIND,
    Y_BRIM,
    Y_FLEXION,
    Y_FORWARD,
    Y_KNEE,
    Y_LIMB_END,
    Y_ROLL_X,
    Y_SOCKET,
    Y_UP,
    Y_USE,
    W,
)
from simgait.physics.reading import (
    crossing_time,
    find_peak,
    positive_integral,
    positive_share,
    value_at,
)
from simgait.physics.series import (
    fill_series,
)
from simgait.physics.tipping import (
    contact_and_tipping,
)

LOADED = 0.2  # share of body weight above which the pressure point is taken as well defined
HALF_LOADED = 0.5  # share of body weight up to which the loading rate is taken
STRAIGHT_FROM = 0.1  # share of stance from which the knee's least flexion is read
STRAIGHT_UNTIL = 0.8  # share of stance until which it is
MOST_LEDGER_ERROR = 0.001


def knee_loads(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the knee."""
    half = 0.5 * end
    knee = Y_KNEE * steps
    find_peak(series, knee, last, step, 0.0, half, 1.0, found)
    out[KNEE_FLEXION_PEAK * W + i] = max(found[0], 0.0)
    out[KNEE_FLEXION_PEAK_WHEN * W + i] = found[1] / end
    find_peak(series, knee, last, step, half, end, -1.0, found)
    out[KNEE_EXTENSION_PEAK * W + i] = max(found[0], 0.0)
    out[KNEE_EXTENSION_PEAK_WHEN * W + i] = found[1] / end
    out[KNEE_MIDSTANCE * W + i] = value_at(series, knee, last, step, half)
    out[KNEE_FLEXION_IMPULSE * W + i] = positive_integral(series, knee, last, step, 0.0, end, 1.0)
    out[KNEE_EXTENSION_IMPULSE * W + i] = positive_integral(
        series, knee, last, step, 0.0, end, -1.0
    )
    bent = Y_FLEXION * steps
    find_peak(series, bent, last, step, 0.0, half, 1.0, found)
    out[LOADING_FLEXION * W + i] = found[0]
    find_peak(series, bent, last, step, STRAIGHT_FROM * end, STRAIGHT_UNTIL * end, -1.0, found)
    out[LEAST_FLEXION * W + i] = -found[0]


def socket_loads(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the socket."""
    socket = Y_SOCKET * steps
    find_peak(series, socket, last, step, 0.0, end, 1.0, found)
    out[SOCKET_FLEXION_PEAK * W + i] = max(found[0], 0.0)
    find_peak(series, socket, last, step, 0.0, end, -1.0, found)
    out[SOCKET_EXTENSION_PEAK * W + i] = max(found[0], 0.0)
    largest = max(out[SOCKET_FLEXION_PEAK * W + i], out[SOCKET_EXTENSION_PEAK * W + i])
    out[SOCKET_COUPLE * W + i] = largest / parameter[SOCKET_DEPTH * W + i]
    find_peak(series, Y_BRIM * steps, last, step, 0.0, end, 1.0, found)
    out[BRIM_FORCE * W + i] = found[0]
    find_peak(series, Y_LIMB_END * steps, last, step, 0.0, end, 1.0, found)
    out[LIMB_END_FORCE * W + i] = found[0]
    out[SOCKET_30 * W + i] = value_at(series, socket, last, step, 0.30 * end)
    out[SOCKET_45 * W + i] = value_at(series, socket, last, step, 0.45 * end)
    out[SOCKET_75 * W + i] = value_at(series, socket, last, step, 0.75 * end)


def loads(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the ground force."""
    weight = parameter[BODY_WEIGHT * W + i]
    half = 0.5 * end
    up = Y_UP * steps
    find_peak(series, up, last, step, 0.0, half, 1.0, found)
    out[UP_PEAK_FIRST * W + i] = found[0] / weight
    find_peak(series, up, last, step, half, end, 1.0, found)
    out[UP_PEAK_SECOND * W + i] = found[0] / weight
    out[UP_PEAK * W + i] = max(out[UP_PEAK_FIRST * W + i], out[UP_PEAK_SECOND * W + i])
    out[UP_IMPULSE * W + i] = positive_integral(series, up, last, step, 0.0, end, 1.0)
    reached = crossing_time(series, up, last, step, 0.0, half, HALF_LOADED * weight, 1.0)
    out[LOADING_RATE * W + i] = HALF_LOADED / reached if reached > 0.0 else NOT_A_NUMBER
    forward = Y_FORWARD * steps
    find_peak(series, forward, last, step, 0.0, end, -1.0, found)
    out[BRAKING_PEAK * W + i] = found[0] / weight
    find_peak(series, forward, last, step, 0.0, end, 1.0, found)
    out[PROPULSIVE_PEAK * W + i] = found[0] / weight
    out[BRAKING_IMPULSE * W + i] = positive_integral(series, forward, last, step, 0.0, end, -1.0)
    out[PROPULSIVE_IMPULSE * W + i] = positive_integral(series, forward, last, step, 0.0, end, 1.0)


def levers_and_friction(
    i: int,
    last: int,
    steps: int,
    step: float,
    end: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill what is read while the foot carries more than 0.2 body weights.

    Share of that time with the ground force behind the knee [1], friction used [1], and the
    effective heel and toe lever [m].
    """
    weight = parameter[BODY_WEIGHT * W + i]
    half = 0.5 * end
    up = Y_UP * steps
    loaded = max(crossing_time(series, up, last, step, 0.0, half, LOADED * weight, 1.0), 0.0)
    free = crossing_time(series, up, last, step, half, end, LOADED * weight, -1.0)
    free = end if free < 0.0 else free
    out[FORCE_BEHIND_KNEE * W + i] = positive_share(
        series, Y_BEHIND * steps, last, step, loaded, free
    )
    find_peak(series, Y_USE * steps, last, step, loaded, free, 1.0, found)
    out[UTILISED_FRICTION * W + i] = found[0]
    find_peak(series, Y_ROLL_X * steps, last, step, loaded, free, -1.0, found)
    out[HEEL_LEVER * W + i] = found[0]
    find_peak(series, Y_ROLL_X * steps, last, step, loaded, free, 1.0, found)
    out[TOE_LEVER * W + i] = found[0]


def accounts(i: int, ends: Array, curves: Array, out: Array) -> None:
    """Fill the measures of energy and speed, and what is left over in the ledger."""
    z = END_STATE * W + i
    out[SLIP_LENGTH * W + i] = ends[z + SLIP * W]
    out[FOOT_STORED * W + i] = ends[z + ABSORBED_SOLE * W]
    out[FOOT_RETURNED * W + i] = ends[z + ABSORBED_SOLE * W] + ends[z + WORK_SOLE * W]
    out[FOOT_LOST * W + i] = ends[z + LOSS_SOLE * W]
    out[SPEED_CHANGE * W + i] = ends[z + HIP_VX * W] - curves[HIP_VX * W + i]
    left = ends[ENERGY_END * W + i] - ends[ENERGY_START * W + i]
    left -= ends[z + WORK_HIP * W] + ends[z + WORK_KNEE * W] + ends[z + WORK_OTHER * W]
    left -= ends[z + WORK_TRUNK * W] + ends[z + WORK_SOLE * W] + ends[z + WORK_FRICTION * W]
    left += ends[z + LOSS_SOCKET * W]
    out[LEDGER_ERROR * W + i] = abs(left) / max(ends[z + EXCHANGED * W], 1e-12)


def measure_block(
    lanes: int,
    steps: int,
    step: float,
    curves: Array,
    parameter: Array,
    ends: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill every measure of every lane that ended with toe-off; the others get NaN.

    A run whose ledger does not close ends as ENERGY_DRIFT.
    """
    for i in range(lanes):
        for m in range(MEASURES):
            out[m * W + i] = NOT_A_NUMBER
        if ends[ENDING * W + i] == TOE_OFF:
            end = ends[END_TIME * W + i]
            last = int(ends[END_STEP * W + i]) + 1
            accounts(i, ends, curves, out)
            if out[LEDGER_ERROR * W + i] > MOST_LEDGER_ERROR:
                ends[ENDING * W + i] = ENERGY_DRIFT
                for m in range(MEASURES - 1):
                    out[m * W + i] = NOT_A_NUMBER
            else:
                fill_series(i, last, steps, curves, parameter, series)
                knee_loads(i, last, steps, step, end, series, found, out)
                socket_loads(i, last, steps, step, end, parameter, series, found, out)
                loads(i, last, steps, step, end, parameter, series, found, out)
                levers_and_friction(i, last, steps, step, end, parameter, series, found, out)
                contact_and_tipping(
                    i, last, steps, step, end, curves, parameter, series, found, out
                )
