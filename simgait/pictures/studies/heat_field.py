"""A table of cells as a field: where each cell lies, what it holds, how its runs ended."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import pandas as pd

from simgait.pictures.inputs import FloatArray
from simgait.pictures.studies.words import decimals_for, ending_order, value_words

__all__ = [
    "Field",
    "Range",
    "Scale",
    "endings_in",
    "field_of",
    "known_values",
    "range_of",
    "scale_of",
]


@dataclass(frozen=True, kw_only=True)
class Scale:
    """One axis: where each level stands and where its cells begin and end, in the axis' unit."""

    name: str
    levels: tuple[object, ...]
    centres: FloatArray
    edges: FloatArray

    @property
    def numeric(self) -> bool:
        """Whether the levels are numbers."""
        return not isinstance(self.levels[0], str)

    def labels(self) -> list[str]:
        """The levels as text."""
        return [value_words(self.name, level) for level in self.levels]


@dataclass(frozen=True, kw_only=True)
class Field:
    """The cells of one panel, by level of y and of x [y, x]."""

    x: Scale
    y: Scale
    values: FloatArray  # NaN where no run gave a number
    bad: FloatArray  # [1] share of runs that ended badly; NaN where nothing was run
    endings: npt.NDArray[np.object_]  # commonest bad ending, "" if none


@dataclass(frozen=True, kw_only=True)
class Range:
    """The span of values that the shades cover, the same for all panels."""

    low: float
    high: float

    @property
    def decimals(self) -> int:
        """Decimals with which numbers are written."""
        return decimals_for((self.high - self.low) / 2.0)

    def share(self, value: float) -> float:
        """Where a value stands between low and high [1]."""
        return (value - self.low) / (self.high - self.low)


def scale_of(name: str, values: pd.Series) -> Scale:
    """An axis of the levels that occur: numbers at their value, texts side by side."""
    if pd.api.types.is_numeric_dtype(values):
        centres = np.unique(values.to_numpy(dtype=np.float64))
        levels: tuple[object, ...] = tuple(centres.tolist())
    else:
        levels = tuple(dict.fromkeys(values.astype(str)))
        centres = np.arange(len(levels), dtype=np.float64)
    gaps = np.diff(centres) if len(centres) > 1 else np.ones(1)
    middles = centres[:-1] + np.diff(centres) / 2.0
    ends = (centres[0] - gaps[0] / 2.0, centres[-1] + gaps[-1] / 2.0)
    edges = np.array([ends[0], *middles, ends[1]])
    return Scale(name=name, levels=levels, centres=centres, edges=edges)


def field_of(cells: pd.DataFrame, x: Scale, y: Scale, measure: str) -> Field:
    """The cells of a table on two axes.

    Raises
    ------
    ValueError : two rows are the same cell.
    """
    shape = (len(y.levels), len(x.levels))
    values, bad = np.full(shape, np.nan), np.full(shape, np.nan)
    endings = np.full(shape, "", dtype=object)
    columns = {level: place for place, level in enumerate(x.levels)}
    rows = {level: place for place, level in enumerate(y.levels)}
    wanted = cells[[x.name, y.name, measure, "bad", "ending"]]
    for across, up, value, share, ending in wanted.itertuples(index=False):
        place = rows[up], columns[across]
        if np.isfinite(bad[place]):
            raise ValueError(
                f"the cell {x.name} = {across}, {y.name} = {up} stands in two rows; "
                "gather the runs into cells first, or say by which column to split them"
            )
        values[place], bad[place], endings[place] = value, share, ending
    return Field(x=x, y=y, values=values, bad=bad, endings=endings)


def range_of(fields: Sequence[Field]) -> Range:
    """The span of all values; a unit around a single value, 0 to 1 if there is none."""
    every = known_values(fields)
    if not every.size:
        return Range(low=0.0, high=1.0)
    low, high = float(every.min()), float(every.max())
    if high - low < 1e-9 * max(abs(high), 1e-9):
        return Range(low=low - 0.5, high=high + 0.5)
    return Range(low=low, high=high)


def known_values(fields: Sequence[Field]) -> FloatArray:
    """All values that are numbers."""
    every = np.concatenate([field.values.ravel() for field in fields])
    return np.asarray(every[np.isfinite(every)])


def endings_in(fields: Sequence[Field]) -> list[str]:
    """The bad endings that occur, in their usual order."""
    found = {str(name) for field in fields for name in field.endings.ravel() if name}
    return ending_order(sorted(found))
