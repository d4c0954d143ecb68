"""The physics is gathered whole: nothing that is written is left out of the engines."""

import ast
import subprocess
import sys
from importlib import resources

import pytest

import simgait.engines.source as source


def written_modules() -> list[str]:
    """Names of the physics modules that lie in the package."""
    folder = resources.files("simgait.physics")
    names = [path.name for path in folder.iterdir() if path.name.endswith(".py")]
    return [name.removesuffix(".py") for name in names if name != "__init__.py"]


def test_every_module_of_the_physics_is_gathered_once():
    assert sorted(source.MODULES) == sorted(written_modules())


def test_a_module_comes_after_those_that_it_imports():
    for place, name in enumerate(source.MODULES):
        text = source.module_text(name)
        later = [other for other in source.MODULES[place:] if f"simgait.physics.{other} " in text]
        assert later == [], name


def test_a_name_that_is_defined_twice_is_refused(monkeypatch):
    monkeypatch.setattr(source, "MODULES", (*source.MODULES, "motion"))
    with pytest.raises(ValueError, match="move is defined twice"):
        source.gathered_source()


def test_the_decorator_stands_before_every_function():
    plain, marked = source.gathered_source(), source.gathered_source(decorator=lambda _: "@mark")
    assert plain.count("\ndef ") == marked.count("\n@mark\ndef ") > 20
    assert plain == marked.replace("@mark\n", "")


def test_no_function_whose_products_are_fused_adds_two_products():
    # a compiler would fuse now one, now the other: the last digit would depend on the lane
    from simgait.engines.compiled import FUSED

    found = {
        node.name: node
        for node in ast.parse(source.gathered_source()).body
        if isinstance(node, ast.FunctionDef)
    }
    assert set(found) >= FUSED
    assert [name for name in sorted(FUSED) if adds_two_products(found[name])] == []
    assert adds_two_products(ast.parse("def f(a, b): return a * b - (-a * a) + 1.0").body[0])


def adds_two_products(function: ast.AST) -> bool:
    """Return whether a sum of two products stands in a function."""

    def product(node: ast.AST) -> bool:
        if isinstance(node, ast.UnaryOp):
            return product(node.operand)
        return isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mult)

    return any(
        isinstance(node, ast.BinOp)
        and isinstance(node.op, ast.Add | ast.Sub)
        and product(node.left)
        and product(node.right)
        for node in ast.walk(function)
    )


def test_threads_that_ask_at_once_get_one_kernel():
    lines = (
        "import threading",
        "from concurrent.futures import ThreadPoolExecutor",
        "from simgait.engines import compiled",
        "gate = threading.Barrier(8)",
        "def ask(_):",
        "    gate.wait()",
        "    return compiled.kernel()",
        "assert not compiled.is_loaded()",
        "with ThreadPoolExecutor(8) as pool: print(len(set(pool.map(ask, range(8)))))",
        "assert compiled.is_loaded()",
    )
    done = subprocess.run(
        [sys.executable, "-c", "\n".join(lines)], capture_output=True, text=True, timeout=120
    )
    assert (done.returncode, done.stdout.strip(), done.stderr) == (0, "1", "")
