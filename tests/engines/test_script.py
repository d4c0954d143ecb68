"""The script engine computes what CPython computes, to the last bit: whole stances too."""

from __future__ import annotations

import inspect

import numpy as np
import pytest

from drawn_limbs import drawn_limbs
from scripts import run_script, script_stances
from simgait.arrays import Array
from simgait.engines import plain
from simgait.engines.blocks import Block, measure_block, new_block, run_block
from simgait.engines.script import script_of, script_text
from simgait.engines.source import gathered_source
from simgait.physics import layout as rows
from simgait.stance.batch import Batch, batch_of
from simgait.stance.running import LOADING, STEP, paces, run_batch, steps_needed
from walkers import WEARERS, aligned, walker

W = rows.W
SCALARS = (
    *("half_sine", "half_cosine", "sine", "cosine", "smooth_step", "smoother_step"),
    *("element_base", "loss_share", "normal_force", "lost_force", "sliding_on"),
    *("hermite", "crossing"),
)
RELATIVE = 1e-9  # [1] within which the two engines' measures agree; the largest seen is 8e-11


def ran(kernel, batch: Batch, width: int) -> tuple[Array, Array]:
    """Return ends and measures of the first run of a batch, run by Python in lane 0 of so many."""
    steps, doubled = paces(batch, STEP)
    room = steps_needed(batch, float(steps[0]))
    block = new_block(room) if width == W else narrow(room)
    for part in ("parameter", "sole", "reference", "state"):
        column = getattr(batch, part)[0]
        getattr(block, part).reshape(-1, width)[:, 0] = column
    fine = round(LOADING / steps[0]) if doubled[0] else room
    with np.errstate(all="ignore"):  # a run that ends badly is measured all the same, then told NaN
        run_block(kernel, block, 1, float(steps[0]), fine)
        measure_block(kernel, block, 1, float(steps[0]))
    return block.ends.reshape(-1, width)[:, 0], block.measures.reshape(-1, width)[:, 0]


def narrow(steps: int) -> Block:
    """Return a block of one lane: arrays of exactly as many entries as there are rows."""
    wide = vars(new_block(steps))
    parts = {name: np.zeros(each.size // W) for name, each in wide.items() if name != "steps"}
    return Block(**parts, steps=steps)


def narrow_kernel() -> dict:
    """Return the plain physics with blocks of one lane."""
    text, space = gathered_source(), {}
    assert text.count("\nW = 16\n") == 1
    exec(text.replace("\nW = 16\n", "\nW = 1\n"), space)
    return space


@pytest.fixture(scope="module")
def drawn() -> Batch:
    """Ninety limbs drawn from all that the library has."""
    return batch_of(drawn_limbs(90, seed=11))


@pytest.mark.parametrize("name", SCALARS)
def test_functions_of_numbers_have_every_bit(name: str) -> None:
    function = getattr(plain.kernel(), name)
    taken = len(inspect.signature(function).parameters)
    given = np.random.default_rng(7).uniform(-1.5, 1.5, (200, taken))
    call = f"""
        for (let at = 0; at < given.length; at += {taken})
          answer.push(physics.{name}(...given.slice(at, at + {taken})));"""
    answer = run_script(f"{script_text([name])}const answer = [];{call}", given)
    expected = [function(*values) for values in given.tolist()]
    assert answer.tolist() == expected
    assert len(set(expected)) > 3


@pytest.mark.parametrize("wearer", WEARERS)
def test_a_whole_stance_has_every_bit_of_cpython(wearer: str) -> None:
    """Every end, the final state and every measure, whatever the sign of a zero."""
    batch = batch_of([walker(wearer)])
    ends, measures = script_stances(batch, STEP)
    slow_ends, slow_measures = ran(plain.kernel(), batch, W)
    assert slow_ends[rows.ENDING] == rows.TOE_OFF
    assert np.array_equal(ends[0], slow_ends)
    assert np.array_equal(measures[0], slow_measures)
    assert np.isfinite(measures).all()


def test_runs_that_end_badly_have_every_bit_too(drawn: Batch) -> None:
    bad = np.flatnonzero(run_batch(drawn).ends[:, rows.ENDING] != rows.TOE_OFF)
    assert bad.size >= 1
    batch = drawn.part(bad[:2])
    ends, measures = script_stances(batch, STEP)
    for run in range(len(batch)):
        slow_ends, slow_measures = ran(plain.kernel(), batch.part(np.array([run])), W)
        assert np.array_equal(ends[run], slow_ends)
        assert np.array_equal(measures[run], slow_measures, equal_nan=True)


def test_the_physics_works_in_blocks_of_one_lane() -> None:
    """Same bits as a lane of sixteen, in arrays that hold not one entry more than the rows."""
    batch = batch_of([aligned(walker("steady-transtibial"), foot_forward=0.012)])
    space = narrow_kernel()
    kernel = type("Narrow", (), {name: staticmethod(each) for name, each in space.items()})
    ends, measures = ran(kernel, batch, 1)
    wide_ends, wide_measures = ran(plain.kernel(), batch, W)
    assert np.array_equal(ends, wide_ends)
    assert np.array_equal(measures, wide_measures)


def test_no_run_looks_beyond_an_array() -> None:
    """JavaScript reads NaN there, and numba whatever lies there; every access is looked at."""
    limb = walker("weak-kneed-slow")
    batch = batch_of([limb, aligned(limb, dorsiflexion=-0.1)])
    ends, _ = script_stances(batch, STEP, watch=True)
    assert np.array_equal(ends, script_stances(batch, STEP)[0])


def test_looking_at_every_access_sees_one_that_is_beyond() -> None:
    short = batch_of([walker("weak-kneed-slow")])
    with pytest.raises(AssertionError, match="RangeError: entry"):
        script_stances(short, STEP, watch=True, room=100)


def test_ninety_drawn_limbs_agree_with_the_compiled_engine(drawn: Batch) -> None:
    ends, measures = script_stances(drawn, STEP)
    fast = run_batch(drawn)
    assert np.array_equal(ends[:, rows.ENDING], fast.ends[:, rows.ENDING])
    walked = fast.ends[:, rows.ENDING] == rows.TOE_OFF
    assert walked.sum() >= 60
    assert ends[walked] == pytest.approx(fast.ends[walked], rel=RELATIVE, abs=1e-12)
    assert np.array_equal(np.isnan(measures), np.isnan(fast.measures))
    told = np.arange(rows.MEASURES) != rows.LEDGER_ERROR  # a difference of what is nearly equal
    error = np.abs(measures - fast.measures)[walked]
    assert (error[:, told] <= RELATIVE * np.abs(fast.measures[walked][:, told])).all()
    assert error[:, ~told].max() <= RELATIVE  # [1] of the energy exchanged
    assert error.max() > 0.0  # the compiled engine rounds products and sums at once


def test_a_run_that_is_not_finite_ends_as_such() -> None:
    batch = batch_of([walker("weak-kneed-slow"), walker("weak-kneed-slow")])
    batch.parameter[0, rows.MASS_HIP] = np.nan
    batch.state[1, rows.HIP_VY] = -1e200
    ends, measures = script_stances(batch, STEP, forced=True)
    fast = run_batch(batch, forced=True)
    assert ends[:, rows.ENDING].tolist() == [rows.NOT_FINITE] * 2
    assert np.array_equal(ends[:, : rows.ENERGY_START], fast.ends[:, : rows.ENERGY_START])
    assert np.isnan(measures).all()


def test_no_drawn_limb_is_chaotic(drawn: Batch) -> None:
    """A start that is off by 1e-12 of a speed keeps its ending, and moves no measure much more.

    So what the engines round otherwise cannot grow to more than the comparison above allows.
    """
    nudged = drawn.part(np.arange(len(drawn)))  # a copy
    nudged.state[:, rows.HIP_VY] *= 1.0 + 1e-12
    one, other = run_batch(drawn), run_batch(nudged)
    assert np.array_equal(one.ends[:, rows.ENDING], other.ends[:, rows.ENDING])
    walked = one.ends[:, rows.ENDING] == rows.TOE_OFF
    told = np.arange(rows.MEASURES) != rows.LEDGER_ERROR
    before, after = (each.measures[walked][:, told] for each in (one, other))
    growth = np.abs(after - before) / (1e-12 * np.abs(before) + 1e-300)
    assert 1.0 < growth.max() < 1e5


def test_the_script_holds_what_its_roots_reach_and_no_more() -> None:
    text = script_text(["run_stance", "measure_block"])
    assert "function press_sole(" in text
    assert "drive_scene" not in text
    assert "KNEE_MIDSTANCE" in text.rpartition("Object.freeze")[2]
    assert text == script_text(["measure_block", "run_stance"])  # whatever the order of the roots
    assert len(script_text(["smooth_step"])) < len(text) / 5


def test_all_of_the_physics_can_be_said() -> None:
    from simgait.engines.script import definitions
    from simgait.engines.source import MODULES, module_text

    files = {f"simgait/physics/{name}.py": module_text(name) for name in MODULES}
    functions = [n for n, each in definitions(files).items() if hasattr(each.node, "args")]
    assert len(functions) > 80
    whole = script_of(files, functions)
    assert all(f"function {name}(" in whole for name in functions)
