"""One function of the physics in JavaScript; whatever is outside the subset is refused.

The kinds of values (whole number, number, truth, array) are followed through every function, so
that only a whole number is an index or a loop's end, and only a truth is asked for in a condition:
there both languages agree (in Python a NaN is true, in JavaScript it is not).
"""

from __future__ import annotations

import ast
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NoReturn

from simgait.engines.words import (
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
    bound_names,
    joined,
    number_text,
    script_name,
    wrapped,
)

KINDS = {"int": "int", "float": "float", "bool": "bool", "Array": "array", "None": "none"}
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


def merged(one: Mapping[str, str], other: Mapping[str, str]) -> dict[str, str]:
    """Return the kinds of names where two ways meet; what only one way sets has its kind.

    >>> merged({"n": "int"}, {"n": "float", "y": "bool"})
    {'n': 'float', 'y': 'bool'}
    """
    return {
        name: joined(one.get(name, kind), other.get(name, kind))
        for name, kind in {**one, **other}.items()
    }


@dataclass(frozen=True, kw_only=True)
class Signature:
    """What a function takes and gives: kinds by the names of its parameters, and of its value."""

    takes: tuple[tuple[str, str], ...]
    gives: str


@dataclass(kw_only=True)
class Translator:
    """Says one function; `used` collects the module-level names and helpers it needs."""

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

    def function(self, node: ast.FunctionDef) -> str:
        """Return a function's text."""
        takes = dict(self.signatures[node.name].takes)
        self.gives = self.signatures[node.name].gives
        self.kinds = dict(takes)
        self.assigned = bound_names(node)
        if foreign := [name for name in (*takes, *self.assigned) if not name.isascii()]:
            self.refuse(node, f"the name {foreign[0]!r}")
        if self.gives != "none" and not self.always_returns(node.body):
            self.refuse(node, f"{node.name} may end without a return")
        lines = self.block(node.body, 1)
        local = [script_name(name) for name in self.assigned if name not in takes]
        head = [f"function {script_name(node.name)}({', '.join(map(script_name, takes))}) {{"]
        declared = [f"  let {', '.join(local)};"] if local else []
        return "\n".join(head + declared + lines + ["}"])

    def always_returns(self, body: Sequence[ast.stmt]) -> bool:
        """Return whether no way leads past the end of these statements."""
        last = body[-1] if body else None
        if isinstance(last, ast.If):
            return self.always_returns(last.body) and self.always_returns(last.orelse)
        return isinstance(last, ast.Return)

    # ---- statements ---------------------------------------------------------------------------

    def block(self, body: Sequence[ast.stmt], depth: int) -> list[str]:
        """Return the lines of statements."""
        return [line for statement in body for line in self.statement(statement, depth)]

    def statement(self, node: ast.stmt, depth: int) -> list[str]:
        """Return the lines of a statement."""
        pad = "  " * depth
        if isinstance(node, ast.If):
            return self.choice(node, depth, f"{pad}if")
        if isinstance(node, ast.For):
            return self.loop(node, depth)
        if isinstance(node, ast.Assign):
            return [pad + line for line in self.assignment(node)]
        if isinstance(node, ast.AugAssign):
            return [pad + self.change(node)]
        if isinstance(node, ast.Return):
            return [pad + self.returned(node)]
        if isinstance(node, ast.Expr):
            if isinstance(node.value, ast.Constant) and isinstance(node.value.value, str):
                return []  # a docstring
            if isinstance(node.value, ast.Call):
                return [f"{pad}{self.expression(node.value).text};"]
        self.refuse(node, f"the statement {type(node).__name__}")

    def choice(self, node: ast.If, depth: int, opening: str) -> list[str]:
        """Return the lines of an `if` and what follows it."""
        pad, test = "  " * depth, self.truth(node.test).text
        before = dict(self.kinds)
        lines = [f"{opening} ({test}) {{", *self.block(node.body, depth + 1)]
        after, self.kinds = self.kinds, before
        if len(node.orelse) == 1 and isinstance(node.orelse[0], ast.If):
            lines += self.choice(node.orelse[0], depth, f"{pad}}} else if")
        elif node.orelse:
            lines += [f"{pad}}} else {{", *self.block(node.orelse, depth + 1), f"{pad}}}"]
        else:
            lines += [f"{pad}}}"]
        self.kinds = merged(self.kinds, after)
        return lines

    def loop(self, node: ast.For, depth: int) -> list[str]:
        """Return the lines of a counted loop, which leaves its name behind as Python does.

        The ends are computed once, and what the body does to the name does not change the count.
        """
        call, target = node.iter, node.target
        counts = isinstance(call, ast.Call) and isinstance(call.func, ast.Name)
        if not (counts and isinstance(target, ast.Name) and not node.orelse):
            self.refuse(node, "a loop that is not `for i in range(...)`")
        assert isinstance(call, ast.Call) and isinstance(call.func, ast.Name)
        if call.func.id != "range" or call.keywords or not 1 <= len(call.args) <= 3:
            self.refuse(node, "a loop that is not `for i in range(...)`")
        begin = "0" if len(call.args) == 1 else self.whole(call.args[0]).text
        finish = self.whole(call.args[0 if len(call.args) == 1 else 1]).text
        by = self.stride(call.args[2]) if len(call.args) == 3 else 1
        self.kinds[target.id] = "int"
        name, pad, sign = script_name(target.id), "  " * depth, "<" if by > 0 else ">"
        head = f"let $at = {begin}, $end = {finish}; $at {sign} $end; $at += {by}"
        inside, known = [""], {"": ""}
        while known != self.kinds:  # until another round teaches nothing new
            known = self.kinds
            self.kinds = known | {target.id: "int"}
            inside = [f"{pad}  {name} = $at;", *self.block(node.body, depth + 1)]
            self.kinds = merged(known, self.kinds)
        return [f"{pad}for ({head}) {{", *inside, f"{pad}}}"]

    def stride(self, node: ast.expr) -> int:
        """Return the step of a loop, which must be a whole number written out."""
        try:
            value = ast.literal_eval(node)
        except ValueError:
            value = 0
        if type(value) is not int or value == 0:
            self.refuse(node, "a loop's step that is not a whole number written out")
        return value

    def assignment(self, node: ast.Assign) -> list[str]:
        """Return the lines of an assignment; values change places through names of their own."""
        if len(node.targets) != 1:
            self.refuse(node, "a chained assignment")
        target, value = node.targets[0], node.value
        if not isinstance(target, ast.Tuple):
            return [f"{self.place(target, self.expression(value))};"]
        if not isinstance(value, ast.Tuple) or len(value.elts) != len(target.elts):
            self.refuse(node, "several names for something that is not as many values")
        given = [self.expression(each) for each in value.elts]
        kept = ", ".join(f"${i} = {code.text}" for i, code in enumerate(given))
        set_to = [
            self.place(each, code._replace(text=f"${i}", rank=ATOM))
            for i, (each, code) in enumerate(zip(target.elts, given, strict=True))
        ]
        return [f"{{ const {kept}; {'; '.join(set_to)}; }}"]

    def place(self, target: ast.expr, code: Code) -> str:
        """Return an assignment's text, and learn the kind of the name that is set."""
        if isinstance(target, ast.Name):
            self.kinds[target.id] = code.kind
            return f"{script_name(target.id)} = {code.text}"
        if isinstance(target, ast.Subscript):
            if code.kind not in NUMBERS:
                self.refuse(target, "something that is not a number, put into an array")
            return f"{self.entry(target).text} = {code.text}"
        self.refuse(target, f"an assignment to {type(target).__name__}")

    def change(self, node: ast.AugAssign) -> str:
        """Return the text of `+=` and its like."""
        if type(node.op) not in (ast.Add, ast.Sub, ast.Mult, ast.Div):
            self.refuse(node, f"the operator {type(node.op).__name__}")
        sign, value = OPERATORS[type(node.op)][0], self.number(node.value)
        if isinstance(node.target, ast.Name):
            here = self.number(ast.copy_location(ast.Name(node.target.id, ast.Load()), node))
            divided = isinstance(node.op, ast.Div)
            self.kinds[node.target.id] = "float" if divided else joined(here.kind, value.kind)
            return f"{here.text} {sign}= {value.text};"
        if not isinstance(node.target, ast.Subscript):
            self.refuse(node, f"a change of {type(node.target).__name__}")
        return f"{self.entry(node.target).text} {sign}= {value.text};"

    def returned(self, node: ast.Return) -> str:
        """Return the text of a return, of the kind that the function says it gives."""
        if node.value is None:
            if self.gives != "none":
                self.refuse(node, "a return without a value")
            return "return;"
        code = self.expression(node.value)
        if not self.fits(code.kind, self.gives):
            self.refuse(node, f"a {code.kind} returned where a {self.gives} is said")
        return f"return {code.text};"

    @staticmethod
    def fits(kind: str, asked: str) -> bool:
        """Return whether a value of a kind may stand where another is asked for."""
        return kind == asked or (kind, asked) == ("int", "float")

    # ---- expressions --------------------------------------------------------------------------

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
