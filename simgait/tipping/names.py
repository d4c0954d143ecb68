"""The quantities and endings of tipping: name, unit, definition, and a sentence for everybody."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.library.strengths import TippingHabit
from simgait.units import degrees_from_radians

STAYS, STEPS = "stays", "steps_needed"
FORWARD, BACKWARD, FOLDS = "falls_forward", "falls_backward", "knee_folds"
SLIDES = "feet_slide"
NOT_REACHED = "not_reached"  # the largest trial is stood as well

ENDINGS = {
    STAYS: "stays where the feet are",
    STEPS: "a step is needed, and one would do",
    FORWARD: "falls forward, farther than one step reaches",
    BACKWARD: "falls backward, farther than one step reaches",
    FOLDS: "a knee folds",
    SLIDES: "a foot slides away",
    NOT_REACHED: "stands even the largest that is tried",
}


@dataclass(frozen=True, kw_only=True)
class Trial:
    """One way of disturbing a standing wearer; ``name`` ends in its unit."""

    name: str
    unit: str
    title: str
    sense: float  # +1 tips forward, -1 backward
    largest: float  # that is tried, in the unit
    guess: float  # at which it is looked for first, in the unit
    definition: str


TRIALS = (
    Trial(
        name="forward_push_ns",
        unit="N s",
        title="push forward",
        sense=1.0,
        largest=150.0,
        guess=18.0,
        definition="Smallest short push on the trunk from behind at which the feet cannot stay.",
    ),
    Trial(
        name="backward_push_ns",
        unit="N s",
        title="push backward",
        sense=-1.0,
        largest=150.0,
        guess=11.0,
        definition="The same from ahead.",
    ),
    Trial(
        name="down_slope_deg",
        unit="deg",
        title="slope down",
        sense=1.0,
        largest=30.0,
        guess=16.0,
        definition="Smallest slope falling away ahead, come up within a while, on which the feet "
        "cannot stay.",
    ),
    Trial(
        name="up_slope_deg",
        unit="deg",
        title="slope up",
        sense=-1.0,
        largest=30.0,
        guess=9.0,
        definition="The same for a slope that rises ahead.",
    ),
    Trial(
        name="toe_obstacle_mm",
        unit="mm",
        title="something under the forefoot",
        sense=-1.0,
        largest=25.0,
        guess=9.0,
        definition="Smallest board under the prosthesis' sole ahead of the ankle, stepped onto "
        "within a while, on which the feet cannot stay.",
    ),
    Trial(
        name="heel_obstacle_mm",
        unit="mm",
        title="something under the heel",
        sense=1.0,
        largest=25.0,
        guess=25.0,
        definition="The same behind the ankle.",
    ),
)
BY_NAME = {trial.name: trial for trial in TRIALS}


def assumptions(habit: TippingHabit) -> tuple[str, ...]:
    """Return what the scenes of tipping assume, in sentences."""
    folded = degrees_from_radians(habit.folded_knee)
    return (
        "The wearer starts as `stand` finds both feet, and keeps that posture: hips and knees pull "
        "back to it up to their greatest moments, on the prosthesis' side as the wearer's strength "
        "says, on the sound side as in an able-bodied adult. On a slope, which comes up within "
        "6 s, the posture follows as `stand` finds it there.",
        "The sound ankle alone moves the pressure, hardly delayed and as far as its foot reaches; "
        "no arms are swung, nothing is grasped, nobody leans into a push. Real wearers are slower "
        "and cleverer.",
        f"A step takes {habit.step_time:.2g} s and recovers {habit.step_reach:.2g} leg lengths "
        f"beyond the foot (from memory); a knee bent {folded:.0f} degrees "
        "farther than its muscles aim at counts as folded, a foot that has slid 30 mm as sliding.",
        "Slopes: `stand` asks when the body tips that is held where it stood over the feet; here "
        "it leans uphill and the posture follows. Whoever plans a trial takes the smaller of both.",
        "Drawn pushes: the share counts every draw in which the feet do not stay, also those that "
        "a step recovers. All alignments meet the same draws: compare them by the draws in which "
        "only one of two does not stay; the interval is that of each alone.",
        "The trunk is one rigid body; both feet stand side by side; friction as in the case.",
    )
