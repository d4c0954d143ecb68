"""A pose is where the limb's own geometry has the foot, and an alignment comes back from it."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from simgait.alignment import Alignment
from simgait.case import read_case
from simgait.library import models_folder
from simgait.limb import Limb, limb_of, sole_in_prosthesis
from simgait.parts.sole import solved_sole
from simgait.stance import simulate_stance
from simgait.transfer import Pose, transfer
from simgait.transfer.limb_pose import alignment_of_pose, pose_of_limb

CASES = models_folder() / "cases"


def limb(**changes: float) -> Limb:
    case = read_case(CASES / "everyday.toml")
    return limb_of(case, replace(case.baseline, **changes))


SETTINGS = [
    {},
    {"foot_forward": 0.02},
    {"dorsiflexion": 0.07},
    {"socket_flexion": 0.2},
    {"length_change": -0.015},
    {"foot_forward": -0.02, "dorsiflexion": -0.05, "socket_flexion": 0.0, "length_change": 0.02},
]


@pytest.mark.parametrize("changes", SETTINGS)
def test_the_sole_hangs_where_the_pose_puts_it(changes: dict[str, float]) -> None:
    own = limb(**changes)
    pose, elements = pose_of_limb(own), solved_sole(own.foot)
    points = np.array(elements.forward) + 1j * np.array(elements.up)
    turned = pose.forward - 1j * (pose.below + own.end_below_pivot)
    placed = turned + np.exp(1j * pose.turn) * points
    x, y = sole_in_prosthesis(own)
    assert placed.real == pytest.approx(x, abs=1e-12)
    assert placed.imag == pytest.approx(y, abs=1e-12)


@pytest.mark.parametrize("changes", SETTINGS)
def test_an_alignment_comes_back_from_its_pose(changes: dict[str, float]) -> None:
    own = limb(**changes)
    start = limb(socket_flexion=own.alignment.socket_flexion)
    back = alignment_of_pose(start, pose_of_limb(own))
    assert vars(back) == pytest.approx(vars(own.alignment), abs=1e-12)


def test_the_shoe_s_heel_moves_no_component() -> None:
    low, high = limb(heel_rise=0.0), limb(heel_rise=0.03)
    assert vars(pose_of_limb(low)) == pytest.approx(vars(pose_of_limb(high)), abs=1e-12)


def test_each_setting_moves_the_pose_in_its_own_sense() -> None:
    pose = pose_of_limb(limb())
    assert pose_of_limb(limb(foot_forward=0.01)).forward > pose.forward + 0.0098
    assert pose_of_limb(limb(length_change=0.01)).below > pose.below + 0.0098
    more = pose_of_limb(limb(dorsiflexion=0.05))
    assert more.turn - pose.turn == pytest.approx(0.05)
    assert (more.forward, more.below) == pytest.approx((pose.forward, pose.below))


def test_a_pose_beyond_every_alignment_is_refused() -> None:
    own = limb()
    pose = pose_of_limb(own)
    far = Pose(forward=pose.forward + 0.09, below=pose.below, turn=pose.turn)
    with pytest.raises(ValueError, match="foot_forward"):
        alignment_of_pose(own, far)


def test_what_the_error_changes_is_what_a_stance_at_that_alignment_gives() -> None:
    case = read_case(CASES / "heavy-worker.toml")
    made = transfer(case)
    for fitted in made.fitted:
        again = simulate_stance(limb_of(case, fitted.alignment))
        for name, change in made.changes(fitted).items():
            assert change == again.measures[name] - made.result.measures[name]
        kept = pose_of_limb(limb_of(case, fitted.alignment))
        chain = fitted.found.chain.pose
        assert vars(kept) == pytest.approx(vars(chain), abs=1e-12)


def test_without_a_unit_the_pose_is_that_of_the_alignment() -> None:
    case = read_case(CASES / "everyday.toml")
    made = transfer(case)
    assert made.unit is None
    assert made.limb.alignment == Alignment(**vars(case.baseline))
    assert math.isclose(made.pose.turn, pose_of_limb(limb_of(case, case.baseline)).turn)
