"""The command line: one short function a verb; each imports what it needs when it runs."""

from __future__ import annotations

import click

from simgait.command.bench_verbs import VERBS as BENCH_VERBS
from simgait.command.record_verbs import record
from simgait.command.running import Verbs
from simgait.command.showing_verbs import VERBS as SHOWING_VERBS


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


for verb in (*SHOWING_VERBS, *BENCH_VERBS, record):
    main.add_command(verb)
