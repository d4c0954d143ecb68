"""What else than the knee's moments changes with an alignment, in words.

The words depend on where a measure lies as well as on how it changes: a knee that is forced back
beyond straight is not "straighter", and a hip that still climbs does not "drop more softly".
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from simgait.stance import StanceResult
from simgait.stance.uncertainty import Spread
from simgait.symbols import BY_NAME

KNEE, DROP = "knee_flexion_least_deg", "drop_off"

# measure: what more of it means, and what less of it means, while it is above nothing
EFFECTS = {
    KNEE: ("the knee stays more bent", "the knee comes straighter"),
    "socket_flexion_moment_peak_nm": (
        "the socket levers harder on the limb when the heel is loaded",
        "the socket levers less on the limb when the heel is loaded",
    ),
    "socket_extension_moment_peak_nm": (
        "the socket levers harder on the limb when the toe is loaded",
        "the socket levers less on the limb when the toe is loaded",
    ),
    "forward_thrust": (
        "the shank is driven forward faster at loading",
        "the shank is driven forward more slowly at loading",
    ),
    DROP: (
        "the body drops harder onto the other leg",
        "the body drops more softly onto the other leg",
    ),
    "heel_off_s": ("the heel rises later", "the heel rises sooner"),
    "hip_rise_mm": ("the hip climbs higher", "the hip climbs less high"),
}


def two(before: float, after: float, digits: int, unit: str) -> str:
    """Return "AFTER instead of BEFORE UNIT", with as many digits as tell them apart (2 more at
    most).

    >>> two(22.1, 22.2, 0, "mm"), two(22.0, 19.4, 0, "mm")
    ('22.2 instead of 22.1 mm', '19 instead of 22 mm')
    """
    for more in range(3):
        texts = [f"{value:.{digits + more}f}" for value in (after, before)]
        if texts[0] != texts[1]:
            break
    return f"{texts[0]} instead of {texts[1]} {unit}"


def effect_words(name: str, before: float, after: float) -> str:
    """Return what a change of a main measure means, in words.

    name: of EFFECTS; before, after: in the unit that the name states.

    >>> effect_words("knee_flexion_least_deg", 4.0, -6.6)
    'the knee is forced back beyond straight, by 6.6 deg'
    >>> effect_words("drop_off", 0.02, -0.05)
    'the body no longer drops but still climbs when the other foot comes'
    """
    digits = BY_NAME[name].digits
    ends = (round(before, digits), round(after, digits))
    if name == KNEE and min(ends) < 0.0:
        return _beyond_straight(*ends)
    if name == DROP and min(ends) < 0.0:
        return _climbing(*ends)
    return EFFECTS[name][0 if after > before else 1]


def _beyond_straight(before: float, after: float) -> str:
    """Return the words for a knee that passes straight under one alignment at least [deg]."""
    if after >= 0.0:
        return f"the knee is no longer forced back beyond straight, as it was by {-before:.1f} deg"
    if before >= 0.0:
        return f"the knee is forced back beyond straight, by {-after:.1f} deg"
    sense = "further" if after < before else "less far"
    return f"the knee is forced {sense} back beyond straight, by {two(-before, -after, 1, 'deg')}"


def _climbing(before: float, after: float) -> str:
    """Return the words for a hip that climbs when the other foot comes, with one at least [m/s]."""
    if after > 0.0:
        return "the body drops onto the other leg, where it still climbed"
    if before > 0.0:
        return "the body no longer drops but still climbs when the other foot comes"
    sense = "faster" if after < before else "more slowly"
    return f"the body still climbs when the other foot comes, {sense}"


def effects(
    base: StanceResult, other: StanceResult, spreads: Mapping[str, Spread]
) -> tuple[str, ...]:
    """Return what else changes by more than the errors leave unknown, and what by less.

    spreads: of each main measure's change under errors of measurement, by name.
    """
    large, small, plain = [], [], []
    for name in EFFECTS:
        before, after = base.measures[name], other.measures[name]
        change, measure, spread = after - before, BY_NAME[name], spreads.get(name)
        if not math.isfinite(change) or round(change, measure.digits) == 0.0:
            continue
        words = effect_words(name, before, after)
        told = f"{words} ({change:+.{measure.digits}f} {measure.unit})"
        if spread is None or not spread.known:
            plain.append(told)
        elif spread.told_apart:
            large.append(told)
        else:
            small.append(measure.title.replace(", ", " "))
    groups = (
        ("Also, by more than the errors leave unknown", "; ", large),
        ("By less than they leave unknown", ", ", small),
        ("Also, not held against errors", "; ", plain),
    )
    return tuple(f"{head}: {sign.join(parts)}." for head, sign, parts in groups if parts)
