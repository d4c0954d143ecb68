"""Moment at the shoulder and reach against the length of the forearm."""

from typing import Any

from simgait.arm.sheet import ArmSheet
from simgait.pictures.arm_panels import dress
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour

__all__ = ["draw_lengths"]

_ALONE = 10.0  # [mm] shown to each side of a single length
_MARK = {"markersize": 4.5, "markeredgewidth": 0.8}


def draw_lengths(above: Any, below: Any, sheet: ArmSheet) -> None:
    """Draw the moment into the upper axes and the reach into the lower ones."""
    rows = sheet.result.lengths
    changes = [1000.0 * row.change for row in rows]
    title = "Arm held straight out: moment at the shoulder"
    dress(above, title, "", "moment [Nm]")
    dress(below, "How far it reaches", "forearm longer (+) or shorter (\u2212) [mm]", "reach [mm]")
    above.tick_params(labelbottom=False)
    ink, paper = hex_colour(INK), hex_colour(PAPER)
    above.plot(changes, [row.shoulder_moment for row in rows], color=ink, linewidth=1.8)
    below.plot(changes, [1000.0 * row.reach for row in rows], color=ink, linewidth=1.8)
    for row, change in zip(rows, changes, strict=True):
        holds = row.within_capacity
        above.plot(change, row.shoulder_moment, "o", color=ink, **_MARK,
                   markerfacecolor=paper if holds is False else ink)  # fmt: skip
        reaches = row.mouth and row.midline
        below.plot(change, 1000.0 * row.reach, "o", color=ink, **_MARK,
                   markerfacecolor=ink if reaches else paper)  # fmt: skip
    for axes in (above, below):
        axes.margins(x=0.05, y=0.18)
        if len(rows) == 1:
            axes.set_xlim(changes[0] - _ALONE, changes[0] + _ALONE)
    _say(below, "open: mouth or midline is not reached"
         if not all(row.mouth and row.midline for row in rows)
         else "mouth and midline are reached at every length drawn")  # fmt: skip
    _draw_capacity(above, sheet)
    _draw_recommended(above, below, sheet)


def _say(axes: Any, words: str, accent: bool = False) -> None:
    colour = hex_colour(ACCENT if accent else SOFT_INK)
    axes.text(
        0.985,
        0.05,
        words,
        transform=axes.transAxes,
        size=8,
        color=colour,
        ha="right",
        bbox={"facecolor": hex_colour(PAPER), "edgecolor": "none", "pad": 1.0},
    )


def _draw_capacity(above: Any, sheet: ArmSheet) -> None:
    """The moment that the wearer can hold, if it was measured."""
    can = sheet.result.harness.max_shoulder_moment
    if can is None:
        _say(above, "what this wearer's shoulder can hold was not measured")
        return
    accent = hex_colour(ACCENT)
    low, high = above.get_ylim()
    above.axhline(can, color=accent, linewidth=1.6)
    above.set_ylim(min(low, can - 0.08 * (high - low)), max(high, can + 0.15 * (high - low)))
    above.annotate(
        f"wearer can hold {can:.1f} Nm", (0.01, can), (0, 3), size=8, color=accent, va="bottom",
        xycoords=above.get_yaxis_transform(), textcoords="offset points",
    )  # fmt: skip
    _say(above, "open: more than that")


def _draw_recommended(above: Any, below: Any, sheet: ArmSheet) -> None:
    """An upright line through both panels at the recommended length."""
    place = sheet.result.recommended_length
    if place is None:
        return
    row, accent = sheet.result.lengths[place], hex_colour(ACCENT)
    for axes in (above, below):
        axes.axvline(1000.0 * row.change, color=accent, linewidth=1.2, dashes=(6.0, 2.0), zorder=1)
    left, right = above.get_xlim()
    on_right = 1000.0 * row.change > left + 0.6 * (right - left)
    below.annotate(
        f"recommended: {1000.0 * row.change:+.0f} mm".replace("-", "\u2212"),
        (1000.0 * row.change, 0.92), (-5 if on_right else 5, 0), size=8.5, weight="bold",
        color=accent, ha="right" if on_right else "left",
        xycoords=below.get_xaxis_transform(), textcoords="offset points",
    )  # fmt: skip
