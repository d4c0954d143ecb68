"""The picture of a bench test."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from making.ink import dress, save, sheet
from making.parts import PICTURED
from simgait.library import read_foot
from simgait.parts.sole import BENCH_LOAD, BenchTest, forefoot_test, heel_test, solved_sole
from simgait.pictures.style import ACCENT, INK, SOFT_INK, hex_colour

INKED, SOFT, ACCENTED = hex_colour(INK), hex_colour(SOFT_INK), hex_colour(ACCENT)


def draw_bench(path: Path) -> None:
    """Draw force against deflection of heel and forefoot on the simulated bench."""
    foot = read_foot(PICTURED)
    sole = solved_sole(foot)
    figure = sheet(7.6, 3.1)
    for place, (title, test) in enumerate(
        (("Heel, toe up 15 degrees", heel_test), ("Forefoot, toe down 20 degrees", forefoot_test))
    ):
        axes = figure.add_subplot(1, 2, place + 1)
        dress(axes, title, "deflection, mm", "force, N")
        draw_loop(axes, test(foot, sole))
    save(figure, path)


def draw_loop(axes: Any, test: BenchTest) -> None:
    """Draw one loading and unloading, what is lost between, and the secant."""
    half = len(test.force) // 2 + 1
    mm = 1000.0 * test.deflection
    axes.fill(mm, test.force, color=SOFT, alpha=0.22, linewidth=0)
    axes.plot(mm[:half], test.force[:half], color=INKED, linewidth=1.8)
    axes.plot(mm[half - 1 :], test.force[half - 1 :], color=INKED, linewidth=1.2, dashes=(4, 1.5))
    top = 1000.0 * BENCH_LOAD / test.stiffness
    axes.plot([0.0, top], [0.0, BENCH_LOAD], color=ACCENTED, linewidth=1.0)
    axes.annotate("loading", (mm[half * 5 // 10], test.force[half * 5 // 10]), (-9, 2),
                  textcoords="offset points", ha="right", size=8, color=INKED)  # fmt: skip
    back = half - 1 + half * 4 // 10
    axes.annotate("unloading", (mm[back], test.force[back]), (8, -8),
                  textcoords="offset points", size=8, color=INKED)  # fmt: skip
    said = f"{test.stiffness / 1000.0:.0f} N/mm at {BENCH_LOAD:.0f} N\n{100 * test.loss:.0f} % lost"
    axes.text(0.04, 0.96, said, transform=axes.transAxes, va="top", size=8, color=ACCENTED)
    axes.set_xlim(left=0.0)
    axes.set_ylim(bottom=0.0)
