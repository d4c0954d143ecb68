"""What a suggestion tells beside its numbers: doubts, falls, prices, and signs that can be seen."""

import numpy as np

from advised import case_with_tables, complaint, text_with_tables
from simgait.advice.advising import advise
from simgait.advice.compromise import least_fighting
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.case import case_of_text
from simgait.symbols.watching import VISIBLE, WATCHING

FOOT = "foot_forward_mm"


def test_what_one_stance_is_remarked_on_is_said_of_a_suggestion_too():
    """The knee goes far past straight: compare doubts that walk, and so must advice."""
    goal = (
        "[goal]\nknee_flexion_loading_deg = { below = 8 }\n[adjust]\n"
        'foot_forward_mm = "fixed"\ndorsiflexion_deg = "fixed"\nlength_change_mm = "fixed"\n'
    )
    (each,) = advise(case_with_tables("everyday", goal), draws=25).suggestions
    assert each.met and each.measures["knee_flexion_least_deg"] < -5.0
    assert any("beyond straight" in words for words in each.remarks)
    assert "should bend less far" in each.confirm


def test_what_the_eye_can_tell_has_a_sign_to_look_for():
    assert set(VISIBLE) <= set(WATCHING)


def test_a_change_too_small_to_be_seen_is_not_left_to_the_eye():
    """Less than what reading backward takes the eye to see; then its absence refutes nothing."""
    goal = "[goal]\nheel_off_s = { below = 0.48 }\n[adjust]\nfoot_forward_mm = [0, -4, -14]\n"
    goal += "".join(f'{name} = "fixed"\n' for name in WRITTEN_NAMES[1:4])
    case = case_with_tables("everyday", goal)
    limits = [Trials(case=case).outcomes(setting_of(case)[None]).measures(0)["heel_off_s"]]
    small, large = (
        advise(case_with_tables("everyday", goal.replace("0.48", repr(limits[0] - less))), draws=25)
        for less in (0.001, 0.026)
    )
    assert "too little to be seen" in small.suggestions[0].confirm
    assert "refutes nothing" in small.suggestions[0].confirm
    assert "too little to be seen surely, so ask, film or measure: the heel" not in (
        large.suggestions[0].confirm
    )
    assert "the model has missed something" in large.suggestions[0].confirm


def test_a_goal_that_a_compromise_gives_up_is_among_what_gets_worse():
    goal = (
        "[goal]\ntoe_lever_mm = { near = 126.7, within = 1.5 }\n"
        "knee_extension_moment_peak_nm_kg = { below = 0.15, weight = 50 }\n[adjust]\n"
        'dorsiflexion_deg = "fixed"\nsocket_flexion_deg = "fixed"\nlength_change_mm = "fixed"\n'
    )
    case = case_with_tables("everyday", goal)
    now = Trials(case=case).outcomes(setting_of(case)[None]).measures(0)["toe_lever_mm"]
    (each,) = advise(
        case_with_tables("everyday", goal.replace("126.7", repr(now))), draws=25
    ).suggestions
    assert not each.met and abs(each.measures["toe_lever_mm"] - now) > 1.5
    assert "toe_lever_mm" in {bad.measure for bad in each.worse}


def test_pace_that_is_lost_is_among_what_gets_worse():
    case = case_with_tables("everyday", complaint("knee pushed forward at loading"))
    advice = advise(case, draws=25)
    for each in advice.suggestions:
        lost = advice.now["speed_change_m_s"] - each.measures["speed_change_m_s"]
        told = "speed_change_m_s" in {bad.measure for bad in each.worse}
        assert told or lost < 0.01


def test_goals_of_which_only_all_together_fight_are_told():
    """Four spans, of which any three leave a setting of one axis and all four do not."""
    met = np.array([[True, True, True, False], [True, True, False, True]])
    met = np.concatenate((met, np.array([[True, False, True, True], [False, True, True, True]])))
    assert least_fighting(met).aims == (0, 1, 2, 3)
    assert least_fighting(np.array([[True, False, False], [True, True, False]])).aims == (2,)


def test_draws_in_which_the_wearer_falls_are_told():
    """Near the edge of falling some draws fall; what is drawn there is counted with other means."""
    text = text_with_tables("everyday", "[goal]\ndrop_off = { above = 0.79 }\n[adjust]\n")
    text = text.replace("foot_forward_mm = 0", "foot_forward_mm = -40")
    text = text.replace("dorsiflexion_deg = 0", "dorsiflexion_deg = 10.8")
    text = text.replace("socket_flexion_deg = 5", "socket_flexion_deg = 21.2")
    text += "foot_forward_mm = [-45]\n"
    text += "".join(f'{name} = "fixed"\n' for name in WRITTEN_NAMES[1:4])
    (each,) = advise(case_of_text(text, "edge.toml"), draws=100).suggestions
    assert each.changes == {FOOT: -5.0}
    assert 0.0 < each.fallen_share < 0.5
    assert each.met_share <= 1.0 - each.fallen_share
