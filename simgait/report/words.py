"""What changes and why, in words that follow from the numbers and from nothing else.

Every verb is chosen by the sign of what it speaks of, and every number is printed beside it.  No
sentence says which alignment is better.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from simgait.report.causes import PARTS, Instant, instant_of, parts_of_change
from simgait.report.effects import effects, two
from simgait.stance import StanceResult
from simgait.stance.uncertainty import Spread
from simgait.symbols import ENDING_SENTENCES
from simgait.units import degrees_from_radians, mm_from_metres

KNEE_SIDES = ("ahead of the knee", "behind the knee")
CLOSE = 0.003  # [N m/kg] between a peak and the curve at its instant
WORTH_NAMING = 0.12  # share of all causes' sizes under which one is not named


@dataclass(frozen=True, kw_only=True)
class Moment:
    """One of the two peaks of the knee's moment that the words explain."""

    measure: str  # per body mass
    when: str  # its own measure [% of stance]
    sense: float  # +1: the external flexion moment, -1: the extension moment
    place: str
    noun: str


MOMENTS = (
    Moment(
        measure="knee_flexion_moment_peak_nm_kg",
        when="knee_flexion_moment_peak_percent",
        sense=1.0,
        place="At loading",
        noun="the moment that bends the knee",
    ),
    Moment(
        measure="knee_extension_moment_peak_nm_kg",
        when="knee_extension_moment_peak_percent",
        sense=-1.0,
        place="Late in the step",
        noun="the moment that forces the knee back",
    ),
)

# attribute of an alignment in its written form: words for plus and for minus
SETTING_WORDS = {
    "foot_forward_mm": ("foot {} mm further forward", "foot {} mm further back"),
    "dorsiflexion_deg": ("toe {} deg further up", "toe {} deg further down"),
    "socket_flexion_deg": ("socket {} deg more flexed", "socket {} deg less flexed"),
    "length_change_mm": ("{} mm longer", "{} mm shorter"),
    "heel_rise_mm": ("heel of the shoe {} mm higher", "heel of the shoe {} mm lower"),
}


def sided(before: float, after: float, sides: tuple[str, str], digits: int, unit: str) -> str:
    """Return two values with the words for their sign, + first.

    >>> sided(63.0, 69.0, ("ahead", "behind"), 0, "mm"), sided(-4.0, 5.0, ("ahead", "behind"), 0,
    ...     "mm")
    ('69 instead of 63 mm ahead', '5 mm ahead instead of 4 mm behind')
    """
    here, there = (sides[0] if value >= 0.0 else sides[1] for value in (after, before))
    if here == there:
        return f"{two(abs(before), abs(after), digits, unit)} {here}"
    return (
        f"{abs(after):.{digits}f} {unit} {here} instead of {abs(before):.{digits}f} {unit} {there}"
    )


def further(change: float) -> str:
    """Return a shift [m] in mm with the word for its sense, + forward.

    >>> further(-0.003), further(0.0002)
    ('3 mm further back', 'where it was')
    """
    size = f"{mm_from_metres(abs(change)):.0f}"
    if size == "0":
        return "where it was"
    return f"{size} mm further {'forward' if change > 0.0 else 'back'}"


def _pressure(before: Instant, after: Instant) -> str:
    where = sided(-mm_from_metres(before.ahead), -mm_from_metres(after.ahead), KNEE_SIDES, 0, "mm")
    ankle = (after.ankle_ahead - after.ahead) - (before.ankle_ahead - before.ahead)
    on_foot = before.ankle_ahead - after.ankle_ahead
    return (
        f"the pressure under the foot lies {where} (seen from the knee the ankle "
        f"lies {further(ankle)}, seen from the ankle the pressure lies {further(on_foot)})"
    )


def _lean(before: Instant, after: Instant) -> str:
    degrees = [degrees_from_radians(instant.lean) for instant in (before, after)]
    return f"the force leans {sided(degrees[0], degrees[1], ('forward', 'back'), 1, 'deg')}"


def _height(before: Instant, after: Instant) -> str:
    heights = (mm_from_metres(before.height), mm_from_metres(after.height))
    return f"the knee is {two(*heights, 0, 'mm')} above the floor"


def _force(before: Instant, after: Instant) -> str:
    word = "larger" if after.force >= before.force else "smaller"
    return f"the force is {word} ({two(before.force, after.force, 0, 'N')})"


def _rest(before: Instant, after: Instant) -> str:
    sense = "bending" if after.rest >= before.rest else "straightening"
    return f"weight and inertia of the leg below the knee act more in the {sense} sense"


CAUSE_WORDS: dict[str, Callable[[Instant, Instant], str]] = dict(
    zip(PARTS, (_pressure, _lean, _height, _force, _rest), strict=True)
)


def change_words(base: StanceResult, other: StanceResult) -> str:
    """Return what was set differently, in words; "no change" if nothing was.

    base, other: two stances of one case.
    """
    before, after = base.alignment.as_written(), other.alignment.as_written()
    found = []
    for name, (plus, minus) in SETTING_WORDS.items():
        change = round(after[name] - before[name], 6)
        if change:
            found.append((plus if change > 0.0 else minus).format(f"{abs(change):g}"))
    return ", ".join(found) or "no change"


def sentences(
    base: StanceResult, other: StanceResult, spreads: Mapping[str, Spread]
) -> tuple[str, ...]:
    """Return what another alignment changes and why, a sentence or two for each moment.

    spreads: of each main measure's change under errors of measurement, by name.
    """
    for run, which in ((base, "The baseline"), (other, "This stance")):
        if run.ending != "toe_off":
            words = ENDING_SENTENCES[run.ending]
            return (
                f"{which} did not end at the toe: {run.ending.replace('_', ' ')} after "
                f"{run.end_time:.2f} s. {words} It has no measures, so nothing is compared.",
            )
    told = [sentence for moment in MOMENTS for sentence in explained(moment, base, other, spreads)]
    return (*told, *effects(base, other, spreads))


def explained(
    moment: Moment, base: StanceResult, other: StanceResult, spreads: Mapping[str, Spread]
) -> tuple[str, ...]:
    """Return how one peak of the knee's moment changes, and what makes it change."""
    before, after = base.measures[moment.measure], other.measures[moment.measure]
    if not (math.isfinite(before) and math.isfinite(after)):
        return ()
    percents = [run.measures[moment.when] for run in (base, other)]
    when = f" ({percents[1]:.0f} % of stance)" if round(after, 3) > 0.0 else ""
    head = f"{moment.place}{when} {_course(moment, before, after)}"
    doubt = _doubt(spreads.get(moment.measure)) if round(before, 3) != round(after, 3) else ""
    instants = [instant_of(run, at) for run, at in zip((base, other), percents, strict=True)]
    if not (_shows(moment, instants[0], base) and _shows(moment, instants[1], other)):
        return (f"{head}{doubt}.",)
    assert instants[0] is not None and instants[1] is not None
    why = reasons(instants[0], instants[1], moment.sense, base.mass)
    return (f"{head}{doubt}. {why}",)


def _shows(moment: Moment, instant: Instant | None, run: StanceResult) -> bool:
    """Return whether an instant has the moment that the measure states: a peak that never comes is
    stated as nothing, and then no instant explains it."""
    if instant is None:
        return False
    stated = run.measures[moment.measure]
    return abs(moment.sense * instant.moment / run.mass - stated) <= CLOSE


def _course(moment: Moment, before: float, after: float) -> str:
    """Return how a peak goes from one value to another [N m/kg]."""
    change = after - before
    if round(max(before, after), 3) <= 0.0:
        return f"{moment.noun} is nothing, as in the baseline"
    if round(before, 3) == round(after, 3):
        return f"{moment.noun} stays at {after:.3f} N m/kg"
    if round(after, 3) <= 0.0:
        return f"{moment.noun} falls from {before:.3f} N m/kg to nothing"
    verb = "grows" if change > 0.0 else "falls"
    share = f", {100.0 * change / before:+.0f} %" if before > 0.02 else ""
    return f"{moment.noun} {verb} from {before:.3f} to {after:.3f} N m/kg{share}"


def _doubt(spread: Spread | None) -> str:
    if spread is None or not spread.known:
        return ""
    if spread.told_apart:
        return ", more than the errors of measurement leave unknown"
    if spread.sense_sure:
        return ", surely in this sense, but by less than the errors leave unknown of the value"
    return ", which the errors of measurement could turn round"


def reasons(before: Instant, after: Instant, sense: float, mass: float) -> str:
    """Return the causes of a change of the knee's moment, largest first, with what each adds.

    sense: +1 for the moment that bends, -1 for the one that forces back; mass: of the body [kg].
    """
    shares = {name: sense * part / mass for name, part in parts_of_change(before, after).items()}
    total, sizes = sum(shares.values()), sum(map(abs, shares.values()))
    named = [
        name
        for name in sorted(shares, key=lambda name: -abs(shares[name]))
        if abs(shares[name]) > WORTH_NAMING * sizes and round(shares[name], 3) != 0.0
    ]

    def told(names: list[str]) -> str:
        return "; ".join(
            f"{CAUSE_WORDS[name](before, after)} ({shares[name]:+.3f})" for name in names
        )

    with_it = [name for name in named if shares[name] * total > 0.0]
    against = [name for name in named if name not in with_it]
    lever = sided(-mm_from_metres(before.lever), -mm_from_metres(after.lever), KNEE_SIDES, 0, "mm")
    line = f"The force passes {lever}."
    if not named:
        return line
    if not with_it:
        return f"{line} Nearly in balance: {told(named)}."
    because = f"{line} Why: {told(with_it)}"
    return f"{because}. Against this: {told(against)}." if against else f"{because}."
