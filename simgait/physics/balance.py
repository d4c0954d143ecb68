"""The slope and the push at which a standing wearer tips.

The wearer holds the body's centre where it stood over the feet.  A slope of angle a then moves the
line of the load by height x tan a along the floor, a level push at the centre by height x push /
weight, so that the two are one question (statics).  The foot must carry at the moved place: it
yields and leans until it does, and takes the shank along.  Whatever the wearer does above the knee,
the moment at the knee is then determined; so no equilibrium is left when the load reaches the end
of the sole, or the knee's or the hip's greatest moment holds no more, or the shoe slides.  On a
stiff foot under a strong wearer only the first is left: slope = atan(lever / height), push =
weight x lever / height.

Standing on both feet, the sides keep their shares, and both are loaded up to their own ends.
"""

from math import atan

from simgait.arrays import Array
from simgait.physics.bracket import MOST_LOOKS, narrow_bracket, open_bracket
from simgait.physics.posture import at_sole_end, hip_effort, knee_effort
from simgait.physics.rest_layout import (
    BRACKET_BEST,
    BRACKET_DONE,
    BRACKET_NEXT,
    BRACKET_SIZE,
    HIP_GIVES_WAY,
    KNEE_GIVES_WAY,
    LEAN_LEVEL,
    POSE_LEAN,
    POSE_PLACE,
    REST_CENTRE_HEIGHT,
    REST_FRICTION,
    REST_GRAVITY,
    REST_SOUND_HEEL,
    REST_SOUND_TOE,
    REST_STRAIGHTEST,
    REST_WEIGHT,
    SLIDES,
    SOLE_END,
    TRIAL_LEAN,
    TRIAL_PLACE,
    TRIAL_PUSHED,
    TRIAL_RATIO,
    TRIAL_REACH,
    TRIAL_SENSE,
    TRIAL_SHARE,
)
from simgait.physics.resting import load_on_slope, load_pushed, rest_limb

STRIDE = 0.03490658503988659  # [rad] two degrees, between leans that are looked at
STRIDES = 25  # fifty degrees
STRIDE_WITHIN = 1e-8  # [rad]
ROUNDS = 3  # a slope changes the load on the floor by its cosine, which hardly changes the slope
CLEAR = 1e-3  # [1] more than this is left of knee, hip and friction where only the sole ends it


def begin_trial(
    sense: float, pushed: float, share: float, ahead: float, rest: Array, pose: Array, trial: Array
) -> None:
    """Fill a trial of one direction from the undisturbed pose.

    sense: 1 forward, -1 backward; pushed: 1 by a push, 0 by a slope; share: of the weight on the
    prosthesis [1]; ahead: load line ahead of the ankle axis [m], on the other foot as on this.
    """
    toe = max(rest[REST_SOUND_TOE] - ahead, 0.0)
    heel = max(ahead + rest[REST_SOUND_HEEL], 0.0)
    trial[TRIAL_SENSE] = sense
    trial[TRIAL_PUSHED] = pushed
    trial[TRIAL_SHARE] = share
    trial[TRIAL_REACH] = (1.0 - share) * (toe if sense > 0.0 else -heel)
    trial[TRIAL_PLACE] = pose[POSE_PLACE]
    trial[TRIAL_LEAN] = pose[POSE_LEAN]
    trial[TRIAL_RATIO] = 0.0


def disturb(
    lean: float, trial: Array, load: Array, rest: Array, pose: Array, brackets: Array
) -> None:
    """Fill the pose at a lean [rad], and the disturbance that it balances in TRIAL_RATIO."""
    carried = trial[TRIAL_SHARE] * rest[REST_WEIGHT]
    ratio = 0.0
    for _ in range(ROUNDS):
        if trial[TRIAL_PUSHED] > 0.0:
            load_pushed(carried, ratio, rest[REST_GRAVITY], load)
        else:
            load_on_slope(carried, atan(ratio), rest[REST_GRAVITY], load)
        rest_limb(lean, rest[REST_STRAIGHTEST], load, rest, pose, brackets)
        moved = trial[TRIAL_SHARE] * (pose[POSE_PLACE] - trial[TRIAL_PLACE])
        ratio = (moved + trial[TRIAL_REACH]) / rest[REST_CENTRE_HEIGHT]
    trial[TRIAL_RATIO] = ratio


def margin_at(
    lean: float, trial: Array, load: Array, rest: Array, pose: Array, brackets: Array
) -> float:
    """The least of what is left of knee, hip and friction at a lean [1]; negative is too little."""
    disturb(lean, trial, load, rest, pose, brackets)
    friction = rest[REST_FRICTION] - abs(trial[TRIAL_RATIO])
    effort = max(knee_effort(rest, pose), hip_effort(rest, pose))
    return float(min(1.0 - effort, friction))


def lean_without_margin(
    last: float,
    at_last: float,
    lean: float,
    at_lean: float,
    trial: Array,
    load: Array,
    rest: Array,
    pose: Array,
    brackets: Array,
) -> float:
    """Lean between two at which the margin changes sign [rad]."""
    base = LEAN_LEVEL * BRACKET_SIZE
    open_bracket(LEAN_LEVEL, last, at_last, lean, at_lean, STRIDE_WITHIN, brackets)
    for _ in range(MOST_LOOKS):
        place = brackets[base + BRACKET_NEXT]
        narrow_bracket(LEAN_LEVEL, margin_at(place, trial, load, rest, pose, brackets), brackets)
        if brackets[base + BRACKET_DONE] > 0.0:
            return float(brackets[base + BRACKET_BEST])
    return float(brackets[base + BRACKET_BEST])


def last_lean(trial: Array, load: Array, rest: Array, pose: Array, brackets: Array) -> float:
    """The farthest lean at which everything holds [rad].

    Looked for from the undisturbed lean on; backwards, if with the other foot at its end the
    prosthesis would fail there already.
    """
    last = trial[TRIAL_LEAN]
    at_last = margin_at(last, trial, load, rest, pose, brackets)
    holds = at_last >= 0.0
    step = trial[TRIAL_SENSE] * (STRIDE if holds else -STRIDE)
    for _ in range(STRIDES):
        lean = last + step
        margin = margin_at(lean, trial, load, rest, pose, brackets)
        if (margin >= 0.0) != holds:
            return lean_without_margin(
                last, at_last, lean, margin, trial, load, rest, pose, brackets
            )
        last = lean
        at_last = margin
    return float(last)


def tip_over(trial: Array, load: Array, rest: Array, pose: Array, brackets: Array) -> int:
    """Fill the pose and the ratio at which a trial's standing ends; what ends it."""
    lean = last_lean(trial, load, rest, pose, brackets)
    margin = margin_at(lean, trial, load, rest, pose, brackets)
    if at_sole_end(rest, pose) or margin > CLEAR:
        return SOLE_END
    knee, hip = knee_effort(rest, pose), hip_effort(rest, pose)
    if 1.0 - max(knee, hip) <= rest[REST_FRICTION] - abs(trial[TRIAL_RATIO]):
        return KNEE_GIVES_WAY if knee >= hip else HIP_GIVES_WAY
    return SLIDES
