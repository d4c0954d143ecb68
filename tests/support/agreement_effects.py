"""Comparisons of what changes when alignment or foot changes: directions and sizes."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, partial
from typing import Any

from agreement import Comparison, Got
from simgait.stance import StanceResult, simulate_stance
from simgait.wearer import GRAVITY
from walkers import WEARERS, aligned, stance_of, walker

TOPIC = "What a change does"
TRANSTIBIAL = ("steady-transtibial", "weak-kneed-slow")
STEPS = {"foot_forward": 0.010, "dorsiflexion": math.radians(6.0)}  # [m], [rad] to each side
MORE, LESS = (1.01, math.inf), (0.0, 0.99)


@cache
def moved(wearer: str, what: str, by: float) -> StanceResult:
    """Return a wearer's stance with one alignment value changed by an amount [m or rad]."""
    return simulate_stance(aligned(walker(wearer), **{what: by}))


def share_of_statics(shift: float) -> tuple[float, ...]:
    """Return the change of late extension moment over one body weight times the shift [1]."""
    measure = "knee_extension_moment_peak_nm_kg"
    before = [stance_of(wearer).measures[measure] for wearer in WEARERS]
    after = [moved(wearer, "foot_forward", shift).measures[measure] for wearer in WEARERS]
    return tuple((a - b) / (GRAVITY * shift) for a, b in zip(after, before, strict=True))


def span(what: str, measure: str, sense: float) -> tuple[float, ...]:
    """Return sense x (a measure at the largest setting less that at the smallest) [its unit]."""
    size = STEPS[what]
    return tuple(
        sense * (moved(w, what, size).measures[measure] - moved(w, what, -size).measures[measure])
        for w in TRANSTIBIAL
    )


def ratio(change: str, read: Callable[[StanceResult], float]) -> tuple[float, ...]:
    """Return what is read off a stance after a change over the same as fitted [1]."""
    return tuple(read(stance_of(w, change)) / read(stance_of(w)) for w in TRANSTIBIAL)


def of(measure: str) -> Callable[[StanceResult], float]:
    """Return the reader of a measure."""
    return lambda result: result.measures[measure]


def arriving_peak(result: StanceResult) -> float:
    """Return the largest vertical force of the other limb once it has landed [body weights]."""
    wearer = result.limb.wearer
    landed = result.curves.time > wearer.arrives * wearer.stance_time
    return float(result.curves.other_force_up[landed].max()) / result.body_weight


def heel_left_after_mending() -> tuple[float, ...]:
    """Return what is left of the effect of 10 mm more heel once the foot is re-aligned [1]."""
    left = []
    for name in TRANSTIBIAL:
        high = aligned(walker(name), heel_rise=0.010)
        mended = simulate_stance(aligned(high, dorsiflexion=-0.0549, length_change=-0.00725))
        raised, base = stance_of(name, "heel high"), stance_of(name)
        for measure in ("knee_flexion_moment_peak_nm", "knee_extension_moment_peak_nm"):
            start = base.measures[measure]
            left.append(
                abs(mended.measures[measure] - start) / abs(raised.measures[measure] - start)
            )
    return tuple(left)


def effect(
    source: str, place: str, printed: str, got: Got, band: tuple[float, float], **more: Any
) -> Comparison:
    """Return a comparison of an effect; a published prediction unless it says otherwise."""
    usual = {"grade": "published", "kind": "predicted", "unit": "1", "digits": 2}
    return Comparison(
        topic=TOPIC, source=source, place=place, printed=printed, got=got,
        low=band[0], high=band[1], **{**usual, **more},
    )  # fmt: skip


def shift_size(mm: int) -> Comparison:
    """Return the comparison of a forward shift's effect with force times shift."""
    return effect(
        "own-arithmetic",
        f"foot forward {mm} mm: late extension moment, share of force times shift",
        "0.4 to 1.3", partial(share_of_statics, mm / 1000.0), (0.4, 1.3), grade="derived",
        note="the bound of a wearer who does not move otherwise is 1; this one yields a little",
    )  # fmt: skip


SENSES = (
    ("socket_flexion_moment_peak_nm", "greatest", 1.0),
    ("socket_extension_moment_peak_nm", "least (most extending)", -1.0),
    ("socket_moment_45_nm", "45 % of stance", 1.0),
)


def boone(what: str, words: str, turn: float, measure: str, named: str, sense: float) -> Comparison:
    """Return the comparison of a change of socket moment; `turn` is -1 where it falls."""
    return effect(
        "boone-2013", f"{words} moves the socket moment, {named}", "significant",
        partial(span, what, measure, sense * turn), (1.0, math.inf), unit="N m", digits=1,
        note="no size is printed; 1 N m and the sense are this page's own",
    )  # fmt: skip


EFFECTS = (
    *(shift_size(mm) for mm in (5, 10, 15)),
    *(
        boone("foot_forward", "foot from 10 mm back to 10 mm forward", -1.0, *sense)
        for sense in SENSES
    ),
    *(boone("dorsiflexion", "foot from 6 deg down to 6 deg up", 1.0, *sense) for sense in SENSES),
    effect(
        "adamczyk-2017", "stiffer heel (by 30 %): peak flexion moment of the knee, ratio", "more",
        partial(ratio, "stiff heel", of("knee_flexion_moment_peak_nm")), MORE, agrees=False,
        note="the moment rises before and after the peak, but the peak falls: the wearer keeps the "
        "strategy and lands on a softer heel harder",
    ),
    effect(
        "adamczyk-2017", "stiffer heel (by 30 %): loading rate, ratio", "faster",
        partial(ratio, "stiff heel", of("loading_rate_bw_s")), MORE,
        note="the size is the measure's, not the foot's: it jumps where a shoulder of the force "
        "passes its upper level",
    ),
    effect(
        "adamczyk-2017", "stiffer forefoot (by 30 %): late extension moment of the knee, ratio",
        "more", partial(ratio, "stiff forefoot", of("knee_extension_moment_peak_nm")), MORE,
    ),
    effect(
        "hansen-2006", "shorter toe lever (by 15 mm): extending socket moment, ratio", "less",
        partial(ratio, "short toe", of("socket_extension_moment_peak_nm")), LESS,
        note="printed for the dorsiflexing moment of the ankle, which a rigid ankle hands on",
    ),
    effect(
        "hansen-2006", "shorter toe lever (by 15 mm): first force peak of the sound side, ratio",
        "more", partial(ratio, "short toe", arriving_peak), MORE,
        note="the other limb is a strut here, seen only until the prosthesis' toe-off",
    ),
    effect(
        "hansen-2009", "10 mm more heel, foot re-aligned: what is left of its effect on the knee",
        "unless re-aligned", heel_left_after_mending, (0.0, 0.5),
        note="printed for 20 mm and the roll-over shape; half is this page's own threshold",
    ),
)  # fmt: skip
