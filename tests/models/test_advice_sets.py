"""The suggestions of one piece of advice beside each other, and the surer ones."""

import itertools

import numpy as np
import pytest

from advised import case_with_tables, complaint
from simgait.advice.advising import advise
from simgait.advice.aims import aims_of, misses
from simgait.advice.axes import axes_of
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.symbols.complaints import COMPLAINTS


@pytest.mark.parametrize("wanted", ["knee pushed forward at loading", "knee forced back late"])
def test_each_suggestion_is_another_set_and_no_smaller_one_would_do(wanted):
    """No set holds an earlier one; and any change taken back by one level misses an aim."""
    case = case_with_tables("everyday", complaint(wanted))
    suggestions = advise(case, draws=25).suggestions
    sets = [set(each.changes) for each in suggestions]
    assert 1 < len(sets) <= 4
    assert not any(one <= other for one, other in itertools.permutations(sets, 2))
    axes, _ = axes_of(case)
    trials, now = Trials(case=case), setting_of(case)
    aims = aims_of(case, trials.outcomes(now[None]))
    for each in suggestions:
        row = np.array([each.alignment.as_written()[name] for name in WRITTEN_NAMES])
        for axis in axes:
            if axis.name in each.changes:
                nearer = row.copy()
                at = int(np.argmin(np.abs(axis.levels - row[WRITTEN_NAMES.index(axis.name)])))
                inward = -1 if each.changes[axis.name] > 0.0 else 1
                nearer[WRITTEN_NAMES.index(axis.name)] = axis.levels[at + inward]
                assert misses(aims, trials.outcomes(nearer[None])).max() > 0.0


def test_a_surer_change_goes_farther_the_same_way_and_is_surer():
    told = 0
    for wanted in COMPLAINTS:
        for each in advise(case_with_tables("everyday", complaint(wanted)), draws=50).suggestions:
            if each.surer is None:
                continue
            told += 1
            assert each.met_share < 0.8 <= each.surer.met_share
            assert each.surer.changes.keys() == each.changes.keys()
            for name, change in each.surer.changes.items():
                assert change * each.changes[name] > 0.0
                assert abs(change) >= abs(each.changes[name])
    assert told > 0
