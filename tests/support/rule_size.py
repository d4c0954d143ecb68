"""How long a file and a function may be."""

import ast

from house_tree import docstring_of

FILE_LINES = 300
FUNCTION_LINES = 40

# (file, function) -> why it may be longer. An entry that is not needed is a fault.
LONGER: dict[tuple[str, str], str] = {
    ("simgait/physics/chain.py", "accelerate"): (
        "Lagrange's equations of one chain, written out: forces, inertia and elimination share "
        "their terms, and a call in between would store them all"
    ),
    ("simgait/physics/ledger.py", "mechanical_energy"): (
        "one sum, body by body down the chain, each with the velocity that the last one hands on"
    ),
    ("simgait/physics/record.py", "record_forces"): (
        "one list of what is recorded, read from one set of accelerations"
    ),
    ("simgait/physics/series.py", "point_series"): (
        "six sines and cosines and the points of one pose, from which all of its series come"
    ),
    ("simgait/physics/stance.py", "run_stance"): (
        "the loop over a run's steps; a function for its body would hand on the same dozen arrays"
    ),
}


def file_length(text: str) -> int:
    """Return the lines of a file; an import counts as one line however it is wrapped."""
    lines = len(text.splitlines())
    statements = ast.walk(ast.parse(text))
    imports = (node for node in statements if isinstance(node, ast.Import | ast.ImportFrom))
    return lines - sum((node.end_lineno or node.lineno) - node.lineno for node in imports)


def function_length(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return the lines of a function from `def` to its end, its docstring not counted."""
    end = function.end_lineno or function.lineno
    words = docstring_of(function)
    spoken = (words.end_lineno or words.lineno) - words.lineno + 1 if words else 0
    return end - function.lineno + 1 - spoken


def file_faults(path: str, text: str) -> list[str]:
    """Return a fault if the file is too long."""
    length = file_length(text)
    return [f"{path}: {length} lines, allowed {FILE_LINES}"] if length > FILE_LINES else []


def long_functions(path: str, text: str) -> dict[tuple[str, str], int]:
    """Return the functions of a file that are too long, with their length."""
    functions = (ast.FunctionDef, ast.AsyncFunctionDef)
    lengths = {
        (path, node.name): function_length(node)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, functions)
    }
    return {key: length for key, length in lengths.items() if length > FUNCTION_LINES}


def exception_faults(
    found: dict[tuple[str, str], int], allowed: dict[tuple[str, str], str]
) -> list[str]:
    """Return functions too long without an exception, and exceptions idle or without a reason."""
    faults = [
        f"{path}: {function} has {length} lines, allowed {FUNCTION_LINES}"
        for (path, function), length in found.items()
        if (path, function) not in allowed
    ]
    faults += [f"{key}: the exception is not needed" for key in allowed if key not in found]
    faults += [f"{key}: no reason given" for key, why in allowed.items() if len(why.split()) < 5]
    return faults
