"""Reference pages that list what the program itself knows: measures, sources, command line."""

from __future__ import annotations

import re
from collections.abc import Iterator

import click

from making.text import page, table
from simgait.alignment import WRITTEN_NAMES
from simgait.command import main
from simgait.library import source, sources
from simgait.symbols import CAUTIONS, ENDING_SENTENCES, MAIN_MEASURES, MEASURES, Measure
from simgait.symbols.energy import ENERGY
from simgait.symbols.knee import KNEE
from simgait.symbols.load import LOAD
from simgait.symbols.rolling import LEVERS
from simgait.symbols.socket import SOCKET
from simgait.symbols.tipping import TIPPING

GROUPS = (
    ("The knee", KNEE),
    ("The limb in the socket", SOCKET),
    ("Levers and times", LEVERS),
    ("Tipping", TIPPING),
    ("Load on the floor", LOAD),
    ("Energy", ENERGY),
)
HELP_WIDTH = 84  # columns


def short(citation: str) -> str:
    """Return a citation up to its year.

    >>> short("Hof, Gazendam, Sinke 2005, J Biomech 38:1-8")
    'Hof, Gazendam, Sinke 2005'
    """
    found = re.match(r".*?\b(?:19|20)\d\d\b", citation)
    return found[0] if found else citation


def origin(measure: Measure) -> str:
    """Return where a measure's definition comes from, in words."""
    if measure.source == "definition":
        return "Definition: this project's own."
    return f"Definition after: {source(measure.source).line}."


def measure_entry(measure: Measure) -> str:
    """Return a measure as an entry of a definition list."""
    star = " (main)" if measure.name in MAIN_MEASURES else ""
    return (
        f"`{measure.name}`{star}\n"
        f": {measure.title.capitalize()}, in {measure.unit if measure.unit != '1' else 'shares'}. "
        f"{measure.definition}\n\n  *{measure.sentence}* {origin(measure)}\n"
    )


def measures_page() -> str:
    """Return the page of all outcome measures and endings."""
    listed = [measure for _, group in GROUPS for measure in group]
    if listed != list(MEASURES):
        raise ValueError("the groups of this page do not hold every measure once, in order")
    intro = (
        "Names end in the unit where there is one. Moments are external: what the ground does "
        "to the joint, named after what it tends to do. In italics: what the measure says to "
        "someone who is no engineer. The main measures are those of the table that `simgait "
        "compare` prints.\n\nA run that does not end with `toe_off` has no measures: they are "
        "NaN in tables and null in JSON."
    )
    groups = [
        f"## {title}\n\n" + "\n".join(measure_entry(measure) for measure in group)
        for title, group in GROUPS
    ]
    endings = table(
        ("ending", "what it means"),
        [(f"`{name}`", sentence) for name, sentence in ENDING_SENTENCES.items()],
    )
    settings = ", ".join(f"`{name}`" for name in WRITTEN_NAMES)
    return page(
        "Outcome measures",
        intro,
        *groups,
        f"## Endings\n\nEvery run says how it ended.\n\n{endings}",
        f"## Columns beside them\n\nA table also names each run's settings: {settings}.",
        "## Cautions that go with every result\n\n" + "\n".join(f"* {each}" for each in CAUTIONS),
    )


def sources_page() -> str:
    """Return the page of all sources."""
    rows = [
        (
            f"`{key}`",
            each.citation,
            f"[{each.doi}](https://doi.org/{each.doi})" if each.doi else "",
        )
        for key, each in sorted(sources().items())
    ]
    return page(
        "Sources",
        "Everything that a number in `models/` or a measure may cite, from "
        "`models/sources.toml`. A DOI stands where it was looked up. Some keys are no "
        "publications and say so. What the grades mean: [how figures are "
        "compared](../agreement/how-figures-are-compared.md).",
        table(("key", "citation", "DOI"), rows),
    )


def help_text(command: click.Command, name: str) -> str:
    """Return the help text of a command at a fixed width."""
    context = click.Context(
        command, info_name=name, terminal_width=HELP_WIDTH, max_content_width=HELP_WIDTH
    )
    context.help_option_names = main.context_settings["help_option_names"]
    return command.get_help(context)


def verbs(group: click.Group, before: str = "") -> Iterator[tuple[str, click.Command]]:
    """Yield every verb of a group with its name, and those of groups within it."""
    for name, command in group.commands.items():
        yield before + name, command
        if isinstance(command, click.Group):
            yield from verbs(command, f"{before}{name} ")


def cli_page() -> str:
    """Return the page of the command line."""
    parts = [f"```text\n{help_text(main, 'simgait')}\n```"]
    for name, command in verbs(main):
        parts.append(f"## {name}\n\n```text\n{help_text(command, f'simgait {name}')}\n```")
    return page(
        "Command line",
        "What each verb says of itself. Everything that is refused ends with exit code 2 and one "
        "line for each fault; with `--json`, nothing but one JSON object goes to standard output.",
        *parts,
    )
