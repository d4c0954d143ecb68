"""Every figure of a model file has a source and a grade."""

import math
from collections.abc import Iterator, Mapping

GRADES = frozenset(
    {"published", "quoted", "derived", "memory", "practice", "illustrative", "measured"}
)
# a source that is no publication can only stand behind its own grade
STAND_INS: dict[str, frozenset[str]] = {
    "memory": frozenset({"memory", "derived"}),
    "common-practice": frozenset({"practice", "derived"}),
    "illustrative": frozenset({"illustrative", "derived"}),
    "own-arithmetic": GRADES - {"published", "quoted"},
    "own-fit": GRADES - {"published", "quoted"},
}
# kinds of file (folders of models/) in which a number stands under [figures] or nowhere
FIGURES_ONLY = frozenset({"feet", "shoes", "sockets", "pylons"})


def source_keys(data: Mapping[str, object]) -> frozenset[str]:
    """Return the keys of models/sources.toml, whose entries are tables."""
    inner = data.get("sources", data)
    entries = inner if isinstance(inner, Mapping) else data
    return frozenset(key for key, entry in entries.items() if isinstance(entry, Mapping))


def figures(data: Mapping[str, object], inside: bool = False) -> Iterator[tuple[str, object]]:
    """Yield name and entry of every figure: what stands in a table named "figures" at any depth."""
    for name, entry in data.items():
        if inside and not (isinstance(entry, Mapping) and _is_group(entry)):
            yield name, entry
        elif isinstance(entry, Mapping):
            yield from figures(entry, inside or name == "figures")


def _is_group(entry: Mapping[str, object]) -> bool:
    return bool(entry) and all(isinstance(each, Mapping) for each in entry.values())


def _is_number(value: object) -> bool:
    is_one = isinstance(value, int | float) and not isinstance(value, bool)
    return is_one and math.isfinite(value)  # type: ignore[arg-type]


def figure_faults(entry: object, known: frozenset[str]) -> list[str]:
    """Return what a figure lacks."""
    if not isinstance(entry, Mapping):
        return [f"is a bare {type(entry).__name__}, not a table with value, grade, source, place"]
    values = entry.get("value")
    listed = values if isinstance(values, list) and values else [values]
    grade, source, place = entry.get("grade"), entry.get("source"), entry.get("place")
    faults = []
    if not all(_is_number(value) for value in listed):
        faults.append(f"value {values!r} is not a finite number")
    if grade not in GRADES:
        faults.append(f"grade {grade!r} is none of {', '.join(sorted(GRADES))}")
    if source not in known:
        faults.append(f"source {source!r} is not in sources.toml")
    elif grade in GRADES and grade not in STAND_INS.get(str(source), GRADES):
        faults.append(f"grade {grade!r} cannot rest on the source {source!r}")
    if not isinstance(place, str) or not place.strip():
        faults.append("no place in the source")
    return faults


def model_faults(path: str, data: Mapping[str, object], known: frozenset[str]) -> list[str]:
    """Return what is wrong with the figures of a model file."""
    return [
        f"{path}: {name}: {fault}"
        for name, entry in figures(data)
        for fault in figure_faults(entry, known)
    ]


def stray_numbers(path: str, data: object, where: str = "") -> list[str]:
    """Return the numbers of a model file that stand outside [figures]."""
    if isinstance(data, Mapping):
        inner = ((key, entry) for key, entry in data.items() if key != "figures")
        return [
            fault for key, entry in inner for fault in stray_numbers(path, entry, f"{where}.{key}")
        ]
    if isinstance(data, list):
        return [fault for entry in data for fault in stray_numbers(path, entry, where)]
    is_number = isinstance(data, int | float) and not isinstance(data, bool)
    return [f"{path}: {where[1:]} = {data!r} stands outside [figures]"] if is_number else []
