"""Arithmetic operations of one stance with all its measures, and what the processor could do.

The plain engine runs the physics' text with one lane and numbers that count what is done to them.
"""

from __future__ import annotations

import functools
import math
import operator
from collections import Counter
from collections.abc import Callable, Mapping
from types import ModuleType

import numpy as np
from knee_peaks import baseline

CHAIN = 8  # fused multiply-adds one after the other, for each number
NUMBERS = 256  # of them side by side
ROUNDS = 200_000
done: Counter[str] = Counter()


class Counted:
    """A number that counts every operation on it."""

    __slots__ = ("value",)

    def __init__(self, value: float) -> None:
        self.value = value

    def __neg__(self) -> Counted:
        return Counted(-self.value)  # a sign is part of the next operation

    def __abs__(self) -> Counted:
        done["abs"] += 1
        return Counted(abs(self.value))

    def __int__(self) -> int:
        return int(self.value)

    def __bool__(self) -> bool:
        return bool(self.value)


def plain_value(number: Counted | float) -> float:
    """Return the number itself."""
    return number.value if isinstance(number, Counted) else number


def arithmetic(name: str, work: Callable[[float, float], float], swapped: bool) -> Callable:
    """Return a method that does the work, counts it and returns a counted number."""

    def method(self: Counted, other: Counted | float) -> Counted:
        done[name] += 1
        here, there = self.value, plain_value(other)
        try:
            return Counted(work(there, here) if swapped else work(here, there))
        except ZeroDivisionError:
            return Counted(math.nan)

    return method


def comparison(work: Callable[[float, float], bool]) -> Callable:
    """Return a method that compares and counts it."""

    def method(self: Counted, other: Counted | float) -> bool:
        done["compare"] += 1
        return work(self.value, plain_value(other))

    return method


for _name, _work in (
    ("add", operator.add),
    ("sub", operator.sub),
    ("mul", operator.mul),
    ("truediv", operator.truediv),
):
    setattr(Counted, f"__{_name}__", arithmetic(_name, _work, swapped=False))
    setattr(Counted, f"__r{_name}__", arithmetic(_name, _work, swapped=True))
for _name in ("lt", "le", "gt", "ge", "eq", "ne"):
    setattr(Counted, f"__{_name}__", comparison(getattr(operator, _name)))
Counted.__hash__ = None  # type: ignore[assignment]


def counting_kernel() -> ModuleType:
    """Return the physics for one lane, with functions that let counted numbers through."""
    from simgait.engines.source import gathered_source
    from simgait.physics import layout as rows

    text = gathered_source()
    line = f"\nW = {rows.W}\n"
    if text.count(line) != 1:
        raise RuntimeError("the physics no longer says how many lanes it has in one line")
    module = ModuleType("counting_kernel")
    exec(compile(text.replace(line, "\nW = 1\n"), "<counting>", "exec"), module.__dict__)

    def root(number: Counted) -> Counted:
        done["sqrt"] += 1
        return Counted(math.sqrt(number.value))

    module.__dict__.update(float=lambda number: number, sqrt=root)
    return module


@functools.cache
def counted_operations() -> Mapping[str, int]:
    """Return the operations of one stance by kind: all of the run, all of the measures."""
    from simgait.physics import layout as rows
    from simgait.stance.running import LOADING, STEP, steps_needed

    kernel, b = counting_kernel(), baseline()
    steps = steps_needed(b, STEP)

    def column(values: np.ndarray) -> list[Counted]:
        return [Counted(float(each)) for each in values]

    given = (b.state[0], b.parameter[0], b.sole[0], b.reference[0])
    state, parameter, sole, reference = (column(values) for values in given)
    sizes = (rows.SCRATCH, *(rows.STATES,) * 4, rows.CHANNELS * steps, rows.ENDS)
    scratch, rate, base, first, total, curves, ends = (column(np.zeros(n)) for n in sizes)
    series, found, measures = (
        column(np.zeros(n)) for n in (rows.SERIES * steps, rows.FOUND, rows.MEASURES)
    )
    done.clear()
    kernel.run_stance(
        1, steps, round(LOADING / STEP), STEP, state, parameter, sole, reference, scratch, rate,
        base, first, total, curves, ends,
    )  # fmt: skip
    run = sum(done.values())
    kernel.measure_block(1, steps, STEP, curves, parameter, ends, series, found, measures)
    if not plain_value(measures[rows.KNEE_FLEXION_PEAK]) > 0.0:
        raise RuntimeError("the counted stance has no measures")
    kinds = {f"operations_{kind}": number for kind, number in sorted(done.items())}
    return {"operations": sum(done.values()), "operations_of_the_run": run, **kinds}


@functools.cache
def peak_loop() -> Callable[[np.ndarray, int], None]:
    """Return a compiled loop of fused multiply-adds that stay in registers."""
    import numba

    from simgait.engines.compiled import use_wide_vectors

    use_wide_vectors()

    @numba.njit(nogil=True, fastmath={"contract"})
    def loop(numbers, rounds):
        for _ in range(rounds):
            for i in range(numbers.shape[0]):
                x = numbers[i]
                for _ in range(CHAIN):
                    x = x * 0.999999 + 1e-6
                numbers[i] = x

    return loop


def arithmetic_peak() -> Mapping[str, int]:
    """Do a fixed number of fused multiply-adds on one core; counts of a stance go along."""
    from simgait.engines.blocks import aligned

    peak_loop()(aligned(NUMBERS), ROUNDS)
    return {"peak_operations": 2 * CHAIN * NUMBERS * ROUNDS, **counted_operations()}
