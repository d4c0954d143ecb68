"""What a result rests on: the model's version, the sources of its figures, its cautions."""

from __future__ import annotations

import functools
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version
from typing import Any

from simgait.case import Case
from simgait.engines.source import physics_version
from simgait.library import (
    names,
    read_calibration,
    read_figures,
    read_wearer,
    read_wearer_data,
    source,
)
from simgait.symbols import CAUTIONS, MEASURES
from simgait.wearer import dimensionless_speed

FARTHEST_PACE = 0.15  # share by which the pace may differ from the calibrated one without a word


@functools.cache
def model_version() -> str:
    """Return the package's version and the hash of its equations.

    >>> "+" in model_version()
    True
    """
    try:
        number = version("simgait")
    except PackageNotFoundError:
        number = "0"
    return f"{number}+{physics_version()}"


def sources_within(data: Any) -> Iterator[str]:
    """Yield every source key named anywhere in a parsed model file."""
    if isinstance(data, dict):
        if isinstance(data.get("source"), str):
            yield data["source"]
        for value in data.values():
            yield from sources_within(value)


def case_sources(case: Case) -> tuple[str, ...]:
    """Return the citations that a case's numbers and measures rest on, each once."""
    keys = [case.person.segment_table.source, "drillis-contini-1966"]
    parts = (
        ("feet", case.foot.name),
        ("shoes", case.shoe.name if case.shoe else ""),
        ("sockets", case.socket.name),
        ("pylons", case.pylon.name),
    )
    for kind, name in parts:
        if name in names(kind):
            keys += [figure.source for figure in read_figures(kind, name).values()]
    keys += sources_within(read_wearer_data(case.wearer))
    if case.wearer in names("calibrations"):
        keys += sources_within(read_calibration(case.wearer))
    keys += [measure.source for measure in MEASURES if measure.source != "definition"]
    return tuple(source(key).line for key in dict.fromkeys(keys))


def case_cautions(case: Case, cautions: tuple[str, ...] = CAUTIONS) -> tuple[str, ...]:
    """Return the cautions of every result and those of this case.

    cautions: those of every result, which depend on what is assumed of the wearer.
    """
    wearer = read_wearer(case.wearer)
    own = dimensionless_speed(wearer.speed, wearer.leg_length)
    special = []
    if case.speed is not None:
        wanted = dimensionless_speed(case.speed, case.person.hip_height)
        if abs(wanted / own - 1.0) > FARTHEST_PACE:
            special.append(
                f"This pace is {wanted / own:.2f} times the one that wearer {case.wearer} was "
                "calibrated at; the scaling is from memory, and away from that pace the vertical "
                "force comes out too high."
            )
    return (*cautions, *special)
