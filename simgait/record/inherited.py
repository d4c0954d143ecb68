"""Values that later entries took over from an entry that was put right afterwards.

An entry whose alignment was not typed in full goes on from the one tried last.  Where that one is
later withdrawn, or its alignment corrected, what went on from it may be wrong as well.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from simgait.record.entry import Problem, Stored
from simgait.record.words import number_text


def doubtful_values(chains: Sequence[Sequence[Stored]]) -> tuple[Problem, ...]:
    """Return the entries that may hold values of an entry that no longer counts as it was written.

    They lie in the file between that entry and its correction, are from no case file, and have a
    value that the entry had set anew and that was then taken back.

    chains: each entry with its corrections, in the order of the file.
    """
    firsts = sorted((chain[0] for chain in chains), key=lambda stored: stored.first_line)
    found: list[Problem] = []
    for first, *later in chains:
        for correction in later:
            wrong = _taken_back(first, correction, firsts)
            between = [
                each
                for each in firsts
                if first.first_line < each.first_line < correction.first_line
            ]
            found += _holding(wrong, first, correction, between)
    return tuple(found)


def _taken_back(first: Stored, correction: Stored, firsts: Sequence[Stored]) -> dict[str, float]:
    """Return the values of an entry that its correction takes back."""
    old, new = first.entry.alignment, correction.entry.alignment
    if old is None:
        return {}
    if correction.entry.withdrawn:
        known = [each for each in firsts if each.first_line < first.first_line]
        before = [each.entry.alignment for each in known if each.entry.alignment is not None]
        new = before[-1] if before else {}
    elif new is None:
        return {}
    return {name: value for name, value in old.items() if new.get(name) != value}


def _holding(
    wrong: Mapping[str, float], first: Stored, correction: Stored, between: Sequence[Stored]
) -> list[Problem]:
    """Return the entries that go on with values taken back, until they are set anew."""
    found, held = [], dict(wrong)
    for each in between:
        alignment = each.entry.alignment
        if alignment is None:
            continue
        if each.entry.case is not None:
            break
        held = {name: value for name, value in held.items() if alignment[name] == value}
        if not held:
            break
        values = ", ".join(f"{name} {number_text(value)}" for name, value in held.items())
        words = (
            f"entry {each.number} may have {values} from entry {first.number}, which entry "
            f"{correction.number} put right afterwards: look whether it was so, and correct it"
        )
        found.append(
            Problem(
                first_line=each.first_line,
                last_line=each.last_line,
                words=words,
                about=correction.number,
            )
        )
    return found
