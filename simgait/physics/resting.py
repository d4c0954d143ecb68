"""The limb above a foot that has settled: joint moments and places by statics, from the floor up.

Below the knee everything is determined: the floor's force, the socket's spring, the weights. Above
it the wearer is free; a relaxed hip carries no moment, and that sets the lean of the thigh.

Everything in the frame of the floor: x along it, + forward; y square to it, + up.  On a slope that
falls away ahead, by + `slope`, gravity leans forward in that frame.
"""

from math import atan, sqrt

from simgait.arrays import Array
from simgait.physics.footing import above_turned, ahead_turned, settle
from simgait.physics.rest_layout import (
    LOAD_ALONG,
    LOAD_NORMAL,
    LOAD_PULL_ALONG,
    LOAD_PULL_UP,
    POSE_ANKLE,
    POSE_CENTRE,
    POSE_HEIGHT,
    POSE_HIP,
    POSE_HIP_MOMENT,
    POSE_KNEE,
    POSE_KNEE_MOMENT,
    POSE_PIVOT,
    POSE_PRESSURE,
    POSE_RESIDUAL,
    POSE_SOCKET_MOMENT,
    POSE_THIGH,
    REST_ANKLE_FORWARD,
    REST_ANKLE_UP,
    REST_CENTRE_FORWARD,
    REST_CENTRE_RESIDUAL,
    REST_CENTRE_THIGH,
    REST_CENTRE_UP,
    REST_LENGTH_THIGH,
    REST_MASS,
    REST_PIVOT_BELOW_KNEE,
    REST_SOCKET,
)
from simgait.physics.trigonometry import cosine, sine

HALF_TURN = 3.141592653589793  # [rad]


def angle_of(y: float, x: float) -> float:
    """Angle of the direction (x, y), from -pi to pi: twice that whose tangent is y / (x + r) [rad].

    r: the length; with x behind nothing (r - x) / y, which is the same and loses no digits.
    """
    length = sqrt(x * x + y * y)
    if x >= 0.0:
        return 2.0 * atan(y / max(x + length, 1e-300))
    return HALF_TURN if y == 0.0 else 2.0 * atan((length - x) / y)


def arcsine(share: float) -> float:
    """Angle whose sine is a share, the smaller of the two [rad]."""
    return angle_of(share, sqrt(1.0 - share * share))


def load_on_slope(carried: float, slope: float, gravity: float, load: Array) -> None:
    """Fill the load of standing on a slope: the floor carries straight up, so along itself as well.

    Statics: nothing but weight and floor act on the body, so the floor's force is the weight
    turned round.  carried: share of the body weight on this foot [N]; slope: + falls away
    ahead [rad]; gravity: [m/s2].
    """
    c, s = cosine(slope), sine(slope)
    load[LOAD_NORMAL] = carried * c
    load[LOAD_ALONG] = -carried * s
    load[LOAD_PULL_ALONG] = gravity * s
    load[LOAD_PULL_UP] = -gravity * c


def load_pushed(carried: float, ratio: float, gravity: float, load: Array) -> None:
    """Fill the load under a level push at the body's centre, of `ratio` weights, + forward [1].

    Statics: the floor's friction opposes the push; both feet share it as they share the weight.
    carried: [N]; gravity: [m/s2].
    """
    load[LOAD_NORMAL] = carried
    load[LOAD_ALONG] = -carried * ratio
    load[LOAD_PULL_ALONG] = 0.0
    load[LOAD_PULL_UP] = -gravity


def turning_moment(
    force_along: float, force_up: float, x: float, y: float, about_x: float, about_y: float
) -> float:
    """Moment of a force [N] at a point about another [m], + turns the top forward [N m]."""
    return (y - about_y) * force_along - (x - about_x) * force_up


def moment_about(x: float, y: float, bodies: int, load: Array, rest: Array, pose: Array) -> float:
    """Moment of the floor's force and of the lowest `bodies` weights about a point [m], [N m]."""
    moment = turning_moment(load[LOAD_ALONG], load[LOAD_NORMAL], pose[POSE_PRESSURE], 0.0, x, y)
    for k in range(bodies):
        along = rest[REST_MASS + k] * load[LOAD_PULL_ALONG]
        up = rest[REST_MASS + k] * load[LOAD_PULL_UP]
        at_x, at_y = pose[POSE_CENTRE + 2 * k], pose[POSE_CENTRE + 2 * k + 1]
        moment += turning_moment(along, up, at_x, at_y, x, y)
    return moment


def put_point(
    row: int, origin: int, forward: float, up: float, c: float, s: float, pose: Array
) -> None:
    """Put a point of a leaning segment, given from a point that lies at the row `origin` [m].

    c, s: cosine and sine of the segment's lean.
    """
    pose[row] = pose[origin] + ahead_turned(forward, up, c, s)
    pose[row + 1] = pose[origin + 1] + above_turned(forward, up, c, s)


def relaxed_thigh(knee_moment: float, load: Array, rest: Array) -> float:
    """Lean of the thigh at which the hip carries no moment [rad].

    Moments about the hip of what the knee hands up (forces and `knee_moment` [N m]) and of the
    thigh's weight: -M + a cos - b sin = 0, a and b being force times arm, along the floor and
    square to it.  Where no lean does it, the nearest.
    """
    below = rest[REST_MASS] + rest[REST_MASS + 1]
    thigh = rest[REST_MASS + 2]
    length, centre = rest[REST_LENGTH_THIGH], rest[REST_CENTRE_THIGH]
    along, up = load[LOAD_PULL_ALONG], load[LOAD_PULL_UP]
    a = length * (load[LOAD_ALONG] + below * along) + centre * (thigh * along)
    b = length * (load[LOAD_NORMAL] + below * up) + centre * (thigh * up)
    share = min(max(-knee_moment / sqrt(a * a + b * b), -1.0), 1.0)
    return angle_of(a, b) + arcsine(share)


def rest_limb(
    lean: float, straightest: float, load: Array, rest: Array, pose: Array, brackets: Array
) -> None:
    """Fill the limb at rest with the prosthesis at one lean against the floor [rad].

    straightest: knee flexion below which ligaments hold the knee [rad], negative past straight; the
    hip is relaxed unless that stops the knee.  Moments are external: what floor and weights do.
    """
    settle(load[LOAD_NORMAL], lean, rest, pose, brackets)
    pose[POSE_PIVOT] = 0.0
    pose[POSE_PIVOT + 1] = pose[POSE_HEIGHT]
    c, s = cosine(lean), sine(lean)
    forward, up = rest[REST_CENTRE_FORWARD], rest[REST_CENTRE_UP]
    put_point(POSE_CENTRE, POSE_PIVOT, forward, up, c, s, pose)
    put_point(POSE_ANKLE, POSE_PIVOT, rest[REST_ANKLE_FORWARD], rest[REST_ANKLE_UP], c, s, pose)
    socket = moment_about(0.0, pose[POSE_HEIGHT], 1, load, rest, pose)
    residual = lean - socket / rest[REST_SOCKET]
    c, s = cosine(residual), sine(residual)
    put_point(POSE_KNEE, POSE_PIVOT, 0.0, rest[REST_PIVOT_BELOW_KNEE], c, s, pose)
    put_point(POSE_CENTRE + 2, POSE_KNEE, 0.0, -rest[REST_CENTRE_RESIDUAL], c, s, pose)
    knee = moment_about(pose[POSE_KNEE], pose[POSE_KNEE + 1], 2, load, rest, pose)
    thigh = min(relaxed_thigh(knee, load, rest), residual - straightest)
    c, s = cosine(thigh), sine(thigh)
    put_point(POSE_HIP, POSE_KNEE, 0.0, rest[REST_LENGTH_THIGH], c, s, pose)
    put_point(POSE_CENTRE + 4, POSE_HIP, 0.0, -rest[REST_CENTRE_THIGH], c, s, pose)
    hip = moment_about(pose[POSE_HIP], pose[POSE_HIP + 1], 3, load, rest, pose)
    pose[POSE_RESIDUAL] = residual
    pose[POSE_THIGH] = thigh
    pose[POSE_SOCKET_MOMENT] = socket
    pose[POSE_KNEE_MOMENT] = knee
    pose[POSE_HIP_MOMENT] = -hip


def line_ahead_of(x: float, y: float, load: Array, pose: Array) -> float:
    """How far the load line passes ahead of a point, measured along the floor [m].

    The line runs through the pressure point along the floor's force.
    """
    return float(pose[POSE_PRESSURE] + y * load[LOAD_ALONG] / load[LOAD_NORMAL] - x)
