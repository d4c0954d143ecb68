"""Files and functions stay short."""

import ast

import pytest

from house_tree import name, read, sources
from rule_size import (
    FILE_LINES,
    FUNCTION_LINES,
    LONGER,
    exception_faults,
    file_faults,
    file_length,
    function_length,
    long_functions,
)

FILES = [(name(path), read(path)) for path in sources("simgait", "tests", "benchmarks", "docs")]


def test_no_file_is_too_long():
    assert [fault for path, text in FILES for fault in file_faults(path, text)] == []


def test_no_function_is_too_long():
    found = {key: n for path, text in FILES for key, n in long_functions(path, text).items()}
    assert exception_faults(found, LONGER) == []


@pytest.mark.parametrize("extra", [0, 1])
def test_a_long_file_is_seen(extra):
    assert len(file_faults("a.py", "x = 1\n" * (FILE_LINES + extra))) == extra


def test_a_wrapped_import_counts_as_one_line():
    assert file_length("from math import (\n    sin,\n    cos,\n)\nx = 1\n") == 2


@pytest.mark.parametrize("extra", [0, 1])
def test_a_long_function_is_seen(extra):
    body = "    x = 1\n" * (FUNCTION_LINES - 1 + extra)
    found = long_functions("a.py", f'def f():\n    """Say.\n\n    More.\n    """\n{body}')
    assert found == ({("a.py", "f"): FUNCTION_LINES + 1} if extra else {})


def test_the_lines_of_a_docstring_are_not_counted():
    function = ast.parse('def f():\n    """Say.\n\n    More.\n    """\n    return 1\n').body[0]
    assert isinstance(function, ast.FunctionDef)
    assert function_length(function) == 2


def test_an_exception_must_be_needed_and_have_a_reason():
    long = {("a.py", "f"): FUNCTION_LINES + 1}
    reason = "one straight calculation that nobody could follow in halves"
    assert exception_faults(long, {("a.py", "f"): reason}) == []
    assert len(exception_faults(long, {})) == 1
    assert len(exception_faults(long, {("a.py", "f"): "long"})) == 1
    assert len(exception_faults({}, {("a.py", "f"): reason})) == 1
