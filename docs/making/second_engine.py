"""The page of the second engine: stance moved by pymunk beside the compiled one, and its figure."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from agreement_engines import second_stance
from making.ink import dress, save, sheet
from making.text import page, shown, table
from simgait.arrays import Array
from simgait.engines import bodies
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour
from simgait.stance import StanceResult
from simgait.stance.running import STEP
from walkers import WEARERS, stance_of

PICTURED = "steady-transtibial"
SHOWN = (
    ("Knee moment", "knee_flexion_moment", "+ bends the knee"),
    ("Socket moment", "socket_flexion_moment", "+ flexes the limb"),
)
PEAKS = (
    ("knee, bending", "knee_flexion_moment_peak"),
    ("knee, straightening", "knee_extension_moment_peak"),
    ("socket, flexing", "socket_flexion_moment_peak"),
    ("socket, extending", "socket_extension_moment_peak"),
)
BEFORE_TOE_OFF = 0.999  # [1] share of stance up to which the curves are compared
INKED, SOFT, ACCENTED = hex_colour(INK), hex_colour(SOFT_INK), hex_colour(ACCENT)


def instants(name: str) -> Array:
    """Return the instants at which both engines are compared [s]: pymunk's own."""
    second = second_stance(name).curves.time
    until = BEFORE_TOE_OFF * min(stance_of(name).end_time, second_stance(name).end_time)
    return np.asarray(second[second <= until])


def at(result: StanceResult, curve: str, times: Array) -> Array:
    """Return a curve of a stance at instants [s], between its own by a cubic."""
    from scipy.interpolate import CubicSpline

    return np.asarray(CubicSpline(result.curves.time, getattr(result.curves, curve))(times))


def difference(name: str, curve: str) -> Array:
    """Return pymunk's curve less the compiled engine's, at `instants` [N m]."""
    times = instants(name)
    ours, theirs = stance_of(name), second_stance(name)
    return at(theirs, curve, times) - at(ours, curve, times)


def draw_both(path: Path) -> None:
    """Draw knee and socket moment of both engines, one over the other, and the difference below."""
    figure = sheet(7.6, 4.9)
    axes = figure.subplots(2, 2, sharex=True, height_ratios=(2.4, 1.0))
    times = instants(PICTURED)
    percent = 100.0 * times / stance_of(PICTURED).end_time
    for column, (title, curve, sense) in enumerate(SHOWN):
        above, below = axes[:, column]
        dress(above, title, "", f"N m, {sense}")
        dress(below, "pymunk less compiled", "% of stance", "N m")
        above.axhline(0.0, color=SOFT, linewidth=0.7)
        below.axhline(0.0, color=SOFT, linewidth=0.7)
        above.plot(
            percent, at(stance_of(PICTURED), curve, times), color=INKED, linewidth=3.6, alpha=0.45,
            solid_capstyle="butt", label="compiled",
        )  # fmt: skip
        above.plot(
            percent, at(second_stance(PICTURED), curve, times), color=ACCENTED, linewidth=1.1,
            label="pymunk",
        )  # fmt: skip
        below.plot(percent, difference(PICTURED, curve), color=ACCENTED, linewidth=0.9)
        above.margins(x=0.01)
    axes[0, 0].legend(frameon=False, fontsize=8.5, labelcolor=INKED, loc="upper right")
    save(figure, path)


def peak_rows(name: str) -> list[tuple[str, ...]]:
    """Return one wearer's rows: each peak by both engines, difference in size and in time."""
    ours, theirs = stance_of(name).measures, second_stance(name).measures
    rows = []
    for words, measure in PEAKS:
        here, there = ours[f"{measure}_nm"], theirs[f"{measure}_nm"]
        when = f"{measure}_percent"
        late = shown(theirs[when] - ours[when], 2) if when in ours else "-"
        rows.append(
            (name, words, shown(here, 2), shown(there, 2),
             shown(100.0 * (there / here - 1.0), 2), late)
        )  # fmt: skip
    return rows


def curve_row(name: str) -> tuple[str, ...]:
    """Return one wearer's row: largest differences anywhere in stance."""
    times = instants(name)
    ours, theirs = stance_of(name), second_stance(name)
    hip = [
        np.interp(times, theirs.curves.time, theirs.curves.hip[:, axis])
        - np.interp(times, ours.curves.time, ours.curves.hip[:, axis])
        for axis in (0, 1)
    ]
    return (
        name,
        *(shown(float(np.abs(difference(name, curve)).max()), 2) for _, curve, _ in SHOWN),
        shown(1000.0 * float(np.hypot(*hip).max()), 2),
        shown(1000.0 * (theirs.end_time - ours.end_time), 2),
    )


def second_engine_page() -> str:
    """Return the page of the second engine."""
    heads = ("wearer", "peak moment", "compiled N m", "pymunk N m", "difference %",
             "later by, % of stance")  # fmt: skip
    peaks = [row for name in WEARERS for row in peak_rows(name)]
    largest = ("wearer", "knee moment N m", "socket moment N m", "hip's place mm",
               "stance longer by ms")  # fmt: skip
    return page(
        "A second engine for stance",
        "The same stance, its chain of bodies moved by pymunk, a general-purpose engine of rigid "
        "bodies in the plane:\n\n```\nsimgait stance models/cases/everyday.toml --engine "
        "bodies\n```\n",
        "The laws of sole, wearer and socket are the kernel's own. What differs is all that "
        "moves: pymunk's bodies and pivots, its joint forces by impulses, steps of order one and "
        f"{1000.0 * bodies.STEP:g} ms against Runge and Kutta's method of order four and "
        f"{1000.0 * STEP:g} ms. So an agreement speaks for the equations of motion and their "
        "integration; it says nothing about whether sole and wearer are those of a person. How "
        "the light foot was dealt with: [decision](../decisions/bodies.md).",
        f"![Knee and socket moment of both engines, one over the other; the difference "
        f"below](second-engine.png)\n\n*The wearer `{PICTURED}` as calibrated. The thin line of "
        "pymunk lies on the broad one of the compiled engine; note the scale of the difference.*",
        "## Peaks\n\nEvery calibrated wearer in the limb that it was calibrated in. Asked: 3 % "
        "and 2 % of stance. Held by `tests/engines/test_bodies.py` to 0.2 % and 0.1 % of "
        "stance for the knee.\n\n" + table(heads, peaks, right=4),
        "## Anywhere in stance\n\nLargest difference at any of pymunk's recorded instants up to "
        "just before toe-off:\n\n" + table(largest, [curve_row(name) for name in WEARERS], right=4),
        "What remains shrinks with pymunk's step, as it must with a method of order one, and a "
        "test asserts that. Reported numbers always come from the compiled engine.",
    )
