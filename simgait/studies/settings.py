"""The settings of a study file beside what varies: sampling, measures, curves, size of parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, cast

from simgait.case.findings import Findings
from simgait.errors import shown
from simgait.library import nearest
from simgait.studies.study import Method, usual_part_rows
from simgait.symbols import BY_NAME, MEASURES

METHODS = ("grid", "sobol", "lhs", "saltelli", "morris")
DESIGNS = ("saltelli", "morris")  # for sensitivities
DRAWN_WHOLE = ("lhs", *DESIGNS)
SAMPLE_KEYS = ("method", "size", "seed", "most")
LARGEST_SIZE = 100_000_000
LARGEST_HYPERCUBE = 4_000_000  # rows; it is drawn as a whole
LARGEST_SEED = 2**63 - 1
LEAST_PART, LARGEST_PART = 16, 65_536  # rows


@dataclass(frozen=True, kw_only=True)
class Sample:
    """The table ``[sample]``."""

    method: Method
    size: int | None
    seed: int
    most: int | None  # rows of a grid that are asked for


def is_whole(value: object, low: int, high: int) -> bool:
    """Return whether a value is a whole number within limits."""
    return isinstance(value, int) and not isinstance(value, bool) and low <= value <= high


def checked_sample(content: object, findings: Findings) -> Sample:
    """Return ``[sample]``, a grid with seed 0 unless it says otherwise."""
    if not isinstance(content, dict):
        findings.fault("sample", "is not a table", value=shown(content), allowed="[sample]")
        content = {}
    given = cast(Mapping[str, Any], content)
    for key in given.keys() - set(SAMPLE_KEYS):
        findings.fault(
            f"sample.{key}",
            "is not a key of [sample]",
            allowed=", ".join(SAMPLE_KEYS),
            near=nearest(key, SAMPLE_KEYS),
        )
    method = checked_method(given.get("method", "grid"), findings)
    largest = LARGEST_HYPERCUBE if method in DRAWN_WHOLE else LARGEST_SIZE
    for key, low, high in (
        ("size", 1, largest),
        ("seed", 0, LARGEST_SEED),
        ("most", 1, LARGEST_SIZE),
    ):
        if key in given and not is_whole(given[key], low, high):
            findings.fault(
                f"sample.{key}",
                "is not a count",
                value=shown(given[key]),
                allowed=f"a whole number, {low} to {high}",
            )
            return Sample(method="grid", size=None, seed=0, most=None)
    if method != "grid" and "size" not in given:
        findings.fault("sample.size", "is missing", allowed=f"1 to {largest}")
    return Sample(
        method=method, size=given.get("size"), seed=given.get("seed", 0), most=given.get("most")
    )


def checked_method(given: object, findings: Findings) -> Method:
    """Return the way to sample; a grid once the fault of another is noted."""
    if given in METHODS:
        return cast(Method, given)
    near = nearest(given, METHODS) if isinstance(given, str) else None
    findings.fault(
        "sample.method",
        "is no way to sample",
        value=shown(given),
        allowed=", ".join(METHODS),
        near=near,
    )
    return "grid"


def check_design(sample: Sample, axes: int, errors: int, findings: Findings) -> None:
    """Note a fault if a design for sensitivities has nothing to tell apart, or noise in it."""
    if sample.method not in DESIGNS:
        return
    if errors:
        findings.fault(
            "error",
            "does not go with a design for sensitivities",
            value=sample.method,
            allowed="what is uncertain as a span of [vary]",
        )
    if axes < 2:
        findings.fault(
            "vary", "names too little for sensitivities", value=str(axes), allowed="2 names or more"
        )


def checked_measures(given: object, findings: Findings) -> tuple[str, ...]:
    """Return the measures to keep, in the order in which everything lists them; all by default."""
    everything = tuple(measure.name for measure in MEASURES)
    if given is None:
        return everything
    if not isinstance(given, list) or not given:
        findings.fault(
            "measures", "is no list", value=shown(given), allowed="a list of measures' names"
        )
        return everything
    for place, name in enumerate(given):
        if name not in BY_NAME:
            near = nearest(name, everything) if isinstance(name, str) else None
            findings.fault(
                f"measures[{place}]",
                "is not a measure",
                value=shown(name),
                allowed="a name of docs/reference/measures.md",
                near=near,
            )
    return tuple(name for name in everything if name in given)


def checked_curves(given: object, rows: int, findings: Findings) -> bool | tuple[int, ...]:
    """Return whether curves are kept, or of which rows (numbered from 0)."""
    if isinstance(given, bool):
        return given
    if isinstance(given, list) and all(is_whole(row, 0, rows - 1) for row in given):
        return tuple(sorted(set(given)))
    findings.fault(
        "keep_curves",
        "is not allowed",
        value=shown(given),
        allowed=f"true, false, or a list of rows, 0 to {rows - 1}",
    )
    return False


def checked_part_rows(given: object, rows: int, findings: Findings) -> int:
    """Return how many rows are stored at a time; by the size of the study if it is not stated."""
    usual = usual_part_rows(rows)
    if given is None:
        return usual
    if is_whole(given, LEAST_PART, LARGEST_PART):
        return cast(int, given)
    findings.fault(
        "part_rows",
        "is not allowed",
        value=shown(given),
        allowed=f"{LEAST_PART} to {LARGEST_PART}",
        near=str(usual),
    )
    return usual
