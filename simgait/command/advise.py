"""simgait advise: the smallest changes at the bench that meet a case's goals."""

from __future__ import annotations

import math
from collections.abc import Sequence

from rich.console import Console
from rich.table import Table

from simgait.advice.advising import advise
from simgait.advice.aims import Aim
from simgait.advice.result import Advice, Suggestion
from simgait.advice.telling import aim_words
from simgait.command.building import refused_as
from simgait.command.running import print_json
from simgait.command.stance import case_with
from simgait.command.tables import console, digits_of, print_notes, shown_value
from simgait.symbols import BY_NAME, SETTING_BY_NAME


def run_advise(
    case: str,
    settings: tuple[str, ...],
    draws: int,
    seed: int,
    as_json: bool,
    assumption: str = "keeps",
) -> None:
    """Print what to change in a case so that its goals are met.

    case: path of the case file; settings: ``KEY=VALUE`` that replace what it says; draws, seed: of
    the errors of measurement; assumption: of the wearer, "keeps" or "adapts".

    Raises:
        CaseError: the case, or a setting, is refused, or there is nothing to advise on.
    """
    checked = case_with(case, settings)
    with refused_as(case):
        advice = advise(checked, draws=draws, seed=seed, assumption=assumption)
    if as_json:
        print_json(advice.as_written())
        return
    terminal = console()
    terminal.print(advice.title, markup=False)
    terminal.print(goals_table(advice))
    if not advice.suggestions[0].met:
        terminal.print("Nothing that was tried meets every goal.  The best compromise:")
        print_notes(terminal, "What stands in the way", advice.fights)
    for number, each in enumerate(advice.suggestions, start=1):
        print_suggestion(terminal, advice, number, each)
    terminal.print(
        f"The spans: where 95 of 100 draws of measurement error fall ({advice.draws} draws: "
        f"{advice.errors}; these sizes are invented).  {advice.runs} alignments were simulated.",
        markup=False,
    )
    print_notes(terminal, "Filled in", advice.filled)
    print_notes(terminal, "Cautions", advice.cautions)


def change_words(name: str, change: float, turns: float | None) -> str:
    """Return one change in words.

    >>> change_words("dorsiflexion_deg", -3.5, -1.25)
    'dorsiflexion -3.5 deg (1.25 turns of the screw)'
    """
    words = SETTING_BY_NAME[f"alignment.{name}"]
    plural = "" if turns is not None and abs(turns) == 1.0 else "s"
    screw = "" if turns is None else f" ({abs(turns):.3g} turn{plural} of the screw)"
    return f"{words.title} {change:+.3g} {words.unit}{screw}"


def goals_table(advice: Advice) -> Table:
    """Return the goals and what is now."""
    table = Table(header_style="", show_lines=False)
    for head in ("goal", "now", "met", "stands for"):
        table.add_column(head)
    for aim in advice.aims:
        now = advice.now[aim.measure]
        table.add_row(
            aim_words(aim),
            shown_value(now, aim.measure),
            yes(aim, now),
            aim.complaint or "the case",
        )
    return table


def yes(aim: Aim, value: float) -> str:
    """Return whether a value meets an aim, as a word."""
    import numpy as np

    return "yes" if float(aim.missed(np.array([value]))[0]) <= 0.0 else "no"


def print_suggestion(terminal: Console, advice: Advice, number: int, each: Suggestion) -> None:
    """Print one suggestion: what to change, what it does, what gets worse, what to look at."""
    words = [
        change_words(name, value, each.turns.get(name)) for name, value in each.changes.items()
    ]
    terminal.print()
    terminal.print(f"{number}. {'; '.join(words) or 'change nothing'}", markup=False)
    table = Table(header_style="", show_lines=False)
    for head in ("measure", "now", "then", "in 95 of 100", "unit", "goal met"):
        table.add_column(head)
    for aim in advice.aims:
        worse = aim.measure in {bad.measure for bad in each.worse}
        met = yes(aim, each.measures[aim.measure]) + (", gets worse" if worse else "")
        add_measure(table, advice, each, aim.measure, met)
    aimed = {aim.measure for aim in advice.aims}
    for bad in each.worse:
        if bad.measure not in aimed:
            add_measure(table, advice, each, bad.measure, "gets worse")
    terminal.print(table)
    sure = f"All goals are met in {100.0 * each.met_share:.0f} of 100 draws."
    if each.surer is not None:
        sure += f"  Surer, in {100.0 * each.surer.met_share:.0f} of 100: {surer_words(each)}."
    if each.fallen_share > 0.0:
        sure += f"  In {100.0 * each.fallen_share:.1f} of 100 there is no walk to toe-off."
    if each.remarks:
        terminal.print(f"   Doubtful: {'; '.join(each.remarks)}.", markup=False)
    terminal.print(f"   {sure}  {each.confirm}", markup=False)
    if each.other is not None:
        terminal.print(f"   {other_words(each)}", markup=False)


def surer_words(each: Suggestion) -> str:
    """Return the surer change of a suggestion in words, screws in turns."""
    assert each.surer is not None
    turns = {
        name: change * each.turns[name] / each.changes[name]
        for name, change in each.surer.changes.items()
        if name in each.turns
    }
    return "; ".join(
        change_words(name, change, turns.get(name)) for name, change in each.surer.changes.items()
    )


def other_words(each: Suggestion) -> str:
    """Return what the other assumption on the wearer says of a suggestion."""
    other = each.other
    assert other is not None
    who = "adapts" if other.assumption == "adapts" else "keeps the strategy"
    if not any(map(math.isfinite, other.measures.values())):
        return f"If the wearer {who}, there is no walk to toe-off. The two assumptions disagree."
    met = "still meets" if other.met and each.met else "meets" if other.met else "does not meet"
    agree = "" if other.met == each.met and not other.differs else " The two assumptions disagree."
    names = ", ".join(BY_NAME[name].title for name in other.differs)
    turned = f" Moving the other way then: {names}." if names else ""
    return f"If the wearer {who}, this {met} every goal.{turned}{agree}"


def add_measure(table: Table, advice: Advice, each: Suggestion, name: str, said: str) -> None:
    """Add one measure of a suggestion to its table."""
    table.add_row(
        BY_NAME[name].title,
        shown_value(advice.now[name], name),
        shown_value(each.measures[name], name),
        span_words(each.intervals[name], name),
        BY_NAME[name].unit,
        said,
    )


def span_words(span: Sequence[float], name: str) -> str:
    """Return an interval as text."""
    if not all(map(math.isfinite, span)):
        return "-"
    digits = digits_of(name)
    return f"{span[0]:.{digits}f} to {span[1]:.{digits}f}"
