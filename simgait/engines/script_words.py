"""Words of the script: names that JavaScript keeps for itself, ranks of operators, helpers."""

from __future__ import annotations

import ast
from collections.abc import Sequence
from typing import NamedTuple

from simgait.errors import SimgaitError


class NotTranslated(SimgaitError):
    """A construct that is outside the subset which the script engine can say."""


class Code(NamedTuple):
    """A piece of JavaScript: its text, how firmly it binds, and what kind of value it has.

    kind: "int", "float", "bool", "array", "none", or "mixed": now of one kind and now of another.
    """

    text: str
    rank: int
    kind: str


ATOM, UNARY, PRODUCT, SUM, ORDER, EQUALITY, AND, OR, CHOICE = 20, 15, 13, 12, 10, 9, 5, 4, 3

WORDS = """
arguments async await break case catch class const continue debugger default delete do else enum
eval export extends false finally for function if implements import in instanceof interface let new
null package private protected public return static super switch this throw true try typeof
undefined var void while with yield
Array Float64Array Infinity Math NaN Number Object RangeError globalThis
"""
TAKEN = frozenset(WORDS.split())

# What Python does and JavaScript does not: min and max keep the first of two that do not compare
# (Math.min would give NaN), and a whole number has no sign when it is nothing.  Of NaN and of the
# infinite CPython makes no whole number; the compiled engine makes the least that it has, which the
# physics clamps like any place beyond an array: a run that is not finite ends as such.
HELPERS = {
    "$min": "const $min = (a, b) => b < a ? b : a;",
    "$max": "const $max = (a, b) => b > a ? b : a;",
    "$int": "const $int = (x) => { const t = Math.trunc(x) + 0; "
    "return t - t === 0 ? t : -(2 ** 63); };",
}


def script_name(name: str) -> str:
    """Return a Python name as JavaScript can have it: one that it keeps for itself gets a `$`.

    No Python name holds a `$`, so that nothing else can be called so.

    >>> script_name("lanes"), script_name("new")
    ('lanes', 'new$')
    """
    return f"{name}$" if name in TAKEN else name


def object_text(name: str, lines: Sequence[str], names: Sequence[str]) -> str:
    """Return one frozen JavaScript object that holds what some lines define, under these names.

    >>> print(object_text("sizes", ["const W = 1;"], ["W"]), end="")
    const sizes = (() => {
    "use strict";
    const W = 1;
    return Object.freeze({W});
    })();
    """
    held = [each if script_name(each) == each else f"{each}: {script_name(each)}" for each in names]
    body = "\n".join(['"use strict";', *lines, f"return Object.freeze({{{', '.join(held)}}});"])
    return f"const {name} = (() => {{\n{body}\n}})();\n"


def wrapped(code: Code, least: int) -> str:
    """Return a piece's text, in parentheses if it binds less firmly than asked."""
    return code.text if code.rank >= least else f"({code.text})"


def joined(one: str, other: str) -> str:
    """Return the kind of a value that is of one kind or of the other.

    >>> joined("int", "float"), joined("array", "float")
    ('float', 'mixed')
    """
    if one == other:
        return one
    return "float" if {one, other} == {"int", "float"} else "mixed"


def number_text(value: int | float) -> str | None:
    """Return a number as both languages read it to the same last bit; None if they do not.

    >>> number_text(0.1), number_text(24), number_text(2**60 + 1), number_text(float("inf"))
    ('0.1', '24', None, None)
    """
    if isinstance(value, int):
        return repr(value) if abs(value) <= 2**53 else None
    return repr(value) if value - value == 0.0 else None


def bound_names(function: ast.FunctionDef) -> list[str]:
    """Return the names that a function sets or counts with, in order: Python keeps them to its end.

    >>> bound_names(ast.parse("def f(x): y, z = x, 1; y = z").body[0])
    ['y', 'z']
    """
    nodes = [node for node in ast.walk(function) if isinstance(node, ast.Name)]
    stored = [node for node in nodes if isinstance(node.ctx, ast.Store)]
    stored.sort(key=lambda node: (node.lineno, node.col_offset))
    return list(dict.fromkeys(node.id for node in stored))
