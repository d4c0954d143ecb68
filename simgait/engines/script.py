"""The script engine: the physics as JavaScript, so that a page runs the very same equations.

Every construct has one meaning in both languages, or is refused (`script_statements` and
`script_expressions`); what Python computes otherwise than JavaScript is said by helpers
(`script_words`).  Where Python would stop, a division by nothing gives infinity or NaN, and the
root of less than nothing NaN, as in the compiled engine.
"""

from __future__ import annotations

import ast
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from simgait.engines.script_expressions import Signature
from simgait.engines.script_statements import Translator
from simgait.engines.script_words import HELPERS, NotTranslated, object_text, script_name
from simgait.engines.source import MODULES, module_text

KINDS = {"int": "int", "float": "float", "bool": "bool", "Array": "array", "None": "none"}
# Of Python's math: the root is rounded as IEEE 754 says in both languages; the arc tangent, which
# only setting a limb up calls, may differ in its last digit.
LIBRARY = {"sqrt": "sqrt", "atan": "atan"}
# modules whose constants, which name rows, are all given along
TABLES = ("layout", "bench_rows", "rest_layout")


@dataclass(frozen=True, kw_only=True)
class Defined:
    """A function or a constant of the physics, and the file it stands in."""

    file: str
    module: str
    node: ast.stmt


def script_text(
    roots: Iterable[str], constants: Mapping[str, int | float] = MappingProxyType({"W": 1})
) -> str:
    """Return the physics that some functions need, as one JavaScript object named `physics`.

    It holds these functions, whatever they call, every constant of `layout` and every other one
    that they use, by their Python names and with arguments in Python's order; arrays are
    Float64Array of rows times W.

    roots: names of functions; constants: values to take in place of the physics' own, such as the
    lanes of a block.

    Raises:
        NotTranslated: a name that the physics does not define, or a construct outside the subset;
            the message gives file and line.

    >>> text = script_text(["smooth_step"])
    >>> "function smooth_step(u)" in text, "press_sole" in text, "const W = 1;" in text
    (True, False, True)
    """
    files = {f"simgait/physics/{name}.py": module_text(name) for name in MODULES}
    return script_of(files, roots, constants)


def script_of(
    files: Mapping[str, str],
    roots: Iterable[str],
    constants: Mapping[str, int | float] = MappingProxyType({}),
) -> str:
    """Return the same of any modules, given as text by the name of their file.

    >>> script_of({"a.py": "def twice(x: float) -> float:\\n    return 2.0 * x"}, ["twice"])
    ... # doctest: +ELLIPSIS
    'const physics = (() => {\\n"use strict";\\nfunction twice(x) {\\n  return 2.0 * x;\\n}\\n...
    """
    defined = definitions(files)
    changed = with_values(defined, constants)
    wanted = reached(defined, roots)
    tables = {name for name, each in defined.items() if each.module in TABLES and not said(each)}
    names = [name for name in defined if name in wanted or name in tables]
    lines = [HELPERS[name] for name in HELPERS if any(name in each for each in wanted.values())]
    lines += [
        wanted[name] if said(defined[name]) else changed.get(name) or constant_text(defined[name])
        for name in names
    ]
    return object_text("physics", lines, names)


def said(defined: Defined) -> bool:
    """Return whether a definition is a function, not a constant."""
    return isinstance(defined.node, ast.FunctionDef)


def definitions(files: Mapping[str, str]) -> dict[str, Defined]:
    """Return every function and constant of some modules by name, in the order of their lines.

    Raises:
        NotTranslated: a name is defined twice, or a statement is outside the subset.
    """
    found: dict[str, Defined] = {}
    for file, text in files.items():
        module = file.rpartition("/")[2].removesuffix(".py")
        for node in ast.parse(text).body:
            name = defined_name(file, node)
            if name in found:
                raise NotTranslated(f"{file}:{node.lineno}: {name!r} is defined twice")
            if name:
                found[name] = Defined(file=file, module=module, node=node)
    return found


def defined_name(file: str, node: ast.stmt) -> str | None:
    """Return the name that a statement of a module defines; None of a docstring or an import.

    Raises:
        NotTranslated: it defines none that can be said.
    """
    if isinstance(node, ast.ImportFrom):
        taken = [alias.name for alias in node.names if alias.asname or alias.name == "*"]
        if node.level or taken or (node.module == "math" and not said_of_math(node)):
            raise NotTranslated(f"{file}:{node.lineno}: an import that cannot be said")
        return None
    if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
        return None
    if isinstance(node, ast.FunctionDef):
        return node.name
    if isinstance(node, ast.Assign):
        target = node.targets[0] if len(node.targets) == 1 else None
        if isinstance(target, ast.Name):
            return target.id
    raise NotTranslated(f"{file}:{node.lineno}: {type(node).__name__} at module level")


def said_of_math(node: ast.ImportFrom) -> bool:
    """Return whether JavaScript has what is imported from math."""
    return all(alias.name in LIBRARY for alias in node.names)


def constant_code(defined: Defined) -> tuple[str, str]:
    """Return text and kind of a constant, which must be made of numbers alone."""
    teller = Translator(file=defined.file, signatures={}, constants={}, library={})
    assert isinstance(defined.node, ast.Assign)
    code = teller.number(defined.node.value)
    if any(isinstance(node, ast.Call) for node in ast.walk(defined.node)):
        teller.refuse(defined.node, "a constant that is not made of numbers alone")
    return code.text, code.kind


def constant_text(defined: Defined) -> str:
    """Return the line that defines a constant."""
    assert isinstance(defined.node, ast.Assign) and isinstance(defined.node.targets[0], ast.Name)
    return f"const {script_name(defined.node.targets[0].id)} = {constant_code(defined)[0]};"


def with_values(
    defined: Mapping[str, Defined], constants: Mapping[str, int | float]
) -> dict[str, str]:
    """Return the lines of constants that are given another value than their own.

    Raises:
        NotTranslated: there is no such constant, or the value is of another kind.
    """
    lines = {}
    for name, value in constants.items():
        if name not in defined or said(defined[name]):
            raise NotTranslated(f"{name!r} is not a constant of the physics")
        if type(value).__name__ != constant_code(defined[name])[1] or value - value != 0.0:
            raise NotTranslated(f"{name!r} cannot be {value!r}: it is of another kind")
        lines[name] = f"const {script_name(name)} = {value!r};"
    return lines


def signature_of(file: str, node: ast.FunctionDef) -> Signature:
    """Return what a function says of its arguments and of its value.

    Raises:
        NotTranslated: an argument is not plain, or its kind is not said.
    """
    given = node.args
    extras = (given.vararg, given.kwarg, *given.kwonlyargs, *given.defaults, *given.posonlyargs)
    if any(extras) or node.decorator_list:
        raise NotTranslated(f"{file}:{node.lineno}: an argument that is not plain, or a decorator")
    kinds = [KINDS.get(ast.unparse(each)) for each in said_kinds(node)]
    if None in kinds or len(kinds) != len(given.args) + 1:
        raise NotTranslated(f"{file}:{node.lineno}: {node.name} does not say int, float, bool, ...")
    *takes, gives = [kind or "" for kind in kinds]
    named = zip((each.arg for each in given.args), takes, strict=True)
    return Signature(takes=tuple(named), gives=gives)


def said_kinds(node: ast.FunctionDef) -> list[ast.expr]:
    """Return what is said of the kinds of a function's arguments, then of its value."""
    given = [each.annotation for each in node.args.args]
    return [each for each in (*given, node.returns) if each is not None]


def reached(defined: Mapping[str, Defined], roots: Iterable[str]) -> dict[str, str]:
    """Return the functions that some call, directly or not, and what those use, by name.

    The value is a function's text; nothing for a constant or a helper.

    Raises:
        NotTranslated: a root is no function of the physics, or a construct is outside the subset.
    """
    functions = {name: each for name, each in defined.items() if said(each)}
    signatures = {name: signature_of(e.file, e.node) for name, e in functions.items()}  # type: ignore[arg-type]
    kinds = {name: constant_code(e)[1] for name, e in defined.items() if name not in functions}
    found: dict[str, str] = {}
    waiting = list(roots)
    for name in waiting:
        if name not in functions:
            raise NotTranslated(f"{name!r} is not a function of the physics")
    while waiting:
        name = waiting.pop()
        if name in found:
            continue
        found[name] = ""
        if name in functions:
            each = functions[name]
            teller = Translator(
                file=each.file, signatures=signatures, constants=kinds, library=LIBRARY
            )
            assert isinstance(each.node, ast.FunctionDef)
            found[name] = teller.function(each.node)
            waiting += sorted(teller.used)
    return found
