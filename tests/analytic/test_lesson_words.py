"""What the lessons say in words, against the closed forms at every setting of their control."""

import math

import pytest

from simgait.arm.geometry import cable_length, lever_arm
from simgait.lessons import arm_numbers as arm
from simgait.lessons import machine_numbers as machine
from simgait.lessons.shelf import LESSONS

SCREW, LOOP = LESSONS["screw"], LESSONS["loop-on-a-forearm"]


def told(lesson):
    """Return all that a lesson says after the prediction."""
    teacher = lesson.teacher
    return " ".join([lesson.idea, *lesson.explanation, lesson.ledger.note, *teacher.left_out])


def test_a_loop_near_or_far_the_pull_is_largest_at_the_start_of_the_lift():
    angles = [math.radians(degrees) for degrees in range(10, 136)]
    for millimetres in LOOP.control.settings():
        place = {"guide": arm.GUIDE, "loop": millimetres / 1000.0}
        moments = [arm.FOREARM_WEIGHT * arm.FOREARM_CENTRE * math.sin(each) for each in angles]
        levers = [float(lever_arm(each, **place)) for each in angles]
        pulls = [moment / lever for moment, lever in zip(moments, levers, strict=True)]
        assert pulls == sorted(pulls, reverse=True)
        lengths = [float(cable_length(each, **place)) for each in angles]
        assert pulls[-1] / pulls[0] == pytest.approx(lengths[-1] / lengths[0])  # in step with it
    assert "largest at the start" in told(LOOP) and "largest at its end" not in told(LOOP)


def test_a_screw_that_stays_loses_more_than_half_and_no_word_says_so_of_one_that_runs_back():
    stay = []
    for lead in SCREW.control.settings():
        values = SCREW.values(lead)
        if values["stays"]:
            assert values["share"] < 0.5
            stay.append(lead)
    assert 0 < len(stay) < len(SCREW.control.settings())
    limit = 1000.0 * math.pi * machine.THREAD_DIAMETER * machine.THREAD_FRICTION
    assert f"{limit:.1f} mm" in told(SCREW) and max(stay) <= limit < max(stay) + SCREW.control.step
    for words in told(SCREW).split(". "):  # a sentence with the outcome claims nothing of holding
        assert not ("{stays}" in words and ("Bought" in words or "holds the tank" in words))


def test_the_short_limbs_forces_grow_as_its_answer_says():
    values = [LESSONS["short-residual-limb"].values(each) for each in (150.0, 90.0)]
    reply = LESSONS["short-residual-limb"].question.choices[3].reply
    grown = values[1]["socket_couple_force_n"] / values[0]["socket_couple_force_n"]
    lever = values[0]["depth_mm"] / values[1]["depth_mm"]
    assert f"{grown:.2f} times remain" in reply and f"{lever:.2f} times" in reply
