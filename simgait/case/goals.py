"""``[goal]`` and ``[adjust]``: what an alignment is to reach, and what the unit lets one change."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias, cast, get_args

from simgait.alignment import WRITTEN_NAMES
from simgait.case.entries import AlignmentEntry, number_range
from simgait.case.findings import Findings
from simgait.case.hints import nearest_bound, unit_hint
from simgait.errors import shown
from simgait.library import nearest
from simgait.symbols import BY_NAME
from simgait.symbols.complaints import COMPLAINTS

Sense: TypeAlias = Literal["below", "above", "near"]
SENSES: tuple[Sense, ...] = get_args(Sense)
GOAL, ADJUST = "goal", "adjust"
MOST_GOALS = 12
HEAVIEST = 1000.0  # weight of a goal
FORMS = "{ below = 40 }, { above = 10 }, or { near = 100, within = 5 }, each with weight = 1"
RANGE_FORMS = '{ from = -15, to = 15, step = 1 }, [0, 10, 20], or "fixed"'
MOST_LEVELS = 201
FIXED = "fixed"


@dataclass(frozen=True, kw_only=True)
class Goal:
    """What one measure is to be, in the unit of its name."""

    measure: str
    sense: Sense
    value: float
    within: float  # how near is near enough; 0 for a bound
    weight: float  # [1] how much it counts where not all goals can be met


@dataclass(frozen=True, kw_only=True)
class Adjustment:
    """What may be changed of one number of the alignment, in the unit of its name."""

    name: str
    levels: tuple[float, ...] = ()  # the only values there are; empty: a range
    low: float = math.nan
    high: float = math.nan
    step: float = math.nan
    turns: float = math.nan  # [1] the step in turns of a screw; else `step` counts


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """What the tables say: goals, complaints by name, and the adjustments that are stated."""

    goals: tuple[Goal, ...] = ()
    complaints: tuple[str, ...] = ()
    adjustments: tuple[Adjustment, ...] = ()


def checked_wanted(data: Mapping[str, Any], findings: Findings) -> Wanted:
    """Return what ``[goal]`` and ``[adjust]`` say; their faults are noted."""
    goal, adjust = (_table(data, name, findings) for name in (GOAL, ADJUST))
    names = tuple(BY_NAME)
    strangers = [key for key in goal if key != "complaints" and key not in names]
    for key in strangers:
        findings.fault(
            f"{GOAL}.{key}",
            "is neither a measure nor complaints",
            allowed="complaints, or a measure's name",
            near=nearest(key, ("complaints", *names)),
        )
    goals = [_goal(key, goal[key], findings) for key in goal if key in names]
    if len(goals) > MOST_GOALS:
        findings.fault(GOAL, f"has {len(goals)} measures", allowed=f"up to {MOST_GOALS}")
    findings.unknown_keys(
        ADJUST, (key for key in adjust if key not in WRITTEN_NAMES), WRITTEN_NAMES
    )
    stated = [_adjustment(key, adjust[key], findings) for key in adjust if key in WRITTEN_NAMES]
    return Wanted(
        goals=tuple(each for each in goals if each),
        complaints=_complaints(goal.get("complaints", []), findings),
        adjustments=tuple(each for each in stated if each),
    )


def _table(data: Mapping[str, Any], name: str, findings: Findings) -> Mapping[str, Any]:
    content = data.get(name, {})
    if isinstance(content, dict):
        return cast(Mapping[str, Any], content)
    findings.fault(name, "is not a table", value=shown(content), allowed=f"a table, [{name}]")
    return {}


def _complaints(value: object, findings: Findings) -> tuple[str, ...]:
    """Return the complaints that are known; the others are noted."""
    field = f"{GOAL}.complaints"
    if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
        findings.fault(
            field, "is no list of complaints", value=shown(value), allowed='["drops off the toe"]'
        )
        return ()
    known = tuple(COMPLAINTS)
    for place, name in enumerate(value):
        if name not in known:
            findings.unknown_name(f"{field}[{place}]", name, known, "complaint")
    if len(set(value)) < len(value):
        findings.fault(field, "says a complaint twice", allowed="each once")
    return tuple(name for name in value if name in known)


def _number(field: str, value: object, low: float, high: float, findings: Findings) -> float | None:
    """Return a finite number within a range; None once its fault is noted."""
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not math.isfinite(cast(float, value)):
        findings.fault(field, "is not a number", value=shown(value), allowed=f"{low:g} to {high:g}")
        return None
    given = float(cast(float, value))
    if not low <= given <= high:
        hint = unit_hint(field.rpartition(".")[2], given, low, high)
        findings.fault(
            field,
            f"is out of range{': ' + hint if hint else ''}",
            value=shown(value),
            allowed=f"{low:g} to {high:g}",
            near=nearest_bound(given, low, high),
        )
        return None
    return given


def _goal(name: str, content: object, findings: Findings) -> Goal | None:
    """Return one goal; None once its faults are noted."""
    field = f"{GOAL}.{name}"
    given = content if isinstance(content, dict) else {}
    said = [sense for sense in SENSES if sense in given]
    if len(said) != 1 or not given.keys() <= {*SENSES, "within", "weight"}:
        findings.fault(field, "is no goal", value=shown(content), allowed=FORMS)
        return None
    (sense,) = said
    if (sense == "near") != ("within" in given):
        findings.fault(field, "says how near only with near", value=shown(content), allowed=FORMS)
        return None
    value = _number(f"{field}.{sense}", given[sense], -1e6, 1e6, findings)
    weight = _number(f"{field}.weight", given.get("weight", 1.0), 0.001, HEAVIEST, findings)
    within = _number(f"{field}.within", given.get("within", 0.0), 0.0, 1e6, findings)
    if value is None or weight is None or within is None:
        return None
    if sense == "near" and within <= 0.0:
        findings.fault(f"{field}.within", "is nothing", value=shown(within), allowed="above 0")
        return None
    return Goal(measure=name, sense=sense, value=value, within=within, weight=weight)


def _adjustment(name: str, content: object, findings: Findings) -> Adjustment | None:
    """Return what may be changed of one number; None once its faults are noted."""
    field = f"{ADJUST}.{name}"
    low, high = number_range(AlignmentEntry, name) or (-math.inf, math.inf)
    if content == FIXED:
        return Adjustment(name=name, levels=(math.nan,))
    if isinstance(content, list) and 0 < len(content) <= MOST_LEVELS:
        levels = [
            _number(f"{field}[{place}]", value, low, high, findings)
            for place, value in enumerate(content)
        ]
        found = tuple(sorted({level for level in levels if level is not None}))
        if len(found) < len(content):
            if None not in levels:
                findings.fault(field, "says a value twice", allowed="each value once")
            return None
        return Adjustment(name=name, levels=found)
    if isinstance(content, dict) and {"from", "to"} <= content.keys():
        return _range(name, content, (low, high), findings)
    findings.fault(field, "is no range", value=shown(content), allowed=RANGE_FORMS)
    return None


def _range(
    name: str, content: Mapping[str, Any], span: tuple[float, float], findings: Findings
) -> Adjustment | None:
    """Return the adjustment of {from, to, step} or {from, to, step_turns}."""
    field = f"{ADJUST}.{name}"
    tilt = name in TILTS
    steps: Iterable[str] = ("step", "step_turns") if tilt else ("step",)
    said = [key for key in steps if key in content]
    if len(said) != 1 or len(content) != 3:
        forms = "from, to and step" + (", or step_turns" if tilt else "")
        findings.fault(field, "is no range", value=shown(dict(content)), allowed=forms)
        return None
    low = _number(f"{field}.from", content["from"], *span, findings)
    high = _number(f"{field}.to", content["to"], *span, findings)
    step = _number(f"{field}.{said[0]}", content[said[0]], 0.01, 60.0, findings)
    if low is None or high is None or step is None:
        return None
    if low >= high:
        findings.fault(field, "is an empty range", value=shown(dict(content)), allowed="from < to")
        return None
    if said[0] == "step" and (high - low) / step >= MOST_LEVELS:
        findings.fault(f"{field}.step", "makes too many steps", allowed=f"up to {MOST_LEVELS - 1}")
        return None
    if said[0] == "step":
        return Adjustment(name=name, low=low, high=high, step=step)
    return Adjustment(name=name, low=low, high=high, turns=step)


TILTS = ("dorsiflexion_deg", "socket_flexion_deg")  # set by the screws of the adjustable unit
