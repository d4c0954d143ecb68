"""Aims of advice by hand: how far a value misses them, and what no walk misses."""

import numpy as np
import pytest

from simgait.advice.aims import Aim, limit_of, misses
from simgait.symbols.complaints import Relief

VALUES = np.array([-3.0, 8.0, 9.0, 10.0, 11.5, 14.0])


def aim(sense, within=0.0, relief=None):
    return Aim(
        measure="hip_rise_mm",
        sense=sense,
        value=10.0,
        within=within,
        weight=1.0,
        complaint=None,
        relief=relief,
    )


@pytest.mark.parametrize(
    ("sense", "within", "missed"),
    [
        ("below", 0.0, [0.0, 0.0, 0.0, 0.0, 1.5, 4.0]),
        ("above", 0.0, [13.0, 2.0, 1.0, 0.0, 0.0, 0.0]),
        ("near", 1.0, [12.0, 1.0, 0.0, 0.0, 0.5, 3.0]),
    ],
)
def test_an_aim_is_missed_by_what_lies_beyond_it(sense, within, missed):
    assert aim(sense, within).missed(VALUES).tolist() == missed
    assert np.isnan(aim(sense, within).missed(np.array([np.nan]))).all()


def test_a_complaint_is_relieved_by_a_change_from_each_ones_own():
    less = Relief(measure="hip_rise_mm", sense="below", share=0.1, amount=0.5)
    more = Relief(measure="hip_rise_mm", sense="above", share=0.1, amount=0.5)
    now = np.array([10.0, -20.0])
    assert limit_of(less, now) == pytest.approx([8.5, -22.5])
    assert limit_of(more, now) == pytest.approx([11.5, -17.5])
    then = np.array([9.0, -23.0])
    assert aim("below", relief=less).missed_from(then, now) == pytest.approx([0.5, 0.0])
    assert aim("above", relief=more).missed_from(then, now) == pytest.approx([2.5, 5.5])
    assert aim("below").missed_from(then, now).tolist() == [0.0, 0.0]


class Fallen:
    """Outcomes of one walk and of one that was none."""

    def measure(self, name):
        return np.array([8.0, np.nan])


def test_no_walk_misses_every_aim():
    assert misses((aim("below"), aim("above")), Fallen()).tolist() == [[0.0, 2.0], [np.inf, np.inf]]
