"""The sole on the floor: a strip of springs that harden, lose energy, and stick or slide."""

from simgait.arrays import Array
from simgait.physics.layout import (
    ANCHOR,
    C_PROSTHESIS,
    ELEMENTS,
    FRICTION,
    PIVOT_VY,
    PIVOT_Y,
    PROSTHESIS_RATE,
    SHEAR_DAMPING,
    SHEAR_DELAY,
    SHEAR_SHARPNESS,
    SLIDE_SPEED,
    SOLE_FORWARD,
    SOLE_LOSS,
    SOLE_ONSET,
    SOLE_QUICKNESS,
    SOLE_STIFFNESS,
    SOLE_UP,
    SUM_FORWARD,
    SUM_LOSS,
    SUM_MOMENT,
    SUM_POWER,
    SUM_SLIP,
    SUM_UP,
    T_PROSTHESIS,
    W,
)

BREAK_AWAY = 1.2  # [1] of the tangential deflection, below which nothing slides
FULL_SLIDE = 10.0 / 3.0  # [-] from break-away at 1.2 to full sliding at 1.5
FULL_GRIP = 500.0  # [1/m] an element follows the floor fully when 2 mm deep
FULL_HOLD = 2000.0  # [1/m] and keeps its deflection when 0.5 mm deep
QUICKER = 1.0  # [m/s] by which an element's sinking speed may change within a step
SLIDES_QUICKER = 0.5  # [m/s] by which the foot's slide speed may change within a step
RELEASE = 200.0  # [1/s] a lifted element forgets its deflection in 5 ms


def clear_sums(lanes: int, scratch: Array) -> None:
    """Set the sums over the sole to nothing."""
    lanes = min(lanes, W)
    for i in range(lanes):
        scratch[SUM_UP * W + i] = 0.0
        scratch[SUM_FORWARD * W + i] = 0.0
        scratch[SUM_MOMENT * W + i] = 0.0
        scratch[SUM_POWER * W + i] = 0.0
        scratch[SUM_LOSS * W + i] = 0.0
        scratch[SUM_SLIP * W + i] = 0.0


def delay_shear(lanes: int, parameter: Array, scratch: Array) -> None:
    """Fill the time by which damping puts the tangential deflection forward [s].

    Its product with the rate is added to the deflection before anything else is done, so that the
    rounding is the same in whatever company an element is computed.
    """
    lanes = min(lanes, W)
    for i in range(lanes):
        damping = parameter[SHEAR_DAMPING * W + i]
        scratch[SHEAR_DELAY * W + i] = damping / parameter[SHEAR_SHARPNESS * W + i]


def smooth_step(u: float) -> float:
    """3 u^2 - 2 u^3: from 0 at u = 0 to 1 at u = 1, level at both [1]."""
    return u * u * (3.0 - 2.0 * u)


def smoother_step(u: float) -> float:
    """10 u^3 - 15 u^4 + 6 u^5: from 0 to 1, level and without curvature at both ends [1]."""
    return u * u * u * (10.0 + u * (6.0 * u - 15.0))


def element_base(stiffness: float, depth: float, onset: float, y: float) -> float:
    """Elastic force of an element over 27 + 9 y^2: k d^3 / (d + a)^2, see `press_sole` [N]."""
    reach = depth + onset
    return stiffness * depth * depth * depth / (reach * reach * (27.0 + 9.0 * (y * y)))


def loss_share(loss: float, y: float) -> float:
    """eta y (27 + y^2): the lost part of an element's force over its `element_base` [1]."""
    return loss * (y * (27.0 + y * y))


def lost_force(stiffness: float, loss: float, depth: float, onset: float, y: float) -> float:
    """Part of an element's normal force that is not given back [N]."""
    return element_base(stiffness, depth, onset, y) * loss_share(loss, y)


def normal_force(stiffness: float, loss: float, depth: float, onset: float, y: float) -> float:
    """Normal force of an element at depth >= 0 [m]; y = sinking speed * quickness in -3..3 [N]."""
    below = 27.0 + 9.0 * (y * y)
    return element_base(stiffness, depth, onset, y) * (below + loss_share(loss, y))


def ahead_of(e: int, i: int, sole: Array, scratch: Array) -> float:
    """How far element `e` lies ahead of the socket pivot: a cos t + b sin t [m]."""
    forward = sole[(4 * e + SOLE_FORWARD) * W + i]
    up = sole[(4 * e + SOLE_UP) * W + i]
    return float(scratch[C_PROSTHESIS * W + i] * (forward + up * scratch[T_PROSTHESIS * W + i]))


def depth_of(e: int, i: int, sole: Array, scratch: Array) -> float:
    """How far element `e` lies below the floor: a sin t - b cos t less the pivot's height [m]."""
    forward = sole[(4 * e + SOLE_FORWARD) * W + i]
    up = sole[(4 * e + SOLE_UP) * W + i]
    below = forward * scratch[T_PROSTHESIS * W + i] - up
    return float(scratch[C_PROSTHESIS * W + i] * below - scratch[PIVOT_Y * W + i])


def sinking_of(i: int, ahead: float, state: Array, scratch: Array) -> float:
    """Speed at which an element so far ahead of the pivot [m] sinks [m/s]."""
    return float(state[PROSTHESIS_RATE * W + i] * ahead - scratch[PIVOT_VY * W + i])


def sliding_on(deflection: float, slide: float) -> float:
    """Part of the slide speed that an element does not hold back [m/s]."""
    used = min(max((abs(deflection) - BREAK_AWAY) * FULL_SLIDE, 0.0), 1.0)
    onward = max(slide, 0.0) if deflection > 0.0 else min(slide, 0.0)
    return smooth_step(used) * onward


def add_element(
    e: int,
    i: int,
    moving: float,
    yielding: float,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
) -> None:
    """Add one element's ground force to the sums; see `press_sole`.

    moving: rate of its tangential deflection; yielding: speed at which it slides [m/s].
    """
    ahead = ahead_of(e, i, sole, scratch)
    d = max(depth_of(e, i, sole, scratch), 0.0)
    sinking = sinking_of(i, ahead, state, scratch)
    onset = parameter[SOLE_ONSET * W + i]
    y = min(max(sinking * parameter[SOLE_QUICKNESS * W + i], -3.0), 3.0)
    stiffness = sole[(4 * e + SOLE_STIFFNESS) * W + i]
    loss = sole[(4 * e + SOLE_LOSS) * W + i]
    normal = normal_force(stiffness, loss, d, onset, y)
    lost = lost_force(stiffness, loss, d, onset, y)
    stretch = state[(ANCHOR + e) * W + i] + scratch[SHEAR_DELAY * W + i] * moving
    x = min(max(stretch * parameter[SHEAR_SHARPNESS * W + i], -1.5), 1.5)
    scratch[SUM_UP * W + i] += normal
    scratch[SUM_FORWARD * W + i] -= normal * (x * (1.0 - 4.0 / 27.0 * x * x))
    scratch[SUM_MOMENT * W + i] += normal * ahead
    scratch[SUM_LOSS * W + i] += lost * sinking
    scratch[SUM_SLIP * W + i] += normal * yielding


def press_sole(
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
    """Add the ground force of elements `low` to `high` - 1 to the sums; fill the anchors' rates.

    With depth d and sinking speed v the normal force is
        N = k d^3 / (d + a)^2 * (1 + eta S(v / v0)):
    cubic at touch-down (so that force, slope and curvature begin at nothing), a straight line of
    slope k when pressed deep, and larger by the share eta on loading than on unloading; S is the
    odd rational function y (27 + y^2) / (27 + 9 y^2) held at +-1 beyond |y| = 3, where its first
    two derivatives vanish.  N never pulls, because eta < 1.

    The force acts where the element meets the floor; there the foot as a rigid body moves at the
    speed `SLIDE_SPEED`, the same for all elements.  The tangential deflection s follows that speed
    until the friction is nearly used up, and slides beyond (elastic-plastic deflection with a
    break-away below which nothing creeps; Dupont et al. 2002, IEEE Trans Automat Contr 47:787).
    The tangential force is -mu N C(s/s0 + damping), with C(x) = x - 4 x^3 / 27 up to its top at
    |x| = 1.5: never more than mu N.  A lifted element only forgets its deflection; elements `firm`
    to `loose` - 1 are so deep, and hold so well, that they only follow the floor.
    """
    lanes = min(lanes, W)
    for e in range(ELEMENTS):
        if e < low or e >= high:
            for i in range(lanes):
                rate[(ANCHOR + e) * W + i] = -RELEASE * state[(ANCHOR + e) * W + i]
        elif e >= firm and e < loose:
            for i in range(lanes):
                slide = scratch[SLIDE_SPEED * W + i]
                rate[(ANCHOR + e) * W + i] = slide
                add_element(e, i, slide, 0.0, state, parameter, sole, scratch)
        else:
            for i in range(lanes):
                d = max(depth_of(e, i, sole, scratch), 0.0)
                slide = scratch[SLIDE_SPEED * W + i]
                stretch = state[(ANCHOR + e) * W + i]
                yielding = sliding_on(stretch * parameter[SHEAR_SHARPNESS * W + i], slide)
                moving = smoother_step(min(d * FULL_GRIP, 1.0)) * (slide - yielding)
                lifted = smoother_step(max(1.0 - d * FULL_HOLD, 0.0))
                rate[(ANCHOR + e) * W + i] = moving - lifted * RELEASE * stretch
                add_element(e, i, moving, yielding, state, parameter, sole, scratch)


def close_sums(lanes: int, state: Array, parameter: Array, scratch: Array) -> None:
    """Finish what is the same for all elements: friction, the normal forces' power, the slip."""
    lanes = min(lanes, W)
    for i in range(lanes):
        scratch[SUM_FORWARD * W + i] *= parameter[FRICTION * W + i]
        scratch[SUM_POWER * W + i] = (
            state[PROSTHESIS_RATE * W + i] * scratch[SUM_MOMENT * W + i]
            - scratch[PIVOT_VY * W + i] * scratch[SUM_UP * W + i]
        )
        scratch[SUM_SLIP * W + i] = abs(scratch[SUM_SLIP * W + i])


def in_reach(e: int, step: float, lanes: int, state: Array, sole: Array, scratch: Array) -> bool:
    """Whether element `e` may touch the floor within a step [s], in any lane.

    What is left of its height must be more than it sinks in a step at its speed and 1 m/s more.
    """
    lanes = min(lanes, W)
    e = min(max(e, 0), ELEMENTS - 1)
    found = 0
    for i in range(lanes):
        sinking = sinking_of(i, ahead_of(e, i, sole, scratch), state, scratch)
        nearer = step * (max(sinking, 0.0) + QUICKER)
        found += 1 if depth_of(e, i, sole, scratch) + nearer > 0.0 else 0
    return found > 0


def first_in_reach(step: float, lanes: int, state: Array, sole: Array, scratch: Array) -> int:
    """First element that may touch the floor within a step [s]; ELEMENTS if none may."""
    for e in range(ELEMENTS):
        if in_reach(e, step, lanes, state, sole, scratch):
            return e
    return ELEMENTS


def end_of_reach(
    low: int, step: float, lanes: int, state: Array, sole: Array, scratch: Array
) -> int:
    """One more than the last element that may touch; `low`: the first, see `first_in_reach`."""
    for k in range(ELEMENTS - low):
        if in_reach(ELEMENTS - 1 - k, step, lanes, state, sole, scratch):
            return ELEMENTS - k
    return low


def stays_firm(
    e: int,
    step: float,
    lanes: int,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
) -> bool:
    """Whether element `e` follows the floor fully for a step [s], in every lane.

    It must stay deep enough for a full grip and below break-away, though it rises 1 m/s faster and
    the foot slides 0.5 m/s faster than now.
    """
    lanes = min(lanes, W)
    e = min(max(e, 0), ELEMENTS - 1)
    doubtful = 0
    for i in range(lanes):
        sinking = sinking_of(i, ahead_of(e, i, sole, scratch), state, scratch)
        higher = step * (max(-sinking, 0.0) + QUICKER)
        further = abs(state[(ANCHOR + e) * W + i])
        further += step * (abs(scratch[SLIDE_SPEED * W + i]) + SLIDES_QUICKER)
        deep = (depth_of(e, i, sole, scratch) - higher) * FULL_GRIP - 1.0
        holds = BREAK_AWAY - further * parameter[SHEAR_SHARPNESS * W + i]
        doubtful += 0 if min(deep, holds) > 0.0 else 1
    return doubtful == 0


def first_firm(
    low: int,
    high: int,
    step: float,
    lanes: int,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
) -> int:
    """First of the elements `low` to `high` - 1 that stays firm for a step [s], or `high`."""
    for e in range(low, high):
        if stays_firm(e, step, lanes, state, parameter, sole, scratch):
            return e
    return high


def end_of_firm(
    firm: int,
    high: int,
    step: float,
    lanes: int,
    state: Array,
    parameter: Array,
    sole: Array,
    scratch: Array,
) -> int:
    """First of the elements from `firm` on that may not stay firm for a step [s], or `high`."""
    for e in range(firm, high):
        if not stays_firm(e, step, lanes, state, parameter, sole, scratch):
            return e
    return high
