"""The bench alignment, in plain plane geometry and independent of the limb's own formulas."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from simgait.limb import Limb, sole_in_prosthesis
from simgait.parts.sole import solved_sole
from walkers import aligned, walker

FLEXIONS = (0.0, 5.0, 10.0, 15.0)  # [deg]


def on_the_bench(limb: Limb) -> dict[str, np.ndarray]:
    """Return the prosthesis' points in the room when its socket leans by its flexion [m]."""
    lean = limb.alignment.socket_flexion

    def room(forward: float, up: float) -> np.ndarray:
        return np.array(
            [
                forward * math.cos(lean) + up * math.sin(lean),
                up * math.cos(lean) - forward * math.sin(lean),
            ]
        )

    forward, up = sole_in_prosthesis(limb)
    return {
        "sole": np.array([room(a, b) for a, b in zip(forward, up, strict=True)]),
        "ankle": room(*limb.ankle),
        "knee": room(0.0, limb.pivot_below_knee),
        "brim": room(0.0, limb.socket_depth / 2.0),
        "end": room(0.0, -limb.end_below_pivot),
    }


def with_flexion(degrees: float) -> Limb:
    limb = walker("steady-transtibial")
    setting = replace(limb.alignment, socket_flexion=math.radians(degrees))
    return replace(limb, alignment=setting)


def sole_angle(limb: Limb) -> float:
    """Return the angle of the flat part of the sole to the floor, + toe up [deg]."""
    flat = np.abs(solved_sole(limb.foot).up + limb.foot.sole_height) < 1e-12
    points = on_the_bench(limb)["sole"][flat]
    run = points[-1] - points[0]
    return math.degrees(math.atan2(run[1], run[0]))


@pytest.mark.parametrize("degrees", FLEXIONS)
def test_the_sole_does_not_turn_with_the_socket(degrees: float) -> None:
    assert sole_angle(with_flexion(degrees)) == pytest.approx(-4.0, abs=1e-9)


def test_dorsiflexion_turns_the_toe_up_and_a_heel_as_much_as_its_wedge() -> None:
    limb = walker("steady-transtibial")
    assert sole_angle(aligned(limb, dorsiflexion=math.radians(7.0))) == pytest.approx(3.0)
    wedge = math.degrees(math.atan(0.010 / (0.70 * limb.foot.length)))
    assert sole_angle(aligned(limb, heel_rise=0.010)) == pytest.approx(-4.0 + wedge)


@pytest.mark.parametrize("degrees", FLEXIONS)
def test_the_foot_stays_under_the_socket_end_when_the_socket_is_tipped(degrees: float) -> None:
    here, bench = on_the_bench(with_flexion(degrees)), on_the_bench(with_flexion(5.0))
    gap = here["ankle"] - here["end"]
    assert gap[0] == pytest.approx((bench["ankle"] - bench["end"])[0], abs=1e-12)


def test_plumb_line_and_level_knee_on_the_bench() -> None:
    limb = walker("steady-transtibial")
    points = on_the_bench(limb)
    assert points["brim"][0] - points["ankle"][0] == pytest.approx(0.0315, abs=1e-12)
    upright = math.degrees(math.atan2(*(points["end"] - points["ankle"])))
    assert 0.0 < upright < 6.0  # the pylon leans but little
    height = points["knee"][1] - points["ankle"][1] + limb.foot.sole_height
    assert height == pytest.approx(limb.person.knee_height + limb.level_lift, abs=1e-12)


def test_foot_forward_and_length_move_the_ankle_by_as_much() -> None:
    limb = walker("steady-transtibial")
    before = on_the_bench(limb)["ankle"]
    assert on_the_bench(aligned(limb, foot_forward=0.012))["ankle"] - before == pytest.approx(
        [0.012, 0.0], abs=1e-12
    )
    assert on_the_bench(aligned(limb, length_change=0.012))["ankle"] - before == pytest.approx(
        [0.0, -0.012], abs=1e-12
    )
