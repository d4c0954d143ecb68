"""The whole standing limb against a general-purpose engine's own hinges, springs and tendons."""

from __future__ import annotations

import pytest

from mujoco_stand import BENDS, law, standing_in_mujoco
from standers import FEET, stands

# What differs is the element's law, which MuJoCo has as chords (up to 0.15 N an element): when this
# was written at most 0.012 N m, 0.016 mm and 2.3e-4 of the load over all cases.
MOMENT, LINE, SHARE, FORCE = 0.03, 0.04, 6e-4, 0.4  # [N m], [mm], [1], [N]


@pytest.mark.parametrize("foot", FEET)
@pytest.mark.parametrize("change", ["as it is", "toe up", "foot back", "socket flexed"])
def test_the_limb_comes_to_rest_as_in_mujoco(foot: str, change: str) -> None:
    for way in stands(foot, change):
        rest, pose, measures = standing_in_mujoco(way), way.pose, way.measures
        load = rest.force.sum()
        line = 1000.0 * (rest.x @ rest.force / load - rest.knee[0])
        heel = rest.force[way.stance.pieces.along < 0.0].sum() / load
        assert load == pytest.approx(way.share * way.stance.limb.body_weight, abs=1e-3)
        assert rest.force == pytest.approx(pose.footing.force, abs=FORCE)
        assert heel == pytest.approx(measures["heel_share"], abs=SHARE)
        assert rest.knee_moment == pytest.approx(measures["knee_flexion_moment_nm"], abs=MOMENT)
        assert rest.socket_moment == pytest.approx(measures["socket_flexion_moment_nm"], abs=MOMENT)
        assert rest.hip_moment == pytest.approx(pose.hip_moment, abs=MOMENT)
        assert line == pytest.approx(measures["load_line_ahead_of_knee_mm"], abs=LINE)
        leans = (pose.thigh_lean, pose.residual_lean, pose.prosthesis_lean)
        assert rest.leans == pytest.approx(leans, abs=5e-5)


def test_the_chords_follow_the_law() -> None:
    # pressed deep, an element is a straight spring of its stiffness, shifted by twice the onset
    stiff = (law(1000.0, 1e-4)[-1] - law(1000.0, 1e-4)[-2]) / (BENDS[-1] - BENDS[-2])
    assert stiff == pytest.approx(1000.0, rel=1e-3)
