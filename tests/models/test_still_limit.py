"""Stance without a walk is standing: the two mechanics must agree in the limit of no speed.

The kernel's equations of motion know nothing of `simgait.standing`, which solves statics by root
finding. Told to hold a standing pose, dropped from above the floor and left alone for six seconds,
the same limb must come to rest in that pose, under the same loads.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest

from simgait.standing import Standing, stand_limb
from standers import CHANGES, ENDLESS, FEET, aligned, stander, stands
from still_walkers import FIRM, gaps, held_still, settled_stances

# What is left after six seconds is a motion that dies away: at most 5e-5 N m, 8e-5 N, 2e-5 mm and
# 2e-4 mm/s over all 84 stances when this was written. The bound leaves room for another processor's
# rounding, and is a ten-thousandth of the moments, which are some 10 N m.
AT_REST = 1e-3  # [N], [N m], [mm], [mm/s]
# The place is read between elements that lie 8 mm apart and are not quite in line, here only: up
# to 0.11 mm were seen.
BETWEEN_ELEMENTS = 0.2  # [mm]


def is_standing(ways: Sequence[Standing]) -> None:
    """Assert that the kernel comes to rest as each of some ways of standing says."""
    results = settled_stances(ways, held_still(ways))
    for result, way in zip(results, ways, strict=True):
        assert result.ending == "step_limit"  # neither fell nor left the floor: it stood to the end
        assert result.curves.force_up[0] == 0.0  # and it began above the floor
        for name, gap in gaps(result, way).items():
            allowed = BETWEEN_ELEMENTS if name.startswith("place") else AT_REST
            assert abs(gap) < allowed, f"{name}: {gap}"


@pytest.mark.parametrize("foot", FEET)
def test_a_stance_without_speed_is_standing(foot: str) -> None:
    is_standing([way for change in CHANGES for way in stands(foot, change)])


def test_so_it_is_with_the_knee_at_its_stop_and_the_hip_at_work() -> None:
    # With the toe far down ligaments hold the knee, and the hip bears a moment.
    ways = stand_limb(aligned(stander(), dorsiflexion=-math.radians(8.0)), ENDLESS)
    assert max(abs(way.pose.hip_moment) for way in ways) > 5.0
    is_standing(ways)


def test_what_a_yielding_wearer_misses_goes_with_the_stiffness() -> None:
    # With the standing pose itself as reference, hip and knee yield by moment / stiffness before
    # they carry; what that changes must halve when the stiffness doubles, and go to nothing.
    ways = [way for change in ("as it is", "toe up", "foot back") for way in stands("firm", change)]

    def missed(firm: float) -> list[dict[str, float]]:
        results = settled_stances(ways, held_still(ways, firm=firm, meet=False))
        return [gaps(result, way) for result, way in zip(results, ways, strict=True)]

    once, twice, fourfold = (missed(times * FIRM) for times in (1.0, 2.0, 4.0))
    for name in ("knee moment [N m]", "socket moment [N m]", "line ahead of knee [mm]"):
        for first, second, third in zip(once, twice, fourfold, strict=True):
            assert abs(third[name]) < abs(second[name]) < abs(first[name])
            left = third[name] - (second[name] - third[name])  # Richardson, order one
            assert abs(left) < 0.1 * abs(first[name]) + AT_REST
            assert math.isclose(second[name] / third[name], 2.0, rel_tol=0.15)
