"""What to look at on the wearer: which way of a measure is worse, and the sign that goes with it.

Common practice, in words of our own: what a fitter sees or asks during a trial walk.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Watching:
    """How a change of a measure shows on the wearer."""

    worse: int  # +1: more is worse; -1: less is worse
    falls: str  # what should be seen if it becomes less
    rises: str


def _more_is_worse(falls: str, rises: str) -> Watching:
    return Watching(worse=1, falls=falls, rises=rises)


def _less_is_worse(falls: str, rises: str) -> Watching:
    return Watching(worse=-1, falls=falls, rises=rises)


_KNEE_BENDS = _more_is_worse(
    "after heel contact the knee should bend more quietly, and the wearer should feel less pushed",
    "after heel contact the knee should be bent harder; ask whether the thigh tires",
)
_KNEE_BACK = _more_is_worse(
    "before the heel rises the knee should not be pressed back as hard; watch it from the side",
    "before the heel rises the knee should be pressed back harder; watch that it does not go past "
    "straight",
)
WATCHING = {
    "knee_flexion_moment_peak_nm": _KNEE_BENDS,
    "knee_flexion_moment_peak_nm_kg": _KNEE_BENDS,
    "knee_extension_moment_peak_nm": _KNEE_BACK,
    "knee_extension_moment_peak_nm_kg": _KNEE_BACK,
    "knee_flexion_loading_deg": Watching(
        worse=0,
        falls="after heel contact the knee should bend less far; a film from the side shows it",
        rises="after heel contact the knee should bend further; a film from the side shows it",
    ),
    "knee_flexion_least_deg": _less_is_worse(
        "the knee should come nearer to straight, or go further past it, in mid-stance",
        "the knee should stay a little more bent in mid-stance",
    ),
    "socket_flexion_moment_peak_nm": _more_is_worse(
        "after loading the socket should press less in front at the brim and behind at the end: "
        "look at the skin and ask",
        "after loading the socket should press more in front at the brim and behind at the end: "
        "look at the skin and ask",
    ),
    "socket_extension_moment_peak_nm": _more_is_worse(
        "late in the step the socket should press less behind at the brim and in front at the end: "
        "look at the skin and ask",
        "late in the step the socket should press more behind at the brim and in front at the end: "
        "look at the skin and ask",
    ),
    "forward_thrust": _more_is_worse(
        "from heel contact to foot flat the shank should come forward more slowly",
        "from heel contact to foot flat the shank should come forward faster",
    ),
    "drop_off": _more_is_worse(
        "the step onto the other leg should be softer, both steps nearer to each other in length",
        "the step onto the other leg should be harder, and the sound step shorter",
    ),
    "speed_change_m_s": _less_is_worse(
        "the wearer should lose pace over the forefoot",
        "the wearer should come over the forefoot with less effort and keep the pace",
    ),
    "hip_rise_mm": _more_is_worse(
        "the hip should rise less over the prosthesis; look at the belt line from the front",
        "the hip should rise more over the prosthesis; look at the belt line from the front",
    ),
    "heel_off_s": Watching(
        worse=0,
        falls="the heel should rise earlier; a film from the side shows it",
        rises="the heel should rise later; a film from the side shows it",
    ),
    "foot_flat_s": Watching(
        worse=0,
        falls="the sole should be flat on the floor sooner; a film from the side shows it",
        rises="the sole should be flat on the floor later; a film from the side shows it",
    ),
    "stance_time_s": Watching(
        worse=0,
        falls="the wearer should stand on the prosthesis for a shorter time; a film shows it",
        rises="the wearer should stand on the prosthesis for a longer time; a film shows it",
    ),
    "toe_lever_mm": Watching(
        worse=0,
        falls="the wearer should come over the toe sooner",
        rises="the toe should carry longer before the step ends",
    ),
    "utilised_friction": _more_is_worse(
        "the shoe should need less grip", "the shoe should need more grip: try on a safe floor"
    ),
    "backward_margin_min_mm": _less_is_worse(
        "the wearer should feel nearer to falling back in mid-stance",
        "the wearer should feel safer from falling back in mid-stance",
    ),
}

# By how much a measure must change before it is noticed without instruments, in the unit of its
# name: the project's own and assumed.
VISIBLE = {
    "heel_off_s": 0.025,
    "foot_flat_s": 0.025,
    "stance_time_s": 0.03,
    "knee_flexion_loading_deg": 3.0,
    "knee_flexion_least_deg": 3.0,
    "forward_thrust": 4.0,
    "drop_off": 0.04,
    "hip_rise_mm": 8.0,
    "knee_flexion_moment_peak_nm": 4.0,
    "knee_extension_moment_peak_nm": 5.0,
    "speed_change_m_s": 0.03,
}
