"""The outcome measures of a block of stances, read from their series; all in SI."""

from simgait.arrays import Array
from simgait.physics.crossing import (
    crossing_times,
    positive_integrals,
    positive_shares,
)
from simgait.physics.layout import (
    ABSORBED_SOLE,
    BEGIN,
    BODY_WEIGHT,
    BRAKING_IMPULSE,
    BRAKING_PEAK,
    BRIM_FORCE,
    END,
    END_STATE,
    END_STEP,
    END_TIME,
    ENDING,
    ENERGY_DRIFT,
    ENERGY_END,
    ENERGY_START,
    EXCHANGED,
    FINISH,
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
    LAST,
    LEAST_FLEXION,
    LEDGER_ERROR,
    LIMB_END_FORCE,
    LOADED_AT,
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
    VALUE,
    WHEN,
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
    find_peaks,
    last_of,
    mark_window,
    set_window,
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
LEAST_SAMPLES = 8  # of a run that is measured


def put_found(lanes: int, kept: int, measure: int, factor: float, found: Array, out: Array) -> None:
    """Write a row of `found` times a factor as a measure."""
    for i in range(lanes):
        out[measure * W + i] = factor * found[kept * W + i]


def put_peak(lanes: int, measure: int, when: int, found: Array, out: Array) -> None:
    """Write a peak that is nothing if it has the other sense, and its time as a share [1]."""
    for i in range(lanes):
        out[measure * W + i] = max(found[VALUE * W + i], 0.0)
        out[when * W + i] = found[WHEN * W + i] / found[END * W + i]


def put_value(
    lanes: int,
    row: int,
    share: float,
    measure: int,
    steps: int,
    step: float,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Write the value of a series at a share of stance as a measure."""
    for i in range(lanes):
        last = int(found[LAST * W + i])
        time = share * found[END * W + i]
        out[measure * W + i] = value_at(series, row * steps * W + i, last, step, time)


def knee_loads(
    lanes: int, steps: int, step: float, series: Array, found: Array, out: Array
) -> None:
    """Fill the measures of the knee."""
    set_window(lanes, step, 0.0, 0.5, found)
    find_peaks(lanes, Y_KNEE, steps, step, 1.0, series, found)
    put_peak(lanes, KNEE_FLEXION_PEAK, KNEE_FLEXION_PEAK_WHEN, found, out)
    find_peaks(lanes, Y_FLEXION, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, LOADING_FLEXION, 1.0, found, out)
    set_window(lanes, step, 0.5, 1.0, found)
    find_peaks(lanes, Y_KNEE, steps, step, -1.0, series, found)
    put_peak(lanes, KNEE_EXTENSION_PEAK, KNEE_EXTENSION_PEAK_WHEN, found, out)
    set_window(lanes, step, 0.0, 1.0, found)
    positive_integrals(lanes, Y_KNEE, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, KNEE_FLEXION_IMPULSE, 1.0, found, out)
    positive_integrals(lanes, Y_KNEE, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, KNEE_EXTENSION_IMPULSE, 1.0, found, out)
    put_value(lanes, Y_KNEE, 0.5, KNEE_MIDSTANCE, steps, step, series, found, out)
    set_window(lanes, step, STRAIGHT_FROM, STRAIGHT_UNTIL, found)
    find_peaks(lanes, Y_FLEXION, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, LEAST_FLEXION, -1.0, found, out)


def socket_loads(
    lanes: int,
    steps: int,
    step: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the measures of the socket."""
    set_window(lanes, step, 0.0, 1.0, found)
    find_peaks(lanes, Y_SOCKET, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, SOCKET_FLEXION_PEAK, 1.0, found, out)
    find_peaks(lanes, Y_SOCKET, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, SOCKET_EXTENSION_PEAK, 1.0, found, out)
    for i in range(lanes):
        flexing = max(out[SOCKET_FLEXION_PEAK * W + i], 0.0)
        extending = max(out[SOCKET_EXTENSION_PEAK * W + i], 0.0)
        out[SOCKET_FLEXION_PEAK * W + i] = flexing
        out[SOCKET_EXTENSION_PEAK * W + i] = extending
        out[SOCKET_COUPLE * W + i] = max(flexing, extending) / parameter[SOCKET_DEPTH * W + i]
    find_peaks(lanes, Y_BRIM, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, BRIM_FORCE, 1.0, found, out)
    find_peaks(lanes, Y_LIMB_END, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, LIMB_END_FORCE, 1.0, found, out)
    put_value(lanes, Y_SOCKET, 0.30, SOCKET_30, steps, step, series, found, out)
    put_value(lanes, Y_SOCKET, 0.45, SOCKET_45, steps, step, series, found, out)
    put_value(lanes, Y_SOCKET, 0.75, SOCKET_75, steps, step, series, found, out)


def loads(lanes: int, steps: int, step: float, series: Array, found: Array, out: Array) -> None:
    """Fill the measures of the ground force; peaks still in newtons."""
    set_window(lanes, step, 0.0, 0.5, found)
    find_peaks(lanes, Y_UP, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, UP_PEAK_FIRST, 1.0, found, out)
    set_window(lanes, step, 0.5, 1.0, found)
    find_peaks(lanes, Y_UP, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, UP_PEAK_SECOND, 1.0, found, out)
    set_window(lanes, step, 0.0, 1.0, found)
    positive_integrals(lanes, Y_UP, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, UP_IMPULSE, 1.0, found, out)
    find_peaks(lanes, Y_FORWARD, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, BRAKING_PEAK, 1.0, found, out)
    find_peaks(lanes, Y_FORWARD, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, PROPULSIVE_PEAK, 1.0, found, out)
    positive_integrals(lanes, Y_FORWARD, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, BRAKING_IMPULSE, 1.0, found, out)
    positive_integrals(lanes, Y_FORWARD, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, PROPULSIVE_IMPULSE, 1.0, found, out)


def weigh_loads(lanes: int, parameter: Array, out: Array) -> None:
    """Turn the peaks of the ground force into body weights [1]."""
    for i in range(lanes):
        weight = parameter[BODY_WEIGHT * W + i]
        out[UP_PEAK_FIRST * W + i] /= weight
        out[UP_PEAK_SECOND * W + i] /= weight
        out[BRAKING_PEAK * W + i] /= weight
        out[PROPULSIVE_PEAK * W + i] /= weight
        out[UP_PEAK * W + i] = max(out[UP_PEAK_FIRST * W + i], out[UP_PEAK_SECOND * W + i])


def find_loaded(
    lanes: int,
    steps: int,
    step: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill the loading rate, and set the windows to the time in which the foot is loaded enough."""
    weight = BODY_WEIGHT
    set_window(lanes, step, 0.0, 0.5, found)
    crossing_times(lanes, Y_UP, steps, step, HALF_LOADED, weight, 1.0, parameter, series, found)
    for i in range(lanes):
        reached = found[VALUE * W + i]
        out[LOADING_RATE * W + i] = HALF_LOADED / reached if reached > 0.0 else NOT_A_NUMBER
    crossing_times(lanes, Y_UP, steps, step, LOADED, weight, 1.0, parameter, series, found)
    for i in range(lanes):
        found[LOADED_AT * W + i] = max(found[VALUE * W + i], 0.0)
    set_window(lanes, step, 0.5, 1.0, found)
    crossing_times(lanes, Y_UP, steps, step, LOADED, weight, -1.0, parameter, series, found)
    for i in range(lanes):
        free = found[VALUE * W + i]
        found[BEGIN * W + i] = found[LOADED_AT * W + i]
        found[FINISH * W + i] = free if free > 0.0 else found[END * W + i]
    mark_window(lanes, step, found)


def levers_and_friction(
    lanes: int,
    steps: int,
    step: float,
    parameter: Array,
    series: Array,
    found: Array,
    out: Array,
) -> None:
    """Fill what is read while the foot carries more than 0.2 body weights.

    Share of that time with the ground force behind the knee [1], friction used [1], and the
    effective heel and toe lever [m].
    """
    find_loaded(lanes, steps, step, parameter, series, found, out)
    positive_shares(lanes, Y_BEHIND, steps, step, series, found)
    put_found(lanes, VALUE, FORCE_BEHIND_KNEE, 1.0, found, out)
    find_peaks(lanes, Y_USE, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, UTILISED_FRICTION, 1.0, found, out)
    find_peaks(lanes, Y_ROLL_X, steps, step, -1.0, series, found)
    put_found(lanes, VALUE, HEEL_LEVER, 1.0, found, out)
    find_peaks(lanes, Y_ROLL_X, steps, step, 1.0, series, found)
    put_found(lanes, VALUE, TOE_LEVER, 1.0, found, out)


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


def open_lanes(lanes: int, steps: int, step: float, ends: Array, found: Array) -> None:
    """Set every lane's last sample and end; a run without measures gets some that do no harm."""
    for i in range(lanes):
        sound = ends[ENDING * W + i] == TOE_OFF and ends[END_STEP * W + i] >= LEAST_SAMPLES
        found[LAST * W + i] = ends[END_STEP * W + i] + 1.0 if sound else 1.0 * LEAST_SAMPLES
        found[END * W + i] = ends[END_TIME * W + i] if sound else (LEAST_SAMPLES - 0.5) * step


def close_lanes(lanes: int, ends: Array, out: Array) -> None:
    """Give NaN for every measure to the lanes that did not end with toe-off.

    A run whose ledger does not close ends as ENERGY_DRIFT; only its ledger is told.
    """
    for i in range(lanes):
        walked = ends[ENDING * W + i] == TOE_OFF
        drifted = walked and not out[LEDGER_ERROR * W + i] <= MOST_LEDGER_ERROR
        if drifted:
            ends[ENDING * W + i] = ENERGY_DRIFT
        for m in range(MEASURES):
            if not walked or (drifted and m != LEDGER_ERROR):
                out[m * W + i] = NOT_A_NUMBER


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
    open_lanes(lanes, steps, step, ends, found)
    for i in range(lanes):
        accounts(i, ends, curves, out)
    fill_series(lanes, last_of(lanes, LAST, found), steps, curves, parameter, series)
    knee_loads(lanes, steps, step, series, found, out)
    socket_loads(lanes, steps, step, parameter, series, found, out)
    loads(lanes, steps, step, series, found, out)
    weigh_loads(lanes, parameter, out)
    levers_and_friction(lanes, steps, step, parameter, series, found, out)
    contact_and_tipping(lanes, steps, step, curves, parameter, series, found, out)
    close_lanes(lanes, ends, out)
