"""Copies of a physics function with one sign turned, in memory: a check must see each."""

import __future__

import ast
import copy
from collections.abc import Callable, Iterator

from simgait.engines import plain
from simgait.engines.source import gathered_source

TEXT_ANNOTATIONS = __future__.annotations.compiler_flag
TURNED = {ast.Add: ast.Sub, ast.Sub: ast.Add}


def _signs(node: ast.AST) -> Iterator[ast.AST]:
    """Yield what carries a sign, places in arrays left out."""
    if isinstance(node, ast.Subscript):
        return
    if isinstance(node, ast.BinOp | ast.AugAssign) and type(node.op) in TURNED:
        yield node
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield node
    for child in ast.iter_child_nodes(node):
        yield from _signs(child)


def _turn(node: ast.AST) -> None:
    if isinstance(node, ast.BinOp | ast.AugAssign):
        node.op = TURNED[type(node.op)]()
    elif isinstance(node, ast.UnaryOp):
        node.op = ast.UAdd()


def faulty_copies(name: str) -> list[tuple[str, Callable[..., None]]]:
    """Return (the line with its turned sign, the function) for every sign in the function."""
    nodes = ast.parse(gathered_source()).body
    found = [node for node in nodes if isinstance(node, ast.FunctionDef) and node.name == name]
    assert len(found) == 1, f"no function {name} in the physics"
    made = []
    for which in range(len(list(_signs(found[0])))):
        function = copy.deepcopy(found[0])
        node = list(_signs(function))[which]
        _turn(node)
        room = dict(vars(plain.kernel()))
        code = compile(ast.Module([function], []), "<turned>", "exec", TEXT_ANNOTATIONS)
        exec(code, room)
        made.append((f"{getattr(node, 'lineno', 0)}: {ast.unparse(node)}", room[name]))
    return made
