"""[goal], [adjust] and [seen]: what is accepted, and how what is wrong is refused."""

import math

import pytest

from advised import case_with_tables, text_with_tables
from simgait.advice.axes import axes_of
from simgait.case import case_of_text
from simgait.errors import CaseError
from simgait.units import degrees_from_radians


def faults(tables):
    with pytest.raises(CaseError) as refusal:
        case_of_text(text_with_tables("everyday", tables), "case.toml")
    return [fault.message() for fault in refusal.value.faults]


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        ("goal = 3", "goal = 3 is not a table"),
        ("[goal]\nhip_rise = { below = 1 }", "nearest: hip_rise_mm"),
        ('[goal]\ncomplaints = "drops off the toe"', "is no list of complaints"),
        ('[goal]\ncomplaints = ["drops of the toe"]', "nearest: drops off the toe"),
        ('[goal]\ncomplaints = ["hip hikes", "hip hikes"]', "says a complaint twice"),
        ("[goal]\nhip_rise_mm = 3", "is no goal"),
        ("[goal]\nhip_rise_mm = {}", "is no goal"),
        ("[goal]\nhip_rise_mm = { below = 3, above = 1 }", "is no goal"),
        ("[goal]\nhip_rise_mm = { below = 3, within = 1 }", "says how near only with near"),
        ("[goal]\nhip_rise_mm = { near = 3 }", "says how near only with near"),
        ("[goal]\nhip_rise_mm = { near = 3, within = 0 }", "hip_rise_mm.within = 0.0 is nothing"),
        ("[goal]\nhip_rise_mm = { below = nan }", "is not a number"),
        ("[goal]\nhip_rise_mm = { below = true }", "is not a number"),
        ("[goal]\nhip_rise_mm = { below = 3, weight = 0 }", "allowed: 0.001 to 1000"),
        ("[adjust]\nfoot_forwards_mm = [1]", "nearest: foot_forward_mm"),
        ("[adjust]\nfoot_forward_mm = []", "is no range"),
        ('[adjust]\nfoot_forward_mm = "free"', "is no range"),
        ("[adjust]\nfoot_forward_mm = [1, 1]", "says a value twice"),
        ("[adjust]\nfoot_forward_mm = [1, 900]", "foot_forward_mm[1] = 900 is out of range"),
        ("[adjust]\nfoot_forward_mm = { from = 0, to = 5 }", "from, to and step"),
        ("[adjust]\nfoot_forward_mm = { from = 5, to = 5, step = 1 }", "is an empty range"),
        ("[adjust]\nfoot_forward_mm = { from = -60, to = 60, step = 0.1 }", "too many steps"),
        (
            "[adjust]\nfoot_forward_mm = { from = -5, to = 5, step_turns = 1 }",
            "allowed: from, to and step",
        ),
        ("[seen]\nheel_off = 'early'", "nearest: heel_off_s"),
        ("[seen]\nheel_off_s = 'erly'", "nearest: early"),
        ("[seen]\nslip_mm = 'more'", "cannot be told by eye"),
        ("[seen]\nheel_off_s = { value = 0.5 }", "is no observation"),
        ("[seen]\nheel_off_s = { value = 0.5, within = 0 }", "allowed: a number above 0"),
        ("[seen]\nheel_off_s = { value = inf, within = 1 }", "allowed: a number"),
        ("seen = 1", "seen = 1 is not a table"),
    ],
)
def test_what_is_wrong_is_refused_by_name(tables, said):
    front = not tables.startswith("[")
    text = text_with_tables("everyday", "" if front else tables)
    with pytest.raises(CaseError) as refusal:
        case_of_text(f"{tables}\n{text}" if front else text, "case.toml")
    messages = [fault.message() for fault in refusal.value.faults]
    assert any(said in message for message in messages), messages
    assert all(message.startswith("case.toml: ") for message in messages)


def test_all_faults_come_at_once():
    assert len(faults("[goal]\na = 1\nhip_rise_mm = 2\n[adjust]\nb = 3\n[seen]\nc = 4")) == 4


def test_what_is_said_is_kept():
    wanted = case_with_tables(
        "everyday",
        "[goal]\ncomplaints = ['hip hikes']\ntoe_lever_mm = { near = 110, within = 4, weight = 3 }",
    ).wanted
    (goal,) = wanted.goals
    assert (goal.sense, goal.value, goal.within, goal.weight) == ("near", 110.0, 4.0, 3.0)
    assert wanted.complaints == ("hip hikes",)


def test_levels_are_counted_from_the_present_setting():
    case = case_with_tables(
        "everyday",
        "[adjust]\nfoot_forward_mm = { from = -5, to = 4, step = 3 }\n"
        "dorsiflexion_deg = { from = -3, to = 3, step_turns = 0.5 }\n"
        'socket_flexion_deg = "fixed"\nlength_change_mm = [2, 8]\nheel_rise_mm = [5, 20]',
    )
    axes = {axis.name: axis for axis in axes_of(case)[0]}
    turn = degrees_from_radians(case.pylon.turn)
    assert axes["foot_forward_mm"].levels.tolist() == [-3.0, 0.0, 3.0]
    assert axes["dorsiflexion_deg"].levels.tolist() == pytest.approx(
        [k * turn / 2.0 for k in range(-2, 3)]
    )
    assert axes["dorsiflexion_deg"].turns(turn) == pytest.approx(1.0)
    assert "socket_flexion_deg" not in axes
    assert axes["length_change_mm"].levels.tolist() == [0.0, 2.0, 8.0]
    assert axes["heel_rise_mm"].turns(1.0) is None


def test_what_is_not_said_is_filled_and_told():
    axes, filled = axes_of(case_with_tables("everyday", ""))
    assert len(axes) == len(filled) == 4
    assert all("invented" in words for words in filled)
    assert all(math.isfinite(axis.span) for axis in axes)
