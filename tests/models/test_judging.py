"""How a scene of tipping is judged, on instants made by hand."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from simgait.case import read_case
from simgait.engines.scene import Instant, Scene
from simgait.library import models_folder
from simgait.physics.scene import BODY_ANGLE
from simgait.standing import stand
from simgait.tipping.anatomy import RESIDUAL, SOUND_FOOT
from simgait.tipping.judging import Judge, beyond_feet, sole_ends
from simgait.tipping.names import BACKWARD, FOLDS, FORWARD, SLIDES, STAYS, STEPS
from simgait.tipping.playing import Stand, ready


@pytest.fixture(scope="module")
def made() -> Stand:
    return ready(stand(read_case(models_folder() / "cases" / "everyday.toml"))[0])


@pytest.fixture
def instant(made: Stand) -> Callable[..., Instant]:
    """Return what makes an instant of rest whose extrapolated centre is beyond the feet."""
    course = Scene(made.setting).play(lambda _: None, until=0.0)
    rest = (course.body[0], course.loads[0], course.given[0], course.aims[0], course.centre[0])

    def make(time: float, beyond: float | None, bent: float = 0.0) -> Instant:
        body, loads, given, aims, centre = (each.copy() for each in rest)
        body[RESIDUAL, BODY_ANGLE] -= bent
        slid = np.zeros(2)
        found = Instant(
            time=time, body=body, loads=loads, given=given, aims=aims, centre=centre, slid=slid
        )
        ends = [sole_ends(found, sole) for sole in made.setting.soles]
        if beyond is not None:
            end = max(each[1] for each in ends) if beyond > 0.0 else min(each[0] for each in ends)
            centre[3] = end + beyond
        return found

    return make


@pytest.fixture
def judge(made: Stand) -> Judge:
    limb = made.wearer.standing.stance.limb
    return Judge(
        setting=made.setting, habit=made.wearer.habit, leg_length=limb.leg_length, calm_after=1.0
    )


@pytest.mark.parametrize("beyond", [0.03, -0.03, -0.2])
def test_the_extrapolated_centre_is_measured_from_the_feet(
    made: Stand, instant: Callable[..., Instant], beyond: float
) -> None:
    found = beyond_feet(instant(0.0, beyond), made.setting.soles)
    assert found == pytest.approx(beyond, abs=1e-12)
    assert beyond_feet(instant(0.0, None), made.setting.soles) == 0.0


@pytest.mark.parametrize("lean", [0.0, 0.3])
def test_a_sole_reaches_from_its_heel_to_its_toe(
    made: Stand, instant: Callable[..., Instant], lean: float
) -> None:
    # By hand: the sound foot carries from a quarter of its length behind the ankle to 0.58 of it
    # ahead (0.83 in all), turned top forward by lean about its centre of mass.
    length, level = made.wearer.standing.stance.limb.person.foot_length, instant(0.0, None)
    level.body[SOUND_FOOT, BODY_ANGLE] = -lean
    axis = made.setting.bodies[SOUND_FOOT].placed(made.wearer.leg.ankle)
    sole = made.setting.soles[1]
    turned = float(sole.up[0]) * np.sin(lean) + level.body[SOUND_FOOT, 0]
    wanted = [turned + (axis[0] + share * length) * np.cos(lean) for share in (-0.25, 0.58)]
    assert sole_ends(level, sole) == pytest.approx(wanted, abs=1e-9)


# by the habit: a step takes 0.6 s and reaches 0.6 leg lengths, here 0.55 m
@pytest.mark.parametrize(
    ("beyond", "ending"), [(0.05, STEPS), (-0.3, STEPS), (0.8, FORWARD), (-0.8, BACKWARD)]
)
def test_a_step_is_judged_when_it_would_have_been_made(
    judge: Judge, instant: Callable[..., Instant], beyond: float, ending: str
) -> None:
    judged = [judge(instant(time, beyond)) for time in (0.2, 0.5, 0.79, 0.81)]
    assert judged == [None, None, None, ending]


def test_who_comes_back_over_the_feet_in_time_needs_no_step(
    judge: Judge, instant: Callable[..., Instant]
) -> None:
    times = ((0.2, 0.05), (0.7, None), (0.75, 0.05), (1.2, 0.05), (1.3, None), (2.35, None))
    assert [judge(instant(*each)) for each in times] == [None] * 5 + [STAYS]


def test_rest_counts_only_when_the_disturbance_is_over(
    judge: Judge, instant: Callable[..., Instant]
) -> None:
    assert judge(instant(0.9, None)) is None
    hurried = instant(1.1, None)
    hurried.centre[2] = 0.05
    assert judge(hurried) is None
    aside = instant(1.1, None)
    aside.centre[3] += 0.02
    assert judge(aside) is None
    assert judge(instant(1.1, None)) is None
    assert judge(instant(2.05, None)) is None  # not yet for as long as it takes to be sure
    assert judge(aside) is None
    assert judge(instant(2.2, None)) is None  # and then from the beginning
    assert judge(instant(3.25, None)) == STAYS


def test_a_knee_bent_as_far_as_none_comes_back_from_has_folded(
    judge: Judge, instant: Callable[..., Instant]
) -> None:
    assert judge(instant(0.5, None, bent=np.radians(29.0))) is None
    assert judge(instant(0.5, None, bent=np.radians(60.0))) == FOLDS


def test_a_foot_that_slid_away_has_slid(judge: Judge, instant: Callable[..., Instant]) -> None:
    found = instant(1.0, beyond=None)
    assert judge(found) != SLIDES
    found.slid[1] = 0.031
    assert judge(found) == SLIDES
