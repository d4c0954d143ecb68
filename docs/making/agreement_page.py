"""The page of agreement: every comparison with a figure from outside, one line each."""

from __future__ import annotations

from agreement import KINDS, Comparison, comparisons
from making.text import page, shown, table
from standers import FEET

OWN_PAGES = ("Standing", "Levers", "Arms")  # beginnings of topics with pages of their own


def got_cell(comparison: Comparison, values: tuple[float, ...]) -> str:
    """Return what the program gives, in the comparison's unit."""
    numbers = ", ".join(shown(value, comparison.digits) for value in values)
    return f"{numbers} {comparison.unit}" if comparison.unit != "1" else numbers


def line(comparison: Comparison) -> tuple[str, ...]:
    """Return one comparison as a row of the table."""
    values = comparison.got()
    verdict = comparison.verdict(values)
    return (
        f"[{comparison.source}](../reference/sources.md), {comparison.grade}",
        comparison.place,
        comparison.printed,
        got_cell(comparison, values),
        f"**{verdict}**" if verdict.startswith("no") else verdict,
        f"{comparison.kind}; band {comparison.band}"
        + (f"; {comparison.note}" if comparison.note else ""),
    )


def counted(lines: tuple[Comparison, ...]) -> str:
    """Return how many comparisons of each kind agree, in one sentence each."""
    said = []
    for kind, meaning in KINDS.items():
        of_kind = [each for each in lines if each.kind == kind]
        agree = [each for each in of_kind if each.inside(each.got())]
        if of_kind:
            said.append(f"* *{kind}*, {meaning}: {len(agree)} of {len(of_kind)} agree.")
    return "\n".join(said)


ASSERTED = (
    "Each line is asserted by itself in `tests/published/test_agreement.py`; a line that says "
    "*no* is a known disagreement, and the tests fail if it should vanish unnoticed. How the "
    "bands are chosen: [how figures are compared](how-figures-are-compared.md)."
)


def written(title: str, opening: str, lines: tuple[Comparison, ...]) -> str:
    """Return a page of some comparisons, a table a topic."""
    heads = ("source, grade", "what", "printed", "got", "agrees", "kind, band and note")
    topics = dict.fromkeys(each.topic for each in lines)
    sections = [
        f"## {topic}\n\n" + table(heads, [line(each) for each in lines if each.topic == topic])
        for topic in topics
    ]
    return page(title, f"{opening} {ASSERTED}", counted(lines), *sections)


def agreement_page() -> str:
    """Return the page of agreement of body, parts and stance."""
    return written(
        "Stance: printed and got",
        "Figures from outside beside what the program gives. Where two values stand, they are "
        "those of the wearers `steady-transtibial` and `weak-kneed-slow`, or the smallest and "
        "the largest of the library's parts; where three, of all wearers, `able-bodied-like` "
        "first. Standing has [a page of its own](standing.md), and so have [arms](arms.md) and "
        "[levers](levers.md).",
        tuple(each for each in comparisons() if not each.topic.startswith(OWN_PAGES)),
    )


def levers_page() -> str:
    """Return the page of agreement of levers and simple machines."""
    return written(
        "Levers: printed and got",
        "Worked examples of a textbook beside what `simgait.levers` gives, with the textbook's own "
        "9.80 m/s2: arithmetic, not evidence; it shows that the formulas are the textbook's. Then "
        "moving arms: the same lifts and swings by pymunk and by other equations.",
        tuple(each for each in comparisons() if each.topic.startswith("Levers")),
    )


def arms_page() -> str:
    """Return the page of agreement of arms."""
    return written(
        "Arms: printed and got",
        "Figures from outside beside what `simgait arm` and its parts give. The arms are invented: "
        "a usual one, and one at the light end of what is recalled of shells and hooks. Where two "
        "values stand, they are those of the places, loops or arms named, in that order; where "
        "four, of each step to the next of five loops in use.",
        tuple(each for each in comparisons() if each.topic.startswith("Arms")),
    )


def standing_page() -> str:
    """Return the page of agreement of standing."""
    return written(
        "Standing: printed and got",
        "Figures from outside beside what `simgait stand` and its parts give. The limb is an "
        "invented man's, the wearer's strength that of `steady-transtibial`, invented as well. "
        f"Where {len(FEET)} values stand, they are those of the feet "
        f"{', '.join(f'`{foot}`' for foot in FEET)}, each at bench alignment.",
        tuple(each for each in comparisons() if each.topic.startswith("Standing")),
    )
