"""Comparisons with general-purpose engines: the same limb, moved by somebody else's mechanics."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from typing import Any

from agreement import Comparison, Got
from mujoco_stand import Rest, standing_in_mujoco
from simgait.stance import StanceResult, simulate_stance_in_bodies
from simgait.standing import Standing
from standers import FEET, stands
from walkers import WEARERS, stance_of, walker

TOPIC, STANDING_TOPIC = "Stance in a second engine", "Standing in a second engine"
KNEE = {"bending": "knee_flexion_moment_peak", "straightening": "knee_extension_moment_peak"}
SOCKET = {"flexing": "socket_flexion_moment_peak", "extending": "socket_extension_moment_peak"}


@cache
def second_stance(name: str) -> StanceResult:
    """Return the stance of a wearer as fitted, its chain moved by pymunk."""
    return simulate_stance_in_bodies(walker(name))


def moment_gaps(measure: str) -> tuple[float, ...]:
    """Return by how much pymunk's moment is larger, for every wearer [%]."""
    name = f"{measure}_nm"
    return tuple(
        100.0 * (second_stance(w).measures[name] / stance_of(w).measures[name] - 1.0)
        for w in WEARERS
    )


def time_gaps(measure: str) -> tuple[float, ...]:
    """Return by how much pymunk's peak is later, for every wearer [% of stance]."""
    name = f"{measure}_percent"
    return tuple(second_stance(w).measures[name] - stance_of(w).measures[name] for w in WEARERS)


def length_gaps() -> tuple[float, ...]:
    """Return by how much pymunk's stance is longer, for every wearer [% of stance]."""
    return tuple(100.0 * (second_stance(w).end_time / stance_of(w).end_time - 1.0) for w in WEARERS)


@cache
def pairs() -> tuple[tuple[Standing, Rest], ...]:
    """Return each foot standing on the prosthesis alone, by statics and as MuJoCo has it."""
    return tuple((stands(foot)[1], standing_in_mujoco(stands(foot)[1])) for foot in FEET)


def standing_gaps(read: Callable[[Standing, Rest], float]) -> tuple[float, ...]:
    """Return the ends over the feet of what is read off a standing limb and MuJoCo's."""
    found = [read(way, rest) for way, rest in pairs()]
    return min(found), max(found)


def heel_share_gap(way: Standing, rest: Rest) -> float:
    """Return by how much larger a share MuJoCo's heel carries [% of the load]."""
    heel = rest.force[way.stance.pieces.along < 0.0].sum() / rest.force.sum()
    return 100.0 * float(heel - way.measures["heel_share"])


def moment_gap(joint: str) -> Callable[[Standing, Rest], float]:
    """Return the reader of MuJoCo's moment less the package's at knee or socket [N m]."""

    def read(way: Standing, rest: Rest) -> float:
        return getattr(rest, f"{joint}_moment") - way.measures[f"{joint}_flexion_moment_nm"]

    return read


def engine(source: str, place: str, printed: str, got: Got, half: float, **more: Any) -> Comparison:
    """Return a comparison with an engine: a difference, which may be `half` to each side."""
    usual = {"topic": TOPIC, "grade": "measured", "kind": "engine", "digits": 2, "unit": "%"}
    return Comparison(
        source=source, place=place, printed=printed, got=got, low=-half, high=half,
        **{**usual, **more},
    )  # fmt: skip


ENGINES = (
    *(
        engine(
            "pymunk", f"peak {sense} moment of the {joint}, difference", "0",
            partial(moment_gaps, measure), 3.0,
        )
        for joint, senses in (("knee", KNEE), ("socket", SOCKET))
        for sense, measure in senses.items()
    ),
    *(
        engine(
            "pymunk", f"time of the peak {sense} moment of the knee, difference", "0",
            partial(time_gaps, measure), 2.0, unit="% of stance",
        )
        for sense, measure in KNEE.items()
    ),
    engine("pymunk", "length of stance, difference", "0", length_gaps, 2.0, unit="% of stance"),
    engine(
        "mujoco", "share of the load behind the ankle, difference, every foot", "0",
        partial(standing_gaps, heel_share_gap), 0.06, unit="% of the load", topic=STANDING_TOPIC,
        note="on the prosthesis alone; least and most; MuJoCo has the sole's law as chords",
    ),
    *(
        engine(
            "mujoco", f"moment of the {joint}, difference, every foot", "0",
            partial(standing_gaps, moment_gap(joint)), 0.03, unit="N m", topic=STANDING_TOPIC,
            note="the same",
        )
        for joint in ("knee", "socket")
    ),
)  # fmt: skip
