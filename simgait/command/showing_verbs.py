"""The verbs that show: films, pages, lessons, reports."""

from __future__ import annotations

import click


@click.command()
@click.argument("case", type=click.Path())
@click.option("-o", "--out", required=True, type=click.Path(), help="Film: .gif, .webp or .mp4.")
@click.option("--layout", type=click.Choice(["side-by-side", "overlaid"]), help="[side-by-side]")
@click.option(
    "--together", type=click.Choice(["hips", "ankles"]), help="What overlaid share [hips]."
)
@click.option("--slow", type=float, help="Times slower than life, 1 to 20 [lasts 6 s].")
@click.option("--runs", metavar="1,3,...", help="Alignments, numbered as compare does [a few].")
@click.option("--curves", help="knee-moment,socket-moment,vertical-force,pressure or none.")
@click.option("--width", type=int, metavar="PX", help="480 to 1600 pixels [960].")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def film(
    case: str,
    out: str,
    layout: str | None,
    together: str | None,
    slow: float | None,
    runs: str | None,
    curves: str | None,
    width: int | None,
    as_json: bool,
) -> None:
    """Draw alignments of CASE through stance as a film: limbs, levers, and curves that grow.

    Without --runs: the case's own alignment, and those that differ most from it.  Overlaid limbs
    are drawn over each other, the first one pale.  An .mp4 needs the program ffmpeg.  A case of
    an arm gives the film of its lift.
    """
    from simgait.command.film import Asked, run_film

    asked = Asked(
        layout=layout, together=together, slow=slow, runs=runs, curves=curves, width=width
    )
    run_film(case, out, asked, as_json)


@click.command()
@click.argument("case", type=click.Path())
@click.option("-o", "--out", type=click.Path(), help="File of the page [out/CASE.html].")
def page(case: str, out: str | None) -> None:
    """Write one self-contained page that computes CASE, a leg or an arm, in the browser.

    The foot, or the loop of the cable, is dragged and the numbers follow; nothing is fetched, and
    nothing leaves the page.
    """
    from simgait.command.page import run_page

    run_page(case, out)


@click.command()
@click.argument("name", required=False)
@click.option("-o", "--out", type=click.Path(), help="File to write [NAME.html].")
@click.option("--list", "listed", is_flag=True, help="List the lessons and end.")
def lesson(name: str | None, out: str | None, listed: bool) -> None:
    """Write the lesson NAME as one self-contained page for a classroom.

    One idea, one thing to move, one question to predict before the answer shows, and what was paid.
    """
    from simgait.command.lesson import run_lesson

    run_lesson(name, out, listed)


@click.command()
@click.argument("case", type=click.Path())
@click.option("-o", "--out", required=True, type=click.Path(), help="File: .html or .pdf.")
@click.option("--run", "runs", type=int, multiple=True, help="Number of an alignment to show.")
@click.option("--code", default="", help="Code of the wearer, no name [a line to write on].")
@click.option("--date", default="", metavar="YYYY-MM-DD", help="Date [a line to write on].")
@click.option("--draws", type=click.IntRange(1, 4000), default=400, help="Of errors [400].")
@click.option("--seed", type=click.IntRange(0), default=1, help="Of the draws [1].")
def report(
    case: str, out: str, runs: tuple[int, ...], code: str, date: str, draws: int, seed: int
) -> None:
    """Write two pages for the record: alignments of CASE, what they change and why, how certain.

    Shows the baseline and up to four other alignments, or those of --run, which may be given
    several times; numbers are those of simgait compare.
    """
    from simgait.command.report import run_report

    run_report(case, out, runs=runs, code=code, date=date, draws=draws, seed=seed)


VERBS = (film, page, lesson, report)
