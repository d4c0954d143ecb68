"""The sole pressed on the floor at rest: how deep it sinks, and where it carries."""

from simgait.arrays import Array
from simgait.physics.bracket import MOST_LOOKS, narrow_bracket, open_bracket
from simgait.physics.layout import ELEMENTS
from simgait.physics.rest_layout import (
    BRACKET_BEST,
    BRACKET_DONE,
    BRACKET_NEXT,
    DEPTH_LEVEL,
    POSE_ABOVE,
    POSE_ACROSS,
    POSE_FORCE,
    POSE_HEEL_SHARE,
    POSE_HEIGHT,
    POSE_LEAN,
    POSE_NORMAL,
    POSE_PLACE,
    POSE_PRESSURE,
    POSE_SOLE,
    REST_ALONG,
    REST_FORWARD,
    REST_ONSET,
    REST_SOLE,
    REST_STIFFNESS,
    REST_UP,
)
from simgait.physics.sole import normal_force
from simgait.physics.trigonometry import cosine, sine

FIRST_DEPTH = 0.001  # [m] first guess of a depth that carries more than the load
MOST_DOUBLINGS = 60  # of that guess
DEPTH_WITHIN = 1e-14  # [m]


def ahead_turned(forward: float, up: float, c: float, s: float) -> float:
    """Forward part of a place in a leaning segment, in the floor's frame: a cos + b sin [m].

    forward, up: of the place, in the segment's frame [m]; c, s: cosine and sine of its lean, +
    proximal end ahead.
    """
    return forward * c + up * s


def above_turned(forward: float, up: float, c: float, s: float) -> float:
    """Upward part of the same: b cos - a sin [m]."""
    return up * c - forward * s


def lay_sole(lean: float, rest: Array, pose: Array) -> float:
    """Place the unloaded sole at a lean of the prosthesis [rad]; height of its lowest element [m].

    Along the floor from the socket pivot, and above the lowest element.
    """
    c, s = cosine(lean), sine(lean)
    low = 1e300
    for e in range(ELEMENTS):
        forward = rest[REST_SOLE + 4 * e + REST_FORWARD]
        up = rest[REST_SOLE + 4 * e + REST_UP]
        pose[POSE_SOLE + 3 * e + POSE_ACROSS] = ahead_turned(forward, up, c, s)
        y = above_turned(forward, up, c, s)
        pose[POSE_SOLE + 3 * e + POSE_ABOVE] = y
        low = min(low, y)
    for e in range(ELEMENTS):
        pose[POSE_SOLE + 3 * e + POSE_ABOVE] -= low
    return low


def press_still(sunk: float, rest: Array, pose: Array) -> float:
    """Fill the elements' forces at rest with the lowest element sunk by `sunk` [m]; their sum [N].

    The law is the sole's, at no sinking speed.
    """
    onset = rest[REST_ONSET]
    whole = 0.0
    for e in range(ELEMENTS):
        depth = sunk - pose[POSE_SOLE + 3 * e + POSE_ABOVE]
        force = 0.0
        if depth > 0.0:
            force = normal_force(rest[REST_SOLE + 4 * e + REST_STIFFNESS], 0.0, depth, onset, 0.0)
        pose[POSE_SOLE + 3 * e + POSE_FORCE] = force
        whole += force
    return whole


def open_depth(normal: float, rest: Array, pose: Array, brackets: Array) -> None:
    """Open the bracket of the depth at which the laid sole carries a load [N]."""
    low, deep = 0.0, FIRST_DEPTH
    at_low = -normal
    for _ in range(MOST_DOUBLINGS):
        excess = press_still(deep, rest, pose) - normal
        if excess >= 0.0:
            open_bracket(DEPTH_LEVEL, low, at_low, deep, excess, DEPTH_WITHIN, brackets)
            return
        low = deep
        at_low = excess
        deep *= 2.0


def sunk_under(normal: float, rest: Array, pose: Array, brackets: Array) -> float:
    """How deep the laid sole's lowest element sinks under a load square to the floor [N], [m]."""
    open_depth(normal, rest, pose, brackets)
    for _ in range(MOST_LOOKS):
        sunk = brackets[BRACKET_NEXT]
        narrow_bracket(DEPTH_LEVEL, press_still(sunk, rest, pose) - normal, brackets)
        if brackets[BRACKET_DONE] > 0.0:
            return float(brackets[BRACKET_BEST])
    return float(brackets[BRACKET_BEST])


def settle(normal: float, lean: float, rest: Array, pose: Array, brackets: Array) -> None:
    """Fill the sole at rest under a load square to the floor [N] at a lean of the prosthesis [rad].

    The depth is solved so that the elements' forces add up to the load.  Nothing is done if the
    pose is settled so already.
    """
    if pose[POSE_NORMAL] == normal and pose[POSE_LEAN] == lean:
        return
    low = lay_sole(lean, rest, pose)
    sunk = sunk_under(normal, rest, pose, brackets)
    whole = press_still(sunk, rest, pose)
    across, along, behind = 0.0, 0.0, 0.0
    for e in range(ELEMENTS):
        force = pose[POSE_SOLE + 3 * e + POSE_FORCE]
        place = rest[REST_SOLE + 4 * e + REST_ALONG]
        across += force * pose[POSE_SOLE + 3 * e + POSE_ACROSS]
        along += force * place
        behind += force if place < 0.0 else 0.0
    pose[POSE_NORMAL] = normal
    pose[POSE_LEAN] = lean
    pose[POSE_HEIGHT] = -(low + sunk)
    pose[POSE_PRESSURE] = across / whole
    pose[POSE_PLACE] = along / whole
    pose[POSE_HEEL_SHARE] = behind / whole
