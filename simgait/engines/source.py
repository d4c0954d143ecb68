"""The physics sources as one module text, so that every engine runs the very same lines."""

from __future__ import annotations

import ast
import hashlib
import threading
from collections.abc import Callable
from functools import cache
from importlib import resources

MODULES = (  # in order of dependence
    "layout",
    "bench_rows",
    "trigonometry",
    "wearer",
    "sole",
    "chain",
    "motion",
    "ledger",
    "record",
    "between",
    "stance",
    "reading",
    "crossing",
    "series",
    "tipping",
    "measures",
    "scene",
    "bench",
    "beginning",
    "rest_layout",
    "bracket",
    "footing",
    "resting",
    "posture",
    "balance",
    "still",
)
_ONE_AT_A_TIME = threading.Lock()  # two threads that parse at once have been seen to fail


def module_text(name: str) -> str:
    """Return the text of one physics module.

    >>> "def move(" in module_text("motion")
    True
    """
    return (resources.files("simgait.physics") / f"{name}.py").read_text(encoding="utf-8")


def gathered_source(
    header: str = "", decorator: Callable[[ast.FunctionDef], str] | None = None
) -> str:
    """Return all physics modules as the text of one module, their imports of each other dropped.

    header: text that follows the imports; decorator: gives the text set on a line before each
    function, if any.  Threads may ask at once.

    Raises:
        ValueError: a function or constant is defined twice.

    >>> "simgait" in gathered_source()
    False
    """
    with _ONE_AT_A_TIME:
        trees = [ast.parse(module_text(name)) for name in MODULES]
    lines = ["from __future__ import annotations", *_math_imports(trees), header]
    seen: set[str] = set()
    for tree in trees:
        for node in tree.body:
            if isinstance(node, (ast.ImportFrom, ast.Import)):
                continue
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
                continue
            defined = _defined_name(node)
            if defined in seen:
                raise ValueError(f"{defined} is defined twice in the physics")
            seen.add(defined)
            if decorator and isinstance(node, ast.FunctionDef):
                lines.append(decorator(node))
            lines.append(ast.unparse(node))
    return "\n".join(lines) + "\n"


def _math_imports(trees: list[ast.Module]) -> list[str]:
    """Return the line that imports what the modules take from `math`; none if they take nothing."""
    taken = {
        alias.name
        for tree in trees
        for node in tree.body
        if isinstance(node, ast.ImportFrom) and node.module == "math"
        for alias in node.names
    }
    return [f"from math import {', '.join(sorted(taken))}"] if taken else []


def _defined_name(node: ast.stmt) -> str:
    if isinstance(node, ast.FunctionDef):
        return node.name
    if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
        return node.targets[0].id
    raise ValueError(f"the physics may only define functions and constants, not {ast.dump(node)}")


@cache
def physics_version() -> str:
    """Return a short hash of the equations: results of the same version may be compared.

    Computed once: reading all equations takes longer than many a run.

    >>> len(physics_version())
    12
    """
    return hashlib.sha256(gathered_source().encode()).hexdigest()[:12]
