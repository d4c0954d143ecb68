"""The quantities of standing: name, unit, sign, definition, and a sentence for everybody."""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.library.strengths import StandingHabit

GUARDS = "Nobody is ever pushed or put on a slope to try this without guards."


@dataclass(frozen=True, kw_only=True)
class Quantity:
    """One number of standing; ``name`` ends in its unit where it has one."""

    name: str
    unit: str
    title: str
    definition: str
    sentence: str


def assumptions(habit: StandingHabit) -> tuple[str, ...]:
    """Return what the statics of standing assume, in sentences."""
    bent, height = math.degrees(habit.knee_flexion), habit.centre_height
    return (
        "The body stands over the same place of the foot whatever is changed: the one at which, "
        f"at bench alignment on level floor, the knee is bent by the chosen {bent:.3g} degrees.",
        "The rest of the body balances above the hip without effort of the hip's muscles.",
        "Both feet: hips at one fore-aft place, ankles side by side, the load shared equally, or "
        "less on the prosthesis where its knee could not hold that for minutes.",
        "Where knee or hip could not hold the place for minutes, or the knee would be bent beyond "
        f"{math.degrees(habit.deepest_knee):.3g} degrees, the body moves to the nearest place "
        "where they can.",
        f"Tipping: the body's centre is held where it stood, at {height:.3g} of stature; the "
        "prosthesis' foot, the knee and the hip may be used up to their greatest moments, the "
        "other ankle without limit.",
        "The strengths are invented round figures unless the wearer's own are entered.",
    )


def _quantity(name: str, unit: str, title: str, definition: str, sentence: str) -> Quantity:
    return Quantity(name=name, unit=unit, title=title, definition=definition, sentence=sentence)


AGREED = (
    _quantity(
        "load_line_ahead_of_knee_mm", "mm", "load line ahead of the knee",
        "From the knee axis forward to the line of the floor's force on the prosthesis.",
        "Ahead of the knee, standing keeps it straight; behind, it tends to fold.",
    ),
    _quantity(
        "load_line_ahead_of_ankle_mm", "mm", "load line ahead of the ankle",
        "The same from the ankle axis.",
        "How far forward on the foot the wearer stands.",
    ),
    _quantity(
        "knee_flexion_moment_nm", "N m", "knee flexion moment",
        "External moment of floor and weights about the knee; + bends it.",
        "What the thigh muscles must hold if it is above nothing.",
    ),
    _quantity(
        "socket_flexion_moment_nm", "N m", "socket flexion moment",
        "External moment of floor and weights about the middle of the enclosed limb; + in the "
        "sense that bends the knee.",
        "How the socket levers on the limb while standing.",
    ),
    _quantity(
        "prosthesis_load_share", "1", "load on the prosthesis",
        "Share of the body weight on the prosthesis.",
        "Half is equal; less where the knee could not hold half.",
    ),
    _quantity(
        "forward_reserve_mm", "mm", "reserve to the toe end",
        "Toe end of the carrying sole less the pressure point, along the sole.",
        "How far the load may still move forward on the foot.",
    ),
    _quantity(
        "backward_reserve_mm", "mm", "reserve to the heel end",
        "Pressure point less the heel end of the carrying sole, along the sole.",
        "How far the load may still move back.",
    ),
    _quantity(
        "tips_forward_slope_deg", "deg", "tips forward on a slope of",
        "Slope falling away ahead beyond which nothing balances, the body held where it stood.",
        "A ramp down that steep tips the wearer forward who does not lean into it.",
    ),
    _quantity(
        "tips_backward_slope_deg", "deg", "tips backward on a slope of",
        "The same for a slope that rises ahead.",
        "A ramp up that steep tips the wearer backward who does not lean into it.",
    ),
    _quantity(
        "tips_forward_push_n", "N", "tips forward when pushed with",
        "Steady level push forward at the body's centre beyond which nothing balances.",
        "A steady push from behind that the stand does not bear.",
    ),
    _quantity(
        "tips_backward_push_n", "N", "tips backward when pushed with",
        "The same backward.",
        "A steady push from ahead that the stand does not bear.",
    ),
    _quantity(
        "pelvic_tilt_deg", "deg", "pelvic tilt",
        "asin(length mismatch / distance of the hip axes), both legs straight; + prosthesis side "
        "higher. Both feet only; what a bent knee lowers is told as hip below the sound side's.",
        "How far the pelvis tips: plus where the prosthesis is too long, minus where too short.",
    ),
    _quantity(
        "heel_mismatch_deg", "deg", "heel mismatch",
        "atan of the heel's height over that of the foot's own, over 0.70 of the foot's length; "
        "+ drives the knee forward.",
        "How far a shoe's heel tips the shank off what the foot was built for: plus forward, minus "
        "back.",
    ),
)  # fmt: skip

FURTHER = (
    _quantity(
        "load_line_ahead_of_hip_mm", "mm", "load line ahead of the hip",
        "The same from the hip axis.",
        "Near nothing when the hip is at rest; the leg's own weight makes the difference.",
    ),
    _quantity(
        "load_line_ahead_of_socket_mm", "mm", "load line ahead of the socket",
        "The same from the middle of the enclosed limb.",
        "Where the load passes the socket.",
    ),
    _quantity(
        "heel_share", "1", "load behind the ankle",
        "Share of the prosthesis' load carried behind the ankle axis.",
        "How much of it the heel carries.",
    ),
    _quantity(
        "forefoot_share", "1", "load ahead of the ankle",
        "Share of the prosthesis' load carried ahead of the ankle axis.",
        "How much of it the forefoot carries.",
    ),
    _quantity(
        "knee_effort_percent", "%", "knee effort",
        "Knee flexion moment over the greatest extending moment of its muscles; nothing while "
        "ligaments hold.",
        "How hard the thigh works to stand.",
    ),
    _quantity(
        "hip_effort_percent", "%", "hip effort",
        "Size of the hip's moment over its greatest.",
        "How hard the hip works to stand.",
    ),
    _quantity(
        "knee_flexion_deg", "deg", "knee flexion",
        "Lean of the residual limb less lean of the thigh.",
        "How far the knee stands bent; below nothing it is past straight.",
    ),
    _quantity(
        "shank_lean_deg", "deg", "shank lean",
        "Lean of the residual limb from the vertical; + knee ahead.",
        "How far the shank stands tipped forward.",
    ),
    _quantity(
        "knee_driven_forward_mm", "mm", "knee driven forward by the heel",
        "Load line ahead of the knee with the heel that the foot was built for, less that with "
        "this one.",
        "How far the shoe's heel brings the knee towards folding.",
    ),
    _quantity(
        "hip_below_level_mm", "mm", "hip below the sound side's",
        "Height of the hip above a straight sound leg's sole less its height on the prosthesis, "
        "with foot and socket yielding and the knee as it stands.",
        "How far the prosthesis' side sinks in when loaded.",
    ),
)  # fmt: skip

QUANTITIES = AGREED + FURTHER
BY_NAME = {quantity.name: quantity for quantity in QUANTITIES}

ENDINGS = {
    "stands": "stands",
    "knee_gives_way": "cannot stand so: nowhere over the foot can the knee be held for minutes",
    "hip_gives_way": "cannot stand so: nowhere over the foot can the hip be held for minutes",
    "knee_too_bent": "cannot stand so: foot and heel take the knee farther than anybody stands",
    "sole_end": "the load reaches the end of the sole",
    "slides": "the shoe slides",
}
LIMITS = {
    "sole_end": "the load reaches the end of the sole",
    "knee_gives_way": "the knee gives way",
    "hip_gives_way": "the hip gives way",
    "slides": "the shoe slides",
}
