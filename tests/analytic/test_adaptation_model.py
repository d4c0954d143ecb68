"""The quadratic that stands in for the search: exact where it must be, honest where it is off."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from simgait.alignment import Alignment
from simgait.arrays import many
from simgait.errors import RangeError
from simgait.limb import limb_run, many_alignments
from simgait.stance.adaptation_model import NAMES, adaptation_model, fitted_model, terms
from simgait.stance.adapting import Adaptation, adaptation
from simgait.stance.batch import batch_of, batch_of_many
from simgait.stance.kept_walk import kept_walk
from walkers import walker

OWN = Alignment(
    foot_forward=0.002, dorsiflexion=0.01, socket_flexion=0.09, length_change=0.0, heel_rise=0.010
)
SPANS = (0.020, math.radians(6.0), math.radians(4.0), 0.015, 0.010)


def drawn(own, runs, seed, names=NAMES):
    """Return alignments drawn about one within SPANS, in the named values only."""
    rng = np.random.default_rng(seed)
    off = {n: rng.uniform(-s, s, runs) for n, s in zip(NAMES, SPANS, strict=True)}
    return Alignment(
        **{n: many(getattr(own, n) + off[n] * (n in names)) for n in NAMES},
    )


def found(alignment, unknowns, walks=None):
    """Return an adaptation as a search would have found it."""
    runs = len(unknowns)
    flags = np.ones(runs, dtype=bool) if walks is None else walks
    zero = np.zeros(runs)
    return Adaptation(unknowns=unknowns, walks=flags, settled=flags, before=zero, after=zero)


def test_a_quadratic_is_found_exactly():
    rng = np.random.default_rng(5)
    coefficients = rng.normal(size=(20, 4)) * 0.01
    sample, other = drawn(OWN, 60, 1), drawn(OWN, 500, 2)

    def truth(alignment):
        off = np.array([getattr(alignment, n) - getattr(OWN, n) for n in NAMES]).T
        return terms(off, NAMES) @ coefficients

    model = fitted_model(sample, OWN, found(sample, truth(sample)))
    assert np.abs(model.unknowns(other) - truth(other)).max() < 1e-12
    assert model.error.max() < 1e-12
    assert np.array_equal(model.unknowns(OWN), np.zeros((1, 4)))


def test_the_error_is_that_of_leaving_each_out():
    rng = np.random.default_rng(6)
    names = ("foot_forward", "dorsiflexion")
    sample = drawn(OWN, 12, 3, names)
    wanted = rng.normal(size=(12, 4)) * 0.01
    model = fitted_model(sample, OWN, found(sample, wanted))
    assert model.names == names
    errors = []
    for k in range(12):
        walks = np.arange(12) != k
        without = fitted_model(sample, OWN, found(sample, wanted, walks))
        errors.append(wanted[k] - without.unknowns(sample)[k])
    assert without.fitted_to == 11
    assert model.error == pytest.approx(np.sqrt(np.mean(np.square(errors), axis=0)), rel=1e-9)
    assert model.largest_error == pytest.approx(np.abs(errors).max(axis=0), rel=1e-9)


def test_too_few_or_too_alike_alignments_are_refused():
    few = drawn(OWN, 29, 4)
    with pytest.raises(RangeError, match="too few"):
        fitted_model(few, OWN, found(few, np.zeros((29, 4))))
    alike = many_alignments([OWN] * 40)
    with pytest.raises(RangeError, match="too few, or too alike"):
        fitted_model(alike, OWN, found(alike, np.zeros((40, 4))))
    nobody = drawn(OWN, 60, 4)
    with pytest.raises(RangeError, match="0 alignments that walk"):
        fitted_model(nobody, OWN, found(nobody, np.zeros((60, 4)), np.zeros(60, dtype=bool)))


def test_it_says_where_it_is_a_guess():
    names = ("foot_forward", "dorsiflexion")
    sample = drawn(OWN, 30, 5, names)
    model = fitted_model(sample, OWN, found(sample, np.zeros((30, 4))))
    asked = many_alignments(
        [
            OWN,
            replace(OWN, foot_forward=0.010),
            replace(OWN, foot_forward=0.030),
            replace(OWN, length_change=0.001),
        ]
    )
    assert model.covers(asked).tolist() == [True, True, False, False]


@pytest.mark.parametrize("wearer", ["steady-transtibial", "weak-kneed-slow"])
def test_new_alignments_are_adapted_nearly_as_by_the_search(wearer):
    own = walker(wearer)
    kept = kept_walk(own)
    model = adaptation_model(replace(own, alignment=drawn(own.alignment, 100, 7)), kept)
    new = replace(own, alignment=drawn(own.alignment, 40, 8))
    searched = adaptation(new, kept)
    errors = (model.unknowns(new.alignment) - searched.unknowns)[searched.walks]
    size = np.sqrt(np.mean(searched.unknowns[searched.walks] ** 2))
    assert np.sqrt(np.mean(errors**2)) < 0.05 * size
    # what it says of itself is what new alignments show, within a factor of 2
    assert np.sqrt(np.mean(errors**2)) == pytest.approx(np.sqrt(np.mean(model.error**2)), rel=1.0)
    assert list(model.error_as_written().values()) == pytest.approx(np.degrees(model.error))
    moved = model.applied(new)
    alone = model.applied(limb_run(new, 3))
    assert np.abs(batch_of((alone,)).state[0] - batch_of_many(moved).state[3]).max() < 1e-12
    assert np.abs(batch_of_many(moved).state - batch_of_many(new).state).max() > 1e-3
