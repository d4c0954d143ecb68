"""The verbs of `simgait record`: add, show, figure."""

from __future__ import annotations

import click


@click.group()
def record() -> None:
    """Keep a wearer's fitting record: one text file that is only ever added to.

    A code stands for the wearer; no name and no birth date is needed, or wanted.
    """


@record.command()
@click.argument("file", type=click.Path())
@click.option("--code", required=True, help="Of the wearer, such as W-17: no name.")
@click.option("--date", "day", metavar="YYYY-MM-DD", help="Of the visit [today].")
@click.option("--by", help="Code or initials of whoever writes.")
@click.option("--case", type=click.Path(), help="Case file whose [alignment] was tried.")
@click.option(
    "--set", "settings", multiple=True, metavar="alignment.KEY=VALUE",
    help="Of what was tried; the rest is as in --case, or as tried last.",
)  # fmt: skip
@click.option("--seen", multiple=True, metavar="TEXT", help="What was seen on the wearer.")
@click.option("--said", multiple=True, metavar="TEXT", help="What the wearer said.")
@click.option("--measured", multiple=True, metavar="NAME=NUMBER", help="Name ends in the unit.")
@click.option("--advice", multiple=True, metavar="TEXT", help="What was advised.")
@click.option("--decision", multiple=True, metavar="TEXT", help="What was decided.")
@click.option("--why", multiple=True, metavar="TEXT", help="Why it was decided.")
@click.option("--corrects", metavar="ENTRY", help="Number, or sum, of the entry put right by this.")
@click.option("--withdraw", is_flag=True, help="With --corrects: that entry does not count.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def add(file: str, as_json: bool, **typed: object) -> None:
    """Add an entry to the record FILE, which is begun if it is missing.

    One entry for each alignment tried.  Nothing in the file is ever changed: a correction is a
    new entry, whose parts count in place of the old ones.
    """
    from simgait.command.record import Typed, run_add

    run_add(file, Typed(**typed), as_json)  # type: ignore[arg-type]


@record.command()
@click.argument("file", type=click.Path())
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def show(file: str, as_json: bool) -> None:
    """Show the record FILE by visits, with its corrections; say where it is damaged."""
    from simgait.command.record_show import run_show

    run_show(file, as_json)


@record.command()
@click.argument("file", type=click.Path())
@click.option("-o", "--out", required=True, type=click.Path(), help="Figure: .png or .svg.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def figure(file: str, out: str, as_json: bool) -> None:
    """Draw the alignments and measured numbers of the record FILE over its visits."""
    from simgait.command.record_show import run_figure

    run_figure(file, out, as_json)
