"""Formulas of other rooms in JavaScript: pure functions of numbers, so that a lesson computes them.

The elementwise numpy and the math of these functions become Math; what JavaScript's own functions
round otherwise in the last digit (sine, tangent, powers, sums) is not exact, but close to it.  A
refused value is a RangeError there too.  A root of a negative number, which Python's math refuses,
is NaN there.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from importlib import resources
from types import MappingProxyType
from typing import NamedTuple

from simgait.engines.script_expressions import Signature
from simgait.engines.script_formula import MORE_HELPERS, FormulaTranslator
from simgait.engines.script_words import HELPERS, NotTranslated, object_text, script_name

KINDS = {
    "float": "float", "int": "int", "bool": "bool", "str": "text", "None": "none",
    "Value": "float", "Array": "float", "float | Array": "float",
    "tuple[float, float]": "pair", "tuple[Value, Value]": "pair", "tuple[Array, Array]": "pair",
    "tuple[float, ...]": "row",
}  # fmt: skip


class Place(NamedTuple):
    """Where a name is defined: module, as in `simgait.levers.bar`, and name there."""

    module: str
    name: str


@dataclass(frozen=True, kw_only=True)
class Said:
    """A formula or a constant in JavaScript, and what it needs."""

    place: Place
    text: str
    needs: tuple[str, ...]


def formulas_text(
    wanted: Mapping[str, Iterable[str]], texts: Mapping[str, str] = MappingProxyType({})
) -> str:
    """Return some formulas, and what they need, as one JavaScript object named `formulas`.

    Arguments come in the order in which Python lists them, those by keyword too; one that has a
    default may be left out at the end, or be undefined.  Two values are an array of two.

    wanted: names of functions by their module, as in
    ``{"simgait.levers.bar": ["lever_advantage"]}``;
    texts: of modules that are not the package's own.

    Raises:
        NotTranslated: a name that a module does not define, two formulas of one name, or a
            construct outside the subset; the message gives file and line.

    >>> text = formulas_text({"simgait.levers.wheels": ["wheel_advantage"]})
    >>> "return wheel_radius / axle_radius;" in text
    True
    """
    shelf = Shelf(texts=texts)
    found: dict[str, Said] = {}
    waiting = [Place(module, name) for module, names in wanted.items() for name in names]
    while waiting:
        place, node = shelf.find(waiting.pop(0))
        if place.name in found:
            if found[place.name].place != place:
                file, line = shelf.file(place.module), getattr(node, "lineno", 1)
                raise NotTranslated(f"{file}:{line}: {place.name!r} is there twice")
            continue
        said = say(shelf, place, node)
        found[place.name] = said
        waiting += [Place(place.module, name) for name in said.needs if not name.startswith("$")]
    helpers = HELPERS | MORE_HELPERS
    needed = {name for said in found.values() for name in said.needs}
    lines = [text for name, text in helpers.items() if name in needed]
    lines += [found[name].text for name in in_order(found)]
    return object_text("formulas", lines, sorted(found))


def in_order(found: Mapping[str, Said]) -> list[str]:
    """Return names so ordered that what one needs stands before it (formulas may need each other).

    >>> a, b = (Said(place=Place("m", n), text="", needs=("b",) if n == "a" else ()) for n in "ab")
    >>> in_order({"a": a, "b": b})
    ['b', 'a']
    """
    ordered: dict[str, None] = {}

    def add(name: str, above: tuple[str, ...]) -> None:
        if name in found and name not in ordered and name not in above:
            for each in found[name].needs:
                add(each, (*above, name))
            ordered[name] = None

    for name in sorted(found):
        add(name, ())
    return list(ordered)


def say(shelf: Shelf, place: Place, node: ast.AST) -> Said:
    """Return a formula or a constant in JavaScript."""
    teller = shelf.translator(place.module)
    if isinstance(node, ast.FunctionDef):
        if place.name not in teller.signatures:
            teller.refuse(node, f"{place.name} takes or gives what is no number: {strange(node)}")
        text = teller.function(node)
    else:
        assert isinstance(node, ast.expr)
        text = f"const {script_name(place.name)} = {teller.number(node).text};"
    return Said(place=place, text=text, needs=tuple(sorted(teller.used)))


@dataclass(kw_only=True)
class Shelf:
    """The modules that formulas come from, read as they are asked for."""

    texts: Mapping[str, str]  # by module; the package's own, if not said
    trees: dict[str, dict[str, ast.AST]] = field(default_factory=dict)

    def file(self, module: str) -> str:
        """Return the file of a module, as a message names it."""
        return module.replace(".", "/") + ".py"

    def names(self, module: str) -> dict[str, ast.AST]:
        """Return what a module defines or imports from this package, by name."""
        if module not in self.trees:
            package, _, name = module.rpartition(".")
            text = self.texts.get(module)
            if text is None:
                text = (resources.files(package) / f"{name}.py").read_text(encoding="utf-8")
            self.trees[module] = dict(defined_in(ast.parse(text)))
        return self.trees[module]

    def find(self, place: Place) -> tuple[Place, ast.AST]:
        """Return where a name is really defined, imports followed, and what defines it."""
        node = self.names(place.module).get(place.name)
        if node is None:
            raise NotTranslated(f"{self.file(place.module)}:1: no formula is called {place.name!r}")
        if isinstance(node, ast.ImportFrom):
            return self.find(Place(node.module or "", place.name))
        return place, node

    def translator(self, module: str) -> FormulaTranslator:
        """Return a translator that knows the formulas and constants that a module sees."""
        signatures: dict[str, Signature] = {}
        constants: dict[str, str] = {}
        optional: dict[str, frozenset[str]] = {}
        for name in self.names(module):
            if name in ("require", "RangeError"):
                continue
            try:
                _, node = self.find(Place(module, name))
            except (NotTranslated, OSError):
                continue
            if isinstance(node, ast.FunctionDef):
                if signature := signature_of(node):
                    signatures[name], optional[name] = signature, frozenset(optional_of(node))
            elif isinstance(node, ast.expr) and (kind := kind_of(node)):
                constants[name] = kind
        return FormulaTranslator(
            file=self.file(module), signatures=signatures, constants=constants, library={},
            optional=optional,
        )  # fmt: skip


def kinds_of(node: ast.FunctionDef) -> dict[str, str | None]:
    """Return the kinds of a formula's parameters and of its `return`, None of what it cannot have.

    >>> kinds_of(ast.parse("def f(x: float, y: list) -> tuple[float, float]: ...").body[0])
    {'x': 'float', 'y': None, 'return': 'pair'}
    """
    given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
    said = {each.arg: KINDS.get(ast.unparse(each.annotation or node)) for each in given}
    kinds = {name: None if kind in ("pair", "row", "none") else kind for name, kind in said.items()}
    gathered = [each.arg for each in (node.args.vararg, node.args.kwarg) if each]
    gives = KINDS.get(ast.unparse(node.returns or node))
    return kinds | dict.fromkeys(gathered) | {"return": gives}


def strange(node: ast.FunctionDef) -> str:
    """Return the parameters, or the return, that a formula cannot have."""
    return ", ".join(name for name, kind in kinds_of(node).items() if not kind) or "a decorator"


def signature_of(node: ast.FunctionDef) -> Signature | None:
    """Return the kinds that a formula takes and gives; None if one is not a number."""
    kinds = {name: kind for name, kind in kinds_of(node).items() if kind}
    if len(kinds) < len(kinds_of(node)) or node.decorator_list:
        return None
    gives = kinds.pop("return")
    return Signature(takes=tuple(kinds.items()), gives=gives)


def optional_of(node: ast.FunctionDef) -> Iterator[str]:
    """Yield the parameters that have a default."""
    given = node.args
    yield from (each.arg for each in given.args[len(given.args) - len(given.defaults) :])
    for each, default in zip(given.kwonlyargs, given.kw_defaults, strict=True):
        if default is not None:
            yield each.arg


def kind_of(node: ast.expr) -> str | None:
    """Return the kind of a constant; None if it is not made of numbers.

    >>> kind_of(ast.parse("math.pi / 2", mode="eval").body), kind_of(ast.parse("[1]").body[0].value)
    ('float', None)
    """
    allowed = (ast.BinOp, ast.UnaryOp, ast.Constant, ast.Name, ast.Attribute, ast.operator)
    if not all(isinstance(each, (*allowed, ast.unaryop, ast.Load)) for each in ast.walk(node)):
        return None
    if isinstance(node, ast.Constant):
        return type(node.value).__name__ if type(node.value) in (int, float) else None
    return "float"


def defined_in(tree: ast.Module) -> Iterator[tuple[str, ast.AST]]:
    """Yield the names of a module's functions, constants and imports from this package."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, node
        elif isinstance(node, ast.ImportFrom) and (node.module or "").startswith("simgait."):
            yield from ((alias.name, node) for alias in node.names if not alias.asname)
        elif isinstance(node, ast.Assign):
            target, value = node.targets[0], node.value
            if isinstance(target, ast.Name):
                yield target.id, value
            elif isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple):
                names = [each.id for each in target.elts if isinstance(each, ast.Name)]
                yield from zip(names, value.elts, strict=False)
