"""A limb that stands for many runs gives each run the very digits that it has alone."""

import numpy as np
import pytest

from simgait.arrays import many
from simgait.case import read_case
from simgait.case.entries import TABLES, number_range
from simgait.case.many import MANY_NAMES, case_of_many
from simgait.errors import CaseError, RangeError
from simgait.library import models_folder
from simgait.limb import (
    as_many,
    limb_columns,
    limb_of,
    limb_part,
    limb_run,
    runs_of,
    stands_for_many,
)
from simgait.stance.batch import batch_of_many
from simgait.stance.steps import stable_steps

CASES = models_folder() / "cases"
PARTS = ("parameter", "sole", "reference", "state")
SPANS = {
    "person.mass_kg": (60.0, 100.0),
    "person.stature_mm": (1650.0, 1850.0),
    "limb.residual_limb_mm": (100.0, 190.0),
    "walking.speed_m_s": (0.8, 1.4),
    "ground.friction": (0.3, 1.0),
    "sound_side.shoe_heel_rise_mm": (0.0, 20.0),
    "sound_side.shoe_thickness_mm": (5.0, 30.0),
    "alignment.foot_forward_mm": (-30.0, 30.0),
    "alignment.dorsiflexion_deg": (-8.0, 8.0),
    "alignment.socket_flexion_deg": (0.0, 15.0),
    "alignment.length_change_mm": (-20.0, 20.0),
    "alignment.heel_rise_mm": (0.0, 40.0),
}
LENGTHS = {
    "person.thigh_mm": (405.0, 415.0),
    "person.knee_height_mm": (485.0, 495.0),
    "person.hip_height_mm": (895.0, 905.0),
}

TIGHT = {  # so short a person that residual limbs of 277 mm just leave room for foot and unit
    "person.stature_mm": (1500.0, 1500.0),
    "limb.residual_limb_mm": (271.0, 284.0),
    "alignment.socket_flexion_deg": (0.0, 25.0),
    "alignment.foot_forward_mm": (-40.0, 40.0),
}


def drawn(spans, runs):
    rng = np.random.default_rng(3)
    return {name: rng.uniform(*span, runs) for name, span in spans.items()}


def written(values, run):
    return {name: repr(float(column[run])) for name, column in values.items()}


def batch_and_case(path, values):
    changed = case_of_many(read_case(path), values)
    return batch_of_many(limb_of(changed, changed.baseline))


@pytest.mark.parametrize(
    ("name", "spans"),
    [
        ("everyday", SPANS),
        ("short-residual-limb", {"person.mass_kg": (60.0, 80.0)}),
        ("heavy-worker", {"alignment.dorsiflexion_deg": (-5.0, 5.0)}),
        ("heel-height-change", {"alignment.heel_rise_mm": (0.0, 40.0)}),
        ("everyday", {"person.stature_mm": (1700.0, 1900.0)}),
        ("length-mismatch", LENGTHS),
    ],
)
def test_many_runs_have_the_digits_of_each_alone(name, spans):
    path, runs = CASES / f"{name}.toml", 21
    values = drawn(spans, runs)
    batch = batch_and_case(path, values)
    for run in range(runs):
        case = read_case(path, written(values, run))
        alone = limb_columns(limb_of(case, case.baseline))
        for part in PARTS:
            assert np.array_equal(getattr(alone, part), getattr(batch, part)[run])


def test_the_step_of_a_run_does_not_depend_on_its_neighbours():
    batch = batch_and_case(CASES / "everyday.toml", drawn(SPANS, 40))
    alone = [stable_steps(batch.part(np.array([run])), 1.5e-3)[0] for run in range(40)]
    assert np.array_equal(stable_steps(batch, 1.5e-3), alone)


def test_every_name_that_can_be_many_is_a_number_of_a_case():
    for name in MANY_NAMES:
        table, _, key = name.partition(".")
        assert number_range(TABLES[table], key) is not None


def refused_alone(path, values, run):
    try:
        case = read_case(path, written(values, run))
        limb_columns(limb_of(case, case.baseline))
    except (CaseError, RangeError):
        return True
    return False


def refused_together(path, values, runs):
    """Return which runs are refused, taking out those that each refusal names."""
    left, wrong = np.arange(runs), np.zeros(runs, dtype=bool)
    while left.size:
        try:
            batch_and_case(path, {name: column[left] for name, column in values.items()})
        except RangeError as refusal:
            wrong[left[refusal.rows]] = True
            left = left[~refusal.rows]
        else:
            break
    return wrong


@pytest.mark.parametrize(
    "spans",
    [
        {"limb.residual_limb_mm": (60.0, 300.0), "person.stature_mm": (1200.0, 2200.0)},
        {name: (low - 60.0, high + 60.0) for name, (low, high) in LENGTHS.items()},
        {"alignment.length_change_mm": (-80.0, 80.0), "limb.residual_limb_mm": (50.0, 310.0)},
        TIGHT,
        {"walking.speed_m_s": (0.1, 3.0), "person.mass_kg": (10.0, 250.0)},
    ],
)
def test_the_same_runs_are_refused_together_as_alone(spans):
    path, runs = CASES / "length-mismatch.toml", 60
    if any(name.startswith("alignment") for name in spans):
        path = CASES / "everyday.toml"  # its [compare] lists no other lengths
    values = drawn(spans, runs)
    alone = [refused_alone(path, values, run) for run in range(runs)]
    assert 0 < sum(alone) < runs
    assert refused_together(path, values, runs).tolist() == alone


def test_many_of_a_number_is_no_copy():
    values = np.array([1.0, 2.0])
    assert many(values) is values


def test_runs_of_a_limb_of_many_are_taken_apart():
    case = case_of_many(read_case(CASES / "everyday.toml"), drawn(SPANS, 5))
    limb = limb_of(case, case.baseline)
    third = limb_run(limb, 3)
    assert [runs_of(each) for each in (limb, third, as_many(third))] == [5, 1, 1]
    assert [stands_for_many(each) for each in (limb, third, as_many(third))] == [True, False, True]
    turned = batch_of_many(limb_part(limb, np.array([4, 3, 3])))
    for part in PARTS:
        whole = getattr(batch_of_many(limb), part)
        assert np.array_equal(getattr(limb_columns(third), part), whole[3])
        assert np.array_equal(getattr(batch_of_many(as_many(third)), part)[0], whole[3])
        assert np.array_equal(getattr(turned, part), whole[[4, 3, 3]])
