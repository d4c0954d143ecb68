"""Panels of an arm: pull against angle, pull against excursion, the cable to the device."""

from math import degrees, isfinite
from typing import Any

import numpy as np

from simgait.arm.sheet import ArmSheet
from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, hex_colour, line_looks

__all__ = ["draw_device", "draw_front", "draw_pulls", "dress"]

_BEHIND = {"facecolor": hex_colour(PAPER), "edgecolor": "none", "pad": 1.0, "alpha": 0.7}
_HEAD_ROOM = 1.28  # of the vertical axis, over the largest pull drawn


def dress(axes: Any, title: str, across: str, up: str) -> None:
    """Title, units, quiet frame. across, up: what the axes show, with unit."""
    ink, soft = hex_colour(INK), hex_colour(SOFT_INK)
    axes.set_title(title, loc="left", size=9.5, weight="bold", color=ink, pad=7)
    axes.set_xlabel(across, size=8.5, color=ink, labelpad=3)
    axes.set_ylabel(up, size=8.5, color=ink, labelpad=3)
    axes.grid(True, color=soft, alpha=0.18, linewidth=0.5)
    axes.set_axisbelow(True)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(soft)
    axes.tick_params(colors=ink, labelsize=8, length=3)


def draw_pulls(axes: Any, sheet: ArmSheet) -> None:
    """Pull at the harness against flexion for some loops, with what the wearer can do."""
    curves = sheet.result.flexion_pull
    if curves is None or sheet.focus is None or not sheet.shown:
        return
    dress(axes, "Pull to bend the elbow slowly", "elbow flexion [deg]", "pull at the harness [N]")
    angle = np.degrees(curves.flexion)
    focus = sheet.shown.index(sheet.focus) if sheet.focus in sheet.shown else 0
    for place, look in zip(sheet.shown, line_looks(len(sheet.shown), focus), strict=True):
        (line,) = axes.plot(
            angle, curves.pull[place], color=hex_colour(look.colour), linewidth=look.width
        )
        if look.dashes:
            line.set_dashes(look.dashes)
    top = _HEAD_ROOM * float(np.nanmax([curves.pull[place] for place in sheet.shown]))
    _name_curves(axes, sheet, angle, top)
    top = _draw_limits(axes, sheet, angle, top)
    axes.set_ylim(0.0, top)


def _name_curves(axes: Any, sheet: ArmSheet, angle: Any, top: float) -> None:
    """The loop of each curve, at the end where the curves are farther apart; kept from touching."""
    curves = sheet.result.flexion_pull
    if curves is None:
        return
    pulls = np.array([curves.pull[place] for place in sheet.shown])
    first, last = np.ptp(pulls[:, 0]), np.ptp(pulls[:, -1])
    end, side, room = (0, "right", (0.17, 0.0)) if first > last else (-1, "left", (0.0, 0.17))
    span = angle[-1] - angle[0]
    axes.set_xlim(angle[0] - room[0] * span, angle[-1] + room[1] * span)
    ends = sorted(zip(pulls[:, end].tolist(), sheet.shown, strict=True))
    heights: list[float] = []
    for pull, _ in ends:
        heights.append(max(pull, heights[-1] + 0.058 * top if heights else 0.03 * top))
    for height, (pull, place) in zip(heights, ends, strict=True):
        loop = 1000.0 * sheet.result.positions[place].loop
        chosen = place == sheet.focus
        axes.annotate(
            f"loop {loop:.0f} mm" if chosen else f"{loop:.0f} mm", (angle[end], pull),
            (8 if side == "left" else -8, 0), xycoords="data", textcoords="offset points", size=8,
            va="center", ha=side, weight="bold" if chosen else "normal", color=hex_colour(INK),
            annotation_clip=False,
        ).set_y((height - pull) * _points_per_unit(axes, top))  # fmt: skip


def _points_per_unit(axes: Any, top: float) -> float:
    """Points of paper for each unit of the vertical axis from 0 to `top`."""
    high = axes.get_position().height * float(axes.figure.get_size_inches()[1]) * 72.0
    return float(high / top)


def _draw_limits(axes: Any, sheet: ArmSheet, angle: Any, top: float) -> float:
    """The wearer's two limits, one beyond the axis in words; returns the axis' upper end."""
    if sheet.capacity is None or sheet.easy is None:
        return top
    share = 100.0 * sheet.result.harness.fatigue_free_share
    said = (
        (sheet.easy, f"does not tire ({share:.0f} %)", (2.5, 2.0), 1.6),
        (sheet.capacity, "greatest pull", (), 2.2),
    )
    if float(sheet.easy.min()) > top:
        top = 1.12 * float(sheet.easy.max())
    for values, words, dashes, width in said:
        lowest, highest = float(values.min()), float(values.max())
        span = f"{highest:.0f} N" if highest - lowest < 0.5 else f"{lowest:.0f} to {highest:.0f} N"
        if lowest > top:
            axes.text(
                0.015, 0.985, f"{words}: {span}, above this axis \u2191", transform=axes.transAxes,
                size=8, color=hex_colour(ACCENT), va="top",
            )  # fmt: skip
            continue
        (line,) = axes.plot(angle, values, color=hex_colour(ACCENT), linewidth=width)
        if dashes:
            line.set_dashes(dashes)
        axes.annotate(
            f"{words}: {span}", (angle[0], values[0]), (3, 3), textcoords="offset points",
            size=8, color=hex_colour(ACCENT), va="bottom", zorder=6, bbox=_BEHIND,
        )  # fmt: skip
    return top


def draw_front(axes: Any, sheet: ArmSheet) -> None:
    """Every position as a point of excursion and peak pull; the front as a line."""
    result = sheet.result
    title = "Every position: lighter pull or shorter travel"
    dress(axes, title, "excursion for the whole range [mm]", "peak pull [N]")
    rows = [row for row in result.positions if isfinite(row.peak_pull)]
    ink, paper = hex_colour(INK), hex_colour(PAPER)
    for words, chosen, face, mark in (
        ("beyond a limit", [row for row in rows if not row.feasible], paper, "o"),
        ("fits", [row for row in rows if row.feasible and not row.fatigue_free], "#a0968a", "o"),
        ("fits and does not tire", [row for row in rows if row.fatigue_free], ink, "s"),
    ):
        if chosen:
            axes.plot(
                [1000.0 * row.excursion for row in chosen], [row.peak_pull for row in chosen], mark,
                markersize=5, markerfacecolor=face, markeredgecolor=ink, markeredgewidth=0.8,
                label=words, zorder=3, linestyle="none",
            )  # fmt: skip
    front = [result.positions[place] for place in result.front]
    axes.plot(
        [1000.0 * row.excursion for row in front], [row.peak_pull for row in front],
        color=hex_colour(SOFT_INK), linewidth=1.0, zorder=2,
    )  # fmt: skip
    axes.margins(x=0.10, y=0.16)
    _mark_focus(axes, sheet)
    _draw_bounds(axes, sheet)
    axes.legend(
        loc="upper right", fontsize=8, labelcolor=ink, handletextpad=0.2, borderaxespad=0.0,
        facecolor=paper, edgecolor="none", framealpha=1.0,
    )  # fmt: skip


def _mark_focus(axes: Any, sheet: ArmSheet) -> None:
    """A ring about the position that is drawn to scale, and the loops at the ends of the front."""
    result = sheet.result
    for place, shift, side in zip(
        (*result.front[:1], *result.front[-1:]),
        ((7, 5), (0, -15)),
        ("left", "center"),
        strict=False,
    ):
        if place != sheet.focus:
            row = result.positions[place]
            axes.annotate(
                f"loop {1000.0 * row.loop:.0f} mm", (1000.0 * row.excursion, row.peak_pull), shift,
                textcoords="offset points", size=8, color=hex_colour(INK), ha=side, zorder=6,
            )  # fmt: skip
    if sheet.focus is None:
        return
    row = result.positions[sheet.focus]
    at = (1000.0 * row.excursion, row.peak_pull)
    accent = hex_colour(ACCENT)
    axes.plot(*at, "o", markersize=14, markerfacecolor="none", markeredgecolor=accent,
              markeredgewidth=2.2, zorder=4)  # fmt: skip
    words = {"recommended": "recommended", "as_made": "as made", "lightest": "lightest pull"}
    axes.annotate(
        f"{words[sheet.why or 'recommended']}: loop {1000.0 * row.loop:.0f} mm", at, (0.27, 0.80),
        textcoords="axes fraction", size=8.5, weight="bold", color=accent, zorder=6,
        bbox=_BEHIND,
        arrowprops={
            "arrowstyle": "-", "color": accent, "linewidth": 0.8, "shrinkB": 8, "relpos": (0.0, 0.0)
        },
    )  # fmt: skip


def _draw_bounds(axes: Any, sheet: ArmSheet) -> None:
    """Limits that lie within the axes, or not far beyond them."""
    harness = sheet.result.harness
    (left, right), (low, high) = axes.get_xlim(), axes.get_ylim()
    uprights = [(1000.0 * harness.max_excursion, "greatest excursion")]
    if sheet.lifting_limit is not None:
        uprights.append((1000.0 * sheet.lifting_limit, "leaves the device its travel"))
    accent = hex_colour(ACCENT)
    for place, words in uprights:
        if left < place < right + 0.3 * (right - left):
            right = max(right, place + 0.02 * (right - left))
            axes.axvline(place, color=accent, linewidth=1.2, dashes=(6.0, 2.0))
            axes.text(
                place, low + 0.72 * (high - low), words, size=8, color=accent, rotation=90,
                ha="right", va="top",
            )  # fmt: skip
    easy = harness.fatigue_free_pull
    if low - 0.3 * (high - low) < easy < high:
        low = max(min(low, easy - 0.06 * (high - low)), 0.0)
        above = easy < low + 0.10 * (high - low)
        axes.axhline(easy, color=accent, linewidth=1.2, dashes=(2.5, 2.0))
        axes.annotate(
            f"does not tire: {easy:.0f} N", (0.01, easy), (0, 3 if above else -3), size=8,
            color=accent, va="bottom" if above else "top",
            xycoords=axes.get_yaxis_transform(), textcoords="offset points",
        )  # fmt: skip
    axes.set_xlim(left, right)
    axes.set_ylim(max(low, 0.0), high)


def draw_device(axes: Any, sheet: ArmSheet) -> None:
    """Pull at the harness while the device is worked and let back; between them is lost work."""
    device = sheet.result.device
    dress(axes, "Cable to the device", "cable at the device [mm]", "pull [N]")
    if device is None:
        axes.text(0.5, 0.5, "the device was not measured", transform=axes.transAxes, ha="center",
                  size=9, color=hex_colour(SOFT_INK))  # fmt: skip
        return
    travel, ink = 1000.0 * device.travel, hex_colour(INK)
    axes.fill_between(travel, device.return_pull, device.pull, color=hex_colour(SOFT_INK),
                      alpha=0.22, linewidth=0)  # fmt: skip
    for values, dashes, width, words in (
        (device.pull, (), 2.6, "at the harness, pulling"),
        (device.device_force, (5.0, 1.8), 1.4, "at the device"),
        (device.return_pull, (1.2, 1.5), 1.6, "at the harness, letting back"),
    ):
        (line,) = axes.plot(travel, values, color=ink, linewidth=width, label=words)
        if dashes:
            line.set_dashes(dashes)
    axes.margins(x=0.03)
    axes.set_ylim(0.0, 1.45 * device.peak_pull)
    easy = sheet.result.harness.fatigue_free_pull
    if easy < 1.4 * device.peak_pull:
        axes.axhline(easy, color=hex_colour(ACCENT), linewidth=1.4, dashes=(2.5, 2.0),
                     label=f"does not tire: {easy:.0f} N")  # fmt: skip
    axes.legend(loc="upper left", fontsize=8, frameon=False, labelcolor=ink, ncols=2)
    axes.text(
        0.99, 0.04, f"shaded: {1000.0 * device.lost:.0f} N mm lost in a cycle; efficiency "
        f"{device.efficiency:.2f}, usual minimum {device.usual_minimum:.2f}",
        transform=axes.transAxes, ha="right", size=8, color=ink,
    )  # fmt: skip


def angle_words(flexion: float) -> str:
    """An angle [rad] in whole degrees.

    >>> angle_words(1.5707963)
    '90\u00b0'
    """
    return f"{degrees(flexion):.0f}\u00b0"
