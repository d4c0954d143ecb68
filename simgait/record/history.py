"""What a record says once its corrections are taken into account: trials and visits in order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from simgait.record.entry import Entry, Problem, Record, Stored
from simgait.record.inherited import doubtful_values


@dataclass(frozen=True, kw_only=True, eq=False)
class Trial:
    """An entry as it is valid now, with the numbers of the entries that corrected it."""

    stored: Stored
    entry: Entry
    corrected_by: tuple[int, ...]
    sums: tuple[str, ...]  # of the entry and its corrections
    reasons: tuple[str, ...]  # of the last correction, why it was made

    @property
    def number(self) -> int:
        """The number of the entry itself."""
        return self.stored.number


@dataclass(frozen=True, kw_only=True, eq=False)
class Visit:
    """One day, and what was entered for it, in the order of the file."""

    day: date
    trials: tuple[Trial, ...]


@dataclass(frozen=True, kw_only=True, eq=False)
class History:
    """A record, told in the order of its visits."""

    code: str
    visits: tuple[Visit, ...]
    withdrawn: tuple[Trial, ...]
    problems: tuple[Problem, ...]

    @property
    def trials(self) -> tuple[Trial, ...]:
        """All that is valid, by day and then in the order of the file."""
        return tuple(trial for visit in self.visits for trial in visit.trials)

    @property
    def changes(self) -> dict[int, dict[str, float]]:
        """By number of entry: what changed in its alignment since the one before, mm and deg."""
        changes: dict[int, dict[str, float]] = {}
        before: Mapping[str, float] | None = None
        for trial in self.trials:
            now = trial.entry.alignment
            changes[trial.number] = {}
            if now is None:
                continue
            if before is not None:
                moved = {name: round(now[name] - before[name], 9) for name in now}
                changes[trial.number] = {name: by for name, by in moved.items() if by}
            before = now
        return changes

    @property
    def every(self) -> tuple[Trial, ...]:
        """All that is valid, and what was withdrawn."""
        return (*self.trials, *self.withdrawn)


def history_of(record: Record) -> History:
    """Return the history of a record.

    A correction's parts stand in the place of those of the entry that it corrects: each kind of
    note as a whole, each measured number and the alignment by itself, and the day of the visit.
    A correction of an entry that cannot be read stands by itself.
    """
    problems = list(record.problems)
    roots: dict[str, str] = {}
    chains: dict[str, list[Stored]] = {}
    for stored in record.entries:
        reference = stored.entry.corrects
        root = None if reference is None else roots.get(reference.sum)
        if reference is not None and root is None:
            words = f"entry {stored.number} corrects entry {reference.number}, which was not read"
            problems.append(
                Problem(first_line=stored.first_line, last_line=stored.last_line, words=words)
            )
        roots[stored.sum] = root or stored.sum
        chains.setdefault(root or stored.sum, []).append(stored)
    problems += [
        problem
        for problem in doubtful_values(tuple(chains.values()))
        if not _put_right(problem, chains.values())
    ]
    trials = [_valid(chain) for chain in chains.values()]
    kept = [trial for trial in trials if not trial.entry.withdrawn]
    days = sorted({trial.entry.visit for trial in kept})
    return History(
        code=record.code or "",
        visits=tuple(
            Visit(day=day, trials=tuple(each for each in kept if each.entry.visit == day))
            for day in days
        ),
        withdrawn=tuple(trial for trial in trials if trial.entry.withdrawn),
        problems=tuple(problems),
    )


def _put_right(problem: Problem, chains: Iterable[Sequence[Stored]]) -> bool:
    """Whether the alignment of a doubtful entry was typed again since, or the entry withdrawn."""
    (chain,) = (each for each in chains if each[0].first_line == problem.first_line)
    return any(each.entry.alignment is not None or each.entry.withdrawn for each in chain[1:])


def _valid(chain: Sequence[Stored]) -> Trial:
    """Return the first entry of a chain with all its corrections."""
    first, *later = chain
    entry = first.entry
    for stored in later:
        entry = corrected(entry, stored.entry)
    return Trial(
        stored=first,
        entry=entry,
        corrected_by=tuple(each.number for each in later),
        sums=tuple(each.sum for each in chain),
        reasons=tuple(
            text for each in later[-1:] for kind, text in each.entry.notes if kind == "why"
        ),
    )


def corrected(old: Entry, new: Entry) -> Entry:
    """Return an entry with a correction in it.

    old: the entry; new: the correction.
    """
    kinds = {kind for kind, _ in new.notes}
    kept = [note for note in old.notes if note[0] not in kinds]
    return Entry(
        code=old.code,
        written=old.written,
        visit=new.visit,
        by=old.by,
        case=new.case if new.alignment is not None else old.case,
        alignment=old.alignment if new.alignment is None else new.alignment,
        notes=(*kept, *new.notes),
        measured={**old.measured, **new.measured},
        corrects=new.corrects,
        withdrawn=new.withdrawn,
    )


def last_alignment(record: Record) -> Mapping[str, float] | None:
    """Return the alignment of the entry that was added last, corrections counted; None if none."""
    known = [each for each in history_of(record).trials if each.entry.alignment is not None]
    last = max(known, key=lambda trial: trial.stored.last_line, default=None)
    return None if last is None else last.entry.alignment
