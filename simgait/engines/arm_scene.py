"""Moving arms in pymunk: a forearm lifted by its cable, and an arm that swings freely.

Bodies and joints are pymunk's.  What pulls on the forearm is reckoned where it will be at the end
of the coming step, because pymunk moves a body before it changes its speed; so energy neither
creeps in nor out.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from simgait.arrays import Array
from simgait.engines.arm_setting import (
    LiftSetting,
    LiftTrack,
    Link,
    Point,
    SwingTrack,
    require_chain,
)

STEP = 1.0e-4  # [s] of pymunk; see docs/decisions/arm-scenes.md
RECORDED = 1.0e-3  # [s] between recorded instants, or one step if that is longer
ITERATIONS = 20  # of pymunk's joint solver in a step
LEAST_LEVER = 1e-9  # [m] below it no tension can hold the forearm


@dataclass(kw_only=True)
class _Works:
    """Works done since the beginning [J]."""

    harness: float = 0.0
    cable: float = 0.0
    assist: float = 0.0
    stop: float = 0.0


@dataclass(frozen=True, kw_only=True)
class _Push:
    """What acts on the forearm in one step."""

    pull: float  # [N] at the harness
    tension: float  # [N] at the loop
    lever: float  # [m] of the cable about the elbow
    force: Point  # [N] of the cable
    assist: float  # [N m]
    stop: float  # [N m]


class _Forearm:
    """The forearm in pymunk, pinned to the room at its elbow, which is the origin."""

    def __init__(self, setting: LiftSetting) -> None:
        import pymunk

        self.setting = setting
        self.space = pymunk.Space()
        self.space.gravity = (0.0, -setting.gravity)
        self.space.iterations = ITERATIONS
        link = setting.forearm
        along, front = link.centre
        self.body = pymunk.Body(link.mass, link.inertia)
        self.body.angle = setting.shoulder_flexion + setting.start
        self.body.position = self.body.rotation_vector.cpvrotate((front, -along))
        joint = pymunk.PivotJoint(self.space.static_body, self.body, (0.0, 0.0), (-front, along))
        self.space.add(self.body, joint)
        up, ahead = setting.guide
        s, c = math.sin(setting.shoulder_flexion), math.cos(setting.shoulder_flexion)
        self.guide = (ahead * c - up * s, ahead * s + up * c)

    @property
    def flexion(self) -> float:
        """Of the elbow [rad]."""
        return float(self.body.angle) - self.setting.shoulder_flexion

    def push(self, time: float, step: float) -> _Push:
        """Return what acts during the step that begins now, where the forearm will be then."""
        setting, rate = self.setting, float(self.body.angular_velocity)
        flexion = self.flexion + step * rate
        lean = setting.shoulder_flexion + flexion
        s, c = math.sin(lean), math.cos(lean)
        down, ahead = setting.loop
        loop = (down * s + ahead * c, ahead * s - down * c)
        x, y = self.guide[0] - loop[0], self.guide[1] - loop[1]
        length = math.hypot(x, y)
        towards = (x / length, y / length) if length > 0.0 else (0.0, 0.0)
        lever = loop[0] * towards[1] - loop[1] * towards[0]
        pull = setting.pull(time + step)
        assist, stop = setting.assist(flexion), setting.stop.moment(flexion, rate)
        link = setting.forearm
        arm = link.centre[0] * s + link.centre[1] * c
        other = assist + stop - link.mass * setting.gravity * arm
        holding = -link.inertia_about_joint * rate / step - other
        tension = held_tension(pull * setting.pulley, setting.through, holding, lever)
        force = (tension * towards[0], tension * towards[1])
        return _Push(pull=pull, tension=tension, lever=lever, force=force, assist=assist, stop=stop)

    def advance(self, push: _Push, step: float, works: _Works) -> None:
        """Let the forearm move for one step, and add up the works."""
        before, start = float(self.body.angular_velocity), self.flexion
        lean = self.setting.shoulder_flexion + start + step * before
        s, c = math.sin(lean), math.cos(lean)
        along, front = self.setting.forearm.centre
        centre = (along * s + front * c, front * s - along * c)
        turned = push.tension * push.lever - (centre[0] * push.force[1] - centre[1] * push.force[0])
        self.body.force = push.force
        self.body.torque = turned + push.assist + push.stop
        self.space.step(step)
        moved = step * (before + float(self.body.angular_velocity)) / 2.0
        works.harness += push.pull * self.setting.pulley * push.lever * moved
        works.cable += push.tension * push.lever * moved
        works.assist += push.assist * moved
        works.stop += push.stop * moved

    def seen(self, time: float, push: _Push, works: _Works) -> tuple[float, ...]:
        """Return one recorded instant, in the order of a track."""
        body = self.body
        at = body.local_to_world((-self.setting.forearm.centre[1], self.setting.forearm.centre[0]))
        return (
            time,
            self.flexion,
            float(body.angular_velocity),
            push.pull,
            push.tension,
            works.harness,
            works.cable,
            works.assist,
            works.stop,
            float(body.position.y),
            kinetic_energy(body),
            math.hypot(at.x, at.y),
        )


def held_tension(pull: float, through: float, holding: float, lever: float) -> float:
    """Return the tension at the loop of a cable that slides, or sticks, in its housing [N].

    Pulled in, the housing lets through its share of the pull; let out, it holds back by as much;
    and in between the cable sticks with whatever tension would stop it.  pull: into the housing
    [N]; through: [1]; holding: moment about the elbow that would stop the forearm [N m]; lever:
    of the cable [m].

    >>> [round(held_tension(10.0, 0.8, moment, 0.05), 2) for moment in (-9.0, 0.5, 9.0)]
    [8.0, 10.0, 12.5]
    """
    sliding = pull * through
    if abs(lever) < LEAST_LEVER:
        return sliding
    return min(max(holding / lever, sliding), pull / through)


def kinetic_energy(body: Any) -> float:
    """Return m v²/2 + I ω²/2 of a pymunk body [J]; pymunk's own `kinetic_energy` is twice that."""
    going, turning = body.velocity, body.angular_velocity
    return float(body.mass * going.dot(going) + body.moment * turning**2) / 2.0


def play_lift(setting: LiftSetting, until: float, step: float = STEP) -> LiftTrack:
    """Let a forearm be lifted, and return what was seen. until, step: [s]."""
    forearm, works = _Forearm(setting), _Works()
    rows, every = [], max(1, round(RECORDED / step))
    for n in range(round(until / step) + 1):
        push = forearm.push(n * step, step)
        if n % every == 0:
            rows.append(forearm.seen(n * step, push, works))
        forearm.advance(push, step, works)
    names = (
        "time", "flexion", "rate", "pull", "tension", "harness_work", "cable_work", "assist_work",
        "stop_work", "height", "kinetic", "joint_gap",
    )  # fmt: skip
    return LiftTrack(**dict(zip(names, np.array(rows).T, strict=True)))


def play_swing(
    links: Sequence[Link],
    leans: Sequence[float],
    rates: Sequence[float],
    gravity: float,
    until: float,
    step: float = STEP,
) -> SwingTrack:
    """Let an arm of one link or several swing freely about a fixed shoulder.

    leans: of the links from hanging [rad]; rates: [rad/s]; gravity: [m/s2]; until, step: [s].

    Raises:
        RangeError: the numbers of links, leans and rates differ, or there are none.
    """
    require_chain(len(links), len(leans), len(rates))
    space, bodies = _chain(links, leans, rates, gravity)
    seen: list[Array] = []
    times, every = [], max(1, round(RECORDED / step))
    for n in range(round(until / step) + 1):
        if n % every == 0:
            times.append(n * step)
            turned = [(b.angle, b.angular_velocity) for b in bodies]
            raised = sum(kinetic_energy(b) + b.mass * gravity * b.position.y for b in bodies)
            seen.append(np.array([*(x for x, _ in turned), *(x for _, x in turned), raised]))
        space.step(step)
    table, count = np.array(seen), len(links)
    return SwingTrack(
        time=np.array(times),
        lean=table[:, :count],
        rate=table[:, count : 2 * count],
        energy=table[:, -1] - table[0, -1],
    )


def _chain(
    links: Sequence[Link], leans: Sequence[float], rates: Sequence[float], gravity: float
) -> tuple[Any, list[Any]]:
    """Return a pymunk space with the links hung from its origin, and their bodies."""
    import pymunk

    space = pymunk.Space()
    space.gravity = (0.0, -gravity)
    space.iterations = ITERATIONS
    joint, speed = pymunk.Vec2d(0.0, 0.0), pymunk.Vec2d(0.0, 0.0)
    above, at = space.static_body, (0.0, 0.0)
    bodies = []
    for link, lean, rate in zip(links, leans, rates, strict=True):
        along, front = link.centre
        body = pymunk.Body(link.mass, link.inertia)
        body.angle, body.angular_velocity = lean, rate
        out = body.rotation_vector.cpvrotate((front, -along))
        body.position, body.velocity = joint + out, speed + out.perpendicular() * rate
        space.add(body, pymunk.PivotJoint(above, body, at, (-front, along)))
        on = body.rotation_vector.cpvrotate((0.0, -link.length))
        joint, speed = joint + on, speed + on.perpendicular() * rate
        above, at = body, (-front, along - link.length)
        bodies.append(body)
    return space, bodies
