"""The physics is gathered whole: nothing that is written is left out of the engines."""

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
    plain, marked = source.gathered_source(), source.gathered_source(decorator="@mark")
    assert plain.count("\ndef ") == marked.count("\n@mark\ndef ") > 20
    assert plain == marked.replace("@mark\n", "")
