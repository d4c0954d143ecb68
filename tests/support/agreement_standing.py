"""Comparisons of standing: where the load line passes, what slopes and lengths do, what tips."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, partial
from typing import Any

from agreement import Comparison, Got
from simgait.library.strengths import read_strength
from simgait.standing import Stance, Standing, stand_limb
from simgait.standing.loading import level, on_slope
from simgait.standing.posture import stood
from simgait.standing.result import EQUAL, pelvic_tilt, share_held, stance_of
from standers import FEET, aligned, stander, stands, stiffened, tips

TOPIC = "Standing"
STEADY = "steady-transtibial"
LINE = "load_line_ahead_of_knee_mm"
SHIFTS = (-30, -20, -10, 0, 10, 20, 30)  # [mm] of the foot, forward
HARD = 1000.0  # times stiffer than it is: a plate


def standing(
    source: str, place: str, printed: str, got: Got, band: tuple[float, float], **more: Any
) -> Comparison:
    """Return a comparison of standing; a published prediction unless it says otherwise."""
    usual = {"topic": TOPIC, "grade": "published", "kind": "predicted", "digits": 1}
    return Comparison(
        source=source, place=place, printed=printed, got=got, low=band[0], high=band[1],
        **{**usual, **more},
    )  # fmt: skip


@cache
def shifted(foot: str, shift: int) -> Standing:
    """Return a foot of the library on both feet, moved forward by a shift [mm]."""
    limb = aligned(stander(foot), foot_forward=shift / 1000.0)
    return stand_limb(limb, read_strength(STEADY))[0]


def bench_lines() -> tuple[float, ...]:
    """Return how far the load line passes ahead of the knee on each foot, on both feet [mm]."""
    return tuple(stands(foot)[0].measures[LINE] for foot in FEET)


def best_lines() -> tuple[float, ...]:
    """Return the same after the shift that brings it nearest to 20 mm [mm]."""
    lines = [[shifted(foot, shift).measures[LINE] for shift in SHIFTS] for foot in FEET]
    return tuple(min(each, key=lambda line: abs(line - 20.0)) for each in lines)


def efforts(where: Callable[[float], bool]) -> tuple[float, ...]:
    """Return the ends of the knee's effort over feet and shifts with the line at a place [%]."""
    found = [
        way.measures["knee_effort_percent"]
        for foot in FEET
        for way in (shifted(foot, shift) for shift in SHIFTS)
        if where(way.measures[LINE])
    ]
    return min(found), max(found)


def tilts(mismatch: float) -> tuple[float, ...]:
    """Return the pelvis' tilt over hip axes 0.20 and 0.17 m apart, and as it stands [deg].

    mismatch: by how much the prosthesis is longer [m].
    """
    both, _ = stand_limb(aligned(stander(), length_change=mismatch), read_strength(STEADY))
    wide, narrow = (math.degrees(pelvic_tilt(mismatch, spacing)) for spacing in (0.20, 0.17))
    return wide, both.measures["pelvic_tilt_deg"], narrow


def tilt_line(mm: int, low: float, high: float) -> Comparison:
    """Return the comparison of a printed range of tilts, to half of its last digit."""
    return standing(
        "own-arithmetic", f"pelvic tilt over legs {mm} mm unequal", f"{low} to {high}",
        partial(tilts, mm / 1000.0), (low - 0.05, high + 0.05), unit="deg", digits=2,
        grade="derived", kind="arithmetic",
        note="hip axes 0.20 m apart, as the program takes them, and 0.17 m; friberg-1984 for why "
        "a few millimetres matter",
    )  # fmt: skip


def heel_in_standing() -> tuple[float, ...]:
    """Return the heel's mismatch of 10 mm as standing has it, for the middle foot [deg]."""
    way = stands("carbon-leaf", "heel high")[0]
    return (way.measures["heel_mismatch_deg"] * way.stance.limb.foot.length / 0.260,)


@cache
def downhill(foot: str) -> tuple[float, float]:
    """Return what 10 degrees downhill do: change of load [%], of the knee's moment [N m]."""
    stance = stance_of(stander(foot), read_strength(STEADY), EQUAL)
    weight, slope = stance.limb.body_weight, math.radians(10.0)
    share, before = share_held(stance, slope), share_held(stance)
    flat, _ = stood(stance, level(before * weight))
    down, _ = stood(stance, on_slope(share * weight, slope))
    return 100.0 * (share / before - 1.0), down.knee_moment - flat.knee_moment


def lever_over_height(stance: Stance, sense: float) -> float:
    """Return the ratio of lever and height of a rigid limb, by hand [1]; sense: + forward."""
    end = float(stance.pieces.along[-1 if sense > 0.0 else 0])
    height = 0.55 * stance.limb.person.stature + stance.limb.sound_lift
    return abs(end - stance.place) / height


def rigid(disturbance: str) -> tuple[float, ...]:
    """Return where a limb of stone tips forward and backward, over what a rigid body's does [1].

    For a slope the ratio of the angles, for a push that of the forces.
    """
    stance = stiffened(stander(), HARD)
    found = []
    for sense in (1.0, -1.0):
        ratio = tips(stance, sense, disturbance).ratio
        wanted = lever_over_height(stance, sense)
        found.append(
            math.atan(ratio) / math.atan(wanted) if disturbance == "slope" else ratio / wanted
        )
    return tuple(found)


STANDING = (
    standing(
        "blumentritt-1997", "load line ahead of the knee at bench alignment, every foot",
        "10 to 30 mm", bench_lines, (10.0, 30.0), unit="mm", agrees=False,
        note="printed for good alignments, whatever the foot; the bench alignment is recalled, one "
        "for all, and the two feet with the softest and shortest keels stand too far back on it",
    ),
    standing(
        "blumentritt-1997", "the same once each foot is moved by up to 30 mm", "10 to 30 mm",
        best_lines, (10.0, 30.0), unit="mm",
        note="in steps of 10 mm, the one nearest to 20 mm: within what adapters allow",
    ),
    standing(
        "blumentritt-1999", "effort of the knee where the line is 15 mm ahead or more", "at rest",
        partial(efforts, lambda line: line >= 15.0), (-1e-6, 1e-6), unit="%",
        note="over all feet and shifts; least and most",
    ),
    standing(
        "blumentritt-1999", "effort of the knee where the line is less than 15 mm ahead", "active",
        partial(efforts, lambda line: line < 15.0), (0.1, math.inf), unit="%", agrees=False,
        note="least and most; by statics alone the model's knee works only where the line passes "
        "behind it, people start sooner",
    ),
    *(tilt_line(*line) for line in ((5, 1.4, 1.7), (10, 2.9, 3.4), (20, 5.7, 6.8))),
    standing(
        "own-arithmetic", "heel mismatch of 10 mm in standing, for 260 mm of foot", "3.1",
        heel_in_standing, (3.05, 3.15), unit="deg", digits=2, grade="derived", kind="arithmetic",
    ),
    standing(
        "ernst-2017", "10 deg downhill: the knee's moment turns towards bending, every foot",
        "to flexion", lambda: tuple(downhill(foot)[1] for foot in FEET), (5.0, math.inf),
        unit="N m", note="no size is taken over; 5 N m is this page's own threshold",
    ),
    standing(
        "ernst-2017", "10 deg downhill: the load on the prosthesis, every foot", "falls",
        lambda: tuple(downhill(foot)[0] for foot in FEET), (-100.0, -0.1), unit="%",
    ),
    standing(
        "ernst-2017", "the same: by how much", "about -20 %",
        lambda: tuple(downhill(foot)[0] for foot in FEET), (-25.0, -15.0), unit="%", agrees=False,
        note="5 to each side for the word about; in the model the strength of the knee decides "
        "how much, and the library's strengths are invented",
    ),
    *(
        standing(
            "own-arithmetic", f"{what} of a rigid limb over {law}, forward and backward", "1",
            partial(rigid, disturbance), (0.998, 1.002), unit="1", digits=4, grade="derived",
            kind="arithmetic", note=f"foot and socket {HARD:.0f} times stiffer; two thousandths "
            "for what they still give",
        )
        for what, law, disturbance in (
            ("tipping slope", "atan(lever / height)", "slope"),
            ("tipping push", "weight x lever / height", "push"),
        )
    ),
)  # fmt: skip
