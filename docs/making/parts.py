"""The reference page of the library's parts, and the picture of a bench test."""

from __future__ import annotations

from collections.abc import Iterable

from making.text import page, plain, shown, table
from simgait.library import names, path_of, read_foot, read_shoe
from simgait.library.figures import read_figures, read_model
from simgait.parts import Foot
from simgait.parts.foot import FOREFOOT_BENCH_ANGLE_DEGREES, HEEL_BENCH_ANGLE_DEGREES
from simgait.parts.rolling import FROM_DEGREES, TO_DEGREES, roll_over
from simgait.parts.shoe import foot_in_shoe
from simgait.parts.sole import BENCH_LOAD, forefoot_test, heel_test, solved_sole
from simgait.sources import Figure

KINDS = (("Feet", "feet"), ("Shoes", "shoes"), ("Sockets", "sockets"), ("Pylons", "pylons"))
PICTURED = "carbon-leaf"  # the foot of the bench picture
USUAL_SHOE = "everyday"


def said_once(texts: Iterable[str]) -> str:
    """Return different texts, each once, in their order."""
    return " / ".join(dict.fromkeys(texts))


def figure_text(figure: Figure) -> str:
    """Return the value of a figure as it is written in its file."""
    return plain(figure.number)


def kind_section(title: str, kind: str) -> str:
    """Return the section of one kind of part: what each is, and all figures with their origin."""
    known = {name: read_figures(kind, name) for name in names(kind)}
    lines = [f"* **{name}**: {read_model(path_of(kind, name))['sentence']}" for name in known]
    keys = dict.fromkeys(key for figures in known.values() for key in figures)
    rows, origins = [], []
    for key in keys:
        found = [figures[key] for figures in known.values()]
        rows.append((f"`{key}`", *(figure_text(figure) for figure in found)))
        grades = said_once(str(figure.grade) for figure in found)
        origins.append((f"`{key}`", grades, said_once(figure.place for figure in found)))
    values = table(("figure", *known), rows, right=len(known))
    return (
        f"## {title}\n\n"
        + "\n".join(lines)
        + f"\n\n{values}\nWhere these come from:\n\n"
        + table(("figure", "grade", "place in the source"), origins)
    )


def bench_row(name: str, foot: Foot) -> tuple[str, ...]:
    """Return one foot's row of the table of simulated tests."""
    sole = solved_sole(foot)
    heel, toe, rolled = heel_test(foot, sole), forefoot_test(foot, sole), roll_over(foot, sole)
    return (
        name,
        shown(heel.stiffness / 1000.0, 1),
        shown(100.0 * heel.loss, 1),
        shown(toe.stiffness / 1000.0, 1),
        shown(100.0 * toe.loss, 1),
        shown(1000.0 * rolled.radius, 0),
        shown(1000.0 * rolled.centre, 0),
        shown(foot.effective_length_ratio, 2),
    )


def bench_section() -> str:
    """Return what the simulated bench and the simulated rolling give for every foot."""
    shoe = read_shoe(USUAL_SHOE)
    rows = []
    for name in names("feet"):
        foot = read_foot(name)
        rows.append(bench_row(name, foot))
        rows.append(bench_row(f"{name}, shod", foot_in_shoe(foot, shoe)))
    heads = (
        "foot",
        "heel N/mm",
        "heel loss %",
        "forefoot N/mm",
        "forefoot loss %",
        "roll-over radius mm",
        "centre ahead of ankle mm",
        "carrying length over length",
    )
    return (
        "## On the simulated bench\n\nThe element stiffnesses of a sole are solved so that the "
        "simulated tests give the stated figures back: heel contact at "
        f"{HEEL_BENCH_ANGLE_DEGREES:g} degrees, toe contact at {FOREFOOT_BENCH_ANGLE_DEGREES:g}, "
        f"secants at {BENCH_LOAD:g} N, one slow cycle. The roll-over shape is an outcome: the "
        f"foot is turned from {FROM_DEGREES:g} to {TO_DEGREES:g} degrees under a steady "
        f"{BENCH_LOAD:g} N. *Shod* is in the {USUAL_SHOE} shoe. How these radii compare with "
        "those of people: [agreement](../agreement/stance.md).\n\n"
        + table(heads, rows, right=7)
        + f"\n![Force against deflection of one foot on the simulated bench](feet-bench.png)\n\n"
        f"*The foot {PICTURED} on the simulated bench: loading is the upper line of each loop, "
        "unloading the lower; the area between is what is lost. The straight line is the stated "
        "secant stiffness.*\n"
    )


def feet_page() -> str:
    """Return the page of the library's parts."""
    return page(
        "Feet, shoes, sockets and pylons",
        "Everything in `models/` that a prosthesis is made of. The parts are invented to span "
        "what is published; none is any product. A name ends in its unit; a name without one is "
        "a share. The same numbers, one foot at a time: `simgait foot NAME`.",
        *(kind_section(*each) for each in KINDS),
        bench_section(),
    )
