"""One small panel of curves, each run marked by its number where it stands freest."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from simgait.pictures.inputs import ComparisonLike, FloatArray, ResultLike
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, LineLook, hex_colour
from simgait.pictures.wording import ended_badly, ending_words

__all__ = ["PANELS", "Panel", "draw_panel", "number_places"]


@dataclass(frozen=True, kw_only=True)
class Panel:
    """A panel: what it shows, its unit, what the sign means, and where the values come from."""

    title: str
    unit: str
    sign: str
    values: Callable[[ResultLike], FloatArray]


PANELS = (
    Panel(
        title="Knee moment, external",
        unit="Nm/kg",
        sign="+ bends the knee, \u2212 straightens it",
        values=lambda result: result.curves.knee_flexion_moment / result.mass,
    ),
    Panel(
        title="Socket moment, external",
        unit="Nm",
        sign="+ flexing, \u2212 extending",
        values=lambda result: result.curves.socket_flexion_moment,
    ),
    Panel(
        title="Vertical ground force",
        unit="body weights",
        sign="",
        values=lambda result: result.curves.force_up / result.body_weight,
    ),
    Panel(
        title="Centre of pressure ahead of the ankle",
        unit="mm",
        sign="+ towards the toe",
        values=lambda result: 1000.0 * result.curves.pressure_ahead_of_ankle,
    ),
)

_PLACES = np.linspace(4.0, 96.0, 47)  # [% of stance] where a number may stand


def draw_panel(
    axes: Any,
    panel: Panel,
    comparison: ComparisonLike,
    looks: Mapping[int, LineLook],
    *,
    row: int,
    name_endings: bool,
    size: float = 1.0,
    faint_rest: bool = True,
) -> None:
    """Draw all runs of a comparison; `looks` holds the runs shown by name, the rest is faint.

    Panels of row 1 name the horizontal axis; `name_endings` writes bad endings under their crosses;
    `size` is that of the letters against the usual one; `faint_rest` draws the rest at all.
    """
    _dress(axes, panel, row == 1, size)
    for index, result in enumerate(comparison.results):
        if faint_rest and index not in looks:
            faint = hex_colour(SOFT_INK)
            axes.plot(
                result.curves.percent, panel.values(result), color=faint, linewidth=0.6, alpha=0.5
            )
    named = sorted(looks, key=lambda index: index == comparison.baseline)
    for index in named:
        _draw_run(axes, panel, comparison.results[index], index, looks[index])
    crosses = [(i, *end) for i in named if (end := _cut_end(panel, comparison.results[i]))]
    axes.margins(y=0.10)
    low, high = axes.get_ylim()
    runs = [comparison.results[index] for index in named]
    shares = [(run.curves.percent, (panel.values(run) - low) / (high - low)) for run in runs]
    taken = [(x, (y - low) / (high - low)) for _, x, y in crosses]
    for index, (x, y) in zip(named, number_places(shares, taken), strict=True):
        if np.isfinite(x):
            own = index == comparison.baseline
            _write_number(axes, index, (x, low + y * (high - low)), own, size)
    if name_endings:
        for row, (index, x, y) in enumerate(crosses):
            words = f"{index + 1}: {ending_words(comparison.results[index])}"
            _write_ending(axes, index, words, (x, y), 0.12 + 0.08 * (row % 5))
    axes.set_ylim(low, high)


def number_places(
    curves: list[tuple[FloatArray, FloatArray]], taken: list[tuple[float, float]]
) -> list[tuple[float, float]]:
    """Where to put the number of each curve (percent, share of height 0 to 1); NaN if empty.

    A number stands on its own curve, as far as it can from the other curves, from places
    `taken` by other marks and from the numbers already placed; distances are taken on the
    page of a panel 5.3 by 2.35.
    """
    heights = np.array([_resampled(percent, share) for percent, share in curves])
    places: list[tuple[float, float]] = []
    for own, height in enumerate(heights):
        if not np.isfinite(height).any():
            places.append((float("nan"), float("nan")))
            continue
        gap = np.full(height.shape, 0.25)
        for other in np.delete(heights, own, axis=0):
            gap = np.fmin(gap, 2.35 * np.abs(other - height))
        for x, y in (*taken, *places):
            if np.isfinite(x):
                apart = np.hypot(5.3 * (_PLACES - x) / 100.0, 2.35 * (height - y))
                gap = np.where(apart < 0.24, apart - 1.0, gap)
        gap = gap - 0.0005 * np.abs(_PLACES - 50.0)
        best = int(np.argmax(np.where(np.isfinite(height), gap, -9.0)))
        places.append((float(_PLACES[best]), float(height[best])))
    return places


def _resampled(percent: FloatArray, values: FloatArray) -> FloatArray:
    known = np.isfinite(percent) & np.isfinite(values)
    if not known.any():
        return np.full(_PLACES.shape, np.nan)
    return np.interp(_PLACES, percent[known], values[known], left=np.nan, right=np.nan)


def _cut_end(panel: Panel, result: ResultLike) -> tuple[float, float] | None:
    """Where the curve of a badly ended run stops; None for a normal run or an empty curve."""
    percent, values = result.curves.percent, panel.values(result)
    known = np.flatnonzero(np.isfinite(percent) & np.isfinite(values))
    if not ended_badly(result) or not known.size:
        return None
    return float(percent[known[-1]]), float(values[known[-1]])


def _draw_run(axes: Any, panel: Panel, result: ResultLike, index: int, look: LineLook) -> None:
    """One named curve; a badly ended one is cut and closed by a cross."""
    percent, values = result.curves.percent, panel.values(result)
    (line,) = axes.plot(
        percent, values, color=hex_colour(look.colour), linewidth=look.width, gid=f"run {index + 1}"
    )
    if look.dashes:
        line.set_dashes(look.dashes)
    end = _cut_end(panel, result)
    if end:
        axes.plot(
            *end, "x", color=hex_colour(ACCENT), markersize=8, markeredgewidth=2.2, zorder=6,
            gid=f"cut {index + 1}",
        )  # fmt: skip


def _write_ending(
    axes: Any, index: int, words: str, cross: tuple[float, float], height: float
) -> None:
    """The ending of a run at `height` (share of the panel), with a thin line up to its cross."""
    x, y = cross
    accent, left = hex_colour(ACCENT), x > 60.0
    axes.annotate(
        words, (x, y), (x - 2.0 if left else x + 2.0, height), xycoords="data",
        textcoords=("data", "axes fraction"), size=8, weight="bold", color=accent, zorder=7,
        ha="right" if left else "left", va="center", gid=f"ending {index + 1}",
        arrowprops={
            "arrowstyle": "-", "color": accent, "linewidth": 0.7,
            "relpos": (1.0 if left else 0.0, 1.0),
        },
    )  # fmt: skip


def _write_number(
    axes: Any, index: int, place: tuple[float, float], is_baseline: bool, size: float
) -> None:
    ink, paper = hex_colour(INK), hex_colour(PAPER)
    box = {
        "boxstyle": "square,pad=0.22" if is_baseline else "circle,pad=0.14",
        "facecolor": ink if is_baseline else paper,
        "edgecolor": ink,
        "linewidth": 0.6,
    }
    axes.text(
        *place, str(index + 1), size=7 * size, weight="bold", color=paper if is_baseline else ink,
        ha="center", va="center", bbox=box, zorder=8, gid=f"number {index + 1}",
    )  # fmt: skip


def _dress(axes: Any, panel: Panel, bottom_row: bool, size: float) -> None:
    """Title, unit, sign, zero line, quiet frame."""
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    words = f"{panel.title} [{panel.unit}]"
    narrow = size < 1.0  # then the sign has a line of its own
    for x, above, text, points, look in (
        (0, 16.5 * size if narrow else 0.0, words, 9.5, {"weight": "bold", "color": ink}),
        (0 if narrow else 1, 0.0, panel.sign, 8.5, {"color": soft}),
    ):
        axes.annotate(
            text, (x, 1.0 if narrow else 1.035), (0.0, above + (3.0 if narrow else 0.0)),
            xycoords="axes fraction", textcoords="offset points", size=points * size,
            ha="left" if x == 0 else "right", **look,
        )  # fmt: skip
    axes.axhline(0.0, color=soft, linewidth=0.8, zorder=0.5)
    axes.set_xlim(0.0, 100.0)
    axes.grid(True, color=soft, alpha=0.18, linewidth=0.5)
    axes.set_axisbelow(True)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(soft)
    axes.tick_params(colors=ink, labelsize=8 * size, length=3)
    if bottom_row:
        axes.set_xlabel("% of stance", fontsize=8.5 * size, color=ink, labelpad=2)
