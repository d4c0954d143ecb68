"""Simulated cases of models/cases, each run once, and reading changes off them."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import replace
from functools import cache

from making.listing import DOCS
from simgait.case import Case, read_case
from simgait.engines.source import physics_version
from simgait.library import models_folder
from simgait.pictures.wording import alignment_labels
from simgait.stance import Comparison, StanceResult, compare


@cache
def version() -> str:
    """Return the version in pyproject.toml and the hash of the equations."""
    project = tomllib.loads((DOCS.parent / "pyproject.toml").read_text(encoding="utf-8"))
    return f"{project['project']['version']}+{physics_version()}"


@cache
def case_of(name: str) -> Case:
    """Return a case of models/cases."""
    return read_case(models_folder() / "cases" / f"{name}.toml")


@cache
def compared(name: str) -> Comparison:
    """Return the comparison of a case of models/cases."""
    return replace(compare(case_of(name)), version=version())


def scenario(name: str) -> str:
    """Return what the head of a case file says after the word Scenario."""
    lines = (models_folder() / "cases" / f"{name}.toml").read_text(encoding="utf-8").splitlines()
    head = " ".join(line[1:].strip() for line in lines if line.startswith("#"))
    said = head.partition("Scenario: ")[2]
    return said[:1].upper() + said[1:]


class Runs:
    """The runs of a case, found by what is set in them."""

    def __init__(self, name: str) -> None:
        """name: of a case of models/cases."""
        self.comparison = compared(name)
        self.results = self.comparison.results
        self.base = self.results[self.comparison.baseline]
        self.labels = dict(zip(self.results, alignment_labels(self.results), strict=True))

    def at(self, **settings: float) -> StanceResult:
        """Return the run with these settings as a case writes them, the rest as in the baseline.

        Raises:
            StopIteration: there is no such run.
        """
        wanted = {**self.base.alignment.as_written(), **settings}
        return next(run for run in self.results if run.alignment.as_written() == wanted)

    def label(self, run: StanceResult) -> str:
        """Return a run's settings in words."""
        return self.labels[run].replace("\u00a0", " ")

    def least(self, value: Callable[[StanceResult], float]) -> StanceResult:
        """Return the run with the smallest value."""
        return min(self.results, key=value)


def change(run: StanceResult, base: StanceResult, measure: str) -> float:
    """Return a measure of a run less that of another, in its own unit."""
    return run.measures[measure] - base.measures[measure]


def moves(
    difference: float, digits: int, unit: str, up: str = "raises", down: str = "lowers"
) -> str:
    """Return a change as a verb and an amount, such as 'raises it by 0.09 N m/kg'.

    >>> moves(-0.0381, 3, "N m/kg", "rises", "falls")
    'falls by 0.038 N m/kg'
    """
    return f"{up if difference > 0.0 else down} by {abs(difference):.{digits}f} {unit}"


def holds(claim: str, truth: bool) -> None:
    """Refuse to write a sentence whose words the runs no longer bear out.

    Raises:
        ValueError: the claim is not true of the runs.
    """
    if not truth:
        raise ValueError(f"no longer true of the runs: {claim}")
