"""simgait record show and figure: what a record says, with its corrections."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from simgait.command.running import (
    print_json,
    ready_folder,
    refused_if_unwritable,
    refused_option,
)
from simgait.errors import one_line
from simgait.record.entry import NOTES
from simgait.record.history import History, Trial, history_of
from simgait.record.reading import read_record
from simgait.record.words import number_text
from simgait.stance.provenance import model_version
from simgait.symbols import CAUTIONS

FIGURES = (".png", ".svg")


def run_show(file: str, as_json: bool) -> None:
    """Print a record by visits; where it is damaged goes to standard error, too.

    file: path of the record; as_json: print one JSON object and nothing else.

    Raises:
        CaseError: the file cannot be read, or is no record.
    """
    history = history_of(read_record(file))
    tell_problems(file, history)
    if as_json:
        print_json(history_entry(history))
        return
    click.echo(f"Fitting record of {history.code}: {counted(history)}")
    changes = history.changes
    for visit in history.visits:
        click.echo(f"\n{visit.day.isoformat()}")
        for trial in visit.trials:
            for line in trial_lines(trial, changes[trial.number]):
                click.echo(f"  {line}")
    for trial in history.withdrawn:
        numbers = ", ".join(map(str, trial.corrected_by))
        click.echo(f"\nwithdrawn: entry {trial.number}, by entry {numbers}")
        for text in trial.reasons:
            click.echo("  why: " + text.replace("\n", "\n    "))
    click.echo("")
    for caution in CAUTIONS:
        click.echo(caution)


def tell_problems(file: str, history: History) -> None:
    """Say on standard error where a record is damaged."""
    for problem in history.problems:
        click.echo(f"{one_line(file)}: {problem.place}: {problem.words}", err=True)


def counted(history: History) -> str:
    """Return how much a record holds, in words."""
    entries, visits = len(history.trials), len(history.visits)
    parts = [
        f"{entries} {'entry' if entries == 1 else 'entries'}",
        f"{visits} {'visit' if visits == 1 else 'visits'}",
    ]
    if history.problems:
        parts.append(f"{len(history.problems)} damaged or doubtful places")
    return ", ".join(parts)


def trial_lines(trial: Trial, changes: dict[str, float]) -> list[str]:
    """Return one entry in lines; changes: of its alignment against the one before."""
    entry = trial.entry
    head = [f"entry {trial.number}"]
    if entry.by:
        head.append(f"by {entry.by}")
    if trial.corrected_by:
        head.append(f"as corrected by entry {', '.join(map(str, trial.corrected_by))}")
    lines = [", ".join(head)]
    if entry.alignment is not None:
        values = ", ".join(
            f"{name} {number_text(value)}" + (f" ({changes[name]:+g})" if changes.get(name) else "")
            for name, value in entry.alignment.items()
        )
        lines.append(f"  alignment: {values}" + (f" (from {entry.case})" if entry.case else ""))
    lines += [f"  measured: {name} {number_text(v)}" for name, v in entry.measured.items()]
    for kind in NOTES:
        for text in (text for found, text in entry.notes if found == kind):
            first, *more = text.split("\n")
            lines.append(f"  {kind}: {first}")
            lines += [f"    {line}" for line in more]
    return lines


def history_entry(history: History) -> dict[str, Any]:
    """Return a record as JSON says it."""
    changes = history.changes
    return {
        "code": history.code,
        "visits": [
            {
                "date": visit.day.isoformat(),
                "entries": [trial_entry(each, changes[each.number]) for each in visit.trials],
            }
            for visit in history.visits
        ],
        "withdrawn": [trial.number for trial in history.withdrawn],
        "problems": [
            {"first_line": each.first_line, "last_line": each.last_line, "words": each.words}
            for each in history.problems
        ],
        "cautions": CAUTIONS,
        "version": model_version(),
    }


def trial_entry(trial: Trial, changes: dict[str, float]) -> dict[str, Any]:
    """Return one entry as JSON says it."""
    entry = trial.entry
    return {
        "number": trial.number,
        "sum": trial.stored.sum,
        "first_line": trial.stored.first_line,
        "written": entry.written.isoformat(),
        "by": entry.by,
        "case": entry.case,
        "alignment": entry.alignment,
        "changes": changes,
        "measured": entry.measured,
        **{kind: [text for found, text in entry.notes if found == kind] for kind in NOTES},
        "corrected_by": trial.corrected_by,
    }


def run_figure(file: str, out: str, as_json: bool) -> None:
    """Draw a record over its visits.

    file: path of the record; out: of the figure; as_json: print one JSON object and nothing else.

    Raises:
        CaseError: the file is no record, holds nothing to draw, or the figure cannot be written.
    """
    final = Path(out)
    if final.suffix.lower() not in FIGURES:
        raise refused_option("--out", repr(out), "is no figure's name", ".png or .svg at the end")
    if final.is_dir():
        raise refused_option("--out", repr(out), "is a folder", "the name of a file")
    history = history_of(read_record(file))
    tell_problems(file, history)
    if not any(trial.entry.alignment or trial.entry.measured for trial in history.trials):
        raise refused_option(
            one_line(file), "", "holds nothing to draw", "an alignment or a measured number"
        )
    ready_folder(str(final.parent))
    from simgait.pictures.record import draw_record

    with refused_if_unwritable(final):
        draw_record(history, (CAUTIONS, model_version()), final)
    if as_json:
        print_json({"file": out, **history_entry(history)})
        return
    click.echo(f"Fitting record of {history.code}: {counted(history)}")
    click.echo(f"written: {one_line(out)}")
