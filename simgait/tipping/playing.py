"""Playing one scene of tipping, and looking for the smallest disturbance that is too much."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.engines.scene import STEP, Course, Scene
from simgait.engines.setting import Setting
from simgait.library.strengths import read_tipping_habit
from simgait.physics.layout import ELEMENTS
from simgait.physics.sole import smooth_step
from simgait.standing.result import Standing
from simgait.tipping.anatomy import TRUNK, Posture, Wearer, scene_of, wearer_of
from simgait.tipping.judging import Judge
from simgait.tipping.names import NOT_REACHED, STAYS, STEPS, Trial

GENTLE = 0.1  # [1] of a slope's coming up
QUIET = 0.1  # [s] of standing before anything happens
SLOPE_TIME = 6.0  # [s] in which a slope comes up: slower changes the thresholds little
OBSTACLE_TIME = 0.4  # [s] in which an obstacle is stepped onto
POSTURES = 9  # along a slope that comes up, between which the posture is interpolated
LONGEST = 10.0  # [s] of a scene
PRECISION = 0.01  # [1] of a threshold
FINEST = 1e-4  # [1] of the largest trial: nearer to nothing nobody looks
SLOPE_OF_AN_OBSTACLE = 0.02  # [m] of sole over which an obstacle's edge rises


@dataclass(frozen=True, kw_only=True, eq=False)
class Stand:
    """A standing wearer made ready to be disturbed."""

    wearer: Wearer
    setting: Setting
    push_height: float  # [m] above the floor


@dataclass(frozen=True, kw_only=True, eq=False)
class Threshold:
    """The smallest disturbance that is too much, and the scenes just below and just above it."""

    trial: Trial
    value: float  # in the trial's unit; NaN if the largest that is tried is stood
    ending: str  # just above, or "not_reached"
    below: Course
    above: Course | None
    low: float  # the largest that was stood, in the trial's unit
    high: float  # the smallest that was not
    runs: int


def ready(standing: Standing, push_height: float | None = None) -> Stand:
    """Return a standing wearer ready to be disturbed.

    push_height: of pushes above the floor [m]; the body's centre if none is given.

    Raises:
        RangeError: the person's segments cannot be.
    """
    wearer = wearer_of(standing, read_tipping_habit())
    setting = scene_of(wearer)
    centre = sum(body.mass * body.centre[1] for body in setting.bodies) / sum(
        body.mass for body in setting.bodies
    )
    return Stand(
        wearer=wearer,
        setting=setting,
        push_height=centre if push_height is None else push_height,
    )


def eased(share: float) -> float:
    """Return 3 u^2 - 2 u^3 of a share held within 0 to 1 [1].

    >>> eased(-1.0), eased(0.5), eased(2.0)
    (0.0, 0.5, 1.0)
    """
    return smooth_step(min(max(share, 0.0), 1.0))


def evenly(share: float) -> float:
    """Return a share that rises evenly but for a gentle start and end, each a tenth of it [1].

    >>> evenly(0.0), evenly(0.5), evenly(1.0)
    (0.0, 0.5, 1.0)
    """
    u = min(max(share, 0.0), 1.0)
    v = min(u, 1.0 - u)
    way = v * v / (2.0 * GENTLE) if v < GENTLE else v - GENTLE / 2.0
    way /= 1.0 - GENTLE
    return way if u < 0.5 else 1.0 - way


def pushed(stand: Stand, impulse: float) -> Callable[[Scene, float], None]:
    """Return what gives the trunk a push, once. impulse: + forward [N s]."""
    given: list[float] = []

    def act(scene: Scene, time: float) -> None:
        if time >= QUIET and not given:
            given.append(time)
            scene.push(TRUNK, impulse, stand.push_height)

    return act


def postures_to(wearer: Wearer, slopes: Sequence[float]) -> list[Posture]:
    """Return the postures on ever steeper slopes; where nobody could stand, the last before.

    slopes: + falls away ahead [rad].
    """
    postures = [wearer.level]
    for slope in slopes[1:]:
        posture = wearer.on_slope(slope)
        postures.append(posture if posture.stands else postures[-1])
    return postures


def tilted(wearer: Wearer, slope: float) -> Callable[[Scene, float], None]:
    """Return what lets the floor fall away ahead by a slope within a while [rad].

    The wearer's posture follows, as `standing` finds it on the slopes between; where nobody could
    stand, it stays what it was.
    """
    shares = np.linspace(0.0, 1.0, POSTURES)
    postures = postures_to(wearer, [float(share) * slope for share in shares])
    ankle = wearer.standing.pose.ankle[0]

    def between(values: Callable[[Posture], Sequence[float]], share: float) -> list[float]:
        columns = zip(*map(values, postures), strict=True)
        return [float(np.interp(share, shares, column)) for column in columns]

    def act(scene: Scene, time: float) -> None:
        if time <= QUIET + SLOPE_TIME + 0.01:
            share = evenly((time - QUIET) / SLOPE_TIME)
            scene.tilt(slope * share)
            scene.aim(between(lambda p: p.aims, share), between(lambda p: p.feeds, share))
            scene.stand_over(ankle + between(lambda p: (p.ahead,), share)[0])

    return act


def stepped_on(stand: Stand, height: float, ahead: bool) -> Callable[[Scene, float], None]:
    """Return what puts something under the prosthesis' sole, ahead of its ankle or behind it.

    height: [m].
    """
    shape = obstacle_shape(stand, ahead)

    def act(scene: Scene, time: float) -> None:
        if time <= QUIET + OBSTACLE_TIME + 0.01:
            scene.raise_sole(0, height * eased((time - QUIET) / OBSTACLE_TIME) * shape)

    return act


def obstacle_shape(stand: Stand, ahead: bool) -> Array:
    """Return how much of an obstacle lies under each element of the prosthesis' sole [1]."""
    along = stand.wearer.standing.stance.pieces.along
    sense = 1.0 if ahead else -1.0
    shape = np.array([eased(sense * float(x) / SLOPE_OF_AN_OBSTACLE) for x in along])
    assert len(shape) == ELEMENTS
    return shape


def play(stand: Stand, trial: Trial, size: float, *, step: float = STEP) -> Course:
    """Return the course of one trial of a size in the trial's unit; its ending is named.

    step: of the engine [s].
    """
    if trial.unit == "N s":
        act, lasts = pushed(stand, trial.sense * size), 0.0
    elif trial.unit == "deg":
        act, lasts = tilted(stand.wearer, trial.sense * math.radians(size)), SLOPE_TIME
    else:
        act, lasts = stepped_on(stand, size / 1000.0, trial.sense < 0.0), OBSTACLE_TIME
    judge = Judge(
        setting=stand.setting,
        habit=stand.wearer.habit,
        leg_length=stand.wearer.standing.stance.limb.leg_length,
        calm_after=QUIET + lasts + 0.5,
    )
    course = Scene(stand.setting).play(judge, act, until=LONGEST, step=step)
    if course.ending == "time_over":
        return course.named(STAYS if judge.left is None else STEPS)
    return course


def threshold(
    stand: Stand, trial: Trial, guess: float | None = None, *, step: float = STEP
) -> Threshold:
    """Return the smallest disturbance that is too much, to 1 per cent, by bisection.

    guess: where to look first, by default the trial's own; step: of the engine [s].
    """
    low, high = 0.0, math.nan
    below, above = None, None
    size, runs = min(guess or trial.guess, trial.largest), 0
    while not (high - low <= max(PRECISION * high, FINEST * trial.largest)):
        course = play(stand, trial, size, step=step)
        runs += 1
        if course.ending == STAYS:
            low, below = size, course
            if size >= trial.largest:
                break
        else:
            high, above = size, course
        size = next_size(low, high, trial.largest)
    if below is None:
        below = play(stand, trial, 0.0, step=step)
    return Threshold(
        trial=trial,
        value=(low + high) / 2.0,
        ending=NOT_REACHED if above is None else above.ending,
        below=below,
        above=above,
        low=low,
        high=high,
        runs=runs,
    )


def next_size(low: float, high: float, largest: float) -> float:
    """Return what to try next between the largest stood and the smallest that was not.

    A quarter more while nothing was too much, two fifths less while everything was; then the
    middle.

    >>> next_size(8.0, math.nan, 100.0), next_size(0.0, 10.0, 100.0), next_size(8.0, 10.0, 100.0)
    (10.0, 6.0, 9.0)
    """
    if math.isnan(high):
        return min(1.25 * low, largest)
    if low == 0.0 and high > largest / 500.0:
        return 0.6 * high
    return (low + high) / 2.0
