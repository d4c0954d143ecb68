"""The numbers of a wearer that a calibration fits, as one scaled vector."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np

from simgait.arrays import Array
from simgait.physics.layout import NODES
from simgait.wearer import Wearer

FORCE_FIELDS = ("leaving_up", "leaving_forward", "arriving_up", "arriving_forward")
START_FIELDS = (
    "start_thigh",
    "start_flexion",
    "start_thigh_rate",
    "start_flexion_rate",
    "start_forward_speed",
    "start_upward_speed",
)
SCALES = np.concatenate(
    (
        np.full(2 * NODES, 0.1),
        [0.1, 0.1, 1.0, 1.0, 0.1, 0.1],
        np.repeat([0.3, 0.1, 0.3, 0.1], 4),
        [0.05],
    )
)


def unknowns(wearer: Wearer) -> Array:
    """Return a wearer's fitted numbers as one scaled vector [1].

    >>> from simgait.library import read_wearer
    >>> wearer = read_wearer("steady-transtibial")
    >>> bool(np.allclose(unknowns(with_unknowns(wearer, unknowns(wearer))), unknowns(wearer)))
    True
    """
    values = [*wearer.thigh, *wearer.knee, *(getattr(wearer, name) for name in START_FIELDS)]
    for name in FORCE_FIELDS:
        values.extend(getattr(wearer, name))
    return np.array([*values, wearer.arriving_height]) / SCALES


def with_unknowns(wearer: Wearer, vector: Array) -> Wearer:
    """Return the wearer with its fitted numbers replaced by those of a scaled vector [1]."""
    values = [float(value) for value in vector * SCALES]
    taken: dict[str, Any] = {
        "thigh": tuple(values[:NODES]),
        "knee": tuple(values[NODES : 2 * NODES]),
    }
    place = 2 * NODES
    for name in START_FIELDS:
        taken[name] = values[place]
        place += 1
    for name in FORCE_FIELDS:
        taken[name] = tuple(values[place : place + 4])
        place += 4
    return replace(wearer, **taken, arriving_height=values[place])
