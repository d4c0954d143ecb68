"""The table ``[report]`` of a study file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from simgait.case.findings import Findings
from simgait.errors import shown
from simgait.library import nearest
from simgait.studies.study import Axis, Level
from simgait.studies.wishes import Wishes

REPORT_KEYS = ("measures", "base", "goals", "limits")
USUAL_MEASURES = (
    "knee_flexion_moment_peak_nm",
    "knee_extension_moment_peak_nm",
    "socket_flexion_moment_peak_nm",
    "socket_extension_moment_peak_nm",
)
MOST_MEASURES = 12  # that are told


def usual_measures(kept: tuple[str, ...]) -> tuple[str, ...]:
    """Return the measures that are told if none are named: the usual ones, or the first kept.

    >>> usual_measures(("hip_rise_mm",))
    ('hip_rise_mm',)
    """
    return tuple(name for name in USUAL_MEASURES if name in kept) or kept[: len(USUAL_MEASURES)]


def checked_wishes(
    content: object, kept: tuple[str, ...], axes: tuple[Axis, ...], findings: Findings
) -> Wishes:
    """Return ``[report]``; what is wrong with it is noted. kept: measures of the study."""
    if not isinstance(content, dict):
        findings.fault("report", "is not a table", value=shown(content), allowed="[report]")
        content = {}
    given = cast(Mapping[str, Any], content)
    findings.unknown_keys("report", (key for key in given if key not in REPORT_KEYS), REPORT_KEYS)
    measures = given.get("measures", list(usual_measures(kept)))
    if not isinstance(measures, list) or not 0 < len(measures) <= MOST_MEASURES:
        findings.fault(
            "report.measures",
            "is no list of measures",
            value=shown(measures),
            allowed=f"1 to {MOST_MEASURES} measures that are kept",
        )
        measures = []
    for place, name in enumerate(measures):
        _check_measure(f"report.measures[{place}]", name, kept, findings)
    goals = _numbers("goals", given, kept, findings, words=("low", "high"))
    if goals and not 2 <= len(goals) <= 3:
        findings.fault(
            "report.goals", "are not two or three", value=str(len(goals)), allowed="2, 3"
        )
    return Wishes(
        measures=tuple(measures),
        base=_base(given.get("base", {}), axes, findings),
        goals=goals,
        limits=_numbers("limits", given, kept, findings),
    )


def _check_measure(field: str, name: object, kept: tuple[str, ...], findings: Findings) -> None:
    if name not in kept:
        near = nearest(name, kept) if isinstance(name, str) else None
        findings.fault(
            field,
            "is no measure that is kept",
            value=shown(name),
            allowed="a name among measures",
            near=near,
        )


def _numbers(
    key: str,
    given: Mapping[str, Any],
    kept: tuple[str, ...],
    findings: Findings,
    words: tuple[str, ...] = (),
) -> dict[str, Any]:
    """Return a table from measures to numbers, or one of some words."""
    table = given.get(key, {})
    if not isinstance(table, dict):
        findings.fault(f"report.{key}", "is not a table", value=shown(table), allowed="a table")
        return {}
    for name, value in table.items():
        _check_measure(f"report.{key}.{name}", name, kept, findings)
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if not number and value not in words:
            findings.fault(
                f"report.{key}.{name}",
                "is not allowed",
                value=shown(value),
                allowed=", ".join((*words, "a number")),
            )
    return dict(table)


def _base(table: object, axes: tuple[Axis, ...], findings: Findings) -> dict[str, Level]:
    """Return the setting to compare with: a level of some of the names that vary."""
    if not isinstance(table, dict):
        findings.fault("report.base", "is not a table", value=shown(table), allowed="a table")
        return {}
    levels = {axis.name: axis.levels for axis in axes}
    found: dict[str, Level] = {}
    for name, value in table.items():
        if name not in levels:
            findings.fault(
                f"report.base.{name}",
                "does not vary",
                allowed=", ".join(levels),
                near=nearest(name, tuple(levels)),
            )
        elif value not in levels[name]:
            allowed = ", ".join(str(level) for level in levels[name][:12])
            findings.fault(
                f"report.base.{name}", "is no level", value=shown(value), allowed=allowed
            )
        else:
            found[name] = value if isinstance(value, str) else float(value)
    return found
