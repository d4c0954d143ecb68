"""The limb set up at one alignment: where ankle and sole lie, and what the prosthesis weighs.

Frame of the prosthesis: origin at the socket pivot (middle of the enclosed residual limb), up along
the residual limb's axis.
"""

from math import atan, sqrt

from simgait.arrays import Array
from simgait.physics.bench_rows import (
    BENCH_ADAPTER_MASS,
    BENCH_BUILT_FOR,
    BENCH_END,
    BENCH_FOOT_LENGTH,
    BENCH_FOOT_MASS,
    BENCH_HIP_HEIGHT,
    BENCH_KNEE,
    BENCH_REST_MASS,
    BENCH_SOCKET_MASS,
    BENCH_SOLE_HEIGHT,
    BENCH_STRUT_HEIGHT,
    BENCH_TUBE_MASS,
    SET_DORSIFLEXION,
    SET_FOOT_FORWARD,
    SET_HEEL_RISE,
    SET_LENGTH_CHANGE,
    SET_SOCKET_FLEXION,
    SET_SOUND_LIFT,
)
from simgait.physics.layout import (
    ANKLE_FORWARD,
    ANKLE_UP,
    CENTRE_FORWARD,
    CENTRE_UP,
    COEFFICIENTS,
    ELEMENTS,
    HEEL_END,
    INERTIA_PROSTHESIS,
    KNEE_CURVE,
    LEG_LENGTH,
    LENGTH_RESIDUAL,
    MASS_HIP,
    MASS_PROSTHESIS,
    NEXT_HEIGHT,
    SOCKET_DEPTH,
    SOLE_FORWARD,
    SOLE_SLOPE,
    SOLE_UP,
    W,
)
from simgait.physics.trigonometry import cosine, sine

BASE_FLEXION = 5.0 * 0.017453292519943295  # [rad] socket flexion of the bench (memory, practice)
BRIM_AHEAD_OF_ANKLE = 0.0315  # [m] plumb line from mid-brim, middle of 25 to 38 mm (memory)
# [rad] the unloaded sole against a level floor, pylon upright: the foot gives by 4 to 8 degrees
# under a standing load 50 mm ahead of the ankle, so it is set toe down by as much (assumed)
BENCH_TILT = -4.0 * 0.017453292519943295
HEEL_BEHIND_ANKLE = 0.25  # [1] share of the foot's length that lies behind the ankle axis (assumed)
# Heel contact to forefoot contact over foot length [1]. Derived: the geometry of
# a heel height change, angle = atan(rise / (0.70 x foot length)).
STANDING_SPAN = 0.70


def heel_tangent(heel_rise: float, built_for: float, foot_length: float) -> float:
    """Tangent of a heel's tilt: (rise - built for) over the span of the standing foot [1]."""
    return (heel_rise - built_for) / (STANDING_SPAN * foot_length)


def ankle_lifted(heel_rise: float, built_for: float, foot_length: float, lever: float) -> float:
    """How far a heel lifts the ankle axis, the forefoot staying down; lever: heel to ankle [m]."""
    return (heel_rise - built_for) * (1.0 - lever / (STANDING_SPAN * foot_length))


def plumb_forward(depth: float, end: float, flexion: float, foot_forward: float) -> float:
    """Where the ankle axis lies ahead of the socket pivot with the pylon upright [m].

    On the bench the plumb line from the middle of the brim falls 31.5 mm ahead of it; socket
    flexion turns the socket about its end.  depth: enclosed; end: pivot to the socket's end.
    """
    bench = depth / 2.0 * sine(BASE_FLEXION) - BRIM_AHEAD_OF_ANKLE
    return bench + end * (sine(BASE_FLEXION) - sine(flexion)) + foot_forward


def plumb_up(sole_height: float, knee: float, pivot: float, flexion: float) -> float:
    """How far above the socket pivot the ankle axis lies with the pylon upright [m].

    knee: its height; pivot: knee axis to the socket pivot.
    """
    return sole_height - knee + pivot * cosine(flexion)


def turned_forward(x: float, y: float, turn: float) -> float:
    """Forward part of (x, y) turned by `turn`, + toe up: x cos - y sin."""
    return x * cosine(turn) - y * sine(turn)


def turned_up(x: float, y: float, turn: float) -> float:
    """Upward part of (x, y) turned by `turn`, + toe up: x sin + y cos."""
    return x * sine(turn) + y * cosine(turn)


def squared(x: float, y: float) -> float:
    """Square of the distance (x, y)."""
    return x * x + y * y


def tube_and_adapters(adapters: float, tube: float, length: float) -> float:
    """Mass of the pylon: adapters [kg] and a tube [kg/m] of a length [m]."""
    return adapters + tube * length


def rod_inertia(mass: float, length: float, x: float, y: float) -> float:
    """Inertia of a thin rod about a point (x, y) from its middle: m (L^2 / 12 + distance^2)."""
    return mass * (length * length / 12.0 + x * x + y * y)


def place_ankle(lanes: int, bench: Array, setting: Array, parameter: Array) -> None:
    """Fill the ankle axis in the prosthesis' frame, and the turn of the sole in it."""
    for i in range(lanes):
        flexion = setting[SET_SOCKET_FLEXION * W + i]
        x = plumb_forward(
            parameter[SOCKET_DEPTH * W + i],
            bench[BENCH_END * W + i],
            flexion,
            setting[SET_FOOT_FORWARD * W + i],
        )
        knee = bench[BENCH_KNEE * W + i] + setting[SET_LENGTH_CHANGE * W + i]
        y = plumb_up(
            bench[BENCH_SOLE_HEIGHT * W + i], knee, parameter[LENGTH_RESIDUAL * W + i], flexion
        )
        parameter[ANKLE_FORWARD * W + i] = turned_forward(x, y, flexion)
        parameter[ANKLE_UP * W + i] = turned_up(x, y, flexion)
        tilt = atan(
            heel_tangent(
                setting[SET_HEEL_RISE * W + i],
                bench[BENCH_BUILT_FOR * W + i],
                bench[BENCH_FOOT_LENGTH * W + i],
            )
        )
        foot = BENCH_TILT + setting[SET_DORSIFLEXION * W + i] + tilt
        parameter[SOLE_SLOPE * W + i] = foot + flexion


def place_sole(
    lanes: int, bench: Array, setting: Array, parameter: Array, built: Array, sole: Array
) -> None:
    """Fill where the unloaded sole's elements lie in the prosthesis' frame.

    Dorsiflexion turns the sole about the ankle axis.  A heel rise other than the foot's own turns
    it about the forefoot's contact, 0.70 of the foot's length ahead of the heel's, and so lifts
    the ankle as well.  built: as the foot was built, from its ankle axis.
    """
    for i in range(lanes):
        turn = parameter[SOLE_SLOPE * W + i]
        flexion = setting[SET_SOCKET_FLEXION * W + i]
        lift = ankle_lifted(
            setting[SET_HEEL_RISE * W + i],
            bench[BENCH_BUILT_FOR * W + i],
            bench[BENCH_FOOT_LENGTH * W + i],
            -parameter[HEEL_END * W + i],
        )
        forward = parameter[ANKLE_FORWARD * W + i] + lift * sine(flexion)
        up = parameter[ANKLE_UP * W + i] - lift * cosine(flexion)
        for e in range(ELEMENTS):
            x = built[(4 * e + SOLE_FORWARD) * W + i]
            y = built[(4 * e + SOLE_UP) * W + i]
            sole[(4 * e + SOLE_FORWARD) * W + i] = forward + turned_forward(x, y, turn)
            sole[(4 * e + SOLE_UP) * W + i] = up + turned_up(x, y, turn)


def weigh_prosthesis(lanes: int, bench: Array, parameter: Array) -> None:
    """Fill mass, centre and inertia of socket, pylon and foot as one rigid body.

    Socket and pylon as thin rods (enclosed limb with end gap; socket's end to ankle), the foot as a
    rod of its length at half its height, its middle 0.25 of its length ahead of the ankle axis.
    Inertia by Steiner's theorem.
    """
    for i in range(lanes):
        x = parameter[ANKLE_FORWARD * W + i]
        y = parameter[ANKLE_UP * W + i]
        turn = parameter[SOLE_SLOPE * W + i]
        end = -bench[BENCH_END * W + i]
        top = parameter[SOCKET_DEPTH * W + i] / 2.0
        length = bench[BENCH_FOOT_LENGTH * W + i]
        ahead = (0.5 - HEEL_BEHIND_ANKLE) * length
        below = -bench[BENCH_SOLE_HEIGHT * W + i] / 2.0
        pylon = sqrt(squared(x, y - end))
        m1 = bench[BENCH_SOCKET_MASS * W + i]
        m2 = tube_and_adapters(
            bench[BENCH_ADAPTER_MASS * W + i], bench[BENCH_TUBE_MASS * W + i], pylon
        )
        m3 = bench[BENCH_FOOT_MASS * W + i]
        x2 = x / 2.0
        x3 = x + turned_forward(ahead, below, turn)
        y1 = (top + end) / 2.0
        y2 = (y + end) / 2.0
        y3 = y + turned_up(ahead, below, turn)
        mass = m1 + m2 + m3
        forward = (m2 * x2 + m3 * x3) / mass
        up = (m1 * y1 + m2 * y2 + m3 * y3) / mass
        inertia = rod_inertia(m1, top - end, forward, y1 - up)
        inertia += rod_inertia(m2, pylon, x2 - forward, y2 - up)
        inertia += rod_inertia(m3, length, x3 - forward, y3 - up)
        parameter[MASS_PROSTHESIS * W + i] = mass
        parameter[CENTRE_FORWARD * W + i] = forward
        parameter[CENTRE_UP * W + i] = up
        parameter[INERTIA_PROSTHESIS * W + i] = inertia
        parameter[MASS_HIP * W + i] = bench[BENCH_REST_MASS * W + i] - mass


def set_wearer(
    lanes: int, bench: Array, setting: Array, parameter: Array, reference: Array
) -> None:
    """Fill what the wearer makes of the alignment.

    The sound side's shoe lifts the hip.  The wearer keeps thigh and pylon as they are, so a socket
    tipped forward starts the knee bent: its curve, given for the bench, is raised by as much.
    """
    for i in range(lanes):
        lift = setting[SET_SOUND_LIFT * W + i]
        parameter[LEG_LENGTH * W + i] = bench[BENCH_HIP_HEIGHT * W + i] + lift
        parameter[NEXT_HEIGHT * W + i] = bench[BENCH_STRUT_HEIGHT * W + i] + lift
        extra = setting[SET_SOCKET_FLEXION * W + i] - BASE_FLEXION
        for k in range(COEFFICIENTS):
            reference[(KNEE_CURVE + k) * W + i] += extra


def set_up(
    lanes: int,
    bench: Array,
    setting: Array,
    built: Array,
    parameter: Array,
    sole: Array,
    reference: Array,
) -> None:
    """Set limbs up at their alignments.

    On entry `parameter` holds what no alignment changes, `built` the sole as the foot was built,
    `reference` the wearer's curves on the bench.
    """
    place_ankle(lanes, bench, setting, parameter)
    place_sole(lanes, bench, setting, parameter, built, sole)
    weigh_prosthesis(lanes, bench, parameter)
    set_wearer(lanes, bench, setting, parameter, reference)
