"""The verbs of the bench: advice, signs read backward, the finished limb."""

from __future__ import annotations

import click


@click.command()
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


@click.command()
@click.argument("case", type=click.Path())
@click.option("--set", "settings", multiple=True, metavar="KEY=VALUE", help="Replace a value.")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object and nothing else.")
def causes(case: str, settings: tuple[str, ...], as_json: bool) -> None:
    """Read signs backward: which misalignments would explain [seen] of CASE, ranked.

    Says when signs cannot tell two causes apart, and what would.
    """
    from simgait.command.causes import run_causes

    run_causes(case, settings, as_json)


@click.command()
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


VERBS = (advise, causes, transfer)
