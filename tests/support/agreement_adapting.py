"""Comparisons of a wearer who adapts with what is published of compensating: angle against shift.

Kobayashi et al. 2014: the impulse of the socket's sagittal moment follows the foot's shift, and not
evidently its angle, so wearers compensate angle.  What counts as one in the wearer's sum of squares
(`simgait.stance.kept_walk.USUAL`) was set before any of these was looked at.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

from adapting_walkers import (
    ANGLES,
    SHIFTS,
    WALKING_CASES,
    changes,
    measure,
    removed,
    socket_impulse,
)
from agreement import Comparison, Got
from agreement_effects import SENSES, TRANSTIBIAL
from walkers import WEARERS

TOPIC = "A wearer who adapts"
SHIFT, ANGLE = ("foot_forward", SHIFTS[1]), ("dorsiflexion", ANGLES[1])
HEIGHT = 0.30  # [m] at which an angle that nobody compensates moves the contact by height x angle


def falls_with_shift() -> tuple[float, ...]:
    """Return how much the adapting wearers' socket impulse falls over the shifts [N m s]."""
    return tuple(-changes(name, *SHIFT, socket_impulse)[1] for name in WEARERS)


def angle_over_shift(names: tuple[str, ...]) -> tuple[float, ...]:
    """Return what angles do to the socket impulse over what shifts do, wearers adapting [1]."""
    return tuple(
        abs(changes(name, *ANGLE, socket_impulse)[1] / changes(name, *SHIFT, socket_impulse)[1])
        for name in names
    )


def more_removed(names: tuple[str, ...]) -> tuple[float, ...]:
    """Return the share that adapting removes of an angle's effect less that of a shift's [1]."""
    return tuple(removed(name, *ANGLE) - removed(name, *SHIFT) for name in names)


def socket_changes(what: str, by: float, turn: float) -> tuple[float, ...]:
    """Return how much each of three socket moments moves in the sense expected [N m].

    turn: 1 where greatest, least and 45 % moment rise from -by to by, -1 where they fall.
    """
    return tuple(
        turn * sense * changes(name, what, by, measure(read))[1]
        for name in TRANSTIBIAL
        for read, _, sense in SENSES
    )


def of_statics(adapts: bool) -> tuple[float, ...]:
    """Return what is left of an angle's static effect over what is left of a shift's [1]."""
    found = []
    for name in WEARERS:
        angle = abs(changes(name, *ANGLE, socket_impulse)[adapts]) / (HEIGHT * ANGLE[1])
        shift = abs(changes(name, *SHIFT, socket_impulse)[adapts]) / SHIFT[1]
        found.append(angle / shift)
    return tuple(found)


def line(
    place: str, printed: str, got: Got, band: tuple[float, float], note: str, **more: object
) -> Comparison:
    """Return a comparison with Kobayashi et al. 2014."""
    usual = {"unit": "1", "digits": 2, **more}
    return Comparison(
        topic=TOPIC, source="kobayashi-2014", place=place, printed=printed, got=got,
        low=band[0], high=band[1], grade="published", kind="predicted", note=note, **usual,
    )  # fmt: skip


MORE = "share of the strategy-kept change of the socket moment's impulse that adapting removes, "
NOT_EVIDENTLY = "follows shift, not evidently angle"
ADAPTING = (
    line(
        "wearer adapts: the socket moment's impulse falls as the foot goes from 10 mm back to 10 "
        "mm forward",
        "follows shift", falls_with_shift, (0.5, math.inf),
        "no size is printed; 0.5 N m s is this page's own threshold", unit="N m s", digits=1,
    ),
    line(
        MORE + "6 deg less 10 mm, wearers", "angle compensated",
        partial(more_removed, WEARERS), (0.0, math.inf),
        "the sense is right, the size next to nothing: holding speed and shank takes neither away",
    ),
    line(
        MORE + "6 deg less 10 mm, walking cases", "angle compensated",
        partial(more_removed, WALKING_CASES), (0.0, math.inf),
        "in the order " + ", ".join(WALKING_CASES) + ": the heavy worker, whose foot is stiff and "
        "long, pays more for holding the walk against an angle than against a shift", agrees=False,
    ),
    line(
        "wearer adapts: effect of 6 deg on the socket moment's impulse over that of 10 mm",
        NOT_EVIDENTLY, partial(angle_over_shift, WEARERS), (0.0, 0.5),
        "half is this page's own threshold; the model's wearer holds the walk, and the socket "
        "carries what that takes, whether a shift or an angle asks for it", agrees=False,
    ),
    *(
        replace(
            line(
                f"wearer adapts: foot {words} moves the socket moment: greatest, least, at 45 %",
                "significant", partial(socket_changes, *step, turn), (1.0, math.inf),
                "no size is printed; 1 N m and the sense are this page's own", unit="N m", digits=1,
            ),
            source="boone-2013",
        )
        for words, step, turn in (
            ("from 10 mm back to 10 mm forward", SHIFT, -1.0),
            ("from 6 deg down to 6 deg up", ANGLE, 1.0),
        )
    ),
    *(
        line(
            f"wearer {word}: what is left of height x angle (0.30 m, 6 deg) over what is left of a "
            "shift (10 mm), impulse of the socket moment",
            NOT_EVIDENTLY, partial(of_statics, adapts), (0.0, 1.0),
            "against a limb that leans with the foot, angle is made up for more than shift; this "
            "reading was added after the lines above were seen",
        )
        for word, adapts in (("keeps the strategy", False), ("adapts", True))
    ),
)  # fmt: skip
