"""Moving arms once more, by another road: sympy's Lagrange equations and scipy's integrator.

Nothing here is the program's: lever and weight are derivatives that sympy takes of the length of a
vector and of a height, and the housing's friction is three modes with located changes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import sympy as sp
from scipy.integrate import solve_ivp
from sympy.physics.mechanics import LagrangesMethod, ReferenceFrame, dynamicsymbols

Function = Callable[..., Any]
TIGHT = {"method": "DOP853", "rtol": 1e-10, "atol": 1e-12}


def turned(lean: Any, along: Any, front: Any) -> sp.Matrix:
    """Return a point of a link, forward and up from its upper joint; lean from hanging."""
    return sp.Matrix(
        [along * sp.sin(lean) + front * sp.cos(lean), front * sp.sin(lean) - along * sp.cos(lean)]
    )


@cache
def cable_by_vectors() -> tuple[Function, Function]:
    """Return cable length and lever as functions of flexion, guide, offset, loop, offset."""
    flexion, guide, ahead, loop, front = sp.symbols("flexion guide ahead loop front", real=True)
    gap = sp.Matrix([ahead, guide]) - turned(flexion, loop, front)
    length = sp.sqrt(gap.dot(gap))
    given = (flexion, guide, ahead, loop, front)
    return sp.lambdify(given, length), sp.lambdify(given, -sp.diff(length, flexion))


@cache
def two_links() -> Function:
    """Return the accelerations of two links by Lagrange's method, as a function.

    Of lean, rate, mass, inertia, place along and in front, of both; of the first link's length
    and gravity.
    """
    leans = dynamicsymbols("q0 q1")
    rates = [sp.diff(lean) for lean in leans]
    names = "m0 m1 i0 i1 a0 a1 f0 f1 length g"
    m0, m1, i0, i1, a0, a1, f0, f1, length, g = symbols = sp.symbols(names)
    first = turned(leans[0], a0, f0)
    second = turned(leans[0], length, 0) + turned(leans[1], a1, f1)
    kinetic, potential = sp.Integer(0), sp.Integer(0)
    for mass, inertia, place, rate in ((m0, i0, first, rates[0]), (m1, i1, second, rates[1])):
        speed = place.diff(dynamicsymbols._t)
        kinetic += mass * speed.dot(speed) / 2 + inertia * rate**2 / 2
        potential += mass * g * place[1]
    method = LagrangesMethod(kinetic - potential, leans, frame=ReferenceFrame("N"))
    method.form_lagranges_equations()
    plain = dict(zip([*rates, *leans], sp.symbols("w0 w1 p0 p1"), strict=True))
    mass_matrix = method.mass_matrix.subs(plain)
    forcing = method.forcing.subs(plain)
    given = (*(plain[each] for each in (*leans, *rates)), *symbols)
    return sp.lambdify(given, (mass_matrix, forcing), cse=True)


def swing_by_lagrange(
    links: Any, leans: Any, rates: Any, gravity: float, times: np.ndarray
) -> np.ndarray:
    """Return leans and rates [4, times] of two links that swing freely."""
    equations = two_links()
    first, second = links
    own = (
        first.mass, second.mass, first.inertia, second.inertia, first.centre[0], second.centre[0],
        first.centre[1], second.centre[1], first.length, gravity,
    )  # fmt: skip

    def rate(_: float, state: np.ndarray) -> np.ndarray:
        matrix, force = equations(*state, *own)
        return np.concatenate([state[2:], np.linalg.solve(matrix, force).reshape(-1)])

    start = [*leans, *rates]
    return solve_ivp(rate, (0.0, times[-1]), start, t_eval=times, **TIGHT).y


@dataclass(frozen=True, kw_only=True)
class Lift:
    """A lift for scipy: the same figures as the program's setting, none of its functions."""

    mass: float
    inertia: float
    centre: tuple[float, float]
    shoulder: float
    guide: tuple[float, float]
    loop: tuple[float, float]
    through: float
    pulley: float
    low: float
    high: float
    stiffness: float
    loss: float
    gravity: float
    pull: Callable[[float], float]
    assist: Callable[[float], float]

    def lever(self, flexion: float) -> float:
        """Return minus the derivative of the cable's length [m]."""
        return float(cable_by_vectors()[1](flexion, *self.guide, *self.loop))

    def other(self, flexion: float, rate: float) -> float:
        """Return the moments about the elbow beside the cable's [N m]."""
        lean = self.shoulder + flexion
        along, front = self.centre
        weight = self.mass * self.gravity * (along * np.sin(lean) + front * np.cos(lean))
        over, under = max(flexion - self.high, 0.0), max(self.low - flexion, 0.0)
        stop = self.stiffness * (
            under * max(1.0 - self.loss * rate, 0.0) - over * max(1.0 + self.loss * rate, 0.0)
        )
        return float(self.assist(flexion) + stop - weight)

    def about_elbow(self) -> float:
        """Return the moment of inertia about the elbow [kg m2]."""
        return self.inertia + self.mass * (self.centre[0] ** 2 + self.centre[1] ** 2)


def lift_by_modes(lift: Lift, start: float, times: np.ndarray) -> np.ndarray:
    """Return flexion, rate and work of the cable [3, times]; the lever must stay positive."""
    state, now = np.array([start, 0.0, 0.0]), 0.0
    found = np.full((3, len(times)), np.nan)
    for _ in range(400):
        mode = _mode(lift, now, state)
        rate, events = _mode_rate(lift, mode), _mode_ends(lift, mode)
        for event in events:
            event.terminal = True
        run = solve_ivp(
            rate, (now, times[-1]), state, events=events, dense_output=True, max_step=2e-3, **TIGHT
        )
        inside = (times >= now) & (times <= run.t[-1])
        found[:, inside] = run.sol(times[inside])
        now, state = run.t[-1], run.y[:, -1].copy()
        if run.status == 0:
            return found
        state[1] = 0.0
    raise AssertionError("the cable sticks and slides without end")


def _holding(lift: Lift, flexion: float) -> float:
    return -lift.other(flexion, 0.0) / lift.lever(flexion)


def _mode(lift: Lift, now: float, state: np.ndarray) -> str:
    """Return where the resting forearm goes next: in, out, or held by the housing."""
    # a little later, so that a located change is behind
    pull = lift.pull(now + 1e-7) * lift.pulley
    holding = _holding(lift, state[0])
    if holding < pull * lift.through:
        return "in"
    return "out" if holding > pull / lift.through else "held"


def _mode_rate(lift: Lift, mode: str) -> Function:
    def moving(now: float, state: np.ndarray) -> np.ndarray:
        flexion, rate, _ = state
        share = lift.through if mode == "in" else 1.0 / lift.through
        tension = lift.pull(now) * lift.pulley * share
        lever = lift.lever(flexion)
        turned = (tension * lever + lift.other(flexion, rate)) / lift.about_elbow()
        return np.array([rate, turned, tension * lever * rate])

    return (lambda now, state: np.zeros(3)) if mode == "held" else moving


def _mode_ends(lift: Lift, mode: str) -> list[Any]:
    if mode == "held":

        def slides_in(now: float, state: np.ndarray) -> float:
            return _holding(lift, state[0]) - lift.pull(now) * lift.pulley * lift.through

        def slides_out(now: float, state: np.ndarray) -> float:
            return _holding(lift, state[0]) - lift.pull(now) * lift.pulley / lift.through

        return [slides_in, slides_out]

    def rests(now: float, state: np.ndarray) -> float:
        return float(state[1])

    rests.direction = -1.0 if mode == "in" else 1.0  # type: ignore[attr-defined]
    return [rests]
