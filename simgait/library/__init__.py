"""The only reader of ``models/``: feet, shoes, sockets, pylons, segment tables, wearers, sources.

A number that does not say where it comes from does not load.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any, TypeVar

from simgait.errors import CaseError, Fault, RangeError
from simgait.library.figures import figures_of, read_figures, read_model
from simgait.library.folder import (
    KINDS,
    SINGULAR,
    defaults_text,
    model_text,
    models_folder,
    names,
    nearest,
    path_of,
    source,
    sources,
    unknown,
)
from simgait.library.walking import level_walking
from simgait.library.wearers import read_wearer
from simgait.parts import Foot, Pylon, Shoe, Socket
from simgait.people import SegmentRow, SegmentTable
from simgait.sources import Figure
from simgait.units import si_from_written

__all__ = [
    "KINDS",
    "SINGULAR",
    "defaults_text",
    "level_walking",
    "model_text",
    "models_folder",
    "names",
    "nearest",
    "path_of",
    "read_calibration",
    "read_defaults",
    "read_figures",
    "read_foot",
    "read_pylon",
    "read_shoe",
    "read_socket",
    "read_wearer",
    "read_wearer_data",
    "segment_table",
    "source",
    "sources",
    "unknown",
]

Part = TypeVar("Part")


def _read_part(kind: str, name: str, make: Callable[..., Part]) -> Part:
    """Return a part made of the figures of its file, in SI."""
    path = path_of(kind, name)
    figures = figures_of(read_model(path), path.name)
    values = dict(si_from_written(key, figure.number) for key, figure in figures.items())
    try:
        return make(name=name, **values)
    except (RangeError, TypeError) as trouble:
        fault = Fault(
            file=path.name,
            field="figures",
            value="",
            allowed="",
            nearest=None,
            problem=f"do not make a {SINGULAR[kind]}: {trouble}",
        )
        raise CaseError([fault]) from trouble


def read_foot(name: str) -> Foot:
    """Return a foot of the library. Raises CaseError for an unknown name or a faulty file.

    >>> read_foot("carbon-leaf").name
    'carbon-leaf'
    """
    return _read_part("feet", name, Foot)


def read_shoe(name: str) -> Shoe:
    """Return a shoe of the library. Raises CaseError for an unknown name or a faulty file."""
    return _read_part("shoes", name, Shoe)


def read_socket(name: str) -> Socket:
    """Return a socket of the library. Raises CaseError for an unknown name or a faulty file."""
    return _read_part("sockets", name, Socket)


def read_pylon(name: str) -> Pylon:
    """Return a pylon of the library. Raises CaseError for an unknown name or a faulty file."""
    return _read_part("pylons", name, Pylon)


def read_wearer_data(name: str) -> dict[str, Any]:
    """Return a wearer's file, parsed, every number in it with grade and source.

    Raises:
        CaseError: unknown name or a faulty file.
    """
    return read_model(path_of("wearers", name))


def read_calibration(name: str) -> dict[str, Any]:
    """Return a calibration's file, parsed, every number in it with grade and source.

    Raises:
        CaseError: unknown name or a faulty file.
    """
    return read_model(path_of("calibrations", name))


def read_defaults() -> dict[str, Figure]:
    """Return the figures that fill what a case leaves out, from ``models/defaults.toml``."""
    path = models_folder() / "defaults.toml"
    return figures_of(read_model(path), path.name)


@cache
def segment_table(name: str) -> SegmentTable:
    """Return a published table of body segments.

    Raises:
        CaseError: unknown name or a faulty file.

    >>> segment_table("dempster_winter").row("Thigh").mass
    0.1
    """
    path = path_of("segments", name)
    data = read_model(path)
    rows = tuple(
        SegmentRow(
            name=key,
            ends=row["ends"],
            mass=float(row["mass"]),
            centre=float(row["centre"]),
            gyration=row.get("gyration_transverse"),
        )
        for key, row in data["segments"]["rows"].items()
    )
    leg = data["leg"]
    return SegmentTable(
        name=name,
        title=data["title"],
        source=data["segments"]["source"],
        rows=rows,
        thigh=leg["thigh"],
        shank=leg["shank"],
        foot=leg["foot"],
    )
