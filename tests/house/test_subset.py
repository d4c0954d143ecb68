"""The physics stays within the subset of Python that every engine can run."""

import pytest

from house_tree import name, read, sources
from rule_subset import subset_faults

PHYSICS = [path for path in sources("simgait") if name(path).startswith("simgait/physics/")]

GOOD = '''
"""Say what this is."""

from math import sqrt

from simgait.arrays import Array
from simgait.physics.layout import W

LIMIT = -1.5  # [m]
SHARE = 10.0 / 3.0


def half(x: float) -> float:
    """Return half."""
    return 0.5 * x


def mark(lanes: int, rate: Array) -> None:
    """Mark the first."""
    rate[0] = 1.0


def fill(lanes, state, rate):
    """Fill rate."""
    for i in range(lanes):
        x = half(state[2 * W + i]) if state[i] > LIMIT else sqrt(abs(state[i]))
        if x > 0.0 and not x == 3.0:
            rate[i] = min(x, 1.0) ** 2
        else:
            rate[i] -= x
        half(x)
    return x, -x
'''


def test_there_is_physics():
    assert len(PHYSICS) > 2


@pytest.mark.parametrize("path", PHYSICS, ids=name)
def test_the_physics_keeps_to_the_subset(path):
    assert subset_faults(name(path), read(path)) == []


def test_what_is_allowed_passes():
    assert subset_faults("p.py", GOOD) == []


@pytest.mark.parametrize(
    "text",
    [
        "import numpy",
        "import math",
        "from numpy import sin",
        "from simgait.errors import require",
        "from math import *",
        "from math import sqrt as root",
        "from .layout import W",
        "class A:\n    x = 1",
        "A = 'text'",
        "A = [1]",
        "A = B = 1",
        "A = True",
        "A = B + 1",
        "A = 7 // 2",
        "if True:\n    A = 1",
        "print(1)",
    ],
)
def test_what_a_module_may_not_hold_is_seen(text):
    assert len(subset_faults("p.py", text)) >= 1


@pytest.mark.parametrize(
    "line",
    [
        "while x > 1.0:\n        x -= 1.0",
        "for y in state:\n        x = y",
        "for y, z in range(3):\n        x = y",
        "for y in range(3):\n        x = y\n    else:\n        x = 1",
        "for y in sorted(3):\n        x = y",
        "with x:\n        y = 1",
        "try:\n        y = 1\n    except ValueError:\n        y = 2",
        "y = [1, 2]",
        "y = {1: 2}",
        "y = {1, 2}",
        "y = [i for i in range(3)]",
        "y = (i for i in range(3))",
        "y = lambda z: z",
        "y = 'text'",
        "y = None",
        "y = 1j",
        "y = f'{x}'",
        "y = x.shape",
        "x.fill(0.0)",
        "y = x[1:2]",
        "y = x // 2",
        "y = x % 2",
        "x //= 2",
        "y = x @ x",
        "y = x & 1",
        "y = x << 1",
        "y = ~x",
        "y = x is x",
        "y = x in x",
        "y = 0.0 < x < 1.0",
        "y = z = x",
        "y = (z := x)",
        "y = min(x, key=x)",
        "y = min(*x)",
        "y = sum(x)",
        "x == 1.0",
        "print(x)",
        "raise ValueError",
        "assert x",
        "del x",
        "global y",
        "import math",
        "yield x",
        "def g(y):\n        return y",
        "if x > 1.0:\n        while x:\n            x = 1.0",
    ],
)
def test_what_a_function_may_not_do_is_seen(line):
    assert len(subset_faults("p.py", f"def f(x, state):\n    {line}\n")) >= 1


@pytest.mark.parametrize("given", ["x=1", "*x", "**x", "*, x", "x, /"])
def test_arguments_that_are_not_plain_are_seen(given):
    assert len(subset_faults("p.py", f"def f({given}):\n    return 1.0\n")) >= 1


@pytest.mark.parametrize("said", ["x: 'text'", "x: list[int]", "x: None | int", "x: 1", "x: a.b"])
def test_an_annotation_that_is_not_a_plain_name_is_seen(said):
    assert len(subset_faults("p.py", f"def f({said}):\n    return 1.0\n")) >= 1
    returned = said.removeprefix("x: ")
    assert len(subset_faults("p.py", f"def f(x) -> {returned}:\n    return 1.0\n")) >= 1


def test_none_is_allowed_only_as_an_annotation():
    assert subset_faults("p.py", "def f(x: float) -> None:\n    return\n") == []
    assert len(subset_faults("p.py", "def f(x: float) -> None:\n    return None\n")) == 1


def test_a_decorator_is_seen():
    assert len(subset_faults("p.py", "@f\ndef g(x):\n    return x\n")) >= 1
