"""Free scenes in pymunk: bodies, pivots between them, muscles, soles on the floor, gravity, pushes.

The laws of muscles, soles and balance are the physics' own (`simgait.physics.scene`), compiled;
how bodies move and what their joints carry is pymunk's.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.setting import Muscle, SceneBody, SceneSole, Setting
from simgait.physics import layout as rows
from simgait.physics import scene as law

STEP = 2.0e-4  # [s] of pymunk; see docs/decisions/scenes.md
LOOK_EVERY = 25  # steps between instants that are looked at and recorded; 5 ms at that step
ITERATIONS = 20  # of pymunk's joint solver in a step


@dataclass(frozen=True, kw_only=True, eq=False)
class Instant:
    """What a scene looks like at one instant; arrays are views that change with the scene."""

    time: float  # [s]
    body: Array  # [bodies, 6] place, angle (minus lean) and speeds of the centres of mass
    loads: Array  # [soles, 3] [N, N, N m] forward, up, and moment of the up force about the centre
    given: Array  # [muscles] [N m]
    aims: Array  # [muscles] [rad]
    centre: Array  # [4] [m, m, m/s, m] the body's centre, its speed, extrapolated on the floor
    slid: Array  # [soles] [m] how far each has slid, either way


@dataclass(frozen=True, kw_only=True, eq=False)
class Course:
    """A scene that has been played: how it ended and everything at the recorded instants."""

    ending: str
    time: Array  # [n] [s]
    body: Array  # [n, bodies, 6]
    loads: Array  # [n, soles, 3]
    given: Array  # [n, muscles]
    aims: Array  # [n, muscles]
    centre: Array  # [n, 4]
    slid: Array  # [n, soles]

    def named(self, ending: str) -> Course:
        """Return the same course under another ending."""
        return replace(self, ending=ending)


class Scene:
    """A setting in pymunk, ready to be played."""

    def __init__(self, setting: Setting) -> None:
        import pymunk

        self.setting = setting
        self.space = pymunk.Space()
        self.space.iterations = ITERATIONS
        self.bodies = [self._body(pymunk, each) for each in setting.bodies]
        self.space.add(*self.bodies)
        for pivot in setting.pivots:
            upper, lower = self.bodies[pivot.upper], self.bodies[pivot.lower]
            self.space.add(pymunk.PivotJoint(upper, lower, pivot.at))
        self.balance = _balance_row(setting)
        self.tilt(0.0)
        self.muscle = np.array([_muscle_row(each) for each in setting.muscles]).reshape(-1)
        self.foot = np.array([each.body for each in setting.soles], dtype=np.float64)
        self.mass = np.array([each.mass for each in setting.bodies])
        sizes = (rows.STATES, rows.PARAMETERS, rows.SOLE_ROWS, rows.SCRATCH, rows.STATES)
        flat = [np.zeros(size * rows.W) for size in sizes]
        self.state, self.parameter, self.sole, self.scratch, self.rate = flat
        weight = setting.gravity * self.mass.sum()
        self.parameter[rows.BODY_WEIGHT * rows.W : (rows.BODY_WEIGHT + 1) * rows.W] = weight
        for lane, each in enumerate(setting.soles):
            _put_sole(each, lane, self.parameter, self.sole)

    @staticmethod
    def _body(pymunk: Any, each: SceneBody) -> Any:
        body = pymunk.Body(each.mass, each.inertia)
        body.position, body.angle = each.centre, -each.lean
        return body

    def tilt(self, slope: float) -> None:
        """Let the floor fall away ahead by `slope` [rad]: gravity leans forward in its frame."""
        along = self.setting.gravity * math.sin(slope)
        down = self.setting.gravity * math.cos(slope)
        self.space.gravity = (along, -down)
        self.balance[law.GRAVITY_ALONG], self.balance[law.GRAVITY_DOWN] = along, down

    def push(self, body: int, impulse: float, height: float) -> None:
        """Give a body a push along the floor at a height above it. impulse [N s]; height [m]."""
        struck = self.bodies[body]
        struck.apply_impulse_at_world_point((impulse, 0.0), (struck.position.x, height))

    def aim(self, aims: Sequence[float], feeds: Sequence[float]) -> None:
        """Let the muscles aim at another posture: leans [rad] and moments [N m] in their order.

        What an ankle gives that balances is its own affair.
        """
        muscle = self.muscle.reshape(-1, law.MUSCLE)
        keep = self.setting.balance.muscle if self.setting.balance else -1
        for number, (lean, moment) in enumerate(zip(aims, feeds, strict=True)):
            if number != keep:
                muscle[number, law.AIM], muscle[number, law.FEED] = lean, moment

    def stand_over(self, place: float) -> None:
        """Let the balancing ankle aim at another place of the floor [m]."""
        self.balance[law.STOOD] = place

    def raise_sole(self, number: int, rise: Array) -> None:
        """Put something under a sole: its elements lie lower by `rise` [ELEMENTS] [m]."""
        self.sole[rows.SOLE_UP * rows.W + number :: 4 * rows.W] = (
            self.setting.soles[number].up - rise
        )

    def play(
        self,
        look: Callable[[Instant], str | None],
        act: Callable[[Scene, float], None] | None = None,
        *,
        until: float,
        step: float = STEP,
    ) -> Course:
        """Let the scene run until `look` names an ending, or the time is over ("time_over").

        look: called every 25 steps; act: called at the same instants with the time [s], to push or
        tilt; until: [s]; step: of pymunk [s].
        """
        import pymunk.batch as batch

        fields = batch.BodyFields
        places = fields.POSITION | fields.ANGLE | fields.VELOCITY | fields.ANGULAR_VELOCITY
        loads = fields.FORCE | fields.TORQUE
        read, self.body = self._shared(places)
        written, self.load = self._shared(loads)
        drive = compiled.kernel().drive_scene
        counts = (len(self.bodies), len(self.setting.muscles), len(self.setting.soles))
        own = (self.mass, self.muscle, self.foot, self.balance, self.state, self.parameter)
        more = (self.sole, self.scratch, self.rate)
        seen: list[Instant] = []
        ending: str | None = None
        get, put, advance = batch.get_space_bodies, batch.set_space_bodies, self.space.step
        for n in range(round(until / step) + 1):
            if n % LOOK_EVERY == 0 and act is not None:
                act(self, n * step)
            read.clear()
            get(self.space, places, read)
            drive(*counts, step, self.body, *own, *more, self.load)
            if n % LOOK_EVERY == 0:
                seen.append(self.instant(n * step))
                ending = look(seen[-1])
                if ending is not None:
                    break
            put(self.space, loads, written)
            advance(step)
        return _course(ending or "time_over", seen)

    def _shared(self, fields: Any) -> tuple[Any, Array]:
        """Return pymunk's own memory for some fields of all bodies, and an array that looks at it.

        Its place stays the same as long as it is only cleared and filled again.
        """
        import pymunk.batch as batch

        buffer = batch.Buffer()
        batch.get_space_bodies(self.space, fields, buffer)
        return buffer, np.frombuffer(buffer.float_buf(), dtype=np.float64)

    def instant(self, time: float) -> Instant:
        """Return what the scene looks like now. time: [s]."""
        lanes = len(self.setting.soles)
        sums = (rows.SUM_FORWARD, rows.SUM_UP, rows.SUM_MOMENT)
        scratch = self.scratch.reshape(-1, rows.W)
        return Instant(
            time=time,
            body=self.body.reshape(-1, law.BODY).copy(),
            loads=scratch[sums, :lanes].T.copy(),
            given=self.muscle.reshape(-1, law.MUSCLE)[:, law.GIVEN].copy(),
            aims=self.muscle.reshape(-1, law.MUSCLE)[:, law.AIM].copy(),
            centre=self.balance[[law.CENTRE_X, law.CENTRE_Y, law.CENTRE_VX, law.EXTRAPOLATED]],
            slid=self.state.reshape(-1, rows.W)[rows.SLIP, :lanes].copy(),
        )


def _balance_row(setting: Setting) -> Array:
    row = np.zeros(law.BALANCE)
    balance = setting.balance
    if balance is not None:
        row[law.BALANCING] = 1.0
        row[law.ANKLE_MUSCLE] = balance.muscle
        row[law.ANKLE_X], row[law.ANKLE_Y] = balance.axis
        row[law.REACH_BACK], row[law.REACH_AHEAD] = balance.reach_back, balance.reach_ahead
        row[law.STOOD], row[law.EAGERNESS] = balance.stood, balance.eagerness
        row[law.RISE_TIME] = balance.rise_time
        row[law.LIGHT_LOAD], row[law.MOST_LOAD] = balance.least_load, balance.most_load
        row[law.FLAT_LEAN], row[law.FLAT_STIFF] = balance.flat_lean, balance.flat_stiffness
        row[law.FLAT_SPAN] = balance.flat_span
        row[law.EFFORT] = setting.muscles[balance.muscle].feed
    return row


def _muscle_row(muscle: Muscle) -> list[float]:
    m = muscle
    bounds = (m.least, m.greatest, m.stop_low, m.stop_high, m.stop_stiffness)
    return [m.upper, m.lower, m.aim, m.feed, m.stiffness, m.damping, *bounds, 0.0]


def _put_sole(each: SceneSole, lane: int, parameter: Array, sole: Array) -> None:
    for row, value in (
        (rows.FRICTION, each.friction),
        (rows.SHEAR_SHARPNESS, each.sharpness),
        (rows.SHEAR_DAMPING, each.shear_damping),
        (rows.SOLE_QUICKNESS, each.quickness),
        (rows.SOLE_ONSET, each.onset),
    ):
        parameter[row * rows.W + lane] = value
    for row, values in (
        (rows.SOLE_FORWARD, each.forward),
        (rows.SOLE_UP, each.up),
        (rows.SOLE_STIFFNESS, each.stiffness),
        (rows.SOLE_LOSS, each.loss),
    ):
        sole[row * rows.W + lane :: 4 * rows.W] = values


def _course(ending: str, seen: Sequence[Instant]) -> Course:
    return Course(
        ending=ending,
        time=np.array([each.time for each in seen]),
        body=np.array([each.body for each in seen]),
        loads=np.array([each.loads for each in seen]),
        given=np.array([each.given for each in seen]),
        aims=np.array([each.aims for each in seen]),
        centre=np.array([each.centre for each in seen]),
        slid=np.array([each.slid for each in seen]),
    )
