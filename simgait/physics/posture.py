"""How the wearer stands: a place over the foot that is kept, a hip at rest, a knee that follows.

The rule, an assumption like any other: on the bench alignment the wearer stands on level floor with
the knee nearly straight, and that puts the body's line over some place of the foot.  Whatever is
then changed (alignment, heel, slope), the body stays over that place of the foot, because that is
where the wearer is safe from tipping, and the rest of the body balances above the hip without
effort.  Foot and socket yield, and the knee goes where they take it.  Only where the moments that
can be held for minutes do not suffice does the wearer give the place up, for the nearest at which
they do.
"""

from simgait.arrays import Array
from simgait.physics.bracket import MOST_LOOKS, narrow_bracket, open_bracket
from simgait.physics.footing import settle
from simgait.physics.layout import ELEMENTS
from simgait.physics.rest_layout import (
    BRACKET_BEST,
    BRACKET_DONE,
    BRACKET_NEXT,
    BRACKET_SIZE,
    HIP_GIVES_WAY,
    KNEE_GIVES_WAY,
    KNEE_TOO_BENT,
    LEAN_LEVEL,
    LOAD_NORMAL,
    POSE_HIP_MOMENT,
    POSE_KNEE_MOMENT,
    POSE_PLACE,
    POSE_RESIDUAL,
    POSE_THIGH,
    REST_ALONG,
    REST_CHOSEN,
    REST_DEEPEST,
    REST_FLAT,
    REST_GRAVITY,
    REST_HEEL_END,
    REST_HELD,
    REST_HIP,
    REST_KNEE,
    REST_PLACE,
    REST_SOLE,
    REST_STRAIGHTEST,
    REST_TOE_END,
    REST_WEIGHT,
    SHARE_LEVEL,
    STANDS,
)
from simgait.physics.resting import load_on_slope, rest_limb

FARTHEST = 0.8726646259971648  # [rad] 50 degrees: lean from the sole lying flat that is looked at
LEAN_STEP = 0.017453292519943295  # [rad] a degree
LEAN_STEPS = 50
LEAN_WITHIN = 1e-12  # [rad]
NEAR_END = 0.03  # [1] of the carrying sole: nearer to an end element than this is at the end
UNSTOPPED = -3.141592653589793  # [rad] a knee flexion so far past straight that nothing stops it
EQUAL_SHARE = 0.5  # [1] share of the weight that both feet take when nothing hinders
LEAST_SHARE = 0.05  # [1] less load on the prosthesis than this is not standing on it
SHARE_WITHIN = 1e-6  # [1]
NOWHERE = 1e300  # [rad] in place of a lean that there is not
OF_STRAIN = 0  # what is looked for: where the strain is nothing
OF_FLEXION = 1  # or where the knee is bent as the wearer chose


def knee_effort(rest: Array, pose: Array) -> float:
    """Extending moment of the knee's muscles over their greatest [1]; 0 if ligaments hold."""
    return float(max(pose[POSE_KNEE_MOMENT], 0.0) / rest[REST_KNEE])


def hip_effort(rest: Array, pose: Array) -> float:
    """Size of the hip's moment over its greatest [1]."""
    return float(abs(pose[POSE_HIP_MOMENT]) / rest[REST_HIP])


def strain(rest: Array, pose: Array) -> float:
    """How far a pose is beyond what can be held for minutes; nothing or less is held.

    The larger of effort over the share that is held [1], and of the knee's flexion over the
    farthest that anybody stands on [rad].
    """
    bent = pose[POSE_RESIDUAL] - pose[POSE_THIGH] - rest[REST_DEEPEST]
    effort = max(knee_effort(rest, pose), hip_effort(rest, pose))
    return float(max(effort - rest[REST_HELD], bent))


def at_sole_end(rest: Array, pose: Array) -> bool:
    """Whether the foot carries on one of its ends only."""
    near = float(NEAR_END * (rest[REST_TOE_END] - rest[REST_HEEL_END]))
    heel = rest[REST_SOLE + REST_ALONG]
    toe = rest[REST_SOLE + 4 * (ELEMENTS - 1) + REST_ALONG]
    gap = float(min(abs(heel - pose[POSE_PLACE]), abs(toe - pose[POSE_PLACE])))
    return gap < near


def sought(what: int, lean: float, load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """What changes sign at the lean that is looked for, the limb put to rest there [rad]."""
    straightest = UNSTOPPED if what == OF_FLEXION else rest[REST_STRAIGHTEST]
    rest_limb(lean, straightest, load, rest, pose, brackets)
    if what == OF_FLEXION:
        return float(pose[POSE_RESIDUAL] - pose[POSE_THIGH] - rest[REST_CHOSEN])
    return strain(rest, pose)


def change_between(
    what: int,
    low: float,
    at_low: float,
    high: float,
    at_high: float,
    load: Array,
    rest: Array,
    pose: Array,
    brackets: Array,
) -> float:
    """Lean between two at which `sought` changes sign [rad]."""
    base = LEAN_LEVEL * BRACKET_SIZE
    open_bracket(LEAN_LEVEL, low, at_low, high, at_high, LEAN_WITHIN, brackets)
    for _ in range(MOST_LOOKS):
        lean = brackets[base + BRACKET_NEXT]
        narrow_bracket(LEAN_LEVEL, sought(what, lean, load, rest, pose, brackets), brackets)
        if brackets[base + BRACKET_DONE] > 0.0:
            return float(brackets[base + BRACKET_BEST])
    return float(brackets[base + BRACKET_BEST])


def nearest_change(
    what: int, start: float, load: Array, rest: Array, pose: Array, brackets: Array
) -> float:
    """Lean nearest to `start` at which `sought` changes sign [rad]; NOWHERE if there is none.

    Looked for in steps of a degree to both sides, up to FARTHEST.
    """
    at_ahead = sought(what, start, load, rest, pose, brackets)
    at_behind = at_ahead
    for k in range(LEAN_STEPS):
        last, lean = start + k * LEAN_STEP, start + (k + 1) * LEAN_STEP
        value = sought(what, lean, load, rest, pose, brackets)
        if value * at_ahead <= 0.0:
            return change_between(what, last, at_ahead, lean, value, load, rest, pose, brackets)
        at_ahead = value
        last, lean = start - k * LEAN_STEP, start - (k + 1) * LEAN_STEP
        value = sought(what, lean, load, rest, pose, brackets)
        if value * at_behind <= 0.0:
            return change_between(what, last, at_behind, lean, value, load, rest, pose, brackets)
        at_behind = value
    return NOWHERE


def body_place(load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """Place of the foot over which the wearer's body stands, along the sole [m].

    Where, at bench alignment on level floor, the knee is at the chosen flexion; of several such
    places the one nearest to standing flat; the flat one if there is none.  rest: of the limb at
    bench alignment.
    """
    flat = rest[REST_FLAT]
    lean = nearest_change(OF_FLEXION, flat, load, rest, pose, brackets)
    lean = lean if lean < NOWHERE else flat
    settle(load[LOAD_NORMAL], lean, rest, pose, brackets)
    return float(pose[POSE_PLACE])


def beyond_place(lean: float, load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """How far ahead of the body's place the foot carries at a lean of the prosthesis [rad], [m]."""
    settle(load[LOAD_NORMAL], lean, rest, pose, brackets)
    return float(pose[POSE_PLACE] - rest[REST_PLACE])


def lean_over(load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """Lean of the prosthesis at which the foot carries at the body's place [rad].

    A place that the foot cannot reach under this load is taken as the farthest it can.
    """
    base = LEAN_LEVEL * BRACKET_SIZE
    low, high = rest[REST_FLAT] - FARTHEST, rest[REST_FLAT] + FARTHEST
    at_low = beyond_place(low, load, rest, pose, brackets)
    if at_low >= 0.0:
        return float(low)
    at_high = beyond_place(high, load, rest, pose, brackets)
    if at_high <= 0.0:
        return float(high)
    open_bracket(LEAN_LEVEL, low, at_low, high, at_high, LEAN_WITHIN, brackets)
    for _ in range(MOST_LOOKS):
        lean = brackets[base + BRACKET_NEXT]
        narrow_bracket(LEAN_LEVEL, beyond_place(lean, load, rest, pose, brackets), brackets)
        if brackets[base + BRACKET_DONE] > 0.0:
            return float(brackets[base + BRACKET_BEST])
    return float(brackets[base + BRACKET_BEST])


def stand_still(load: Array, rest: Array, pose: Array, brackets: Array) -> int:
    """Fill the pose of standing; STANDS, or the reason why nobody could.

    The body stands over its place; where that asks more of knee or hip than can be held, or bends
    the knee farther than anybody stands on, over the nearest place that does not.  Balancing on an
    end of the sole is not standing.
    """
    straightest = rest[REST_STRAIGHTEST]
    lean = lean_over(load, rest, pose, brackets)
    if sought(OF_STRAIN, lean, load, rest, pose, brackets) <= 0.0:
        return STANDS
    eased = nearest_change(OF_STRAIN, lean, load, rest, pose, brackets)
    if eased < NOWHERE:
        rest_limb(eased, straightest, load, rest, pose, brackets)
        if not at_sole_end(rest, pose):
            return STANDS
    rest_limb(lean, straightest, load, rest, pose, brackets)
    knee, hip = knee_effort(rest, pose), hip_effort(rest, pose)
    if max(knee, hip) <= rest[REST_HELD]:
        return KNEE_TOO_BENT
    return KNEE_GIVES_WAY if knee >= hip else HIP_GIVES_WAY


def overload(
    share: float, slope: float, load: Array, rest: Array, pose: Array, brackets: Array
) -> float:
    """Knee effort beyond what is held, with a share of the weight on the prosthesis [1]."""
    load_on_slope(share * rest[REST_WEIGHT], slope, rest[REST_GRAVITY], load)
    lean = lean_over(load, rest, pose, brackets)
    rest_limb(lean, rest[REST_STRAIGHTEST], load, rest, pose, brackets)
    return float(knee_effort(rest, pose) - rest[REST_HELD])


def share_held(slope: float, load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """Share of the weight that the wearer puts on the prosthesis, on both feet [1].

    Half; less as far as the knee could not hold its moment for minutes otherwise, unless no less
    than hardly anything would do: then half, and the body must move.  slope: of the floor, + falls
    away ahead [rad].
    """
    base = SHARE_LEVEL * BRACKET_SIZE
    at_equal = overload(EQUAL_SHARE, slope, load, rest, pose, brackets)
    if at_equal <= 0.0:
        return EQUAL_SHARE
    at_least = overload(LEAST_SHARE, slope, load, rest, pose, brackets)
    if at_least >= 0.0:
        return EQUAL_SHARE
    low, high = LEAST_SHARE, EQUAL_SHARE
    open_bracket(SHARE_LEVEL, low, at_least, high, at_equal, SHARE_WITHIN, brackets)
    for _ in range(MOST_LOOKS):
        share = brackets[base + BRACKET_NEXT]
        value = overload(share, slope, load, rest, pose, brackets)
        narrow_bracket(SHARE_LEVEL, value, brackets)
        if brackets[base + BRACKET_DONE] > 0.0:
            return float(brackets[base + BRACKET_BEST])
    return float(brackets[base + BRACKET_BEST])
