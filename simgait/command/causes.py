"""simgait causes: which misalignments would explain what was seen."""

from __future__ import annotations

from typing import Any

from rich.table import Table

from simgait.advice.causes import INSIDE, Cause, alike, causes_of, telling_apart
from simgait.case import Case
from simgait.command.building import refused_as
from simgait.command.running import print_json
from simgait.command.stance import case_with
from simgait.command.tables import console, digits_of, print_notes
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.symbols import BY_NAME, SETTING_BY_NAME

SHOWN = 8
CLEAR = 50.0  # [%] plausibility from which one cause is said to stand out
BEFOREHAND = (
    "How far off an alignment is beforehand, and what the eye can see, are invented sizes "
    "(models/defaults.toml, symbols); only one or two numbers off at once are looked at."
)


def run_causes(case: str, settings: tuple[str, ...], as_json: bool) -> None:
    """Print which misalignments would explain what was seen, ranked.

    case: path of the case file; settings: ``KEY=VALUE`` that replace what it says.

    Raises:
        CaseError: the case, or a setting, is refused, or nothing was seen.
    """
    checked = case_with(case, settings)
    with refused_as(case):
        found = causes_of(checked)
    same = alike(found)
    apart = telling_apart(found, tuple(sign.measure for sign in checked.seen))
    if as_json:
        print_json(as_written(checked, found, same, apart))
        return
    terminal = console()
    terminal.print(checked.title, markup=False)
    terminal.print(causes_table(found))
    for line in verdict(found, same, apart):
        terminal.print(line, markup=False)
    print_notes(terminal, "Assumed", (BEFOREHAND,))
    print_notes(terminal, "Filled in", checked.filled)
    print_notes(terminal, "Cautions", case_cautions(checked))


def off_words(cause: Cause) -> str:
    """Return in words what is off."""
    if not cause.off:
        return "nothing is off"
    return "; ".join(
        f"{SETTING_BY_NAME[f'alignment.{name}'].title} {size:+.3g} "
        f"{SETTING_BY_NAME[f'alignment.{name}'].unit}"
        for name, size in cause.off.items()
    )


def causes_table(found: tuple[Cause, ...]) -> Table:
    """Return the most plausible causes."""
    table = Table(header_style="", show_lines=False)
    for head in ("as if", "9 in 10 between", "plausible", "fit, best = 100 %"):
        table.add_column(head)
    for cause in found[:SHOWN]:
        spans = [f"{low:+.3g} to {high:+.3g}" for low, high in cause.ranges.values()]
        plausible, fit = 100.0 * cause.plausibility, 100.0 * cause.fit
        table.add_row(off_words(cause), "; ".join(spans), f"{plausible:.0f} %", f"{fit:.0f} %")
    return table


def verdict(
    found: tuple[Cause, ...], same: tuple[int, ...], apart: tuple[str, float] | None
) -> list[str]:
    """Return what can be said, in sentences."""
    lines = []
    if found[0].unexplained:
        names = ", ".join(BY_NAME[name].title for name in found[0].unexplained)
        lines.append(
            f"Even the likeliest does not explain {names}: the alignment may not be what is wrong, "
            "or the model does not fit this wearer. Do not act on this ranking."
        )
    together = 100.0 * sum(found[place].plausibility for place in same)
    if len(same) < 2:
        alone = "The signs speak for one cause" if together >= CLEAR else "No cause stands out"
        if not lines:
            lines.append(f"{alone}; the likeliest, {together:.0f} %: {off_words(found[0])}.")
        return lines
    names = " / ".join(off_words(found[place]) for place in same[:SHOWN])
    lines.append(f"These signs cannot tell apart (together {together:.0f} %): {names}.")
    if apart is None:
        return [*lines, "Nothing else that the eye can see would; what was seen could be measured."]
    name, gap = apart
    first, second = (found[place].measures[name] for place in same[:2])
    digits, measure = digits_of(name), BY_NAME[name]
    told = "can" if gap >= 1.0 else "can hardly"
    lines.append(
        f"What {told} tell the first two apart is {measure.title}: {first:.{digits}f} against "
        f"{second:.{digits}f} {measure.unit}."
    )
    return lines


def as_written(
    case: Case, found: tuple[Cause, ...], same: tuple[int, ...], apart: tuple[str, float] | None
) -> dict[str, Any]:
    """Return what the JSON says."""
    return {
        "title": case.title,
        "seen": [
            {"measure": s.measure, "word": s.word, "value": s.value, "within": s.within}
            for s in case.seen
        ],
        "causes": [
            {
                "off": each.off,
                "ranges": {name: list(span) for name, span in each.ranges.items()},
                "plausibility": each.plausibility,
                "fit": each.fit,
                "measures": each.measures,
                "unexplained": list(each.unexplained),
            }
            for each in found
        ],
        "inside": list(INSIDE),
        "alike": list(same),
        "ask": apart and {"measure": apart[0], "over_visible": apart[1]},
        "assumed": BEFOREHAND,
        "filled": list(case.filled),
        "cautions": list(case_cautions(case)),
        "sources": list(case_sources(case)),
        "version": model_version(),
    }
