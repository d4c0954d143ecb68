"""Small sources mean the same in both languages, or are refused with file and line."""

from __future__ import annotations

import math

import numba
import numpy as np
import pytest

from scripts import run_script
from simgait.engines.script import script_of, script_text
from simgait.engines.script_words import NotTranslated

NAN, INF = math.nan, math.inf
HEAD = "from math import sqrt\nfrom simgait.arrays import Array\n"
NUMBERS = (0.0, -0.0, 1.0, -1.0, 2.5, -2.5, 0.1, 1e300, -1e-300, INF, -INF, NAN)
PAIRS = [(a, b) for a in NUMBERS for b in NUMBERS]


def both(body: str, given: list[tuple[float, ...]], names: str = "a b") -> tuple[list, list]:
    """Return what `f` gives in Python and in the script for each of some arguments."""
    called = ", ".join(f"{name}: float" for name in names.split())
    text = f"{HEAD}def f({called}) -> float:\n    {body}\n"
    space: dict = {"Array": object}
    exec(text.replace("from simgait.arrays import Array\n", ""), space)
    count = len(names.split())
    call = f"""
        for (let at = 0; at < given.length; at += {count})
          answer.push(physics.f(...given.slice(at, at + {count})));"""
    script = script_of({"a.py": text}, ["f"])
    answer = run_script(f"{script}const answer = [];{call}", np.array(given))
    return [float(space["f"](*values)) for values in given], answer.tolist()


def the_same(one: list[float], other: list[float]) -> bool:
    """Return whether two lists of numbers are the same to the sign of a zero; NaN is NaN."""
    return len(one) == len(other) > 0 and all(
        math.copysign(1.0, a) == math.copysign(1.0, b)
        if a == b
        else math.isnan(a) and math.isnan(b)
        for a, b in zip(one, other, strict=True)
    )


@pytest.mark.parametrize(
    "body",
    [
        "return min(a, b)",
        "return max(a, b)",
        "return min(a, b, 1.0)",
        "return max(1.0, a, b)",
        "return abs(a) - b",
        "return a - b - 1.0",
        "return a - (b - 1.0)",
        "return a * (b * 3.0)",
        "return a * b * 3.0",
        "return -(-a) - -b",
        "return -(a - b)",
        "return 1.0 if a == b else 0.0",
        "return 1.0 if a != b else 0.0",
        "return 1.0 if not a <= b else 0.0",
        "return 1.0 if (a > 0.0) == (b > 0.0) else 0.0",
        "return 1.0 if a > 0.0 and b > 0.0 or a < b else 0.0",
        "return 1.0 if a > 0.0 and (b > 0.0 or a < b) else 0.0",
        "return 1.0 if not (a > 0.0 and b > 0.0) else 0.0",
        "return (a if a > b else b) if b > 0.0 else (b if a > 1.0 else a)",
        "return (a if a > b else b) + 1.0",
        "a, b = b, a\n    return a + 0.5 * b",
        "a -= b\n    b *= 2.0\n    b += a\n    return b",
        "walked = a > b\n    return 2.0 if walked else 3.0",
        "if a > b:\n        c = 1\n    elif a == b:\n        c = 2\n    else:\n        c = 3"
        "\n    return c",
        "new = a\n    function = b\n    return new - function",
        "arguments = a\n    Math = b\n    return abs(arguments) - Math",
        "return sqrt(abs(a)) * b",
    ],
)
def test_expressions_mean_the_same(body: str) -> None:
    python, script = both(body, PAIRS)
    assert the_same(python, script)


@pytest.mark.parametrize(
    "body",
    [
        "return int(a) * -1.0",
        "return float(int(b)) / 2",
        "return 1 / 3 + a",
        "n = 0\n    for i in range(3):\n        n += i\n    return 10.0 * n + i",
        "n = 5\n    for i in range(n):\n        n = 2\n        i = i * 10\n    return n + 1.0 * i",
        "n = 0\n    for i in range(2, 5):\n        n = 10 * n + i\n    return n + a",
        "n = 0\n    for i in range(9, 0, -2):\n        n = 10 * n + i\n    return n + a",
        "n = 0\n    for i in range(0, 9, 4):\n        n = 10 * n + i\n    return n + a",
        "n = 7\n    for n in range(4, 2):\n        a = 0.0\n    return n + a",
        "n = 0\n    for _ in range(2):\n        for _ in range(3):\n            n += 1"
        "\n    return n",
        "n = 0\n    for i in range(3):\n        for j in range(i):\n            n += j"
        "\n    return n",
        "c = 0.0\n    for i in range(3):\n        if i == 1:\n            return c + i"
        "\n        c = 8.0\n    return c",
    ],
)
def test_whole_numbers_and_loops_mean_the_same(body: str) -> None:
    given = [(a, b) for a in (0.4, -0.4, 2.9, -2.9, 7.0, -0.0) for b in (1.5, -3.7)]
    python, script = both(body, given)
    assert the_same(python, script)


def test_what_is_no_number_becomes_the_whole_number_of_the_compiled_engine() -> None:
    """CPython refuses it; what the compiled engine makes of it is clamped."""
    body = "return min(max(int(a), 2), 7) + b"
    space: dict = {}
    exec(f"def f(a, b):\n    {body}", space)
    expected = [numba.njit(space["f"])(NAN, 1.0)]
    script = script_of({"a.py": f"def f(a: float, b: float) -> float:\n    {body}\n"}, ["f"])
    answer = run_script(f"{script}const answer = [physics.f(NaN, 1)];")
    assert answer.tolist() == expected


def test_a_power_is_near() -> None:
    given = [(a, b) for a in (0.3, 2.0, 9.7) for b in (2.0, -1.5, 0.5, 7.0)]
    python, script = both("return a ** b + a ** 2", given)
    assert script == pytest.approx(python, rel=1e-15)


def test_a_name_that_javascript_keeps_is_given_back_under_its_own() -> None:
    text = "def delete(new: float) -> float:\n    return new\n"
    script = script_of({"a.py": text}, ["delete"])
    answer = run_script(f"{script}const answer = [physics.delete(4.5)];")
    assert answer.tolist() == [4.5]


def test_arrays_are_filled_in_place_and_change_places() -> None:
    text = """
def fill(count: int, one: Array, other: Array) -> int:
    for i in range(count):
        one[i] += 1.0
        one, other = other, one
        one[i] = 5.0 * i
    return count
"""
    script = script_of({"a.py": text}, ["fill"])
    calls = """
        const one = new Float64Array(4), other = new Float64Array(4);
        const count = physics.fill(3, one, other), answer = [count, ...one, ...other];"""
    space: dict = {"Array": object}
    exec(text, space)
    one, other = np.zeros(4), np.zeros(4)
    count = space["fill"](3, one, other)
    assert run_script(script + calls).tolist() == [count, *one, *other]


@pytest.mark.parametrize(
    ("body", "complaint"),
    [
        ("return a // b", "FloorDiv"),
        ("return a % b", "Mod"),
        ("a //= b\n    return a", "FloorDiv"),
        ("a **= b\n    return a", "Pow"),
        ("return 0.0 if 0.0 < a < b else 1.0", "chained"),
        ("return 0.0 if a is b else 1.0", "comparison"),
        ("while a > b:\n        a = 0.0\n    return a", "While"),
        ("for i in state:\n        a = 0.0\n    return a", "range"),
        ("for i in range(3):\n        a = 0.0\n    else:\n        a = 1.0\n    return a", "range"),
        ("for i in range(0, 3, n):\n        a = 0.0\n    return a", "step"),
        ("for i in range(0, 3, 0):\n        a = 0.0\n    return a", "step"),
        ("for i in range(a):\n        b = 0.0\n    return b", "whole number"),
        ("return state[a]", "whole number"),
        ("return state[1:2]", "Slice"),
        ("return state[0][1]", "array by its name"),
        ("return a[0]", "array by its name"),
        ("state[0] = a > b\n    return a", "put into an array"),
        ("return 1.0 if a else 2.0", "true or false"),
        ("return 1.0 if n else 2.0", "true or false"),
        ("return a and b", "true or false"),
        ("return 1.0 if not a else 2.0", "true or false"),
        ("return (a > b) + 1.0", "number is needed"),
        ("return 1.0 if (a > b) == a else 2.0", "comparison of a bool"),
        ("return 1.0 if state == state else 2.0", "comparison of a array"),
        ("return a > b", "bool returned"),
        ("return", "without a value"),
        ("a = b", "without a return"),
        ("if a > b:\n        return a", "without a return"),
        ("return c", "'c'"),
        ("b = c\n    c = a\n    return c", "before it is set"),
        ("if a > b:\n        c = 1.0\n    else:\n        c = state\n    return c", "mixed"),
        ("for i in range(n):\n        a = state[n]\n        n = 0.5\n    return a", "whole number"),
        ("return abs(x=a)", "by keyword"),
        ("return max(a)", "'max'"),
        ("return min(a, b, key=a)", "by keyword"),
        ("return sum(state)", "number is needed"),
        ("return round(a)", "'round'"),
        ("return math.sqrt(a)", "plain name"),
        ("return g(a)", "'g'"),
        ("return f(a)", "takes 4"),
        ("return f(a, b, b, state)", "a float given to f for its int 'n'"),
        ("a(b)\n    return a", "a value here"),
        ("return state.size", "Attribute"),
        ("a = b = 1.0\n    return a", "chained assignment"),
        ("a, b = state\n    return a", "several names"),
        ("a, b = 1.0, 2.0, 3.0\n    return a", "several names"),
        ("return (a, b)", "Tuple"),
        ("return [a]", "List"),
        ("return 'text'", "'text'"),
        ("return None", "None"),
        ("return 1j", "1j"),
        ("return 1e999", "inf"),
        ("return 9007199254740993", "9007199254740993"),
        ("return (lambda x: x)(a)", "plain name"),
        ("return a if b > 0.0 else (c := a)", "NamedExpr"),
        ("a\n    return b", "Expr"),
        ("assert a > b\n    return a", "Assert"),
        ("raise ValueError", "Raise"),
        ("global c\n    return a", "Global"),
        ("é = a\n    return é", "'é'"),
        ("x: float = a\n    return x", "AnnAssign"),
        ("def g(x: float) -> float:\n        return x\n    return a", "FunctionDef"),
    ],
)
def test_what_cannot_be_said_is_refused(body: str, complaint: str) -> None:
    text = f"def f(a: float, b: float, n: int, state: Array) -> float:\n    {body}\n"
    with pytest.raises(NotTranslated) as refusal:
        script_of({"some/file.py": text}, ["f"])
    assert complaint in str(refusal.value)
    assert str(refusal.value).startswith("some/file.py:")
    assert int(str(refusal.value).split(":")[1]) >= 1


@pytest.mark.parametrize(
    "text",
    [
        "def f(a) -> float:\n    return 1.0",
        "def f(a: float):\n    return 1.0",
        "def f(a: str) -> float:\n    return 1.0",
        "def f(a: float = 1.0) -> float:\n    return a",
        "def f(*a: float) -> float:\n    return 1.0",
        "def f(*, a: float) -> float:\n    return a",
        "def f(a: float, /) -> float:\n    return a",
        "@g\ndef f(a: float) -> float:\n    return a",
        "f = 1.0",
        "f = g",
        "f = abs(1)",
        "class f:\n    pass",
        "import math",
        "from math import sin",
        "from math import sqrt as root",
        "from .layout import W",
        "def f(a: float) -> float:\n    return a\ndef f(a: float) -> float:\n    return a",
        "if True:\n    f = 1.0",
        "print(1)",
        "f: float = 1.0",
        "f = h = 1.0",
    ],
)
def test_what_a_module_may_not_hold_is_refused(text: str) -> None:
    with pytest.raises(NotTranslated):
        script_of({"a.py": text}, ["f"])


def test_the_line_of_a_refusal_is_that_of_the_fault() -> None:
    text = (
        '"""Doc."""\n\n\ndef f(a: float) -> float:\n    """Doc."""\n    b = a\n    return b % a\n'
    )
    with pytest.raises(NotTranslated, match=r"^x\.py:7: the operator Mod$"):
        script_of({"x.py": text}, ["f"])


@pytest.mark.parametrize(
    ("roots", "constants"),
    [
        (["nonesuch"], {}),
        (["HIP_X"], {}),
        (["sine"], {"NONESUCH": 1}),
        (["sine"], {"sine": 1}),
        (["sine"], {"W": 1.0}),
        (["sine"], {"W": True}),
        (["sine"], {"NOT_A_NUMBER": INF}),
    ],
)
def test_a_root_or_a_value_that_cannot_be_is_refused(roots: list[str], constants: dict) -> None:
    with pytest.raises(NotTranslated):
        script_text(roots, constants)
