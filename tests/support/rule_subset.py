"""The subset of Python in which the physics is written; see DEVELOPERS.md."""

import ast
from collections.abc import Iterator

from house_tree import docstrings

MODULE_LEVEL = (ast.FunctionDef, ast.Assign, ast.ImportFrom)
STATEMENTS = (ast.Assign, ast.AugAssign, ast.For, ast.If, ast.Return, ast.Expr)
EXPRESSIONS = (
    *(ast.Name, ast.Constant, ast.Subscript, ast.BinOp, ast.UnaryOp),
    *(ast.Compare, ast.BoolOp, ast.IfExp, ast.Call, ast.Tuple),
)
OPERATORS = (
    *(ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow, ast.USub, ast.UAdd, ast.Not, ast.And, ast.Or),
    *(ast.Eq, ast.NotEq, ast.Lt, ast.LtE, ast.Gt, ast.GtE),
)
BUILT_IN = frozenset({"min", "max", "abs", "int", "float", "range"})
TYPES_FROM = frozenset({"simgait.arrays"})  # names for annotations only

Fault = tuple[int, str]


def _module_faults(node: ast.stmt) -> Iterator[Fault]:
    if not isinstance(node, MODULE_LEVEL):
        yield node.lineno, f"{type(node).__name__} at module level"
    if isinstance(node, ast.ImportFrom):
        module = node.module or ""
        inside = module == "simgait.physics" or module.startswith("simgait.physics.")
        if node.level or not (inside or module == "math" or module in TYPES_FROM):
            yield node.lineno, f"import from {module or 'here'!r}"
        if any(alias.asname or alias.name == "*" for alias in node.names):
            yield node.lineno, "an import that renames or takes everything"
    if isinstance(node, ast.Assign):
        named = len(node.targets) == 1 and isinstance(node.targets[0], ast.Name)
        if not named or not _is_number(node.value):
            yield node.lineno, "a module-level value that is not one name for one number"


def _is_number(node: ast.expr) -> bool:
    if isinstance(node, ast.BinOp):  # a number written as 10.0 / 3.0
        return all(map(_is_number, (node.left, node.right))) and isinstance(node.op, OPERATORS)
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        node = node.operand
    return isinstance(node, ast.Constant) and type(node.value) in (int, float)


def _annotations(function: ast.FunctionDef) -> list[ast.expr]:
    """Return what is said of the types of a function; no engine looks at it."""
    said = [given.annotation for given in function.args.args] + [function.returns]
    return [each for each in said if each is not None]


def _is_type(node: ast.expr) -> bool:
    return isinstance(node, ast.Name) or (isinstance(node, ast.Constant) and node.value is None)


def _function_faults(function: ast.FunctionDef) -> Iterator[Fault]:
    given = function.args
    extras = (given.vararg, given.kwarg, *given.kwonlyargs, *given.defaults, *given.posonlyargs)
    if any(extras):
        yield function.lineno, "an argument that is not plain and positional"
    if function.decorator_list:
        yield function.lineno, "a decorator"
    if not all(map(_is_type, _annotations(function))):
        yield function.lineno, "an annotation that is not a plain name or None"
    for statement in function.body:
        yield from _statement_faults(statement)


def _statement_faults(node: ast.stmt) -> Iterator[Fault]:
    if not isinstance(node, STATEMENTS):
        yield node.lineno, f"the statement {type(node).__name__}"
        return
    if isinstance(node, ast.For):
        yield from _loop_faults(node)
    if isinstance(node, ast.Assign | ast.AugAssign):
        targets = node.targets if isinstance(node, ast.Assign) else [node.target]
        if len(targets) > 1:
            yield node.lineno, "a chained assignment"
    if isinstance(node, ast.Expr) and not isinstance(node.value, ast.Call | ast.Constant):
        yield node.lineno, "an expression whose value is dropped"
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.stmt):
            yield from _statement_faults(child)
        elif isinstance(child, ast.expr):
            yield from _expression_faults(child)
        elif isinstance(child, ast.operator) and not isinstance(child, OPERATORS):
            yield node.lineno, f"the operator {type(child).__name__}"


def _loop_faults(node: ast.For) -> Iterator[Fault]:
    call = node.iter
    counted = isinstance(call, ast.Call) and isinstance(call.func, ast.Name)
    if not (counted and call.func.id == "range" and isinstance(node.target, ast.Name)):
        yield node.lineno, "a loop that is not `for i in range(...)`"
    if node.orelse:
        yield node.lineno, "an else after a loop"


def _expression_faults(root: ast.expr) -> Iterator[Fault]:
    for node in ast.walk(root):
        if isinstance(node, ast.expr) and not isinstance(node, EXPRESSIONS):
            yield node.lineno, f"the expression {type(node).__name__}"
        if isinstance(node, ast.operator | ast.unaryop | ast.boolop | ast.cmpop):
            if not isinstance(node, OPERATORS):
                yield root.lineno, f"the operator {type(node).__name__}"
        elif isinstance(node, ast.Compare) and len(node.ops) > 1:
            yield node.lineno, "a chained comparison"
        elif isinstance(node, ast.Call) and (node.keywords or not isinstance(node.func, ast.Name)):
            yield node.lineno, "a call by keyword, or of something that is not a plain name"


def _text_faults(tree: ast.Module) -> Iterator[Fault]:
    functions = [node for node in tree.body if isinstance(node, ast.FunctionDef)]
    inert = {*docstrings(tree), *(said for each in functions for said in _annotations(each))}
    for node in ast.walk(tree):
        if not isinstance(node, ast.Constant) or node in inert:
            continue
        if type(node.value) not in (int, float, bool):
            yield node.lineno, f"the constant {node.value!r}"


def _call_faults(tree: ast.Module) -> Iterator[Fault]:
    defined = {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}
    taken = [node for node in tree.body if isinstance(node, ast.ImportFrom)]
    known = BUILT_IN | defined | {alias.name for node in taken for alias in node.names}
    for node in ast.walk(tree):
        called = node.func if isinstance(node, ast.Call) else None
        if isinstance(called, ast.Name) and called.id not in known:
            yield called.lineno, f"a call of {called.id!r}, which is not part of the physics"


def subset_faults(path: str, text: str) -> list[str]:
    """Return everything in a physics module that is outside the subset."""
    tree = ast.parse(text)
    spoken = docstrings(tree)
    faults: list[Fault] = []
    for node in tree.body:
        if isinstance(node, ast.Expr) and node.value in spoken:
            continue
        faults += _module_faults(node)
        if isinstance(node, ast.FunctionDef):
            faults += _function_faults(node)
    faults += _text_faults(tree)
    faults += _call_faults(tree)
    return [f"{path}:{line}: {what}" for line, what in sorted(set(faults))]
