"""The figure of a fitting record: alignments and measured numbers, trial after trial, by visits."""

import os
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from simgait.files import write_whole
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour
from simgait.record.history import History, Trial

if TYPE_CHECKING:
    from matplotlib.figure import Figure

__all__ = ["draw_record", "record_figure"]

_WIDTH, _ROW, _LINE, _GAP = 12.0, 1.15, 0.19, 0.34  # [inch]
_LEFT, _RIGHT = 1.0, 0.35  # [inch] beside the panels
_RESOLUTION = 110  # [pixel/inch]
_LETTERS_A_LINE = 182
_MOST_MEASURED = 4  # quantities that are drawn: those measured most often
_MOST_SAID = 8  # decisions that are written under the panels: the last ones
_SETTINGS = {
    "foot_forward_mm": "foot, + forward [mm]",
    "dorsiflexion_deg": "toe, + up [°]",
    "socket_flexion_deg": "socket, + flexed [°]",
    "length_change_mm": "length, + longer [mm]",
    "heel_rise_mm": "heel [mm]",
}
Notes = tuple[Sequence[str], str]  # cautions, version


@dataclass(frozen=True, kw_only=True)
class _Row:
    """One panel: its words, and the places and values of what is known."""

    words: str
    points: tuple[tuple[int, float], ...]
    stays: bool  # a setting stays until it is changed; a measured number does not


def draw_record(history: History, notes: Notes, path: str | os.PathLike[str]) -> Path:
    """Draw the figure of a record and write it whole: PNG, or SVG if the name says so.

    notes: cautions and version.

    Raises
    ------
    ValueError : nothing to draw, no cautions, or a name that ends in neither .png nor .svg.
    OSError : the file cannot be written.
    """
    final = Path(path)
    if final.suffix.lower() not in (".png", ".svg"):
        raise ValueError(f"a figure is written as .png or .svg, not as '{final.name}'")
    figure = record_figure(history, notes)
    metadata: dict[str, Any] = {
        "Title": f"Fitting record of {history.code}",
        "Description": f"{' '.join(notes[0])} simgait {notes[1]}",
    }
    if final.suffix.lower() == ".svg":
        metadata["Date"] = None
    from matplotlib import rc_context

    with write_whole(final) as partial, rc_context({"svg.hashsalt": "simgait"}):
        figure.savefig(partial, dpi=_RESOLUTION, metadata=metadata, facecolor=hex_colour(PAPER))
    return final


def record_figure(history: History, notes: Notes) -> "Figure":
    """The record as a matplotlib figure; notes: cautions and version.

    Raises
    ------
    ValueError : nothing to draw, or no cautions.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    if not notes[0]:
        raise ValueError("a picture without cautions is not drawn; pass the result's cautions")
    trials, rows = history.trials, _rows(history.trials)
    if not rows:
        raise ValueError("a record without alignments and measured numbers cannot be drawn")
    said, cautions = _said(trials), textwrap.wrap(" ".join(notes[0]), _LETTERS_A_LINE)
    head, foot = 1.20, 0.36 + _LINE * (len(said) + len(cautions)) + 0.30
    height = head + len(rows) * (_ROW + _GAP) + foot
    figure = Figure(figsize=(_WIDTH, height), facecolor=hex_colour(PAPER))
    FigureCanvasAgg(figure)
    wide = _WIDTH - _LEFT - _RIGHT
    for place, row in enumerate(rows):
        bottom = height - head - (place + 1) * (_ROW + _GAP) + _GAP
        box = (_LEFT / _WIDTH, bottom / height, wide / _WIDTH, _ROW / height)
        axes = figure.add_axes(box)
        _draw_row(axes, row, len(trials))
        _draw_visits(axes, history, place == 0)
        axes.set_xticks(range(len(trials)), [])
        if place == len(rows) - 1:
            _name_trials(axes, trials)
    _write_words(figure, history, notes[1], said, cautions)
    return figure


def _rows(trials: Sequence[Trial]) -> list[_Row]:
    """The settings that ever changed (all, if none did), then what was measured most often."""
    tried = [(n, each.entry.alignment) for n, each in enumerate(trials) if each.entry.alignment]
    settings = {
        name: tuple((n, alignment[name]) for n, alignment in tried)
        for name in (_SETTINGS if tried else ())
    }
    moved = {k: p for k, p in settings.items() if len({value for _, value in p}) > 1} or settings
    rows = [_Row(words=_SETTINGS[k], points=p, stays=True) for k, p in moved.items()]
    measured: dict[str, list[tuple[int, float]]] = {}
    for n, trial in enumerate(trials):
        for name, value in trial.entry.measured.items():
            measured.setdefault(name, []).append((n, value))
    often = sorted(measured, key=lambda name: -len(measured[name]))[:_MOST_MEASURED]
    return rows + [_Row(words=k, points=tuple(measured[k]), stays=False) for k in often]


def _draw_row(axes: Any, row: _Row, count: int) -> None:
    """One panel: a setting as steps that stay, a measured number as points."""
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    axes.set_facecolor(hex_colour(PAPER))
    x, y = [place for place, _ in row.points], [value for _, value in row.points]
    if row.stays:
        held = [max(n for n in x if n <= place) for place in range(x[0], count)]
        values = dict(row.points)
        steps = [values[n] for n in held]
        places = [x[0] - 0.5, *range(x[0], count), count - 0.5]
        steps = [steps[0], *steps, steps[-1]]
        axes.plot(places, steps, drawstyle="steps-mid", color=ink, linewidth=1.6)
    axes.plot(x, y, "o" if row.stays else "D", color=ink, markersize=5.5 if row.stays else 5.0)
    spread = max(y) - min(y) or max(abs(max(y)), 1.0)
    axes.set_ylim(min(y) - 0.25 * spread, max(y) + 0.45 * spread)
    axes.set_xlim(-0.5, count - 0.5)
    previous = None
    for place, value in row.points:
        if value != previous or not row.stays:
            axes.annotate(
                f"{value:g}".replace("-", "\u2212"), (place, value), (0, 5), size=8, color=ink,
                textcoords="offset points", ha="center", gid="value",
            )  # fmt: skip
        previous = value
    axes.text(0, 1.04, row.words, transform=axes.transAxes, size=9.5, weight="bold", color=ink)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(soft)
    axes.tick_params(colors=ink, labelsize=8, length=3)
    axes.locator_params(axis="y", nbins=4)


def _draw_visits(axes: Any, history: History, named: bool) -> None:
    """A line between visits, and their days above the first panel, as far as they fit."""
    begin, free = 0, [-1.0, -1.0]  # shares of the width from which two rows of days are free
    count = len(history.trials)
    for place, visit in enumerate(history.visits):
        if place:
            axes.axvline(begin - 0.5, color=hex_colour(SOFT_INK), linewidth=0.8, alpha=0.6)
        rows = [row for row in (0, 1) if begin / count >= free[row]]
        if named and rows:
            axes.text(
                begin - 0.45, 1.24 + 0.15 * rows[0], visit.day.isoformat(), size=8.5,
                color=hex_colour(ACCENT), transform=axes.get_xaxis_transform(), gid="visit",
            )  # fmt: skip
            free[rows[0]] = begin / count + 0.085
        begin += len(visit.trials)


def _name_trials(axes: Any, trials: Sequence[Trial]) -> None:
    """The numbers of the entries under the last panel; of many, only some."""
    step = max(1, -(-len(trials) // 40))
    places = range(0, len(trials), step)
    names = [f"{trials[n].number}{'*' if trials[n].corrected_by else ''}" for n in places]
    axes.set_xticks(list(places), names)
    said = "entry (* corrected)" if any(each.corrected_by for each in trials) else "entry"
    axes.set_xlabel(said, fontsize=8.5, color=hex_colour(INK), labelpad=2)


def _said(trials: Sequence[Trial]) -> list[str]:
    """The last decisions and their reasons, one line each."""
    lines = []
    for trial in trials:
        decided = [text for kind, text in trial.entry.notes if kind == "decision"]
        why = [text for kind, text in trial.entry.notes if kind == "why"]
        if not decided:
            continue
        words = "; ".join(decided) + (f" (why: {'; '.join(why)})" if why else "")
        place = f"{trial.entry.visit.isoformat()}, entry {trial.number}: "
        lines.append(textwrap.shorten(place + words, _LETTERS_A_LINE, placeholder=" ..."))
    return lines[-_MOST_SAID:]


def _write_words(
    figure: "Figure", history: History, version: str, said: list[str], cautions: list[str]
) -> None:
    """Title and version, decisions, and the cautions under an accent rule."""
    from matplotlib.lines import Line2D

    high = float(figure.get_size_inches()[1])
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    left, right = 0.35 / _WIDTH, 1.0 - _RIGHT / _WIDTH
    title = f"Fitting record of {history.code}"
    figure.text(left, 1 - 0.38 / high, title, size=14, weight="bold", color=ink)
    figure.text(right, 1 - 0.38 / high, f"simgait {version}", size=8, color=soft, ha="right")
    trials, visits = len(history.trials), len(history.visits)
    told = [f"{trials} entries in {visits} visits; each entry has one place, in the order of days."]
    if history.problems:
        told.append(f"{len(history.problems)} places of the file are damaged or doubtful.")
    figure.text(left, 1 - 0.60 / high, " ".join(told), size=8.5, color=soft)
    for row, line in enumerate(said):
        up = 0.25 + _LINE * (len(said) - 1 - row + len(cautions)) + 0.10
        figure.text(left, up / high, _plain(line), size=8.5, color=ink, gid="decision")
    for row, line in enumerate(cautions):
        up = 0.12 + _LINE * (len(cautions) - 1 - row)
        figure.text(left, up / high, line, size=8.5, color=ink, gid="caution")
    rule = (0.12 + _LINE * len(cautions)) / high
    accent = hex_colour(ACCENT)
    figure.add_artist(Line2D([left, right], [rule, rule], color=accent, linewidth=1.2))


def _plain(words: str) -> str:
    """The words as they are: a dollar sign begins no formula."""
    return words.replace("$", "\\$")
