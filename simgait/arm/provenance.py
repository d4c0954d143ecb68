"""What an arm's result rests on: the version of its equations, sources, cautions."""

from __future__ import annotations

import functools
import hashlib
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from simgait.arm.names import (
    DEVICE_TIRES,
    LEAST_SURPLUS,
    OPENS,
    OWN_CAUTIONS,
    SURPLUS,
    TIRING,
)
from simgait.arm.result import ArmResult
from simgait.case.arm_case import ArmCase
from simgait.library import source
from simgait.library.arms import arm_sources


@functools.cache
def arm_version() -> str:
    """Return the package's version and the hash of the arm's own equations.

    >>> "+" in arm_version()
    True
    """
    try:
        number = version("simgait")
    except PackageNotFoundError:
        number = "0"
    folder = Path(__file__).resolve().parent
    texts = [path.read_bytes() for path in sorted(folder.glob("*.py"))]
    texts += [(folder.parent / "parts" / name).read_bytes() for name in ("arm.py", "cable.py")]
    return f"{number}+{hashlib.sha256(b''.join(texts)).hexdigest()[:12]}"


def arm_case_sources(case: ArmCase) -> tuple[str, ...]:
    """Return the citations that an arm's numbers rest on, each once."""
    keys = [case.person.segment_table.source, "capstan", *arm_sources()]
    return tuple(source(key).line for key in dict.fromkeys(keys))


def device_tires(result: ArmResult) -> bool:
    """Whether working the device takes more than the fatigue-free share of the wearer's pull."""
    return result.device is not None and not result.device.fatigue_free


def arm_cautions(result: ArmResult) -> tuple[str, ...]:
    """Return the cautions of every arm, and those of this one."""
    special = []
    if any(row.fatigue_free for row in result.positions):
        special.append(TIRING)
    place = result.recommended
    if place is not None and result.positions[place].opens_while_lifting:
        verb = result.cable.device_action
        special.append(OPENS.format(place="the recommended position", verb=verb))
    if place is not None and result.positions[place].ledger.surplus > LEAST_SURPLUS:
        special.append(SURPLUS)
    if place is not None and result.positions[place].fatigue_free and device_tires(result):
        special.append(DEVICE_TIRES)
    if result.recommended_length is None and any(
        row.within_capacity is False for row in result.lengths
    ):
        least = min(row.shoulder_moment for row in result.lengths)
        special.append(
            f"No length that was tried is within what the shoulder can hold: the lightest asks "
            f"{least:.2f} N m."
        )
    if result.stands_share is not None and result.stands_share < 0.9:
        special.append(
            f"Measured again, the recommended position would be beyond a limit in "
            f"{100.0 * (1.0 - result.stands_share):.0f} of 100 draws of the errors of measurement."
        )
    return (*OWN_CAUTIONS, *special)
