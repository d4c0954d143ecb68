"""What the two pages of a report say, as words and numbers; how they look is not said here."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.stance import Comparison


@dataclass(frozen=True, kw_only=True)
class Facts:
    """A heading and what stands under it: name and value, in words."""

    heading: str
    lines: tuple[tuple[str, str], ...]


@dataclass(frozen=True, kw_only=True)
class RunLine:
    """One alignment of the table of alignments."""

    number: int  # as simgait compare counts, from 1
    baseline: bool
    values: tuple[str, ...]  # the five settings, as written
    ending: str
    remarks: str  # what should make a reader doubt the run; empty if nothing


@dataclass(frozen=True, kw_only=True)
class ChangeWords:
    """What one alignment changes against the baseline, and why."""

    number: int
    heading: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One measure of one run."""

    value: str
    change: str = ""  # from the baseline
    span: str = ""  # where 95 of 100 draws put the change; for the baseline, the value
    told_apart: bool = True  # whether the change is larger than what is unknown of the measure


@dataclass(frozen=True, kw_only=True)
class MeasureRow:
    """One measure: its title, unit and plain sentence, and a cell for each run shown."""

    title: str
    unit: str
    sentence: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class Report:
    """Everything on the two pages."""

    title: str
    code: str  # of the wearer; empty: a line to write on
    date: str  # empty: a line to write on
    version: str
    facts: tuple[Facts, ...]
    setting_names: tuple[tuple[str, str], ...]  # title and unit of the five settings
    runs: tuple[RunLine, ...]
    shown_note: str  # which of how many alignments are shown; empty when all are
    shown: tuple[int, ...]  # places in the comparison, in its order
    comparison: Comparison  # for the pictures
    instants: tuple[tuple[str, float], ...]  # words, and % of stance of the limb pictures
    changes: tuple[ChangeWords, ...]
    assumption: str  # about the wearer
    rows: tuple[MeasureRow, ...]
    uncertainty: tuple[str, ...]
    filled: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[str, ...]
