"""Functions of the physics in JavaScript; whatever is outside the subset is refused."""

from __future__ import annotations

import ast
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from simgait.engines.script_expressions import NUMBERS, OPERATORS, Expressions
from simgait.engines.script_words import ATOM, Code, bound_names, joined, script_name


def merged(one: Mapping[str, str], other: Mapping[str, str]) -> dict[str, str]:
    """Return the kinds of names where two ways meet; what only one way sets has its kind.

    >>> merged({"n": "int"}, {"n": "float", "y": "bool"})
    {'n': 'float', 'y': 'bool'}
    """
    return {
        name: joined(one.get(name, kind), other.get(name, kind))
        for name, kind in {**one, **other}.items()
    }


@dataclass(kw_only=True)
class Translator(Expressions):
    """Says one function."""

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
        head = [f"function {script_name(node.name)}({self.heading(node)}) {{"]
        declared = [f"  let {', '.join(local)};"] if local else []
        return "\n".join(head + declared + lines + ["}"])

    def heading(self, node: ast.FunctionDef) -> str:
        """Return the parameters of a function, in their order."""
        return ", ".join(script_name(name) for name, _ in self.signatures[node.name].takes)

    def always_returns(self, body: Sequence[ast.stmt]) -> bool:
        """Return whether no way leads past the end of these statements."""
        last = body[-1] if body else None
        if isinstance(last, ast.If):
            return self.always_returns(last.body) and self.always_returns(last.orelse)
        return isinstance(last, ast.Return | ast.Raise)

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
