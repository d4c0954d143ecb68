"""What a lesson is made of: one idea, one thing to move, one question, one ledger, all as data.

Words may hold the name of a figure in braces, such as ``{effort}``; the page puts the figure with
its unit there, for the learner's own setting, or, as ``{start.effort}``, for the one it began with.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from simgait.errors import require

__all__ = ["Choice", "Control", "Figure", "Ledger", "Lesson", "Question", "Row", "Teacher"]

PLACE = re.compile(r"\{(?:start\.)?(\w+)\}")
WORK_FIGURES = frozenset(
    {"effort", "effort_travel", "work_in", "load", "load_travel", "work_out", "lost"}
)


@dataclass(frozen=True, kw_only=True)
class Figure:
    """A number that the page shows: where it stands in what is computed is its place in a list.

    >>> Figure(key="lift", label="it rises", unit="cm", si=0.01, decimals=0).written(0.4)
    '40 cm'
    """

    key: str
    label: str
    unit: str  # as written
    si: float = 1.0  # the written unit in SI
    decimals: int = 0
    words: tuple[str, str] | None = None  # said for no and for yes, in place of a number

    def written(self, value: float) -> str:
        """Return a value [SI] as words show it."""
        if self.words:
            return self.words[1 if value else 0]
        number = f"{value / self.si:.{self.decimals}f}"
        return f"{number} {self.unit}" if self.unit else number


@dataclass(frozen=True, kw_only=True)
class Control:
    """The one thing to move, in its written unit."""

    key: str
    label: str
    unit: str
    si: float  # the written unit in SI
    low: float
    high: float
    step: float
    start: float
    decimals: int
    hint: str

    def __post_init__(self) -> None:
        require(self.low, self.start, self.high, f"{self.key}: start [{self.unit}]")

    def settings(self) -> tuple[float, ...]:
        """Return every setting that the control can take, in its written unit.

        >>> Control(key="a", label="", unit="m", si=1.0, low=1.0, high=2.0, step=0.5, start=1.0,
        ...     decimals=1, hint="").settings()
        (1.0, 1.5, 2.0)
        """
        count = round((self.high - self.low) / self.step)
        return tuple(round(self.low + turn * self.step, 6) for turn in range(count + 1))


@dataclass(frozen=True, kw_only=True)
class Choice:
    """A possible prediction, and what is said to whoever chose it."""

    words: str
    reply: str


@dataclass(frozen=True, kw_only=True)
class Question:
    """What is to be predicted; `right` is the place of the right choice, from 0."""

    words: str
    choices: tuple[Choice, ...]
    right: int

    def __post_init__(self) -> None:
        require(3, len(self.choices), 4, "choices of a question [1]")
        require(0, self.right, len(self.choices) - 1, "the right choice [1]")


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of an exchange: a figure, which way is a gain (-1 less, +1 more, 0 neither), why."""

    key: str
    gain: int
    why: str


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """What was paid. Either force times travel, of giver, taker and loss; or gains and payments."""

    title: str
    giver: str = ""
    taker: str = ""
    loss: str = ""
    rows: tuple[Row, ...] = ()
    note: str = ""

    @property
    def kind(self) -> str:
        """`work` or `exchange`."""
        return "exchange" if self.rows else "work"


@dataclass(frozen=True, kw_only=True)
class Teacher:
    """What the fold for the teacher holds, a paragraph each."""

    equation: tuple[str, ...]
    source: tuple[str, ...]
    given: tuple[str, ...]
    left_out: tuple[str, ...]
    next_question: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One lesson. `numbers` takes a setting [SI] and returns the figures [SI] in their order."""

    name: str
    title: str
    idea: str
    audience: str
    scene: tuple[str, ...]
    task: str
    control: Control
    figures: tuple[Figure, ...]
    shown: tuple[str, ...]  # keys of the figures that are listed beside the drawing
    question: Question
    explanation: tuple[str, ...]
    ledger: Ledger
    teacher: Teacher
    numbers: Callable[[float], tuple[float, ...]]
    constants: Mapping[str, float] = field(default_factory=dict)  # of the drawing [SI]
    drawing: str = ""  # the file of `assets` that draws it
    cautions: tuple[str, ...] = ()
    on_stance: bool = False  # whether the page runs the model of a stance, not a formula

    def values(self, setting: float) -> dict[str, float]:
        """Return every figure [SI] by its key, for a setting in the control's written unit."""
        found = self.numbers(setting * self.control.si)
        return dict(zip((figure.key for figure in self.figures), found, strict=True))

    def places(self) -> Iterator[str]:
        """Yield the name in each pair of braces of the words."""
        replies = (choice.reply for choice in self.question.choices)
        for words in (*self.explanation, *replies, self.ledger.note):
            yield from PLACE.findall(words)
