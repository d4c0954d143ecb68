"""No file of the tree names a machine's folders, a package registry or an address."""

import pytest

from house_tree import files, name
from rule_places import place_faults


def test_the_tree_has_files():
    assert "pyproject.toml" in {name(path) for path in files()}


def test_no_file_names_such_a_place():
    faults = [fault for path in files() for fault in place_faults(name(path), path.read_bytes())]
    assert faults == []


@pytest.mark.parametrize(
    "pieces",
    [
        ("see ", "/wo", "rk/main/x.py"),
        ("'", "/ho", "me/someone'"),
        ("(", "/Us", "ers/someone)"),
        ("C:", "\\Users"),
        ("https://py", "pi.org/simple"),
        ("--index", "-url x"),
        ("http://192.", "168.1.20:8080/"),
        ("fi", "le:///srv"),
    ],
)
def test_such_a_place_is_seen(pieces):
    assert len(place_faults("a.md", b"first line\n" + "".join(pieces).encode())) >= 1


@pytest.mark.parametrize(
    "text",
    [
        "#!/usr/bin/env bash",
        ">/dev/null",
        "doi 10.1177/0309364615588345",
        "http://127.0.0.1:8000/",
        "https://doi.org/10.1000/1",
        "docs/home/page.md",
        "work/rest",
    ],
)
def test_an_ordinary_line_passes(text):
    assert place_faults("a.md", text.encode()) == []


def test_a_binary_file_is_passed_over():
    assert place_faults("a.png", b"\x89PNG\0" + b"/wo" + b"rk/main") == []
