"""Comparisons that nobody asserts, and tests that cannot fail."""

import ast
from collections.abc import Iterable

# calls that only answer a question: alone on a line they do nothing
QUESTIONS = frozenset(
    {"allclose", "isclose", "array_equal", "array_equiv", "isfinite", "isnan", "isinstance"}
    | {"all", "any", "equals", "issubset", "issuperset", "startswith", "endswith", "exists"}
    | {"is_file", "is_dir", "approx", "bool", "callable", "hasattr"}
)
# with-blocks and calls that fail a test by themselves
DEMANDS = frozenset({"raises", "warns", "fail", "xfail"})


def called_name(node: ast.AST) -> str:
    """Return the last word of what a call calls: `np.allclose(...)` gives "allclose"."""
    if not isinstance(node, ast.Call):
        return ""
    function = node.func
    if isinstance(function, ast.Attribute):
        return function.attr
    return function.id if isinstance(function, ast.Name) else ""


def is_question(node: ast.AST) -> bool:
    """Tell whether an expression only compares or asks."""
    if isinstance(node, ast.Compare | ast.BoolOp):
        return True
    if isinstance(node, ast.UnaryOp):
        return isinstance(node.op, ast.Not) or is_question(node.operand)
    return called_name(node) in QUESTIONS


def idle_comparisons(path: str, text: str) -> list[str]:
    """Return the places where something is compared and the answer dropped."""
    return [
        f"{path}:{node.lineno}: compared, but not asserted: {ast.unparse(node)}"
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Expr) and is_question(node.value)
    ]


def _same_on_both_sides(test: ast.expr) -> bool:
    if not isinstance(test, ast.Compare):
        return False
    sides = [ast.dump(side) for side in (test.left, *test.comparators)]
    return len(set(sides)) < len(sides) and len(sides) == 2


def empty_assertions(path: str, text: str) -> list[str]:
    """Return assertions that hold whatever the program does."""
    faults = []
    for node in ast.walk(ast.parse(text)):
        if not isinstance(node, ast.Assert):
            continue
        fixed = isinstance(node.test, ast.Constant | ast.Tuple | ast.Lambda | ast.JoinedStr)
        allowed = isinstance(node.test, ast.Constant) and not node.test.value
        approximate = called_name(node.test) == "approx"
        if (fixed and not allowed) or approximate or _same_on_both_sides(node.test):
            faults.append(f"{path}:{node.lineno}: cannot fail: {ast.unparse(node)}")
    return faults


def _demands(function: ast.AST, demanding: frozenset[str]) -> bool:
    for node in ast.walk(function):
        if isinstance(node, ast.Assert | ast.Raise):
            return True
        name = called_name(node)
        if name in DEMANDS or name in demanding or name.startswith("assert_"):
            return True
    return False


def demandless(files: Iterable[tuple[str, str]]) -> list[str]:
    """Return tests that assert nothing, neither themselves nor in a function that they call."""
    functions = [
        (path, node)
        for path, text in files
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]
    demanding: frozenset[str] = frozenset()
    while True:
        more = frozenset(node.name for _, node in functions if _demands(node, demanding))
        if more == demanding:
            break
        demanding = more
    return [
        f"{path}:{node.lineno}: {node.name} asserts nothing"
        for path, node in functions
        if node.name.startswith("test_") and not _demands(node, demanding)
    ]
