"""Why a moment of the knee differs between two stances: taken apart into what can be seen.

The ground force F passes the knee at a lever l, so that M = F l + R.  R is what the force's line
does not explain: weight and inertia of what hangs below the knee.  With the force leaning forward
of the vertical by a, the pressure point x_p and the knee (x_k, y_k), the lever is
l = (x_k - x_p) cos a - y_k sin a: + where the line passes behind the knee and bends it.

A difference of products is exact with the means of both: D(u v) = mean(u) D(v) + mean(v) D(u).
Derived; the parts add up to the whole difference whatever the numbers.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.arrays import Array
from simgait.stance import StanceResult

PARTS = ("pressure", "lean", "height", "force", "rest")


@dataclass(frozen=True, kw_only=True)
class Instant:
    """The knee and the ground force at one instant of a stance; SI, x forward, y up."""

    percent: float  # [%] of stance
    moment: float  # [N m] external, + bends the knee
    force: float  # [N] size
    lean: float  # [rad] of the force from the vertical, + forward
    ahead: float  # [m] knee ahead of the pressure point
    ankle_ahead: float  # [m] ankle ahead of the pressure point
    height: float  # [m] of the knee above the floor

    @property
    def lever(self) -> float:
        """Lever of the force at the knee, + behind the knee: x cos a - y sin a [m]."""
        return self.ahead * math.cos(self.lean) - self.height * math.sin(self.lean)

    @property
    def rest(self) -> float:
        """What the force's line does not explain of the moment: M - F l [N m]."""
        return self.moment - self.force * self.lever


def instant_of(result: StanceResult, percent: float) -> Instant | None:
    """Return the knee and the force of a stance at an instant; None where the foot is unloaded.

    percent: of stance [%], between the recorded instants by straight lines.
    """
    curves = result.curves

    def at(values: Array) -> float:
        return float(np.interp(percent, curves.percent, values))

    if not math.isfinite(percent):
        return None
    forward, up = at(curves.force_forward), at(curves.force_up)
    pressure, knee = at(curves.pressure_x), at(curves.knee[:, 0])
    found = Instant(
        percent=percent,
        moment=at(curves.knee_flexion_moment),
        force=math.hypot(forward, up),
        lean=math.atan2(forward, up),
        ahead=knee - pressure,
        ankle_ahead=at(curves.ankle[:, 0]) - pressure,
        height=at(curves.knee[:, 1]),
    )
    return found if all(map(math.isfinite, vars(found).values())) else None


def parts_of_change(before: Instant, after: Instant) -> dict[str, float]:
    """Return what each cause adds to the change of the knee's moment [N m]; they add up to it.

    pressure: where the pressure lies under the knee; lean: how the force leans; height: of the
    knee; force: its size; rest: weight and inertia below the knee.

    >>> one = Instant(percent=20.0, moment=15.0, force=700.0, lean=0.0, ahead=0.02,
    ...     ankle_ahead=0.0, height=0.5)
    >>> other = Instant(percent=20.0, moment=8.0, force=700.0, lean=0.0, ahead=0.01,
    ...     ankle_ahead=0.0, height=0.5)
    >>> round(parts_of_change(one, other)["pressure"], 9)
    -7.0
    """

    def mean(name: str) -> float:
        return (float(getattr(before, name)) + float(getattr(after, name))) / 2.0

    def change(name: str) -> float:
        return float(getattr(after, name)) - float(getattr(before, name))

    cosines = math.cos(before.lean), math.cos(after.lean)
    sines = math.sin(before.lean), math.sin(after.lean)
    upright, leaning = sum(cosines) / 2.0, sum(sines) / 2.0
    force = mean("force")
    lean = mean("ahead") * (cosines[1] - cosines[0]) - mean("height") * (sines[1] - sines[0])
    return {
        "pressure": force * upright * change("ahead"),
        "lean": force * lean,
        "height": -force * leaning * change("height"),
        "force": mean("lever") * change("force"),
        "rest": change("rest"),
    }
