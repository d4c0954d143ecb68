"""Formulas of other rooms say in JavaScript what they say in Python, refusals included."""

from __future__ import annotations

import importlib
import inspect
import json
import math

import numpy as np
import pytest

from scripts import run_script
from simgait.engines.script_formulas import formulas_text
from simgait.engines.script_words import NotTranslated
from simgait.errors import RangeError

LENGTH, FORCE, ANGLE, SHARE = (0.01, 2.0), (0.0, 900.0), (0.05, 1.4), (0.1, 1.0)
BAR, WHEELS = "simgait.levers.bar", "simgait.levers.wheels"
SLOPES, PULLEYS = "simgait.levers.slopes", "simgait.levers.pulleys"
CABLE = "simgait.arm.geometry"
COUNT = (1, 9)  # whole numbers, drawn as such
SPANS: dict[tuple[str, str], tuple[tuple[float, float], ...]] = {
    (BAR, "lever_advantage"): (LENGTH, LENGTH),
    (WHEELS, "wheel_advantage"): (LENGTH, LENGTH),
    (WHEELS, "gear_ratio"): (COUNT, COUNT),
    (PULLEYS, "pulley_advantage"): (COUNT,),
    (PULLEYS, "block_efficiency"): (COUNT, SHARE),
    (PULLEYS, "pulley_effort"): (FORCE, COUNT, SHARE),
    (PULLEYS, "support_force"): (FORCE, FORCE, (0, 1)),
    (SLOPES, "ramp_advantage"): ((2.0, 5.0), LENGTH),
    (SLOPES, "ramp_efficiency"): (ANGLE, SHARE),
    (SLOPES, "wedge_advantage"): (LENGTH, LENGTH),
    (SLOPES, "screw_advantage"): (LENGTH, LENGTH),
    (SLOPES, "screw_efficiency"): ((0.001, 0.004), (0.004, 0.02), SHARE),
    (SLOPES, "holds_by_itself"): (SHARE, SHARE),
    (CABLE, "along_and_across"): (LENGTH,) * 4,
    (CABLE, "cable_length"): (ANGLE, *(LENGTH,) * 4),
    (CABLE, "lever_arm"): (ANGLE, *(LENGTH,) * 4),
    (CABLE, "excursion"): (ANGLE, ANGLE, *(LENGTH,) * 4),
    (CABLE, "working_flexions"): (LENGTH,) * 4,
    (CABLE, "guide_place"): (ANGLE, *(LENGTH,) * 3),
    (CABLE, "forearm_place"): (ANGLE, ANGLE, *(LENGTH,) * 3),
    ("simgait.arm.lengths", "tube_inertia"): (LENGTH, LENGTH),
    ("simgait.arm.lengths", "socket_couple"): (FORCE, FORCE, (0.02, 0.4)),
    ("simgait.arm.lengths", "reach_between"): (LENGTH, LENGTH, ANGLE),
}


def in_python(module: str, name: str, values: list[float]) -> list[float]:
    """Return what a formula gives, its arguments by position or by keyword as it wants them."""
    function = getattr(importlib.import_module(module), name)
    named = zip(inspect.signature(function).parameters.values(), values, strict=True)
    by_place, by_name = [], {}
    for parameter, value in named:
        if parameter.kind is parameter.KEYWORD_ONLY:
            by_name[parameter.name] = value
        else:
            by_place.append(value)
    return [float(value) for value in np.ravel(function(*by_place, **by_name))]


def drawn(spans: tuple[tuple[float, float], ...], rng: np.random.Generator) -> list[float]:
    """Return one value from each span; a span of whole numbers gives whole numbers."""
    whole = [all(isinstance(end, int) for end in span) for span in spans]
    return [
        int(rng.integers(low, high + 1)) if count else float(rng.uniform(low, high))
        for (low, high), count in zip(spans, whole, strict=True)
    ]


def script_answers(text: str, calls: list[str]) -> list[float]:
    """Return the numbers that some calls of formulas give, those of a pair one after the other."""
    return run_script(f"{text}const answer = [{', '.join(calls)}].flat().map(Number);").tolist()


@pytest.mark.parametrize(("module", "name"), SPANS)
def test_a_formula_gives_the_same(module: str, name: str) -> None:
    rng = np.random.default_rng(5)
    given = [drawn(SPANS[module, name], rng) for _ in range(60)]
    expected = [value for values in given for value in in_python(module, name, values)]
    calls = [f"formulas.{name}({', '.join(map(json.dumps, values))})" for values in given]
    answers = script_answers(formulas_text({module: [name]}), calls)
    assert answers == pytest.approx(expected, rel=1e-13, abs=1e-15)
    assert len(set(expected)) > 1


def test_a_value_left_out_has_its_default() -> None:
    text = formulas_text({CABLE: ["cable_length", "lever_arm"]})
    calls = [
        "formulas.cable_length(0.3, 0.08, undefined, 0.03)",
        "formulas.lever_arm(0.3, 0.08, undefined, 0.03, 0.01)",
    ]
    module = importlib.import_module(CABLE)
    expected = [
        float(module.cable_length(0.3, guide=0.08, loop=0.03)),
        float(module.lever_arm(0.3, guide=0.08, loop=0.03, loop_offset=0.01)),
    ]
    assert script_answers(text, calls) == pytest.approx(expected, rel=1e-14)


@pytest.mark.parametrize(
    ("module", "name", "values"),
    [
        (BAR, "lever_advantage", [200.0, 1.0]),
        (BAR, "lever_advantage", [1.0, 0.0]),
        (PULLEYS, "pulley_advantage", [2.5]),
        (WHEELS, "gear_ratio", [12, 3.5]),
        (SLOPES, "screw_efficiency", [0.1, 0.01, 1.0]),
        (SLOPES, "ramp_advantage", [1.0, 2.0]),
    ],
)
def test_what_python_refuses_is_refused(module: str, name: str, values: list[float]) -> None:
    """With the same words; only the numbers in them may be written in another way."""
    with pytest.raises(RangeError) as refusal:
        in_python(module, name, values)
    said = str(refusal.value)
    named = said.partition(" is ")[0]
    text = formulas_text({module: [name]})
    call = f"""const answer = [];
        try {{ formulas.{name}({", ".join(map(json.dumps, values))}); }}
        catch (error) {{
          answer.push(error instanceof RangeError, error.message.startsWith({json.dumps(named)}));
        }}"""
    assert run_script(text + call).tolist() == [1.0, 1.0]


@pytest.mark.parametrize("bad", ["NaN", "Infinity", "-Infinity"])
def test_what_is_no_number_is_refused(bad: str) -> None:
    text = formulas_text({BAR: ["lever_advantage"]})
    call = f"""let answer = [0];
        try {{ formulas.lever_advantage({bad}, 1); }} catch (error) {{ answer = [1]; }}"""
    assert run_script(text + call).tolist() == [1.0]


MORE = '''
import math
import numpy as np
from simgait.errors import RangeError, require
LEAST, MOST = 0.5 * math.pi, math.pi - 0.1
def plain(x: float, y: float) -> float:
    """Doc."""
    return np.clip(x, LEAST, MOST) + np.where(x > y, np.degrees(x), math.hypot(x, y)) + MOST
def both(x: float, y: float) -> tuple[float, float]:
    for name, value in (("x", x), ("`y` ${z}", y)):
        require(-9.0, value, 9.0, f"{name} [1]")
    return np.minimum(x, y), np.maximum(x, y)
def used(x: float, *, y: float = 2.0, z: float) -> float:
    low, high = both(y, x)
    return high - low * z + sum(k * x for k in range(4)) + plain(y=z, x=x)
'''


def test_more_of_what_may_be_said() -> None:
    text = formulas_text({"a": ["used"]}, {"a": MORE})
    space: dict = {}
    exec(MORE, space)
    given = [(0.3, 1.7, -2.0), (5.0, 2.0, 0.1), (-1.0, 3.0, 4.0)]
    calls = [f"formulas.used({x}, {y}, {z})" for x, y, z in given]
    expected = [float(space["used"](x, y=y, z=z)) for x, y, z in given]
    assert script_answers(text, calls) == pytest.approx(expected, rel=1e-13)
    assert formulas_text({"a": ["used", "both"]}, {"a": MORE}) == text


def test_a_limit_that_is_infinite_lets_nothing_infinite_in() -> None:
    said = MORE + "def open(x: float) -> float:\n    require(0.0, x, np.inf, 'x')\n    return x\n"
    text = formulas_text({"a": ["open"]}, {"a": said})
    call = "const answer = [formulas.open(1e300)];"
    refused = "try { formulas.open(Infinity); } catch (error) { answer.push(1); }"
    assert run_script(text + call + refused).tolist() == [1e300, 1.0]


def test_a_text_cannot_become_a_program() -> None:
    text = formulas_text({"a": ["both"]}, {"a": MORE})
    call = """const answer = [];
        try { formulas.both(1, 10); }
        catch (error) { answer.push(error.message.startsWith("`y` ${z} [1] is 10;")); }"""
    assert run_script(text + call).tolist() == [1.0]


@pytest.mark.parametrize(
    ("body", "complaint"),
    [
        ("return weights(x)", "'weights'"),
        ("return np.linspace(0.0, x)", "np.linspace"),
        ("return np.sin(x, x)", "np.sin with 2"),
        ("return np.sin(x, out=x)", "np.sin"),
        ("return os.sin(x)", "os.sin"),
        ("return math.tau", "'tau'"),
        ("return x.real", "'real'"),
        ("return other(**x)", "with **"),
        ("return other(x, z=x)", "with z"),
        ("return other(x, x=x)", "with x"),
        ("return other(y=x)", "without 'x'"),
        ("return other(x, x, x)", "with 3 values"),
        ("a, b = other(x)\n    return a", "not two values"),
        ("a, b = pair(x)\n    return a + pair(x)", "pair where a number"),
        ("return x, x, x", "a row returned"),
        ("return *pair(x), x", "a row returned"),
        ("return *other(x), x", "all values of a float"),
        ("a, b = row(x)\n    return a", "not two values"),
        ("return sum(k for k in x)", "sum that is not"),
        ("return sum(k for k in range(3) if k > 1)", "sum that is not"),
        ("return sum(k for k in range(0, 3, 1))", "a step"),
        ("return sum([x])", "sum that is not"),
        ("raise ValueError('no')", "RangeError"),
        ("raise RangeError(x)", "text"),
        ("raise RangeError(f'{x:g}')", "plain name"),
        ("raise RangeError(f'{x!r}')", "plain name"),
        ("raise RangeError('no') from None", "RangeError"),
        ("for a in (x, x):\n        x = a\n    return x", "for a, b in"),
        ("for a, b in ((x, x), (x,)):\n        x = a\n    return x", "as long as its names"),
        ("return math.fsum(x for k in range(3))", "math.fsum"),
        ("return [x][0]", "List"),
        ("return x @ x", "MatMult"),
        ("return {x: x}", "Dict"),
    ],
)
def test_what_a_formula_cannot_say_is_refused(body: str, complaint: str) -> None:
    text = f"""import math
import numpy as np
def other(x: float, y: float = 1.0) -> float:
    return x + y
def pair(x: float) -> tuple[float, float]:
    return x, x
def row(x: float) -> tuple[float, ...]:
    return x, x
def f(x: float) -> float:
    {body}
"""
    with pytest.raises(NotTranslated) as refusal:
        formulas_text({"some.place": ["f"]}, {"some.place": text})
    assert complaint in str(refusal.value)
    assert str(refusal.value).startswith("some/place.py:")


def test_formulas_that_cannot_be_are_refused() -> None:
    with pytest.raises(NotTranslated, match=r"simgait/levers/bar\.py:79: .*weights"):
        formulas_text({BAR: ["effort_to_hold"]})
    with pytest.raises(NotTranslated, match="nonesuch"):
        formulas_text({BAR: ["nonesuch"]})
    twice = dict.fromkeys("ab", "def f(x: float) -> float:\n    return x")
    with pytest.raises(NotTranslated, match=r"b\.py:1: 'f'"):
        formulas_text({"a": ["f"], "b": ["f"]}, twice)


def test_pi_is_the_same_number() -> None:
    said = "import math\ndef f(x: float) -> float:\n    return math.pi"
    assert script_answers(formulas_text({"a": ["f"]}, {"a": said}), ["formulas.f(0)"]) == [math.pi]


def test_rows_of_numbers_are_given_and_joined() -> None:
    text = """def pair(x: float) -> tuple[float, float]:
    return x, 2.0 * x
def row(x: float) -> tuple[float, ...]:
    return x, -x
def long(x: float) -> tuple[float, ...]:
    return *row(x), *pair(x), x * x
"""
    said = formulas_text({"a": ["long", "row"]}, {"a": text})
    answers = script_answers(said, ["formulas.long(3.0)", "formulas.row(4.0)"])
    assert answers == [3.0, -3.0, 3.0, 6.0, 9.0, 4.0, -4.0]
