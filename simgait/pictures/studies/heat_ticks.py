"""The levels written along the axes of a heat map, and the room that they need."""

from typing import Any

from simgait.pictures.studies.heat_field import Scale
from simgait.pictures.studies.words import value_words

__all__ = ["left_room", "lies_flat", "low_room", "set_ticks"]

MOST_LEVELS, MOST_LETTERS = 9, 5  # of numbers that are written level by level
_LETTER = 0.075  # [inch]


def left_room(scale: Scale) -> float:
    """Room left of the panels for the levels of y and their title [inch]."""
    return min(0.45 + _LETTER * _longest(scale), 2.6)


def low_room(scale: Scale, width: float) -> float:
    """Room under a panel of a width [inch] for the levels of x and their title [inch]."""
    return 0.55 if lies_flat(scale, width) else 0.45 + 0.5 * _LETTER * _longest(scale) + 0.1


def lies_flat(scale: Scale, width: float) -> bool:
    """Whether the levels fit beside each other under a panel of a width [inch]."""
    return scale.numeric or _LETTER * (_longest(scale) + 1) < width / len(scale.levels)


def set_ticks(axis: Any, scale: Scale, *, written: bool, flat: bool = True) -> None:
    """Ticks at the levels; at round numbers where the levels are many or long.

    written: whether the levels are written; flat: not slanted.
    """
    from matplotlib.ticker import FuncFormatter, MaxNLocator, NullFormatter

    if scale.numeric and not _each(scale):
        axis.set_major_locator(MaxNLocator(nbins=7, steps=[1, 2, 2.5, 5, 10]))
        shown = FuncFormatter(lambda value, _: value_words(scale.name, float(value)))
        axis.set_major_formatter(shown if written else NullFormatter())
        return
    labels = scale.labels() if written else [""] * len(scale.levels)
    axis.set_ticks(scale.centres, labels)
    if not flat:
        for text in axis.get_ticklabels():
            text.set(rotation=25, ha="right", rotation_mode="anchor")


def _each(scale: Scale) -> bool:
    """Whether every level is written."""
    return len(scale.levels) <= MOST_LEVELS and _letters(scale) <= MOST_LETTERS


def _letters(scale: Scale) -> int:
    return max(map(len, scale.labels()))


def _longest(scale: Scale) -> int:
    """Letters of the longest label."""
    return _letters(scale) if not scale.numeric or _each(scale) else MOST_LETTERS
