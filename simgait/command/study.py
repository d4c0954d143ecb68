"""simgait study: many runs from a study file, stored; or told again from the store."""

from __future__ import annotations

import math
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table

from simgait.command.running import print_json, refused_if_unwritable, refused_option
from simgait.command.tables import console, print_notes
from simgait.errors import one_line
from simgait.files import write_whole
from simgait.studies import Study, StudyRun, read_study_file, run_study
from simgait.studies.report import Stock, stock_of
from simgait.studies.running import shard_of
from simgait.symbols import ENDING_SENTENCES

REPORT = "report"  # folder of tables and pictures, within that of the study
MOST_DRAWN = 200_000  # rows whose report is drawn without being asked for
NOT_BUILT = "The limb cannot be built: lengths, parts or ranges do not go together."
Told = Callable[[int], None]


def shard_from(text: str | None) -> tuple[int, int]:
    """Return shard i of n from "i/n"; the whole study is 1/1.

    Raises:
        CaseError: it is no such text.

    >>> shard_from("2/3"), shard_from(None)
    ((2, 3), (1, 1))
    """
    if text is None:
        return 1, 1
    first, sign, last = text.partition("/")
    if sign and first.isdecimal() and last.isdecimal() and 1 <= int(first) <= int(last):
        return int(first), int(last)
    raise refused_option("--shard", text, "is no shard", "i/n with i from 1 to n, such as 2/3")


@contextmanager
def shown_progress(rows: int) -> Iterator[tuple[Told, Told]]:
    """Yield what is told how many rows were there, and how many are done: a bar, if anyone looks.

    rows: of this run's share.  Without a terminal on standard error nothing is shown.
    """
    if not sys.stderr.isatty():
        yield (lambda rows: None), (lambda rows: None)
        return
    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        MofNCompleteColumn(),
        TextColumn("{task.fields[rate]}"),
        TimeRemainingColumn(),
    )
    with Progress(*columns, console=Console(stderr=True)) as bar:
        task = bar.add_task("stances", total=rows, rate="")

        def begun(stored: int) -> None:
            bar.reset(task, completed=0, total=rows - stored)

        def told(more: int) -> None:
            bar.advance(task, more)
            speed = bar.tasks[0].finished_speed or bar.tasks[0].speed
            bar.update(task, rate=f"{speed:,.0f}/s" if speed else "")

        yield begun, told


def entry_of(run: StudyRun) -> dict[str, Any]:
    """Return a run of a study as JSON says it."""
    return {
        "out": str(run.out),
        "rows": run.rows,
        "endings": run.endings,
        "seconds": run.seconds,
        "rate_per_s": run.rate_per_s,
        "resumed_rows": run.resumed_rows,
        "cautions": run.cautions,
        "version": run.version,
    }


def stock_entry(stock: Stock) -> dict[str, Any]:
    """Return what a folder holds as JSON says it: nothing was run for it."""
    return {
        "out": str(stock.folder),
        "rows": stock.rows,
        "endings": stock.endings,
        "seconds": 0.0,
        "rate_per_s": math.nan,
        "resumed_rows": stock.rows,
        "cautions": stock.cautions,
        "version": stock.version,
    }


def print_endings(terminal: Console, endings: Mapping[str, int]) -> None:
    """Print how often each ending occurred, with its sentence."""
    table = Table(header_style="")
    table.add_column("ending", no_wrap=True)
    table.add_column("runs", justify="right")
    table.add_column("share", justify="right")
    table.add_column("what it means")
    total = sum(endings.values())
    for name, count in endings.items():
        meaning = ENDING_SENTENCES.get(name, NOT_BUILT)
        table.add_row(name, f"{count}", f"{100.0 * count / total:.1f} %", meaning)
    terminal.print(table)


def write_report(folder: Path, told: Callable[[str], None]) -> list[Path]:
    """Draw a study's report from its store into its folder `report`, made anew; return the files.

    told: called with what could not be said.

    Raises:
        StoreError: it is no study's folder, or a part is damaged.
        CaseError: the folder cannot be written.
    """
    from simgait.pictures.studies.sheet import draw_study
    from simgait.studies.analysis import report_of
    from simgait.studies.telling import tables_of

    report = report_of(folder)
    room = folder / REPORT
    with refused_if_unwritable(room):
        room.mkdir(exist_ok=True)
        for old in (*room.glob("*.csv"), *room.glob("*.png")):
            old.unlink()
        written = []
        for name, table in tables_of(report).items():
            with write_whole(room / f"{name}.csv") as partial:
                table.to_csv(partial, encoding="utf-8", lineterminator="\n", index_label="row")
            written.append(room / f"{name}.csv")
        written += draw_study(report, room)
    for line in report.unsaid:
        told(line)
    return written


def tell(folder: str | Path, as_json: bool) -> None:
    """Print what a study's folder holds, and draw its report again, from the store alone.

    Raises:
        StoreError: it is no study's folder.
    """
    stock, unsaid = stock_of(folder), list[str]()
    written = write_report(Path(folder), unsaid.append) if stock.rows else []
    if as_json:
        print_json(stock_entry(stock))
        return
    terminal = console()
    terminal.print(stock.title, markup=False)
    terminal.print(
        f"{stock.rows} of {stock.planned} rows stored; {stock.method}, seed {stock.seed}; "
        f"model {stock.version}",
        markup=False,
    )
    if stock.damaged:
        terminal.print(f"damaged files: {stock.damaged}; running the study again replaces them")
    print_endings(terminal, stock.endings)
    print_notes(terminal, "Could not be told", unsaid)
    print_notes(terminal, "Cautions", stock.cautions)
    print_notes(terminal, "Drawn", [str(path) for path in written], wrap=False)


def run_study_file(
    path: str,
    out: str | None,
    jobs: int | None,
    shard: tuple[int, int],
    cluster: str | None,
    many: bool,
) -> tuple[Study, StudyRun]:
    """Run a study file into its folder, with a bar on a terminal; see `simgait.studies.run_study`.

    Raises:
        CaseError: the study is refused.
        StoreError: the folder is.
        KeyboardInterrupt: the person stopped it; a line says how to go on.
    """
    study = read_study_file(path, ask_for_many=many)
    folder = Path(out) if out is not None else Path("out") / Path(path).stem
    share = sum(len(study.span_of(part)) for part in shard_of(study, shard))
    try:
        with shown_progress(share) as (begun, told):
            run = run_study(
                study,
                folder,
                jobs=jobs,
                shard=shard,
                cluster=cluster,
                command=("simgait", *sys.argv[1:]),
                begun=begun,
                told=told,
            )
    except KeyboardInterrupt:
        click.echo(
            f"stopped; {one_line(str(folder))} keeps what is done, and the same command goes on",
            err=True,
        )
        raise
    return study, run


def run_study_verb(
    path: str,
    out: str | None,
    *,
    jobs: int | None,
    shard: str | None,
    cluster: str | None,
    report: bool,
    many: bool,
    as_json: bool,
) -> None:
    """Run a study file, or tell what a study's folder holds, and print what came out.

    Raises:
        CaseError: the study or an option is refused.
        StoreError: the folder is.
    """
    if report:
        tell(path if Path(path).is_dir() or out is None else out, as_json)
        return
    if Path(path).is_dir():
        raise refused_option(
            "STUDY", path, "is a folder", "a study file; or --report to tell of a folder"
        )
    study, run = run_study_file(path, out, jobs, shard_from(shard), cluster, many)
    if as_json:
        print_json(entry_of(run))
        return
    terminal = console()
    terminal.print(study.title, markup=False)
    rate = f", {run.rate_per_s:,.0f} a second" if math.isfinite(run.rate_per_s) else ""
    terminal.print(
        f"{run.rows} rows ({run.resumed_rows} were stored before) in {run.seconds:.1f} s{rate}"
    )
    print_endings(terminal, run.endings)
    unsaid = list[str]()
    whole = shard_from(shard) == (1, 1)
    written = write_report(run.out, unsaid.append) if whole and run.rows <= MOST_DRAWN else []
    print_notes(terminal, "Could not be told", unsaid)
    print_notes(terminal, "Cautions", run.cautions)
    print_notes(terminal, "Stored in", [str(run.out)], wrap=False)
    print_notes(terminal, "Drawn", [str(path) for path in written], wrap=False)
