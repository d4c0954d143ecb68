"""The examples in the docstrings of the installed package, and in the documentation, run."""

import doctest
import importlib
import pkgutil
import re

import pytest

import simgait
from house_tree import files, name, read

MODULES = ["simgait"] + [
    found.name
    for found in pkgutil.walk_packages(simgait.__path__, "simgait.")
    if not found.name.endswith(".__main__")
]
PAGES = [path for path in files() if path.suffix == ".md" and ">>> " in read(path)]
FENCE = re.compile(r"^```[^\n]*\n(.*?)^```", re.MULTILINE | re.DOTALL)
FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE


def failures(examples: list[doctest.DocTest]) -> int:
    runner = doctest.DocTestRunner(optionflags=FLAGS)
    for example in examples:
        runner.run(example)
    return runner.summarize(verbose=False).failed


def page_examples(title: str, text: str) -> doctest.DocTest:
    blocks = [block for block in FENCE.findall(text) if ">>> " in block]
    return doctest.DocTestParser().get_doctest("\n".join(blocks), {}, title, title, 0)


@pytest.mark.parametrize("module", MODULES)
def test_docstring_examples_run(module):
    finder = doctest.DocTestFinder(exclude_empty=True)
    assert failures(finder.find(importlib.import_module(module), module)) == 0


def test_page_examples_run():
    assert failures([page_examples(name(path), read(path)) for path in PAGES]) == 0


def test_a_wrong_example_is_seen(capsys):
    page = "# Page\n\n```python\n>>> 1 + 1\n{}\n```\n\nMore.\n"
    assert failures([page_examples("page", page.format(2))]) == 0
    assert failures([page_examples("page", page.format(3))]) == 1
    assert "Expected" in capsys.readouterr().out
