"""The command line: one short function a verb; each imports what it needs when it runs."""

from __future__ import annotations

import click

from simgait.command.record_verbs import record
from simgait.command.running import Verbs


@click.group(cls=Verbs, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="simgait")
def main() -> None:
    """Compute what a change of a prosthesis' alignment does, before anyone turns a screw.

    A planning aid: real wearers adapt, every trial is guarded, and the licensed clinician decides.
    """


@main.command()
@click.argument("case", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for table, figure and film [out/CASE].")
@click.option(
    "--assumption",
    type=click.Choice(["keeps", "adapts", "both"]),
    default="keeps",
    help="What the wearer does when the alignment changes: keeps the strategy, or adapts [keeps].",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def compare(case: str, out: str | None, assumption: str, as_json: bool) -> None:
    """Simulate all alignments of CASE through stance and compare them.

    Writes table.csv, table.parquet, comparison.png and stance.gif; with both assumptions also
    comparison_adapts.png and stance_adapts.gif.  With --json and no --out, nothing is written.
    """
    from simgait.command.compare import run_compare

    run_compare(case, out, as_json, assumption)


@main.command()
@click.argument("case", type=click.Path())
@click.option("--set", "settings", multiple=True, metavar="KEY=VALUE", help="Replace a value.")
@click.option(
    "--engine",
    type=click.Choice(["compiled", "bodies"]),
    default="compiled",
    help="bodies: the chain is moved by a general rigid-body engine, as a second opinion.",
)
@click.option(
    "--assumption",
    type=click.Choice(["keeps", "adapts", "both"]),
    default="keeps",
    help="What the wearer does when the alignment changes: keeps the strategy, or adapts [keeps].",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def stance(
    case: str, settings: tuple[str, ...], engine: str, assumption: str, as_json: bool
) -> None:
    """Simulate the alignment of CASE through one stance: all measures, and the energy ledger.

    A wearer who adapts holds the walk at the alignment that the file states: to see anything
    adapted, set another with --set.
    """
    from simgait.command.stance import run_stance

    run_stance(case, settings, as_json, engine, assumption)


@main.command()
@click.argument("case", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for the figure [out/CASE].")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def stand(case: str, out: str | None, as_json: bool) -> None:
    """Stand the alignment of CASE on both feet and on the prosthesis alone, and tip it.

    Writes stand.png.  With --json and no --out, nothing is written.
    """
    from simgait.command.stand import run_stand

    run_stand(case, out, as_json)


@main.command()
@click.argument("case", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for film and draws [out/CASE].")
@click.option("--height-mm", type=float, help="Height of pushes above the floor [body's centre].")
@click.option("--draws", type=click.IntRange(0, 100_000), default=0, help="Pushes to draw [0].")
@click.option("--seed", type=click.IntRange(0, 2**63 - 1), default=1, help="Of the draws [1].")
@click.option("--push-ns", type=float, help="Their typical size [usual].")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def tip(
    case: str,
    out: str | None,
    height_mm: float | None,
    draws: int,
    seed: int,
    push_ns: float | None,
    as_json: bool,
) -> None:
    """Find the push, the slope and the obstacle that tip the standing wearer of CASE.

    With --draws, pushes and errors of measurement are drawn, and the share of them that tips is
    given for each alignment of [compare].  Writes tip.gif, tip.png and tip_draws.csv.  With --json
    and no --out, nothing is written.
    """
    from simgait.command.tip import run_tip
    from simgait.command.tip_draws import Asked

    run_tip(case, out, as_json, height_mm, Asked(draws=draws, seed=seed, push=push_ns))


@main.command()
@click.argument("case", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for tables and pictures [out/CASE].")
@click.option("--draws", type=click.IntRange(0, 100_000), default=1000, help="Of errors [1000].")
@click.option("--seed", type=click.IntRange(0), default=1, help="Of the draws [1].")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def arm(case: str, out: str | None, draws: int, seed: int, as_json: bool) -> None:
    """Work out the arm of CASE as levers: where the cable pulls, and how long the arm is.

    For each loop position the pull, the travel and what is left for the device at the mouth; for
    each length what the shoulder holds and what reach is lost.  Writes positions.csv and
    lengths.csv.  With --json and no --out, nothing is written.
    """
    from simgait.command.arm import run_arm

    run_arm(case, out, as_json, draws, seed)


@main.command()
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


@main.command()
@click.argument("case", type=click.Path())
@click.option("-o", "--out", type=click.Path(), help="File of the page [out/CASE.html].")
def page(case: str, out: str | None) -> None:
    """Write one self-contained page that computes CASE, a leg or an arm, in the browser.

    The foot, or the loop of the cable, is dragged and the numbers follow; nothing is fetched, and
    nothing leaves the page.
    """
    from simgait.command.page import run_page

    run_page(case, out)


@main.command()
@click.argument("case", type=click.Path())
@click.option("--set", "settings", multiple=True, metavar="KEY=VALUE", help="Replace a value.")
@click.option("--draws", type=click.IntRange(25, 4000), default=200, help="Of errors [200].")
@click.option("--seed", type=click.IntRange(0, 2**63 - 1), default=1, help="Of the draws [1].")
@click.option(
    "--assumption",
    type=click.Choice(["keeps", "adapts"]),
    default="keeps",
    help="The wearer keeps the strategy, or adapts to the alignment.",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def advise(
    case: str,
    settings: tuple[str, ...],
    draws: int,
    seed: int,
    assumption: str,
    as_json: bool,
) -> None:
    """Find the smallest changes at the bench that meet the goals of CASE.

    [goal] of the case names measures or complaints, [adjust] what the hardware allows.  Each
    suggestion says how sure it is, what gets worse, and what to look at on the wearer.
    """
    from simgait.command.advise import run_advise

    run_advise(case, settings, draws, seed, as_json, assumption)


@main.command()
@click.argument("case", type=click.Path())
@click.option("--set", "settings", multiple=True, metavar="KEY=VALUE", help="Replace a value.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def causes(case: str, settings: tuple[str, ...], as_json: bool) -> None:
    """Read signs backward: which misalignments would explain [seen] of CASE, ranked.

    Says when signs cannot tell two causes apart, and what would.
    """
    from simgait.command.causes import run_causes

    run_causes(case, settings, as_json)


@main.command()
@click.argument("study", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder of the study's parts [out/STUDY].")
@click.option("--jobs", type=click.IntRange(1, 1024), help="Threads [all cores].")
@click.option("--shard", metavar="I/N", help="Only every N-th part, beginning with the I-th.")
@click.option("--dask", "cluster", metavar="ADDRESS", help="Run the parts on a dask cluster.")
@click.option("--report", is_flag=True, help="STUDY is a study's folder: tell what it holds.")
@click.option("--yes", "many", is_flag=True, help="Run a grid of any size without asking.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def study(
    study: str,
    out: str | None,
    jobs: int | None,
    shard: str | None,
    cluster: str | None,
    report: bool,
    many: bool,
    as_json: bool,
) -> None:
    """Simulate the many runs that STUDY describes, and store them part by part.

    Run again, it goes on where it was stopped.  Several shards may share one folder.
    """
    from simgait.command.study import run_study_verb

    run_study_verb(
        study,
        out,
        jobs=jobs,
        shard=shard,
        cluster=cluster,
        report=report,
        many=many,
        as_json=as_json,
    )


@main.command()
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


@main.command()
@click.argument("case", type=click.Path())
@click.option("--out", type=click.Path(), help="Folder for the bench sheet [out/CASE].")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def transfer(case: str, out: str | None, as_json: bool) -> None:
    """Find the finished chains that keep the foot where the adjustable unit of CASE had it.

    Tube, tilts and plate for each, how far off the foot is, what that changes, and how exactly
    the tube must be cut.  Writes transfer.pdf, a bench sheet with a drawing to scale.  With --json
    and no --out, nothing is written.
    """
    from simgait.command.transfer import run_transfer

    run_transfer(case, out, as_json)


@main.command()
@click.argument("name")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def foot(name: str, as_json: bool) -> None:
    """Put the foot NAME of the library on a simulated bench, and roll it."""
    from simgait.command.foot import run_foot

    run_foot(name, as_json)


@main.command()
@click.argument("name")
@click.option("--out", type=click.Path(), help="File to write [models/wearers/NAME.toml].")
def calibrate(name: str, out: str | None) -> None:
    """Fit the wearer NAME to the curves that its calibration file states."""
    from simgait.command.calibrate import run_calibrate

    run_calibrate(name, out)


@main.command()
@click.argument("name", required=False)
@click.option("-o", "--out", type=click.Path(), help="File to write [NAME.html].")
@click.option("--list", "listed", is_flag=True, help="List the lessons and end.")
def lesson(name: str | None, out: str | None, listed: bool) -> None:
    """Write the lesson NAME as one self-contained page for a classroom.

    One idea, one thing to move, one question to predict before the answer shows, and what was paid.
    """
    from simgait.command.lesson import run_lesson

    run_lesson(name, out, listed)


main.add_command(record)
