"""Arms of the library in motion: what is lifted, what swings, and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from arms import arm, cable
from simgait.arm.geometry import cable_length
from simgait.arm.lengths import hanging_moment, shoulder_inertia, swing_period
from simgait.arm.links import bent_arm, forearm_link
from simgait.arm.moving import PullHistory, lift_arm, swing_arm, usual_history
from simgait.arm.pose import arm_pose
from simgait.arm.running import work_arm
from simgait.case.arm_case import read_arm_case
from simgait.errors import RangeError
from simgait.library import models_folder

PLACE = {"guide": 0.075, "loop": 0.038}
WHOLE = arm(upper_arm_mass=0.6, upper_arm_centre=0.2)


@pytest.mark.parametrize("flexion", [0.0, 0.7, 2.3])
def test_links_weigh_and_turn_as_the_lengths_have_it(flexion: float) -> None:
    whole, rest = bent_arm(WHOLE, flexion)
    assert whole.inertia_about_joint == pytest.approx(shoulder_inertia(WHOLE, flexion))
    hanging = whole.mass * 9.81 * math.hypot(*whole.centre)
    assert hanging == pytest.approx(hanging_moment(WHOLE, flexion, 9.81))
    along, front = whole.centre
    assert along * math.sin(rest) + front * math.cos(rest) == pytest.approx(0.0, abs=1e-15)
    assert forearm_link(WHOLE).mass * forearm_link(WHOLE).centre[0] * 9.81 == pytest.approx(
        WHOLE.weight_moment(9.81)
    )


@pytest.mark.parametrize("flexion", [0.0, 1.2])
def test_a_small_swing_takes_the_period_of_the_lengths(flexion: float) -> None:
    rest = bent_arm(WHOLE, flexion)[1]
    swung = swing_arm(
        WHOLE, cable(), **PLACE, lean=rest + 0.03, flexion=flexion, elbow_locked=True
    )  # fmt: skip
    wanted = swing_period(shoulder_inertia(WHOLE, flexion), hanging_moment(WHOLE, flexion))
    assert swung.small_period == pytest.approx(wanted)
    assert swung.period == pytest.approx(wanted, rel=3e-4)
    assert swung.energy_drift < 1e-5


def test_a_free_elbow_swings_too_and_keeps_its_energy() -> None:
    swung = swing_arm(WHOLE, cable(), **PLACE, lean=0.6, flexion=0.5, elbow_locked=False)
    assert np.ptp(swung.flexion) > 0.3
    assert swung.energy_drift < 2e-3
    assert math.isnan(swung.period)
    with pytest.raises(RangeError, match="upper_arm_mass"):
        swing_arm(arm(), cable(), **PLACE, lean=0.6, flexion=0.5, elbow_locked=False)


@pytest.mark.parametrize("name", ["above-elbow", "shoulder-level"])
def test_the_usual_pull_lifts_the_library_s_arms(name: str) -> None:
    result = work_arm(read_arm_case(models_folder() / "cases" / "arms" / f"{name}.toml"), 0)
    best = result.positions[result.recommended or 0]
    place = {"guide": best.guide, "loop": best.loop}
    history = usual_history(best.peak_pull)
    lifted = lift_arm(result.arm, result.cable, history, **place)
    assert lifted.ending == "lifted"
    assert 0.1 < lifted.time_to_end < 2.0
    assert 0.0 < lifted.overshoot < math.radians(15.0)
    assert lifted.error_percent < 0.05
    given = lifted.harness_work + lifted.assist_work
    assert given == pytest.approx(
        lifted.load_gain + lifted.housing_loss + lifted.stop_loss, rel=1e-3
    )
    rising = lifted.track.rate > 1.0
    through = lifted.track.tension[rising] / lifted.track.pull[rising]
    assert through == pytest.approx(result.cable.share_through * result.cable.pulley)
    # a slow lift's peak pull is just what a pull must exceed to get there
    weak = PullHistory(times=(0.0, 2.0), pulls=(0.0, 0.5 * best.peak_pull))
    assert lift_arm(result.arm, result.cable, weak, **place).ending != "lifted"


def test_endings_tell_how_far_it_came() -> None:
    nothing = lift_arm(arm(), cable(), PullHistory(times=(0.0,), pulls=(0.0,)), **PLACE, until=0.5)
    assert nothing.ending == "stays_down"
    assert math.isnan(nothing.time_to_end)
    assert nothing.overshoot == 0.0
    burst = PullHistory(times=(0.0, 0.1, 0.2, 0.21), pulls=(0.0, 70.0, 70.0, 0.0))
    assert lift_arm(arm(), cable(), burst, **PLACE, until=0.5).ending == "part_way"


def test_more_pull_lifts_sooner_and_farther_into_the_stop() -> None:
    slow, quick = (
        lift_arm(arm(), cable(), PullHistory(times=(0.0, 0.5), pulls=(0.0, pull)), **PLACE)
        for pull in (70.0, 90.0)
    )
    assert quick.time_to_end < slow.time_to_end
    assert quick.overshoot > slow.overshoot > 0.0
    assert quick.peak_tip_speed > slow.peak_tip_speed


def test_the_lever_is_drawn_square_to_the_cable() -> None:
    offsets = cable(guide_offset=0.012, loop_offset=-0.008)
    flexion = np.linspace(0.3, 2.2, 7)
    pose = arm_pose(arm(shoulder_flexion=0.4), offsets, flexion, **PLACE)
    bar, line = pose.lever_foot - pose.elbow, pose.guide - pose.loop
    assert np.sum(bar * line, axis=1) == pytest.approx(np.zeros(7), abs=1e-15)
    assert np.hypot(*bar.T) == pytest.approx(np.abs(pose.lever))
    wanted = cable_length(
        flexion, **PLACE, guide_offset=offsets.guide_offset, loop_offset=offsets.loop_offset
    )
    assert np.hypot(*line.T) == pytest.approx(wanted)
    assert np.hypot(*(pose.tip - pose.elbow).T) == pytest.approx(np.full(7, arm().tip))


@pytest.mark.parametrize(
    "fault",
    [
        lambda: PullHistory(times=(), pulls=()),
        lambda: PullHistory(times=(0.1,), pulls=(1.0,)),
        lambda: PullHistory(times=(0.0, 0.0), pulls=(1.0, 2.0)),
        lambda: PullHistory(times=(0.0, 1.0), pulls=(1.0,)),
        lambda: PullHistory(times=(0.0,), pulls=(-1.0,)),
        lambda: usual_history(math.nan),
        lambda: lift_arm(arm(level="forearm"), cable(), usual_history(40.0), **PLACE),
        lambda: lift_arm(arm(), cable(), usual_history(40.0), **PLACE, until=0.0),
        lambda: lift_arm(
            arm(forearm_mass=0.0, device_mass=0.0), cable(), usual_history(1.0), **PLACE
        ),
        lambda: swing_arm(WHOLE, cable(), **PLACE, lean=9.0, flexion=0.0, elbow_locked=True),
    ],
)
def test_what_cannot_be_is_refused(fault) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(RangeError):
        fault()
