"""Where the model files lie, which there are, and the sources they cite."""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from simgait.errors import CaseError, Fault, shown
from simgait.sources import Source

KINDS = ("feet", "shoes", "sockets", "pylons", "segments", "wearers", "calibrations", "cases")
SINGULAR = {
    "feet": "foot",
    "shoes": "shoe",
    "sockets": "socket",
    "pylons": "pylon",
    "segments": "segment table",
    "wearers": "wearer",
    "calibrations": "calibration",
    "cases": "case",
}


def models_folder() -> Path:
    """Return the folder of model files: inside an installed package, beside a checked-out one."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "models"
    return inside if inside.is_dir() else package.parent / "models"


def names(kind: str) -> tuple[str, ...]:
    """Return the names of all models of a kind (one of ``KINDS``), sorted.

    Raises:
        CaseError: there is no such kind.

    >>> "carbon-leaf" in names("feet")
    True
    """
    if kind not in KINDS:
        raise CaseError([unknown("models", "kind", kind, KINDS, "is not a kind of model")])
    return tuple(sorted(path.stem for path in (models_folder() / kind).glob("*.toml")))


def nearest(text: str, known: tuple[str, ...]) -> str | None:
    """Return the known name closest to ``text``, or None if none is close.

    >>> nearest("carbn-leaf", ("carbon-leaf", "firm"))
    'carbon-leaf'
    """
    lowered = text.lower().replace("_", "-") if "-" in "".join(known) else text.lower()
    matches = difflib.get_close_matches(lowered[:80], known, n=1, cutoff=0.5)
    return matches[0] if matches else None


def unknown(file: str, field: str, text: str, known: tuple[str, ...], problem: str) -> Fault:
    """Return the fault of a name that is not among the known ones."""
    return Fault(
        file=file,
        field=field,
        value=shown(text),
        allowed=", ".join(known),
        nearest=nearest(text, known),
        problem=problem,
    )


def path_of(kind: str, name: str) -> Path:
    """Return the path of a model file.

    Raises:
        CaseError: there is none; the fault names the closest.
    """
    known = names(kind)
    if name not in known:
        noun = SINGULAR[kind]
        raise CaseError([unknown("models", noun, name, known, f"is not a known {noun}")])
    return models_folder() / kind / f"{name}.toml"


def model_text(kind: str, name: str) -> str:
    """Return the text of a model file, to tell whether it is still the same.

    Raises:
        CaseError: there is none; the fault names the closest.

    >>> "figures" in model_text("feet", "firm")
    True
    """
    return path_of(kind, name).read_text(encoding="utf-8")


def defaults_text() -> str:
    """Return the text of the file that fills what a case leaves out."""
    return (models_folder() / "defaults.toml").read_text(encoding="utf-8")


@cache
def sources() -> Mapping[str, Source]:
    """Return all sources by key, from ``models/sources.toml``.

    >>> sources()["illustrative"].key
    'illustrative'
    """
    data = parsed(models_folder() / "sources.toml")
    return {
        key: Source(key=key, citation=entry["citation"], doi=entry.get("doi"))
        for key, entry in data["sources"].items()
    }


def source(key: str) -> Source:
    """Return one source.

    Raises:
        CaseError: no source has that key; the fault names the closest.
    """
    if key not in sources():
        known = tuple(sorted(sources()))
        raise CaseError([unknown("sources.toml", "source", key, known, "is not a known source")])
    return sources()[key]


def parsed(path: Path) -> dict[str, Any]:
    """Return a model file as parsed TOML.

    Raises:
        CaseError: it cannot be read, or is no TOML.
    """
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError) as trouble:
        fault = Fault(
            file=path.name,
            field="",
            value="",
            allowed="a TOML file",
            nearest=None,
            problem=f"cannot be read: {trouble}",
        )
        raise CaseError([fault]) from trouble
