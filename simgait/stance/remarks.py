"""What should make a reader doubt that a wearer would keep the strategy in a run.

The bounds are the project's own (assumed, no publication): beyond them a run that ends normally is
still no walk to aim for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from simgait.limb import Limb
from simgait.units import mm_from_metres

ROUNDING_MM = 1e-6
MOST_HEEL_MM = 20.0  # between the shoe's heel and the one that the foot is built for
HEEL_SENTENCE = "the shoe's heel is {value} mm from what the foot is built for"
# Above the 5 mm that below-knee wearers tolerate (Friberg 1984, published) and near the 3 % of the
# limb under which no compensation was seen (Song, Halliday, Little 1997, published); assumed.
MOST_LENGTH_MM = 20.0  # between the prosthesis and level with the sound side
LENGTH_SENTENCE = "the prosthesis is {value} mm from level with the sound side"
ENDED_SENTENCE = "ended otherwise than by toe-off: {value}"


@dataclass(frozen=True, kw_only=True)
class Bound:
    """What a run must not exceed: the largest of some measures, each taken with a sign."""

    measures: tuple[tuple[float, str], ...]  # sign and name, in the unit of the name
    most: float
    sentence: str  # {value} stands for what was found, in whole units


BOUNDS = (
    Bound(
        measures=((-1.0, "knee_flexion_least_deg"),),
        most=5.0,
        sentence="the knee is forced {value} deg back beyond straight",
    ),
    Bound(
        measures=((1.0, "force_up_peak_bw"),),
        most=1.4,
        sentence="the vertical force is far above walking's",
    ),
    Bound(
        measures=((1.0, "speed_change_m_s"), (-1.0, "speed_change_m_s")),
        most=0.15,
        sentence="the pace is not kept",
    ),
    Bound(
        measures=((1.0, "drop_off"),),
        most=0.35,
        sentence="the body drops hard onto the other leg",
    ),
    Bound(
        measures=(
            (1.0, "socket_flexion_moment_peak_nm"),
            (1.0, "socket_extension_moment_peak_nm"),
        ),
        most=60.0,
        sentence="the socket levers on the limb with {value} N m",
    ),
)


def remarks_on(limb: Limb, ending: str, measures: Mapping[str, float]) -> tuple[str, ...]:
    """Return one sentence for each bound that a run exceeds; none for a run within them.

    limb: as simulated; ending: its name; measures: by name, in the units that their names state.
    """
    found = []
    heel = mm_from_metres(limb.alignment.heel_rise - limb.foot.heel_rise)
    if abs(heel) > MOST_HEEL_MM:
        found.append(HEEL_SENTENCE.format(value=f"{heel:+.0f}"))
    length = mm_from_metres(limb.alignment.length_change)
    if abs(length) > MOST_LENGTH_MM + ROUNDING_MM:
        found.append(LENGTH_SENTENCE.format(value=f"{length:+.0f}"))
    if ending != "toe_off":
        return (*found, ENDED_SENTENCE.format(value=ending.replace("_", " ")))
    for bound in BOUNDS:
        value = max(sign * measures[name] for sign, name in bound.measures)
        if value > bound.most:
            found.append(bound.sentence.format(value=f"{value:.0f}"))
    return tuple(found)
