"""The limb set up at its alignment: plain and compiled give the same digits, many as each alone."""

import numpy as np
import pytest

from simgait.engines import compiled, plain
from simgait.engines.setting_up import BenchColumns, beginning, set_up_columns, steps_of
from simgait.limb import bench_columns
from simgait.physics import layout as rows
from walkers import aligned, walker

WALKERS = ("able-bodied-like", "steady-transtibial", "weak-kneed-slow")


def drawn(count):
    rng = np.random.default_rng(11)
    return [
        aligned(
            walker(WALKERS[run % 3]),
            foot_forward=rng.uniform(-0.03, 0.03),
            dorsiflexion=rng.uniform(-0.1, 0.1),
            socket_flexion=rng.uniform(0.0, 0.2),
            heel_rise=rng.uniform(0.0, 0.03),
        )
        for run in range(count)
    ]


def everything(kernel, before):
    parts = set_up_columns(kernel, before)
    return (*parts, beginning(kernel, before, *parts))


def together(columns):
    names = BenchColumns.__dataclass_fields__
    return BenchColumns(**{n: np.stack([getattr(c, n) for c in columns], axis=1) for n in names})


@pytest.mark.parametrize("kernel", [plain.kernel(), compiled.kernel()], ids=["plain", "compiled"])
def test_many_are_set_up_as_each_alone(kernel):
    each = [bench_columns(limb) for limb in drawn(rows.W + 3)]
    apart = zip(*(everything(kernel, columns) for columns in each), strict=True)
    for many, alone in zip(everything(kernel, together(each)), apart, strict=True):
        assert np.array_equal(many, np.stack(alone, axis=1))


def test_plain_and_compiled_set_up_with_the_same_digits():
    before = together([bench_columns(limb) for limb in drawn(20)])
    slow, fast = everything(plain.kernel(), before), everything(compiled.kernel(), before)
    for one, other in zip(slow[:3], fast[:3], strict=True):
        assert np.array_equal(one, other)
    assert fast[3] == pytest.approx(slow[3], rel=1e-12, abs=1e-15)
    steps = [
        steps_of(kernel, parts[0].T, parts[3].T, 1e-2)
        for kernel, parts in ((plain.kernel(), slow), (compiled.kernel(), fast))
    ]
    assert np.array_equal(*steps) and len(np.unique(steps[0])) > 1


def test_setting_up_leaves_what_it_is_given():
    before = bench_columns(walker("steady-transtibial"))
    copies = {name: getattr(before, name).copy() for name in BenchColumns.__dataclass_fields__}
    everything(compiled.kernel(), before)
    for name, copy in copies.items():
        assert np.array_equal(getattr(before, name), copy)
