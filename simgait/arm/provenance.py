"""What an arm's result rests on: the version of its equations, sources, cautions."""

from __future__ import annotations

import functools
import hashlib
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from simgait.arm.names import OWN_CAUTIONS, TIRING
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


def arm_cautions(result: ArmResult) -> tuple[str, ...]:
    """Return the cautions of every arm, and those of this one."""
    special = []
    if any(row.fatigue_free for row in result.positions):
        special.append(TIRING)
    place = result.recommended
    if place is not None and result.positions[place].opens_while_lifting:
        verb = result.cable.device_action
        special.append(
            f"At the recommended position the device {verb} while the forearm is lifted: lifting "
            "takes more pull than the device does."
        )
    if result.stands_share is not None and result.stands_share < 0.9:
        special.append(
            f"Measured again, the recommended position would be beyond a limit in "
            f"{100.0 * (1.0 - result.stands_share):.0f} of 100 draws of the errors of measurement."
        )
    return (*OWN_CAUTIONS, *special)
