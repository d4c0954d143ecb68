"""Lessons: their numbers against the rooms below, and their words against their numbers."""

import math
from dataclasses import replace

import numpy as np
import pytest

from simgait.arm.geometry import excursion
from simgait.arm.lengths import level_moment, shoulder_inertia
from simgait.arm.lifting import FLEXIONS, lift, setting_of
from simgait.errors import CaseError, RangeError
from simgait.lessons import arm_numbers, machine_numbers
from simgait.lessons.lesson import WORK_FIGURES, Question
from simgait.lessons.shelf import LESSONS, read_lesson
from simgait.levers import Machine, Weight, effort_to_hold, work_ledger
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness
from simgait.symbols import BY_NAME

NAMES = tuple(LESSONS)
WORKING = [name for name in NAMES if LESSONS[name].ledger.kind == "work"]
LEGS = ("heel-lever", "toe-lever", "short-residual-limb")
IN_STEPS = ("pulley-block", "wheel-and-gears")  # controls that count


def at(name, setting):
    return LESSONS[name].values(setting)


@pytest.mark.parametrize("name", NAMES)
def test_words_and_figures_fit_together(name):
    lesson = LESSONS[name]
    keys = [figure.key for figure in lesson.figures]
    assert len(set(keys)) == len(keys) == len(lesson.values(lesson.control.start))
    assert set(lesson.places()) <= set(keys)
    assert set(lesson.shown) <= set(keys)
    assert {row.key for row in lesson.ledger.rows} <= set(keys)
    if lesson.ledger.kind == "work":
        assert set(keys) >= WORK_FIGURES
    assert lesson.control.start in lesson.control.settings()
    assert lesson.control.high == lesson.control.settings()[-1]
    replies = [each.reply for each in lesson.question.choices]
    assert len(set(replies)) == len(replies)


def test_a_name_stands_for_one_lesson():
    assert len(LESSONS) == 12
    titles = {lesson.title for lesson in LESSONS.values()}
    ideas = {lesson.idea for lesson in LESSONS.values()}
    assert len(titles) == len(ideas) == 12
    with pytest.raises(CaseError, match="nearest: screw"):
        read_lesson("scew")


def test_a_question_has_its_right_choice_among_three_or_four():
    choices = LESSONS["ramp"].question.choices
    with pytest.raises(RangeError):
        Question(words="?", choices=choices, right=3)
    with pytest.raises(RangeError):
        Question(words="?", choices=choices[:2], right=0)


@pytest.mark.parametrize("name", WORKING)
def test_no_setting_gives_more_than_it_gets_and_the_ledger_closes(name):
    lesson = LESSONS[name]
    for setting in lesson.control.settings():
        found = lesson.values(setting)
        assert found["work_in"] == pytest.approx(found["effort"] * found["effort_travel"])
        assert found["work_out"] == pytest.approx(found["load"] * found["load_travel"])
        assert found["lost"] == pytest.approx(found["work_in"] - found["work_out"])
        assert 0.0 < found["lost"] < found["work_in"]


@pytest.mark.parametrize("name", [name for name in WORKING if name != "loop-on-a-forearm"])
def test_a_stroke_is_that_of_a_machine(name):
    lesson = LESSONS[name]
    for setting in lesson.control.settings():
        found = lesson.values(setting)
        machine = Machine(
            motion_ratio=found["effort_travel"] / found["load_travel"],
            efficiency=found["work_out"] / found["work_in"],
        )
        ledger = work_ledger(machine, found["load"], found["load_travel"])
        assert machine.effort(found["load"]) == pytest.approx(found["effort"], rel=1e-12)
        assert ledger.loss == pytest.approx(found["lost"], rel=1e-9)


def test_bars_balance_their_moments():
    """With what the fork, the hinge or the rod loses taken out again."""
    fork = 0.9
    can = [Weight(force=machine_numbers.CAN_WEIGHT, arm=-fork)]
    held = -effort_to_hold(can, machine_numbers.POLE - fork)
    assert at("lever-first", fork)["effort"] * 0.95 == pytest.approx(held)
    sack = [Weight(force=machine_numbers.SACK_WEIGHT, arm=0.5)]
    assert at("lever-second", 0.5)["effort"] * 0.9 == pytest.approx(effort_to_hold(sack, 1.2))
    bag = [Weight(force=machine_numbers.BAG_WEIGHT, arm=0.33)]
    assert at("lever-third", 80)["effort"] * 0.85 == pytest.approx(effort_to_hold(bag, 0.08))


def test_a_ramps_pull_is_weight_and_friction_along_it():
    for plank in (1.0, 2.3, 4.0):
        angle = math.asin(0.5 / plank)
        pull = 245.25 * (math.sin(angle) + 0.25 * math.cos(angle))
        assert at("ramp", plank)["effort"] == pytest.approx(pull)


def test_a_pulleys_tensions_fall_from_strand_to_strand():
    for strands in range(1, 7):
        pull = at("pulley-block", strands)["effort"]
        assert sum(pull * 0.92**k for k in range(1, strands + 1)) == pytest.approx(117.72)


def the_arm(forearm):
    """Return the arm of the lesson on length, delivered and then changed."""
    given = arm_numbers
    arm = Arm(
        level="shoulder", forearm=given.FOREARM, upper_arm=given.UPPER_ARM,
        forearm_mass=given.SHELL_MASS, forearm_centre=given.SHELL_CENTRE,
        device_mass=given.HOOK_MASS, device_centre=given.FOREARM + given.HOOK_BEYOND,
        held_mass=0.0, tip=given.FOREARM + given.TIP_BEYOND, shoulder_flexion=0.0,
        flexion_from=0.0, flexion_to=2.0, upper_arm_mass=given.UPPER_MASS,
        upper_arm_centre=given.UPPER_CENTRE,
    )  # fmt: skip
    return arm.with_forearm(forearm - given.FOREARM)


@pytest.mark.parametrize("forearm_mm", [180, 225, 255, 280])
def test_the_arms_length_is_that_of_the_room_of_arms(forearm_mm):
    arm, found = the_arm(forearm_mm / 1000.0), at("arm-length", forearm_mm)
    assert found["moment"] == pytest.approx(level_moment(arm), rel=1e-12)
    assert found["inertia"] == pytest.approx(shoulder_inertia(arm), rel=1e-12)
    assert found["reach"] == pytest.approx(arm.upper_arm + arm.tip, rel=1e-12)


@pytest.mark.parametrize("loop_mm", [20, 36, 50, 70])
def test_the_loops_lift_is_that_of_the_room_of_arms(loop_mm):
    given, loop = arm_numbers, loop_mm / 1000.0
    arm = replace(
        the_arm(given.FOREARM), level="upper_arm", flexion_from=given.FLEXION_FROM,
        flexion_to=given.FLEXION_TO, forearm_mass=given.FOREARM_WEIGHT / given.GRAVITY,
        forearm_centre=given.FOREARM_CENTRE, device_mass=0.0,
    )  # fmt: skip
    cable = Cable(
        guide=given.GUIDE, guide_offset=0.0, loop_offset=0.0, bends=(), friction=None,
        efficiency=given.HOUSING, pulley=1.0, assist=(0.0,), assist_at=(0.0,),
        device_action="opens", device_excursion=None, device_pull=None, device_start_pull=None,
    )  # fmt: skip
    harness = Harness(
        max_pull=300.0, max_excursion=0.2, fatigue_free_share=0.2, excursions=(), pulls=()
    )
    curves = lift(setting_of(arm, cable, harness, given.GUIDE, loop))
    found = at("loop-on-a-forearm", loop_mm)
    assert found["work_in"] == pytest.approx(curves.work[0], rel=30.0 / FLEXIONS**2)
    assert found["effort_travel"] == pytest.approx(curves.drawn[0, -1], rel=1e-12)
    ends = (given.FLEXION_FROM, given.FLEXION_TO)
    assert found["effort_travel"] == pytest.approx(
        float(excursion(*ends, guide=given.GUIDE, loop=loop)), rel=1e-12
    )
    level = int(np.argmin(np.abs(curves.flexion - given.LEVEL)))
    assert found["pull"] == pytest.approx(curves.pull[0, level], rel=0.01)


def test_what_the_machines_words_claim():
    third = at("lever-first", 0.75)  # your side three times the can's
    assert third["ratio"] == 3.0 and third["effort_travel"] == pytest.approx(1.2)
    assert third["effort"] == pytest.approx(at("lever-first", 1.5)["effort"] / 3.0)
    half = at("lever-second", 0.6)
    assert f"{100.0 * half['share']:.0f}%" == "56%"
    quarter = LESSONS["lever-third"].numbers(machine_numbers.BAG_PLACE / 4.0)
    assert 4.0 < quarter[-1] < 5.0
    four = at("pulley-block", 4)
    assert (round(four["effort"]), round(four["ideal"])) == (36, 29)
    assert four["effort_travel"] == pytest.approx(2.4)
    one = at("pulley-block", 1)
    assert one["branch"] > 2.0 * one["load"]
    small, large = at("wheel-and-gears", 12), at("wheel-and-gears", 48)
    assert large["rise"] == pytest.approx(small["rise"] / 4.0)
    assert large["effort"] == pytest.approx(small["effort"] / 4.0)
    assert large["work_in"] == pytest.approx(small["work_in"])


def test_what_the_slopes_words_claim():
    assert at("ramp", 3.0)["work_in"] > at("ramp", 1.5)["work_in"]
    assert at("ramp", 3.0)["effort"] > 0.5 * at("ramp", 1.5)["effort"]
    for plank in LESSONS["ramp"].control.settings():
        found = at("ramp", plank)
        if abs(math.degrees(found["slope"]) - 14.0) > 0.2:
            assert bool(found["rests"]) is (math.degrees(found["slope"]) < 14.0)
    assert 0.23 < at("screw", 1.5)["share"] < 0.27
    assert 0.55 < at("screw", 8.0)["share"] < 0.65
    assert round(1000.0 * math.pi * machine_numbers.THREAD_DIAMETER) == 28
    for lead in LESSONS["screw"].control.settings():
        if abs(lead - 4.2) > 0.05:
            assert bool(at("screw", lead)["stays"]) is (lead < 4.2)


def test_what_the_arms_words_claim():
    near, far = at("loop-on-a-forearm", 25), at("loop-on-a-forearm", 50)
    assert far["work_in"] == pytest.approx(near["work_in"])
    assert 0.5 < far["pull"] / near["pull"] < 0.6
    assert 1.7 < far["effort_travel"] / near["effort_travel"] < 2.0
    assert near["opens"] and not far["opens"]
    long, short = at("arm-length", 255), at("arm-length", 210)
    assert 0.09 < 1.0 - short["moment"] / long["moment"] < 0.12
    assert 0.16 < 1.0 - short["inertia"] / long["inertia"] < 0.18
    assert not long["holds"] and short["holds"]


def test_what_the_legs_words_claim():
    back, start, ahead = (at("heel-lever", shift) for shift in (-10, 0, 10))
    early, late = "knee_flexion_moment_peak_nm", "knee_extension_moment_peak_nm"
    for name, sign in (("heel_lever_mm", 1), (early, 1), ("forward_thrust", 1), (late, -1)):
        assert sign * (back[name] - start[name]) > 0.0 > sign * (ahead[name] - start[name])
    short, usual = at("toe-lever", 120), at("toe-lever", 150)
    assert short[late] < usual[late] and short["drop_off"] > 1.3 * usual["drop_off"]
    assert short[early] == pytest.approx(usual[early], rel=0.05)
    stump, limb = at("short-residual-limb", 90), at("short-residual-limb", 150)
    assert (stump["depth_mm"], limb["depth_mm"]) == pytest.approx((70.0, 130.0))
    moment = "socket_extension_moment_peak_nm"
    assert 0.88 < stump[moment] / limb[moment] < 1.0
    assert 1.5 < stump["socket_couple_force_n"] / limb["socket_couple_force_n"] < 130.0 / 70.0
    assert stump[late] == pytest.approx(limb[late], rel=0.05)
    for found in (stump, limb):
        couple = 1000.0 * found[moment] / found["depth_mm"]
        assert found["socket_couple_force_n"] == pytest.approx(couple)


@pytest.mark.parametrize("name", LEGS)
def test_a_leg_lessons_figures_have_the_units_of_their_measures(name):
    measures = [figure for figure in LESSONS[name].figures if figure.key in BY_NAME]
    assert len(measures) >= 4
    assert all(figure.unit == BY_NAME[figure.key].unit for figure in measures)


@pytest.mark.parametrize("name", IN_STEPS)
def test_what_is_counted_moves_by_whole_numbers(name):
    settings = LESSONS[name].control.settings()
    assert all(setting == int(setting) for setting in settings)
    with pytest.raises(RangeError):
        LESSONS[name].numbers(0.5)
