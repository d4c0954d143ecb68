"""The bodies engine: the same stance with its chain moved by pymunk, as a second opinion.

The laws of sole, wearer and socket are the kernel's; the motion of the four bodies and the forces
in their joints are pymunk's (velocity steps of order one, joints by impulses).  So the two engines
share what pushes and differ in all that moves.
"""

from __future__ import annotations

import math

import numpy as np

from simgait.arrays import Array
from simgait.engines import compiled
from simgait.engines.blocks import Block, W
from simgait.physics import layout as rows

STEP = 2.0e-5  # [s] of pymunk; see docs/decisions/bodies.md
RECORD_EVERY = 50  # steps between recorded instants: 1 ms
ITERATIONS = 30  # of pymunk's joint solver in a step
LEANS = (rows.THIGH, rows.RESIDUAL, rows.PROSTHESIS)
RATES = (rows.THIGH_RATE, rows.RESIDUAL_RATE, rows.PROSTHESIS_RATE)


class Chain:
    """Hip point, thigh, residual limb and prosthesis as pymunk bodies with three pivots.

    A segment's lean is the negative of pymunk's angle, so that a vector (forward, up) of a segment
    is a point of its body.
    """

    def __init__(self, parameter: Array, state: Array) -> None:
        import pymunk

        p = parameter
        self.space = pymunk.Space()
        self.space.gravity = (0.0, -float(p[rows.GRAVITY]))
        self.space.iterations = ITERATIONS
        hip = pymunk.Body(float(p[rows.MASS_HIP]), float("inf"))
        d1, d2 = float(p[rows.CENTRE_THIGH]), float(p[rows.CENTRE_RESIDUAL])
        l1, l2 = float(p[rows.LENGTH_THIGH]), float(p[rows.LENGTH_RESIDUAL])
        centre = (float(p[rows.CENTRE_FORWARD]), float(p[rows.CENTRE_UP]))
        masses = (rows.MASS_THIGH, rows.MASS_RESIDUAL, rows.MASS_PROSTHESIS)
        inertias = (rows.INERTIA_THIGH, rows.INERTIA_RESIDUAL, rows.INERTIA_PROSTHESIS)
        self.segments = [
            pymunk.Body(float(p[m]), float(p[i])) for m, i in zip(masses, inertias, strict=True)
        ]
        self.hip = hip
        # from each joint to the segment's centre, and from there to the next joint
        above = ((0.0, d1), (0.0, d2), (-centre[0], -centre[1]))
        below = ((0.0, d1 - l1), (0.0, d2 - l2))
        self._place(state, above, below)
        self.space.add(hip, *self.segments)
        for upper, lower, at, to in (
            (hip, self.segments[0], (0.0, 0.0), above[0]),
            (self.segments[0], self.segments[1], below[0], above[1]),
            (self.segments[1], self.segments[2], below[1], above[2]),
        ):
            self.space.add(pymunk.PivotJoint(upper, lower, at, to))

    def _place(
        self,
        state: Array,
        above: tuple[tuple[float, float], ...],
        below: tuple[tuple[float, float], ...],
    ) -> None:
        """Put the bodies where the state says, with its velocities."""
        self.hip.position = (float(state[rows.HIP_X]), float(state[rows.HIP_Y]))
        self.hip.velocity = (float(state[rows.HIP_VX]), float(state[rows.HIP_VY]))
        joint, speed = self.hip.position, self.hip.velocity
        for place, body in enumerate(self.segments):
            body.angle = -float(state[LEANS[place]])
            body.angular_velocity = -float(state[RATES[place]])
            up = body.rotation_vector.cpvrotate(above[place])
            body.position = joint - up
            body.velocity = speed - up.perpendicular() * body.angular_velocity
            if place < len(below):
                down = body.rotation_vector.cpvrotate(below[place])
                joint = body.position + down
                speed = body.velocity + down.perpendicular() * body.angular_velocity

    def read(self, state: Array) -> None:
        """Write the bodies' places and velocities into the first ten rows of a state."""
        state[rows.HIP_X], state[rows.HIP_Y] = self.hip.position
        state[rows.HIP_VX], state[rows.HIP_VY] = self.hip.velocity
        for place, body in enumerate(self.segments):
            state[LEANS[place]] = -body.angle
            state[RATES[place]] = -body.angular_velocity

    def push(self, scratch: Array, socket: float) -> None:
        """Apply the forces that the kernel has put into its scratch rows, and the socket moment."""
        s = scratch
        hip, knee = s[rows.TORQUE_HIP], s[rows.TORQUE_KNEE]
        thigh, residual, prosthesis = self.segments
        thigh.torque = float(knee - hip)
        residual.torque = float(-knee - socket)
        prosthesis.torque = float(socket)
        self.hip.force = (float(s[rows.PUSH_X] + s[rows.TRUNK_PUSH]), float(s[rows.PUSH_Y]))
        up = s[rows.SUM_UP]
        if up > 0.0:
            x = float(s[rows.PIVOT_X] + s[rows.SUM_MOMENT] / up)
            force = (float(s[rows.SUM_FORWARD]), float(up))
            prosthesis.apply_force_at_world_point(force, (x, 0.0))


def run_bodies(block: Block) -> float:
    """Run lane 0 of a filled block to its ending; returns the step of its recorded instants [s].

    The block's curves and ends are filled as `run_stance` fills them, so that the measures can be
    read off with the kernel's own functions.
    """
    kernel = compiled.kernel()
    b = block
    column = {name: getattr(b, name).reshape(-1, W)[:, 0] for name in ("state", "rate", "scratch")}
    state, rate, scratch = column["state"], column["rate"], column["scratch"]
    parameter = b.parameter.reshape(-1, W)[:, 0]
    every = STEP * RECORD_EVERY
    ends = b.ends.reshape(-1, W)[:, 0]
    ends[rows.ENDING] = rows.RUNNING
    ends[rows.ENERGY_START] = kernel.mechanical_energy(0, b.state, 0, b.parameter)
    chain = Chain(parameter, state)
    for k in range(RECORD_EVERY * (b.steps - 1)):
        kernel.move(1, k * STEP, b.state, b.parameter, b.sole, b.reference, b.scratch, b.rate)
        if k % RECORD_EVERY == 0 and recorded(b, k // RECORD_EVERY, every):
            break
        turn = state[rows.PROSTHESIS] - state[rows.RESIDUAL]
        turning = state[rows.PROSTHESIS_RATE] - state[rows.RESIDUAL_RATE]
        socket = parameter[rows.SOCKET_STIFFNESS] * turn + parameter[rows.SOCKET_DAMPING] * turning
        chain.push(scratch, float(socket))
        chain.space.step(STEP)
        state[rows.WORK_HIP :] += STEP * rate[rows.WORK_HIP :]
        chain.read(state)
    return every


def recorded(block: Block, n: int, step: float) -> bool:
    """Record instant `n` of lane 0; returns whether the run has ended, and closes it if so."""
    kernel = compiled.kernel()
    b = block
    row = n * rows.CHANNELS * W
    kernel.record_forces(1, row, b.state, b.parameter, b.scratch, b.rate, b.curves)
    kernel.record_depths(1, row, b.state, b.sole, b.scratch, b.curves)
    ended = False
    if n > 0:
        ending = kernel.ending_of(
            0, n * step, row, row - rows.CHANNELS * W, b.state, b.parameter, b.scratch, b.curves
        )
        ended = ending != rows.RUNNING
        if ended:
            kernel.close_run(
                0,
                n,
                1,
                ending,
                step,
                b.state,
                b.rate,
                b.base,
                b.first,
                b.parameter,
                b.curves,
                b.ends,
            )
    np.copyto(b.base, b.state)
    np.copyto(b.first, b.rate)
    return bool(ended) or not math.isfinite(float(b.state.reshape(-1, W)[rows.HIP_Y, 0]))
