"""Expressions of the physics in JavaScript, each of one kind: number, truth or array.

The kinds are followed through every function, so that only a whole number is an index or a loop's
end, and only a truth is asked for in a condition: there both languages agree (in Python a NaN is
true, in JavaScript it is not).
"""

from __future__ import annotations

import ast
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NoReturn

from simgait.engines.script_words import (
    AND,
    ATOM,
    CHOICE,
    EQUALITY,
    OR,
    ORDER,
    PRODUCT,
    SUM,
    UNARY,
    Code,
    NotTranslated,
    joined,
    number_text,
    script_name,
    wrapped,
)

OPERATORS: dict[type[ast.AST], tuple[str, int]] = {
    ast.Add: ("+", SUM),
    ast.Sub: ("-", SUM),
    ast.Mult: ("*", PRODUCT),
    ast.Div: ("/", PRODUCT),
    ast.Lt: ("<", ORDER),
    ast.LtE: ("<=", ORDER),
    ast.Gt: (">", ORDER),
    ast.GtE: (">=", ORDER),
    ast.Eq: ("===", EQUALITY),
    ast.NotEq: ("!==", EQUALITY),
    ast.And: ("&&", AND),
    ast.Or: ("||", OR),
}
NUMBERS = ("int", "float")


@dataclass(frozen=True, kw_only=True)
class Signature:
    """What a function takes and gives: kinds by the names of its parameters, and of its value."""

    takes: tuple[tuple[str, str], ...]
    gives: str


@dataclass(kw_only=True)
class Expressions:
    """Says expressions; `used` collects the module-level names and helpers they need."""

    file: str
    signatures: Mapping[str, Signature]
    constants: Mapping[str, str]  # kind by name
    library: Mapping[str, str]  # functions of Python's math, by the name they are called by
    used: set[str] = field(default_factory=set)
    kinds: dict[str, str] = field(default_factory=dict)
    assigned: Sequence[str] = ()
    gives: str = ""

    def refuse(self, node: ast.AST, what: str) -> NoReturn:
        """Raise NotTranslated with the place of a node."""
        raise NotTranslated(f"{self.file}:{getattr(node, 'lineno', 1)}: {what}")

    @staticmethod
    def fits(kind: str, asked: str) -> bool:
        """Return whether a value of a kind may stand where another is asked for."""
        return kind == asked or (kind, asked) == ("int", "float")

    def number(self, node: ast.expr) -> Code:
        """Return an expression that must be a number."""
        code = self.expression(node)
        if code.kind not in NUMBERS:
            self.refuse(node, f"a {code.kind} where a number is needed")
        return code

    def whole(self, node: ast.expr) -> Code:
        """Return an expression that must be a whole number."""
        code = self.expression(node)
        if code.kind != "int":
            self.refuse(node, f"a {code.kind} where a whole number is needed")
        return code

    def truth(self, node: ast.expr) -> Code:
        """Return an expression that must be true or false."""
        code = self.expression(node)
        if code.kind != "bool":
            self.refuse(node, f"a {code.kind} where true or false is needed")
        return code

    def expression(self, node: ast.expr) -> Code:
        """Return an expression."""
        says = getattr(self, f"say_{type(node).__name__.lower()}", None)
        if says is None:
            self.refuse(node, f"the expression {type(node).__name__}")
        code: Code = says(node)
        return code

    def say_constant(self, node: ast.Constant) -> Code:
        """Return a number, true or false."""
        if isinstance(node.value, bool):
            return Code("true" if node.value else "false", ATOM, "bool")
        text = number_text(node.value) if isinstance(node.value, int | float) else None
        if text is None:
            self.refuse(node, f"the constant {node.value!r}")
        return Code(text, ATOM, type(node.value).__name__)

    def say_name(self, node: ast.Name) -> Code:
        """Return a name: of the function's own, or a constant of the physics."""
        name = node.id
        if name in self.kinds:
            return Code(script_name(name), ATOM, self.kinds[name])
        if name in self.assigned:
            self.refuse(node, f"{name!r} read before it is set")
        if name not in self.constants:
            self.refuse(node, f"the name {name!r}, which nothing here defines")
        self.used.add(name)
        return Code(script_name(name), ATOM, self.constants[name])

    def say_subscript(self, node: ast.Subscript) -> Code:
        """Return an entry of an array."""
        return self.entry(node)

    def entry(self, node: ast.Subscript) -> Code:
        """Return an array with an index."""
        code = self.expression(node.value)
        if code.kind != "array" or not isinstance(node.value, ast.Name):
            self.refuse(node, "an index to something that is not an array by its name")
        return Code(f"{code.text}[{self.whole(node.slice).text}]", ATOM, "float")

    def say_binop(self, node: ast.BinOp) -> Code:
        """Return a sum, a product or a power; what stands to the right keeps its parentheses."""
        left, right = self.number(node.left), self.number(node.right)
        kind = "float" if isinstance(node.op, ast.Div) else joined(left.kind, right.kind)
        if isinstance(node.op, ast.Pow):
            return Code(f"Math.pow({left.text}, {right.text})", ATOM, "float")
        if type(node.op) not in OPERATORS:
            self.refuse(node, f"the operator {type(node.op).__name__}")
        sign, rank = OPERATORS[type(node.op)]
        return Code(f"{wrapped(left, rank)} {sign} {wrapped(right, rank + 1)}", rank, kind)

    def say_unaryop(self, node: ast.UnaryOp) -> Code:
        """Return a sign, or a `not`."""
        if isinstance(node.op, ast.Not):
            return Code(f"!{wrapped(self.truth(node.operand), UNARY + 1)}", UNARY, "bool")
        if not isinstance(node.op, ast.USub | ast.UAdd):
            self.refuse(node, f"the operator {type(node.op).__name__}")
        code = self.number(node.operand)
        sign = "-" if isinstance(node.op, ast.USub) else "+"
        return Code(f"{sign}{wrapped(code, UNARY + 1)}", UNARY, code.kind)

    def say_compare(self, node: ast.Compare) -> Code:
        """Return a single comparison, of two numbers or of two truths."""
        if len(node.ops) != 1 or type(node.ops[0]) not in OPERATORS:
            self.refuse(node, "a comparison that is chained, or not of sizes")
        sign, rank = OPERATORS[type(node.ops[0])]
        left, right = self.expression(node.left), self.expression(node.comparators[0])
        kind = joined(left.kind, right.kind)
        if kind not in NUMBERS and not (kind == "bool" and rank == EQUALITY):
            self.refuse(node, f"a comparison of a {left.kind} with a {right.kind}")
        return Code(f"{wrapped(left, SUM)} {sign} {wrapped(right, SUM)}", rank, "bool")

    def say_boolop(self, node: ast.BoolOp) -> Code:
        """Return `and` or `or` of truths."""
        sign, rank = OPERATORS[type(node.op)]
        parts = [wrapped(self.truth(value), EQUALITY) for value in node.values]
        return Code(f" {sign} ".join(parts), rank, "bool")

    def say_ifexp(self, node: ast.IfExp) -> Code:
        """Return one of two values."""
        test, one, other = self.truth(node.test), *map(self.expression, (node.body, node.orelse))
        kind = joined(one.kind, other.kind)
        parts = [wrapped(each, CHOICE + 1) for each in (test, one, other)]
        return Code(f"{parts[0]} ? {parts[1]} : {parts[2]}", CHOICE, kind)

    def say_call(self, node: ast.Call) -> Code:
        """Return a call by position."""
        if not isinstance(node.func, ast.Name) or node.keywords:
            self.refuse(node, "a call by keyword, or of something that is not a plain name")
        name = node.func.id
        if name in self.kinds or name in self.assigned:
            self.refuse(node, f"a call of {name!r}, which is a value here")
        if name in self.signatures:
            return self.own_call(node, name)
        return self.built_in(node, name, [self.number(each) for each in node.args])

    def own_call(self, node: ast.Call, name: str) -> Code:
        """Return a call of another function of the physics, kinds compared."""
        signature = self.signatures[name]
        if len(node.args) != len(signature.takes):
            self.refuse(node, f"{name} takes {len(signature.takes)} values, not {len(node.args)}")
        given = [self.expression(each) for each in node.args]
        for code, (called, kind) in zip(given, signature.takes, strict=True):
            if not self.fits(code.kind, kind):
                self.refuse(node, f"a {code.kind} given to {name} for its {kind} {called!r}")
        self.used.add(name)
        text = ", ".join(code.text for code in given)
        return Code(f"{script_name(name)}({text})", ATOM, signature.gives)

    def built_in(self, node: ast.Call, name: str, given: list[Code]) -> Code:
        """Return a call of what Python has by itself, said as CPython computes it."""
        if name in ("min", "max") and len(given) >= 2:
            self.used.add(f"${name}")
            first = given[0]
            for code in given[1:]:
                kind = joined(first.kind, code.kind)
                first = Code(f"${name}({first.text}, {code.text})", ATOM, kind)
            return first
        if len(given) != 1:
            self.refuse(node, f"a call of {name!r} with {len(given)} values")
        (code,) = given
        if name == "int":
            self.used.add("$int")
            return Code(f"$int({code.text})", ATOM, "int")
        if name == "abs":
            return Code(f"Math.abs({code.text})", ATOM, code.kind)
        if name == "float":
            return code._replace(kind="float")
        if name not in self.library:
            self.refuse(node, f"a call of {name!r}, which is not part of the physics")
        return Code(f"Math.{self.library[name]}({code.text})", ATOM, "float")
