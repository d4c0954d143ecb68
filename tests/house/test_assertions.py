"""No test drops a comparison, asserts what always holds, or asserts nothing."""

import pytest

from house_tree import name, read, sources
from rule_assertions import demandless, empty_assertions, idle_comparisons

FILES = [(name(path), read(path)) for path in sources("tests")]


@pytest.mark.parametrize("rule", [idle_comparisons, empty_assertions])
def test_no_test_breaks_the_rule(rule):
    assert [fault for path, text in FILES for fault in rule(path, text)] == []


def test_every_test_asserts_something():
    assert demandless(FILES) == []


@pytest.mark.parametrize(
    "line",
    [
        "x == 1",
        "x < y < z",
        "not x",
        "x and y",
        "np.allclose(x, y)",
        "math.isclose(x, y)",
        "(x == y).all()",
        "all(x)",
        "not np.any(x)",
        "-(x == y)",
        "frame.equals(other)",
        "path.exists()",
        "x == pytest.approx(1)",
    ],
)
def test_a_dropped_comparison_is_seen(line):
    assert len(idle_comparisons("t.py", f"def test_x():\n    {line}")) == 1
    assert idle_comparisons("t.py", f"def test_x():\n    assert {line}") == []


@pytest.mark.parametrize(
    "line",
    ["assert True", "assert (x, 'told')", "assert x == x", "assert 'x'", "assert approx(1)"],
)
def test_an_assertion_that_cannot_fail_is_seen(line):
    assert len(empty_assertions("t.py", line)) == 1


@pytest.mark.parametrize("line", ["assert x == y", "assert False", "assert x == approx(x)"])
def test_an_assertion_that_can_fail_passes(line):
    assert empty_assertions("t.py", line) == []


def test_a_test_without_assertion_is_seen():
    text = (
        "def check(x):\n    assert x\n"
        "def passes_on(x):\n    check(x)\n"
        "def idle(x):\n    return x\n"
        "def test_a():\n    passes_on(1)\n"
        "def test_b():\n    with pytest.raises(ValueError):\n        idle(1)\n"
        "def test_c():\n    np.testing.assert_allclose(1, 1)\n"
        "def test_d():\n    idle(1)\n"
    )
    assert demandless([("t.py", text)]) == ["t.py:14: test_d asserts nothing"]
