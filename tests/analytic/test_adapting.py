"""A wearer who adapts: what must hold of a small regularised least-squares problem."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import least_squares

from simgait.arrays import many
from simgait.case import read_case
from simgait.errors import RangeError
from simgait.library import models_folder
from simgait.limb import as_many, limb_of, limb_part, limb_run, many_alignments
from simgait.physics import layout as rows
from simgait.stance import simulate_stance
from simgait.stance.adapting import (
    ALONG,
    adaptation,
    adapted,
    moved_wearer,
    newton_step,
    objective,
    with_adaptation,
    with_moved,
)
from simgait.stance.batch import batch_of, batch_of_many
from simgait.stance.kept_walk import SPEEDS, USUAL, kept_walk, walks
from walkers import WEARERS, aligned, walker

TENTH = math.radians(0.1)
UNITS = np.array([USUAL.hip, USUAL.hip, USUAL.knee, USUAL.knee])
FIELDS = ("foot_forward", "dorsiflexion", "socket_flexion", "length_change", "heel_rise")


def spread(limb, **columns):
    """Return a limb of many whose alignment is changed by columns of amounts [m or rad]."""
    runs = len(next(iter(columns.values())))
    settings = [
        aligned(limb, **{name: float(column[k]) for name, column in columns.items()}).alignment
        for k in range(runs)
    ]
    return replace(limb, alignment=many_alignments(settings))


def drawn(limb, runs, seed=3):
    """Return a limb at alignments drawn within 10 mm, 4 deg, 3 deg, 8 mm and 5 mm."""
    rng = np.random.default_rng(seed)
    sizes = (0.010, math.radians(4.0), math.radians(3.0), 0.008, 0.005)
    return spread(
        limb,
        **{n: rng.uniform(-s, s, runs) for n, s in zip(FIELDS, sizes, strict=True)},
    )


def value_at(limb, kept, unknowns):
    """Return F of each run at some unknowns [rad], by the definition."""
    walk, _ = walks(with_moved(limb, unknowns))
    y = kept.yardsticks
    units = np.array([y.hip, y.hip, y.knee, y.knee])
    return objective(kept.misfit(walk), unknowns / units)


@pytest.mark.parametrize("wearer", WEARERS)
def test_where_nothing_changes_nobody_adapts(wearer):
    limb = walker(wearer)
    found = adaptation(limb, kept_walk(limb))
    assert np.array_equal(found.unknowns, np.zeros((1, 4)))
    assert (found.before, found.after, found.settled) == (0.0, 0.0, True)
    before, after = batch_of((limb,)), batch_of((adapted(limb, kept_walk(limb)),))
    assert np.array_equal(before.reference, after.reference)
    assert np.array_equal(before.state, after.state)


@pytest.mark.parametrize("wearer", WEARERS)
def test_adapting_makes_the_sum_of_squares_smaller_and_no_neighbour_is_better(wearer):
    limb = drawn(walker(wearer), 12)
    kept = kept_walk(walker(wearer))
    found = adaptation(limb, kept)
    assert found.settled.all()
    assert np.allclose(found.before, value_at(limb, kept, np.zeros((12, 4))), rtol=1e-12)
    assert np.allclose(found.after, value_at(limb, kept, found.unknowns), rtol=1e-12)
    assert (found.after < 0.6 * found.before).all()
    for move in np.vstack((np.eye(4), -np.eye(4))):
        assert (value_at(limb, kept, found.unknowns + TENTH * move) > found.after).all()


def test_a_general_solver_finds_the_same():
    limb = walker("steady-transtibial")
    kept = kept_walk(limb)
    far = aligned(limb, foot_forward=0.010, dorsiflexion=math.radians(-3.0))

    def residual(u):
        walk, _ = walks(with_moved(far, (u * UNITS)[None]))
        return np.concatenate((kept.misfit(walk)[0], u))

    best = least_squares(residual, np.zeros(4), diff_step=1e-4).x * UNITS
    found = adaptation(far, kept).unknowns[0]
    assert np.degrees(np.abs(found)).max() > 0.5
    assert np.degrees(np.abs(found - best)).max() < 0.01


def test_one_step_solves_a_linear_problem():
    # least |J u + r|^2 + |u|^2, closed form: the least-squares solution of [J; 1] u = [-r; 0]
    rng = np.random.default_rng(1)
    j, r = rng.normal(size=(5, 8, 4)), rng.normal(size=(5, 8))
    step = newton_step(r, j, np.zeros((5, 4)), np.array([True, True, True, True, False]))
    for k in range(4):
        stacked = np.vstack((j[k], np.eye(4)))
        expected, *_ = np.linalg.lstsq(stacked, -np.append(r[k], np.zeros(4)), rcond=None)
        assert step[k] == pytest.approx(expected, rel=1e-10)
    assert np.array_equal(step[4], np.zeros(4))


def scaled_yardsticks(factor, *names):
    return replace(USUAL, **{name: factor * getattr(USUAL, name) for name in names})


def test_all_yardsticks_doubled_change_nothing_but_the_unit():
    limb = drawn(walker("steady-transtibial"), 8)
    own = walker("steady-transtibial")
    doubled = scaled_yardsticks(2.0, "hip", "knee", "speed", "lean", "progress")
    usual, other = (adaptation(limb, kept_walk(own, y)) for y in (USUAL, doubled))
    assert np.degrees(np.abs(usual.unknowns - other.unknowns)).max() < 0.01
    assert other.after == pytest.approx(usual.after / 4.0, rel=1e-3)


def test_who_is_freer_to_move_moves_more_and_keeps_the_walk_better():
    own = walker("steady-transtibial")
    limb = drawn(own, 8)
    misfits, sizes = [], []
    for factor in (0.5, 1.0, 2.0):
        kept = kept_walk(own, scaled_yardsticks(factor, "hip", "knee"))
        found = adaptation(limb, kept)
        walk, _ = walks(with_adaptation(limb, found))
        misfits.append((kept.misfit(walk) ** 2).sum(axis=1))
        sizes.append((found.unknowns**2).sum(axis=1))
    assert (np.diff(misfits, axis=0) < 0.0).all()
    assert (np.diff(sizes, axis=0) > 0.0).all()


@pytest.mark.parametrize("what", ["speed", "lean"])
def test_what_is_held_alone_is_held(what):
    # With the rest free and hip and knee spared little, speed (or mean lean) is as it was.
    own = walker("steady-transtibial")
    limb = spread(own, foot_forward=np.array([-0.010, 0.010]))
    free = replace(USUAL, hip=1.0, knee=1.0, speed=1e3, lean=1e3, progress=1e3)
    kept = kept_walk(own, replace(free, **{what: getattr(USUAL, what)}))
    before = walks(limb)[0] - kept.walk
    after = walks(adapted(limb, kept))[0] - kept.walk
    part = slice(0, SPEEDS) if what == "speed" else slice(SPEEDS, None)
    off = [
        np.abs(each[:, part]).max(axis=1) if what == "speed" else np.abs(each[:, part].mean(axis=1))
        for each in (before, after)
    ]
    assert (off[1] < 0.1 * off[0]).all()


@pytest.mark.parametrize("wearer", WEARERS)
@pytest.mark.parametrize(
    ("what", "by"), [("foot_forward", 0.002), ("dorsiflexion", 0.015), ("length_change", 0.003)]
)
def test_small_changes_to_either_side_are_met_nearly_oppositely(wearer, what, by):
    own = walker(wearer)
    limb = spread(own, **{what: np.array([-2.0 * by, -by, by, 2.0 * by])})
    u = adaptation(limb, kept_walk(own)).unknowns
    size = np.abs(u).max()
    assert size > math.radians(0.05)
    assert np.abs(u[1] + u[2]).max() < 0.1 * size
    assert np.abs(u[3] - 2.0 * u[2]).max() < 0.1 * size


@pytest.mark.parametrize("wearer", WEARERS)
def test_further_forward_the_thigh_leans_further(wearer):
    # A foot further forward brakes longer: to keep the pace the hip is carried further ahead.
    own = walker(wearer)
    limb = spread(own, foot_forward=np.linspace(-0.020, 0.020, 9))
    found = adaptation(limb, kept_walk(own))
    assert (np.diff(found.unknowns[:, 0]) > 0.0).all()
    assert (np.diff(found.before[:5]) < 0.0).all()
    assert (np.diff(found.before[4:]) > 0.0).all()


def test_many_are_adapted_as_each_alone():
    own = walker("weak-kneed-slow")
    kept = kept_walk(own)
    limb = drawn(own, 19)
    together = adaptation(limb, kept).unknowns
    order = np.random.default_rng(2).permutation(19)
    shuffled = adaptation(limb_part(limb, order), kept).unknowns
    assert np.abs(shuffled - together[order]).max() < 1e-12
    for run in (0, 7, 18):
        alone = adaptation(limb_run(limb, run), kept).unknowns[0]
        assert np.abs(alone - together[run]).max() < 1e-12


def test_each_of_many_may_keep_a_walk_of_its_own():
    own = [walker(name) for name in ("steady-transtibial", "steady-transtibial")]
    own[1] = replace(own[1], person=replace(own[1].person, mass=own[1].person.mass * 1.1))
    both = replace(
        as_many(own[0]),
        alignment=many_alignments([each.alignment for each in own]),
        person=replace(own[0].person, mass=many(np.array([each.person.mass for each in own]))),
    )
    kept = kept_walk(both)
    far = replace(
        both, alignment=many_alignments([aligned(own[0], foot_forward=0.01).alignment] * 2)
    )
    together = adaptation(far, kept).unknowns
    for run, limb in enumerate(own):
        alone = adaptation(aligned(limb, foot_forward=0.01), kept_walk(limb)).unknowns[0]
        assert np.abs(alone - together[run]).max() < 1e-12
    assert np.abs(together[0] - together[1]).max() > 1e-5
    with pytest.raises(RangeError, match="as many runs"):
        adaptation(limb_part(far, np.array([0, 1, 1])), kept)


def test_references_posture_and_rates_move_together():
    limb = walker("steady-transtibial")
    u = np.radians([2.0, -1.0, 0.5, 1.5])
    moved = replace(limb, wearer=moved_wearer(limb.wearer, [float(x) for x in u]))
    before, after = batch_of((limb,)), batch_of((moved,))
    curve = slice(rows.THIGH_CURVE, rows.THIGH_CURVE + rows.COEFFICIENTS)
    along = np.linspace(2 * ALONG[0] - ALONG[1], 2 * ALONG[-1] - ALONG[-2], rows.COEFFICIENTS)
    off = after.reference[0, curve] - before.reference[0, curve]
    assert off == pytest.approx(u[0] + u[1] * along, abs=1e-12)
    off = after.state[0] - before.state[0]
    assert off[rows.THIGH] == pytest.approx(u[0] - u[1])
    assert off[rows.RESIDUAL] == pytest.approx(u[0] - u[1] + u[2] - u[3])
    pace = 2.0 / limb.wearer.stance_time
    assert off[rows.THIGH_RATE] == pytest.approx(u[1] * pace)
    assert off[rows.RESIDUAL_RATE] == pytest.approx((u[1] + u[3]) * pace)


def everyday(*words):
    case = read_case(models_folder() / "cases" / "everyday.toml", dict(words))
    return limb_of(case, case.baseline)


def test_who_falls_keeps_the_strategy_and_is_reported():
    own = everyday()
    tilts = {"dorsiflexion": math.radians(12.0), "socket_flexion": math.radians(18.0)}
    fallen = aligned(own, foot_forward=-0.050, **tilts)
    assert simulate_stance(fallen).ending == "foot_slipped"
    limb = replace(
        own,
        alignment=many_alignments([fallen.alignment, aligned(own, foot_forward=0.01).alignment]),
    )
    kept = kept_walk(own)
    found = adaptation(limb, kept)
    assert found.walks.tolist() == [False, True]
    assert found.settled.tolist() == [False, True]
    assert np.array_equal(found.unknowns[0], np.zeros(4))
    assert np.isnan(found.before[0])
    assert np.array_equal(
        batch_of_many(adapted(limb, kept)).reference[0], batch_of((fallen,)).reference[0]
    )


def test_how_a_wearer_adapts_is_told_at_both_ends_of_stance():
    found = adaptation(walker("steady-transtibial"), kept_walk(walker("steady-transtibial")))
    told = replace(found, unknowns=np.radians([[2.0, 1.0, -3.0, 0.5]])).as_written(0)
    assert told == {
        "hip_touch_down_deg": 1.0,
        "hip_toe_off_deg": 3.0,
        "knee_touch_down_deg": -3.5,
        "knee_toe_off_deg": -2.5,
    }
