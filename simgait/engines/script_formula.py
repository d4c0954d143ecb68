"""One formula in JavaScript: a function of numbers that may call math, numpy and `require`."""

from __future__ import annotations

import ast
from collections.abc import Mapping
from dataclasses import dataclass

from simgait.engines.script_statements import Translator
from simgait.engines.script_words import ATOM, Code, script_name

NUMBERS = {"pi": "Math.PI", "e": "Math.E", "inf": "Infinity", "nan": "NaN"}  # of math and numpy
FUNCTIONS = {  # of math or numpy: how many values each takes, and its name here
    "sqrt": (1, "Math.sqrt"), "sin": (1, "Math.sin"), "cos": (1, "Math.cos"),
    "tan": (1, "Math.tan"), "exp": (1, "Math.exp"), "log": (1, "Math.log"),
    "hypot": (2, "Math.hypot"), "radians": (1, "$radians"), "degrees": (1, "$degrees"),
}  # fmt: skip
OF_MATH = {
    "asin": (1, "Math.asin"), "acos": (1, "Math.acos"), "atan": (1, "Math.atan"),
    "atan2": (2, "Math.atan2"), "fabs": (1, "Math.abs"),
}  # fmt: skip
OF_NUMPY = {
    "arcsin": (1, "Math.asin"), "arccos": (1, "Math.acos"), "arctan": (1, "Math.atan"),
    "arctan2": (2, "Math.atan2"), "abs": (1, "Math.abs"), "maximum": (2, "Math.max"),
    "minimum": (2, "Math.min"), "clip": (3, "$clip"),
}  # fmt: skip
LIBRARIES = {"math": FUNCTIONS | OF_MATH, "np": FUNCTIONS | OF_NUMPY}
MORE_HELPERS = {
    "$radians": "const $radians = (x) => x * (Math.PI / 180);",
    "$degrees": "const $degrees = (x) => x * (180 / Math.PI);",
    "$clip": "const $clip = (x, low, high) => Math.min(Math.max(x, low), high);",
    "$where": "const $where = (test, one, other) => test ? one : other;",
    "$sum": "const $sum = (from, to, term) => "
    "{ let sum = 0; for (let k = from; k < to; k += 1) sum += term(k); return sum; };",
    "$require": "const $require = (low, x, high, what) => { if (!(low <= x && x <= high"
    " && Number.isFinite(x))) throw new RangeError("
    "`${what} is ${x}; allowed: ${low} to ${high}`); };",
}


@dataclass(kw_only=True)
class FormulaTranslator(Translator):
    """Says one formula; more may be said than of the physics, less of it to the last digit."""

    optional: Mapping[str, frozenset[str]]  # parameters of each function that have a default

    def heading(self, node: ast.FunctionDef) -> str:
        """Return the parameters in their order, those by keyword too, with their defaults."""
        given = node.args
        named = zip(
            given.args[len(given.args) - len(given.defaults) :], given.defaults, strict=True
        )
        said = [*named, *zip(given.kwonlyargs, given.kw_defaults, strict=True)]
        defaults = {each.arg: self.expression(value).text for each, value in said if value}
        return ", ".join(
            f"{script_name(name)} = {defaults[name]}" if name in defaults else script_name(name)
            for name, _ in self.signatures[node.name].takes
        )

    def statement(self, node: ast.stmt, depth: int) -> list[str]:
        """Return the lines of a statement; a refusal is one too."""
        if isinstance(node, ast.Raise):
            return ["  " * depth + self.refusal(node)]
        return super().statement(node, depth)

    def refusal(self, node: ast.Raise) -> str:
        """Return the text of `raise RangeError("...")`."""
        call = node.exc
        if not (
            isinstance(call, ast.Call)
            and isinstance(call.func, ast.Name)
            and call.func.id == "RangeError"
            and len(call.args) == 1
            and not node.cause
        ):
            self.refuse(node, "a raise that is not of a RangeError with a text")
        return f"throw new RangeError({self.text(call.args[0])});"

    def loop(self, node: ast.For, depth: int) -> list[str]:
        """Return the lines of a loop, also of one over values that are written out."""
        if not isinstance(node.iter, ast.Tuple):
            return super().loop(node, depth)
        if node.orelse or not isinstance(node.target, ast.Tuple):
            self.refuse(node, "a loop that is not `for a, b in ((..., ...), ...)`")
        lines: list[str] = []
        for row in node.iter.elts:  # one after the other: they are few
            if not isinstance(row, ast.Tuple) or len(row.elts) != len(node.target.elts):
                self.refuse(row, "a loop over rows that are not as long as its names")
            pairs = zip(node.target.elts, row.elts, strict=True)
            lines += ["  " * depth + f"{self.place(name, self.spoken(v))};" for name, v in pairs]
            lines += self.block(node.body, depth)
        return lines

    def spoken(self, node: ast.expr) -> Code:
        """Return an expression, which may be a text."""
        written = isinstance(node, ast.JoinedStr) or (
            isinstance(node, ast.Constant) and isinstance(node.value, str)
        )
        return Code(self.text(node), ATOM, "text") if written else self.expression(node)

    def text(self, node: ast.expr) -> str:
        """Return a text, with names in braces if it has some."""
        parts = node.values if isinstance(node, ast.JoinedStr) else [node]
        written = ""
        for part in parts:
            if isinstance(part, ast.FormattedValue):
                written += self.braced(part)
                continue
            if not isinstance(part, ast.Constant) or not isinstance(part.value, str):
                self.refuse(node, "a text that is not written out")
            escaped = part.value.replace("\\", "\\\\").replace("`", "\\`").replace("${", "\\${")
            written += escaped
        return f"`{written}`"

    def braced(self, node: ast.FormattedValue) -> str:
        """Return a name in braces within a text."""
        if node.format_spec or node.conversion != -1 or not isinstance(node.value, ast.Name):
            self.refuse(node, "a text with something in it that is not a plain name")
        return f"${{{self.expression(node.value).text}}}"

    def assignment(self, node: ast.Assign) -> list[str]:
        """Return the lines of an assignment, also of both values of a function that gives two."""
        target = node.targets[0]
        if len(node.targets) != 1 or not isinstance(target, ast.Tuple):
            return super().assignment(node)
        if isinstance(node.value, ast.Tuple) or len(target.elts) != 2:
            return super().assignment(node)
        code = self.expression(node.value)
        if code.kind != "pair":
            self.refuse(node, "two names for something that is not two values")
        each = [
            self.place(name, Code(f"$[{i}]", ATOM, "float")) for i, name in enumerate(target.elts)
        ]
        return [f"{{ const $ = {code.text}; {'; '.join(each)}; }}"]

    def say_tuple(self, node: ast.Tuple) -> Code:
        """Return two numbers, or a row of some, which only a return may give."""
        parts = [self.part(each) for each in node.elts]
        whole = any(isinstance(each, ast.Starred) for each in node.elts)
        kind = "pair" if len(parts) == 2 and not whole and self.gives != "row" else "row"
        return Code(f"[{', '.join(parts)}]", ATOM, kind)

    def part(self, node: ast.expr) -> str:
        """Return a number of a row, or all of another row's."""
        if not isinstance(node, ast.Starred):
            return self.number(node).text
        code = self.expression(node.value)
        if code.kind not in ("row", "pair"):
            self.refuse(node, f"all values of a {code.kind}")
        return f"...{code.text}"

    def say_attribute(self, node: ast.Attribute) -> Code:
        """Return a number of math or numpy, such as pi."""
        library = node.value.id if isinstance(node.value, ast.Name) else ""
        if library not in LIBRARIES or node.attr not in NUMBERS:
            self.refuse(node, f"the attribute {node.attr!r}")
        return Code(NUMBERS[node.attr], ATOM, "float")

    def say_call(self, node: ast.Call) -> Code:
        """Return a call: of math, numpy, `require`, `sum`, or of another formula."""
        if isinstance(node.func, ast.Attribute):
            return self.library_call(node, node.func)
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        if name == "require" and len(node.args) == 4 and not node.keywords:
            self.used.add("$require")
            numbers = ", ".join(self.number(each).text for each in node.args[:3])
            return Code(f"$require({numbers}, {self.text(node.args[3])})", ATOM, "none")
        if name == "sum" and len(node.args) == 1 and not node.keywords:
            return self.sum_of(node.args[0])
        return super().say_call(self.in_order(node, name))

    def in_order(self, node: ast.Call, name: str) -> ast.Call:
        """Return a call of another formula with every value at its place."""
        if name not in self.signatures or name in self.kinds:
            return node
        takes = [each for each, _ in self.signatures[name].takes]
        given: dict[str, ast.expr] = dict(zip(takes, node.args, strict=False))
        for each in node.keywords:
            if each.arg is None or each.arg not in takes or each.arg in given:
                self.refuse(node, f"a call of {name} with {each.arg or '**'}")
            given[each.arg] = each.value
        if lacking := [each for each in takes if each not in {*given, *self.optional[name]}]:
            self.refuse(node, f"a call of {name} without {lacking[0]!r}")
        if len(node.args) > len(takes):
            self.refuse(node, f"a call of {name} with {len(node.args)} values")
        unsaid: ast.expr = ast.copy_location(ast.Name("$unsaid", ast.Load()), node)
        return ast.copy_location(
            ast.Call(node.func, [given.get(each, unsaid) for each in takes], []), node
        )

    def say_name(self, node: ast.Name) -> Code:
        """Return a name; a value that is left to its default is undefined."""
        if node.id == "$unsaid":
            return Code("undefined", ATOM, "float")
        return super().say_name(node)

    def library_call(self, node: ast.Call, function: ast.Attribute) -> Code:
        """Return a call of math or of numpy."""
        library = function.value.id if isinstance(function.value, ast.Name) else ""
        name = function.attr
        if library not in LIBRARIES or node.keywords:
            self.refuse(node, f"a call of {ast.unparse(function)}")
        if library == "np" and name == "asarray" and len(node.args) == 1:
            return self.number(node.args[0])._replace(kind="float")
        if library == "np" and name == "where" and len(node.args) == 3:
            self.used.add("$where")
            test, *both = self.truth(node.args[0]), *map(self.number, node.args[1:])
            return Code(f"$where({', '.join(c.text for c in (test, *both))})", ATOM, "float")
        count, says = LIBRARIES[library].get(name, (0, ""))
        if not says or len(node.args) != count:
            self.refuse(node, f"a call of {ast.unparse(function)} with {len(node.args)} values")
        if says.startswith("$"):
            self.used.add(says)
        return Code(f"{says}({', '.join(self.number(e).text for e in node.args)})", ATOM, "float")

    def sum_of(self, node: ast.expr) -> Code:
        """Return `sum(term for k in range(...))`, added one after the other."""
        plain = "a sum that is not `sum(... for k in range(...))`"
        if not isinstance(node, ast.GeneratorExp) or len(node.generators) != 1:
            self.refuse(node, plain)
        target, call = node.generators[0].target, node.generators[0].iter
        if node.generators[0].ifs or not isinstance(target, ast.Name):
            self.refuse(node, plain)
        if not isinstance(call, ast.Call) or ast.unparse(call.func) != "range" or call.keywords:
            self.refuse(node, plain)
        if not 1 <= len(call.args) <= 2:
            self.refuse(node, "a sum over a range with a step")
        ends = [self.whole(each).text for each in call.args]
        before, self.kinds = self.kinds, self.kinds | {target.id: "int"}
        term = self.number(node.elt)
        self.kinds = before
        self.used.add("$sum")
        first = ends[0] if len(ends) == 2 else "0"
        inner = f"({script_name(target.id)}) => ({term.text})"
        return Code(f"$sum({first}, {ends[-1]}, {inner})", ATOM, term.kind)
