"""Every figure in models/ has a finite value, a grade, a known source and a place in it."""

import tomllib
from pathlib import Path

import pytest

from house_tree import ROOT, files, name, read
from rule_figures import FIGURES_ONLY, figures, model_faults, source_keys, stray_numbers

MODELS = [path for path in files() if name(path).startswith("models/") and path.suffix == ".toml"]
KNOWN = source_keys(tomllib.loads(read(ROOT / "models/sources.toml")))
GOOD = '[figures.mass]\nvalue = 0.5\ngrade = "memory"\nsource = "memory"\nplace = "feet"\n'


def data(path: Path) -> dict[str, object]:
    return tomllib.loads(read(path))


def kind(path: Path) -> str:
    return path.relative_to(ROOT / "models").parts[0]


def test_there_are_figures_and_sources():
    assert len(KNOWN) > 3
    assert sum(len(list(figures(data(path)))) for path in MODELS) > 20


@pytest.mark.parametrize("path", MODELS, ids=name)
def test_figures_have_sources(path):
    assert model_faults(name(path), data(path), KNOWN) == []


@pytest.mark.parametrize("path", [path for path in MODELS if kind(path) in FIGURES_ONLY], ids=name)
def test_numbers_of_a_part_are_figures(path):
    assert stray_numbers(name(path), data(path)) == []
    assert len(list(figures(data(path)))) > 0


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("0.5", "nan"),
        ("0.5", "true"),
        ("0.5", '"0.5"'),
        ("0.5", "[]"),
        ("value = 0.5\n", ""),
        ('grade = "memory"', 'grade = "certain"'),
        ('grade = "memory"', 'grade = "published"'),
        ('grade = "memory"\n', ""),
        ('source = "memory"', 'source = "someone"'),
        ('source = "memory"\n', ""),
        ('"feet"', '" "'),
        ('place = "feet"\n', ""),
    ],
)
def test_a_figure_with_a_fault_is_seen(old, new):
    known = frozenset({"memory"})
    assert model_faults("m.toml", tomllib.loads(GOOD), known) == []
    assert old in GOOD
    assert len(model_faults("m.toml", tomllib.loads(GOOD.replace(old, new, 1)), known)) == 1


def test_a_bare_number_among_figures_is_seen():
    assert len(model_faults("m.toml", {"figures": {"mass": 0.5}}, frozenset())) == 1


def test_figures_in_groups_are_found():
    nested = {"figures": {"thigh": {"mass": {"value": 1}, "length": {"value": 2}}}}
    assert [found for found, _ in figures(nested)] == ["mass", "length"]


def test_a_number_outside_figures_is_seen():
    assert stray_numbers("m.toml", tomllib.loads(GOOD)) == []
    assert len(stray_numbers("m.toml", {"mass": 0.5, "more": {"list": [1, "x", True]}})) == 2


def test_both_ways_to_write_sources_are_read():
    flat = {"winter": {"citation": "x"}, "title": "x"}
    assert source_keys(flat) == source_keys({"sources": flat}) == {"winter"}
