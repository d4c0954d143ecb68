"""Which kind of case a file holds, so that each verb refuses the other kind by its name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

from simgait.errors import CaseError, Fault

Kind = Literal["arm", "leg"]
TELLING = {"arm": ("arm",), "leg": ("limb", "foot")}  # tables that only that kind has
VERBS = {"arm": "simgait arm", "leg": "simgait stance and simgait compare"}
WANTS = {"arm": "a case with [arm]", "leg": "a case with [limb] and [foot]"}


def kind_of(data: Mapping[str, Any]) -> Kind | None:
    """Return the kind of a case by its tables; None if nothing tells.

    >>> kind_of({"person": {}, "arm": {}}), kind_of({"foot": {}}), kind_of({})
    ('arm', 'leg', None)
    """
    if any(table in data for table in TELLING["arm"]):
        return "arm"
    return "leg" if any(table in data for table in TELLING["leg"]) else None


def refuse_other_kind(data: Mapping[str, Any], label: str, wanted: Kind) -> None:
    """Refuse a case of the other kind.

    label: what the file is called; wanted: the kind that is read.

    Raises:
        CaseError: it is of the other kind.
    """
    found = kind_of(data)
    if found is None or found == wanted:
        return
    raise CaseError(
        [
            Fault(
                file=label,
                field=next(table for table in TELLING[found] if table in data),
                value="",
                allowed=WANTS[wanted],
                nearest=None,
                problem=f"makes this a case of {'an' if found == 'arm' else 'a'} {found}, "
                f"which {VERBS[found]} read{'s' if found == 'arm' else ''}",
            )
        ]
    )
