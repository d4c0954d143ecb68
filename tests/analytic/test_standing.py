"""Standing against closed forms, a general-purpose engine, and a library's root finder."""

from __future__ import annotations

import math
from dataclasses import replace

import mujoco
import numpy as np
import pytest
from scipy.optimize import brentq

from mujoco_chain import built, ground_load, joint_loads
from simgait.limb import limb_columns
from simgait.parts.sole import sole_profile
from simgait.physics import layout as rows
from simgait.standing.footing import settled
from simgait.standing.loading import Loading, level, on_slope, pushed
from simgait.standing.outline import outline
from simgait.standing.posture import Stance, flat_lean, lean_over, stood
from simgait.standing.result import pelvic_tilt, stance_of, standing
from simgait.standing.roots import root_between
from standers import ENDLESS, aligned, stander, stiffened, tips


@pytest.mark.parametrize(
    "function",
    [
        lambda x: x**3 - 2.0,
        lambda x: math.exp(x) - 3.0,
        lambda x: math.atan(1e6 * (x - 0.7)),
        lambda x: -1.0 if x < 1.23456789 else 1.0,
        lambda x: max(x - 0.3, 0.0) ** 3 - 1e-6,
    ],
)
def test_roots_are_those_of_a_library(function) -> None:
    assert root_between(function, 0.0, 2.0) == pytest.approx(brentq(function, 0.0, 2.0), abs=1e-9)


def test_no_root_is_refused() -> None:
    with pytest.raises(ValueError, match="change of sign"):
        root_between(lambda x: x * x + 1.0, -1.0, 1.0)


# ---- the sole ---------------------------------------------------------------------------------


@pytest.mark.parametrize("lean", [-0.1, 0.0, 0.2])
def test_the_sole_carries_what_it_is_given(lean: float) -> None:
    pieces = stance_of(stander(), ENDLESS, 1.0).pieces
    foot = settled(pieces, 700.0, lean)
    assert foot.force.sum() == pytest.approx(700.0, rel=1e-9)
    assert foot.force.min() >= 0.0
    assert foot.pressure == pytest.approx(foot.force @ foot.points[:, 0] / 700.0, abs=1e-12)
    behind = sum(force for force, at in zip(foot.force, pieces.along, strict=True) if at < 0.0)
    assert foot.heel_share == pytest.approx(behind / 700.0, rel=1e-9)
    untouched = foot.points[:, 1] + foot.height > 1e-12
    assert np.all(foot.force[untouched] == 0.0)


PLANK = """
<mujoco>
  <option gravity="0 0 0" timestep="0.0005" integrator="implicitfast"/>
  <worldbody>
    <body name="foot">
      <joint name="up" type="slide" axis="0 0 1" damping="400"/>
      <joint name="lean" type="hinge" axis="0 1 0" damping="4"/>
      <inertial pos="0 0 0" mass="5" diaginertia="0.05 0.05 0.05"/>
      <site name="load" pos="{place} 0 0"/>
    </body>
  </worldbody>
</mujoco>
"""


def mujoco_forces(x: np.ndarray, stiffness: np.ndarray, load: float, place: float) -> np.ndarray:
    """Return the forces of springs under a plank at rest, from MuJoCo's dynamics [N].

    The springs stand upright under points of the plank, push and never pull; the load hangs at
    ``place`` [m].
    """
    model = mujoco.MjModel.from_xml_string(PLANK.format(place=place))
    data = mujoco.MjData(model)
    forces = np.zeros(len(x))
    for _ in range(6000):
        up, lean = data.qpos
        sunk = -(up - x * math.sin(lean))
        forces = stiffness * np.maximum(sunk, 0.0)
        data.qfrc_applied[0] = forces.sum() - load
        data.qfrc_applied[1] = math.cos(lean) * (load * place - forces @ x)
        mujoco.mj_step(model, data)
    assert np.abs(data.qvel).max() < 1e-6
    return forces


def test_a_plank_on_springs_is_loaded_as_in_mujoco() -> None:
    # A flat sole whose elements come up at once is a plank on plain springs: a general-purpose
    # engine lets it come to rest under a load at one place. It knows nothing of leans or brackets.
    stance = stiffened(stander(), 1.0)
    pieces = replace(stance.pieces, onset=1e-9, forward=stance.pieces.along.copy())
    pieces = replace(pieces, up=np.full(len(pieces.along), -0.09), rise=0.0)
    stance = replace(stance, pieces=pieces, place=0.060)
    lean = lean_over(stance, level(600.0))
    foot = settled(pieces, 600.0, lean)
    reference = mujoco_forces(pieces.along, pieces.stiffness, 600.0, 0.060)
    assert foot.force == pytest.approx(reference, abs=600.0 * 2e-3)


# ---- the limb above ---------------------------------------------------------------------------


@pytest.mark.parametrize("toe_down", [0.0, math.radians(8.0)])
@pytest.mark.parametrize(
    "loading", [level(400.0), on_slope(780.0, 0.1), on_slope(500.0, -0.2), pushed(785.0, 0.05)]
)
def test_moments_are_those_of_mujoco(loading: Loading, toe_down: float) -> None:
    # The chain of test_chain_in_mujoco at rest in the pose, gravity turned as the floor is: the
    # moments that hold it still, from MuJoCo's inverse dynamics. With the toe far down the knee is
    # at its stop and the hip bears a moment too.
    limb = aligned(stander(), dorsiflexion=-toe_down)
    pose, _ = stood(stance_of(limb, ENDLESS, 1.0), loading)
    columns = limb_columns(limb)
    state = columns.state.copy()
    state[: rows.WORK_HIP] = 0.0
    state[rows.HIP_X], state[rows.HIP_Y] = pose.hip
    state[rows.THIGH] = pose.thigh_lean
    state[rows.RESIDUAL] = pose.residual_lean
    state[rows.PROSTHESIS] = pose.prosthesis_lean
    model, data = built(replace(columns, state=state))
    model.opt.gravity[:] = (loading.gravity_along, 0.0, loading.gravity_up)
    force = (loading.along, loading.normal)
    data.qacc[:] = 0.0
    mujoco.mj_inverse(model, data)
    needed = data.qfrc_inverse - ground_load(model, data, force, pose.footing.pressure)
    # Muscles give what floor and weights take: turning the thigh's top forward for the hip, and
    # against bending for the knee; the socket's spring is in MuJoCo's model and needs nothing.
    muscles = joint_loads(pose.hip_moment, -pose.knee_moment, 0.0, 0.0)
    assert needed[2:] == pytest.approx(muscles[2:], abs=1e-6)
    assert toe_down == 0.0 or loading.slope > 0.0 or abs(pose.hip_moment) > 1.0


def test_weightless_the_hip_stands_over_the_load() -> None:
    # Without weight below it, a hip without moment lies on the line of the floor's force, and the
    # knee's moment is force times lever.
    stance = stance_of(stander(), ENDLESS, 1.0)
    light = replace(stance.pieces, thigh_mass=0.0, residual_mass=0.0, prosthesis_mass=0.0)
    stance = replace(stance, pieces=light)
    for loading in (level(500.0), on_slope(500.0, 0.12)):
        pose, _ = stood(stance, loading)
        assert pose.line_ahead_of(pose.hip) == pytest.approx(0.0, abs=1e-9)
        lever = -pose.line_ahead_of(pose.knee)
        assert pose.knee_moment == pytest.approx(loading.normal * lever, abs=1e-6)


def test_a_hip_that_nothing_stops_bears_no_moment_on_any_slope() -> None:
    stance = stance_of(stander(), ENDLESS, 1.0)
    straightest = -stance.habit.knee_past_straight
    for slope in (-0.15, 0.0, 0.15):
        poses = [stance.pose(on_slope(600.0, slope), lean) for lean in (0.0, 0.1, 0.2, 0.3)]
        free = [pose for pose in poses if pose.knee_flexion > straightest + 1e-6]
        assert free and max(abs(pose.hip_moment) for pose in free) < 1e-9


def test_what_is_drawn_of_a_standing_limb_has_its_lengths() -> None:
    found = standing(stance_of(stander(), ENDLESS, 1.0), 1.0)
    limb, drawn = found.stance.limb, outline(found)
    half = limb.socket_depth / 2.0
    for one, other, apart in (
        (drawn.hip, drawn.knee, limb.person.thigh_length),
        (drawn.knee, drawn.limb_end, limb.pivot_below_knee + half),
        (drawn.brim, drawn.socket_end, half + limb.end_below_pivot),
    ):
        assert float(np.hypot(*(one - other))) == pytest.approx(apart, abs=1e-12)
    assert drawn.toe_end - drawn.pressure == pytest.approx(limb.foot.toe_lever - found.pose.place)
    assert drawn.pressure - drawn.heel_end == pytest.approx(found.pose.place + limb.foot.heel_lever)


def test_the_slope_turns_the_room_and_nothing_else() -> None:
    # On a slope of 3 in 4 the floor's force points straight up in the room and gravity straight
    # down: turned back by the slope, neither has a part along the room's floor.
    loading = on_slope(500.0, math.atan(0.75))
    assert loading.slope == pytest.approx(math.atan(0.75))
    for along, square, size in (
        (loading.along, loading.normal, 500.0),
        (loading.gravity_along, loading.gravity_up, -9.81),
    ):
        ahead, up = 0.8 * along + 0.6 * square, 0.8 * square - 0.6 * along
        assert (ahead, up) == pytest.approx((0.0, size), abs=1e-9)


# ---- tipping ----------------------------------------------------------------------------------


def height_of(stance: Stance) -> float:
    """Return the height of the body's centre, by hand: 0.55 of stature in the shoe [m]."""
    return 0.55 * stance.limb.person.stature + stance.limb.sound_lift


@pytest.mark.parametrize("sense", [1.0, -1.0])
@pytest.mark.parametrize("disturbance", ["slope", "push"])
def test_a_stiff_limb_tips_over_the_end_of_its_sole(sense: float, disturbance: str) -> None:
    # Statics of a rigid body on a flat sole: slope = atan(lever / height), push = weight x lever /
    # height. The lever runs to the last element of the sole, where the strip can still carry.
    def excess(factor: float) -> float:
        stance = stiffened(stander(), factor)
        along = stance.pieces.along
        end = float(along[-1] if sense > 0.0 else along[0])
        lever = abs(end - stance.place)
        limit = tips(stance, sense, disturbance)
        return abs(limit.ratio - lever / height_of(stance)) / (lever / height_of(stance))

    gaps = [excess(factor) for factor in (1.0, 10.0, 100.0, 1000.0)]
    assert gaps == sorted(gaps, reverse=True)
    assert gaps[-1] < 2e-3
    assert tips(stiffened(stander(), 1000.0), sense, disturbance).reason == "sole_end"


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_a_stiff_limb_slides_at_the_angle_of_friction(sense: float) -> None:
    stance = stiffened(replace(stander(), friction=0.03), 1000.0)
    limit = tips(stance, sense, "slope")
    assert limit.reason == "slides"
    assert math.atan(limit.ratio) == pytest.approx(math.atan(0.03), rel=1e-3)


@pytest.mark.parametrize("sense", [1.0, -1.0])
def test_two_stiff_feet_tip_over_both_ends(sense: float) -> None:
    # Levers of both feet, weighed by what each carries. The sound foot carries from a quarter of
    # its length behind the ankle to a share of it; its load line is where the other's is.
    stance = stiffened(stander(), 1000.0)
    own = float(stance.pieces.along[-1 if sense > 0.0 else 0])
    foot, habit = stance.limb.person.foot_length, stance.habit
    other = (habit.sound_effective_length - 0.25 if sense > 0.0 else -0.25) * foot
    lever = 0.4 * abs(own - stance.place) + 0.6 * abs(other - stance.place)
    limit = tips(stance, sense, "push", 0.4)
    assert limit.ratio == pytest.approx(lever / height_of(stance), rel=3e-3)


def test_a_weak_knee_ends_it_sooner() -> None:
    strong = stance_of(stander(), ENDLESS, 1.0)
    weak = replace(strong, strength=replace(ENDLESS, knee=0.4))
    sooner, later = tips(weak, 1.0, "push"), tips(strong, 1.0, "push")
    assert sooner.reason == "knee_gives_way"
    assert sooner.ratio < 0.7 * later.ratio


def test_the_knee_gives_way_on_the_very_slope_that_is_told() -> None:
    # Put on that slope, with the load where it is said to be, the knee needs all of its strength.
    weak = replace(stance_of(stander(), ENDLESS, 1.0), strength=replace(ENDLESS, knee=0.4))
    limit = tips(weak, 1.0, "slope")
    assert limit.reason == "knee_gives_way"
    there = replace(weak, place=limit.place)
    loading = on_slope(weak.limb.body_weight, math.atan(limit.ratio))
    effort = there.knee_effort(there.pose(loading, lean_over(there, loading)))
    assert effort == pytest.approx(1.0, abs=1e-5)


def test_flat_is_flat() -> None:
    # the lean that counts as flat lays the sole on the floor as its foot was built
    for tilt in (-0.1, 0.0, 0.15):
        limb = stander()
        limb = replace(limb, alignment=replace(limb.alignment, dorsiflexion=tilt))
        pieces = stance_of(limb, ENDLESS, 1.0).pieces
        lean = flat_lean(pieces)
        heights = pieces.up * math.cos(lean) - pieces.forward * math.sin(lean)
        _, rise = sole_profile(limb.foot)
        assert heights - heights.min() == pytest.approx(rise, abs=1e-9)


def test_pelvic_tilt_is_the_arc_of_a_sine() -> None:
    assert math.sin(pelvic_tilt(0.02, 0.185)) * 0.185 == pytest.approx(0.02, abs=1e-15)
