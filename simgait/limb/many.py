"""Limbs that stand for many runs: some of the runs, all of them again and again, or one alone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import fields, is_dataclass, replace
from typing import Any, cast

import numpy as np
from numpy.typing import NDArray

from simgait.alignment import Alignment
from simgait.arrays import Array, is_many, many
from simgait.limb.geometry import Limb


def _changed(value: Any, change: Callable[[Array], Any]) -> Any:
    """Return a value with everything in it that is many changed; itself if nothing is."""
    if is_many(value):
        return change(value)
    if isinstance(value, tuple):
        parts = tuple(_changed(part, change) for part in value)
        return parts if any(a is not b for a, b in zip(parts, value, strict=True)) else value
    if is_dataclass(value) and not isinstance(value, type):
        old = {field.name: getattr(value, field.name) for field in fields(value) if field.init}
        new = {name: _changed(part, change) for name, part in old.items()}
        new = {name: part for name, part in new.items() if part is not old[name]}
        return replace(cast(Any, value), **new) if new else value
    return value


def stands_for_many(limb: Limb) -> bool:
    """Return whether a limb stands for many runs, were it for one of them only."""
    return is_many(limb.sole_slope)


def as_many(limb: Limb) -> Limb:
    """Return a limb of one run as one that stands for many, of which there is one."""
    if stands_for_many(limb):
        return limb
    return replace(limb, alignment=many_alignments((limb.alignment,)))


def runs_of(limb: Limb) -> int:
    """Return how many runs a limb stands for; of a limb of one run, 1."""
    return len(cast(Array, limb.sole_slope)) if stands_for_many(limb) else 1


def limb_part(limb: Limb, chosen: NDArray[np.intp]) -> Limb:
    """Return the limb of many that stands for the chosen runs of a limb of many.

    chosen: indices of runs, in any order, each as often as it is wanted.
    """
    return cast(Limb, _changed(limb, lambda column: many(column[chosen])))


def limb_run(limb: Limb, run: int) -> Limb:
    """Return the limb of one run out of a limb of many; a limb of one run as it is.

    run: its number, from 0.
    """
    return cast(Limb, _changed(limb, lambda column: float(column[run])))


def many_alignments(alignments: Sequence[Alignment]) -> Alignment:
    """Return several alignments as one that stands for many, in their order.

    alignments: at least one.

    >>> one = Alignment(foot_forward=0.0, dorsiflexion=0.0, socket_flexion=0.09,
    ...     length_change=0.0, heel_rise=0.01)
    >>> many_alignments([one, replace(one, foot_forward=0.01)]).foot_forward
    array([0.  , 0.01])
    """
    columns = {
        field.name: many(np.array([getattr(each, field.name) for each in alignments]))
        for field in fields(Alignment)
    }
    return Alignment(**columns)
