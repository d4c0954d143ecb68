"""Whether the limbs of a case can be built, asked before anything runs or is written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from simgait.alignment import Alignment
from simgait.case import Case
from simgait.errors import CaseError, Fault, RangeError, one_line
from simgait.limb import Limb, limb_columns, limb_of


def built_limbs(path: str, case: Case, alignments: Sequence[Alignment]) -> tuple[Limb, ...]:
    """Return the limbs of a case at these alignments, each once it is known that it can be built.

    path: of the case file, for the message.

    Raises:
        CaseError: some cannot; every such alignment is named, the same trouble only once.
    """
    limbs: list[Limb] = []
    troubles: dict[str, list[Alignment]] = {}
    for alignment in alignments:
        try:
            limb = limb_of(case, alignment)
            limb_columns(limb)
            limbs.append(limb)
        except RangeError as trouble:
            troubles.setdefault(str(trouble), []).append(alignment)
    if troubles:
        raise CaseError([_fault(path, trouble, where) for trouble, where in troubles.items()])
    return tuple(limbs)


def _fault(path: str, trouble: str, where: Sequence[Alignment]) -> Fault:
    values = ", ".join(f"{name} {value:g}" for name, value in where[0].as_written().items())
    others = f" and {len(where) - 1} more" if len(where) > 1 else ""
    return Fault(
        file=one_line(path),
        field="alignment",
        value=f"({values}){others}",
        allowed="",
        nearest=None,
        problem=f"cannot be built: {trouble}",
    )


@contextmanager
def refused_as(path: str) -> Iterator[None]:
    """Name the file in the refusals of what it asks for.

    path: of the case file.

    Raises:
        CaseError: as the block raised it.
    """
    try:
        yield
    except CaseError as refusal:
        faults = [replace(fault, file=one_line(path)) for fault in refusal.faults]
        raise CaseError(faults) from None
