"""Where the files of the tree are, and how the house tests read them."""

import ast
import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PASSED_OVER = {"__pycache__", "build", "dist", "node_modules", "out", "_build"}


@cache
def files() -> tuple[Path, ...]:
    """Return the files of the tree that git tracks or would; without git, those a release holds."""
    asked = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    try:
        listed = subprocess.run(asked, cwd=ROOT, check=True, capture_output=True).stdout
    except (OSError, subprocess.CalledProcessError):
        return tuple(sorted(path for path in ROOT.rglob("*") if path.is_file() and _kept(path)))
    paths = (ROOT / name for name in listed.decode().split("\0") if name)
    return tuple(sorted(path for path in paths if path.is_file()))


def _kept(path: Path) -> bool:
    parts = path.relative_to(ROOT).parts
    hidden = any(part.startswith(".") and part != ".ci" for part in parts[:-1])
    return not hidden and not PASSED_OVER.intersection(parts)


def sources(*folders: str) -> list[Path]:
    """Return the Python files below these top-level folders."""
    kept = [path for path in files() if path.suffix == ".py"]
    return [path for path in kept if path.relative_to(ROOT).parts[0] in folders]


def name(path: Path) -> str:
    """Return the path as it is written in a message: from the root, with forward slashes."""
    return path.relative_to(ROOT).as_posix()


def read(path: Path) -> str:
    """Return the text of a file."""
    return path.read_text(encoding="utf-8")


def docstring_of(node: ast.AST) -> ast.Expr | None:
    """Return the statement that is the docstring of a module, class or function, if it has one."""
    body = getattr(node, "body", None)
    if not isinstance(body, list) or not body or not isinstance(body[0], ast.Expr):
        return None
    value = body[0].value
    is_text = isinstance(value, ast.Constant) and isinstance(value.value, str)
    return body[0] if is_text else None


def docstrings(tree: ast.Module) -> set[ast.Constant]:
    """Return the constants of a module that are docstrings."""
    owners = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    found = (docstring_of(node) for node in ast.walk(tree) if isinstance(node, owners))
    return {each.value for each in found if each and isinstance(each.value, ast.Constant)}
