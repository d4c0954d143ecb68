"""The generated parts of the guide's page on arms that move."""

from __future__ import annotations

import math

from making.text import shown, table
from simgait.arm.moving import ENDINGS, Lifted, PullHistory, lift_arm, swing_arm
from simgait.arm.running import work_arm
from simgait.case.arm_case import read_arm_case
from simgait.library import models_folder

CASE = models_folder() / "cases" / "arms" / "above-elbow.toml"
SHARES = (0.9, 1.1, 1.3, 1.6)  # of the peak pull of a slow lift
RISE = 0.5  # [s]


def lift_row(pull: float, lifted: Lifted) -> tuple[str, ...]:
    """Return one lift as a row."""
    return (
        shown(pull, 0),
        ENDINGS[lifted.ending],
        shown(lifted.time_to_end, 2),
        shown(lifted.peak_tip_speed, 1),
        shown(math.degrees(lifted.overshoot), 1) if lifted.ending == "lifted" else "-",
        shown(lifted.harness_work, 2),
        shown(lifted.load_gain, 2),
        shown(lifted.housing_loss, 2),
        shown(lifted.stop_loss, 2),
        shown(lifted.error_percent, 3),
    )


def lifts() -> str:
    """Return the lifts of the recommended position with several pulls."""
    result = work_arm(read_arm_case(CASE), 0)
    best = result.positions[result.recommended or 0]
    rows = []
    for share in SHARES:
        pull = share * best.peak_pull
        history = PullHistory(times=(0.0, RISE), pulls=(0.0, pull))
        lifted = lift_arm(result.arm, result.cable, history, guide=best.guide, loop=best.loop)
        rows.append(lift_row(pull, lifted))
    heads = (
        "pull, N", "ending", "time, s", "tip at most, m/s", "into the stop, degrees",
        "work put in, J", "load, J", "housing, J", "stop, J", "unexplained, %",
    )  # fmt: skip
    return (
        f"`{CASE.name}`, loop at {1000.0 * best.loop:.0f} mm; the pull rises within {RISE:g} s and "
        f"stays. The slow lift's peak is {best.peak_pull:.1f} N.\n\n" + table(heads, rows, right=8)
    )


def swings() -> str:
    """Return the periods of the arm swinging freely, straight and bent."""
    result = work_arm(read_arm_case(CASE), 0)
    best = result.positions[result.recommended or 0]
    rows = []
    for degrees in (0, 45, 90, 135):
        for lean in (5.0, 40.0):
            swung = swing_arm(
                result.arm, result.cable, guide=best.guide, loop=best.loop,
                lean=math.radians(lean), flexion=math.radians(degrees), elbow_locked=True,
            )  # fmt: skip
            rows.append(
                (
                    f"{degrees}", f"{lean:g}", shown(swung.period, 3), shown(swung.small_period, 3),
                )
            )  # fmt: skip
    heads = (
        "elbow locked at, degrees", "let go at, degrees", "period, s", "2π√(I/(m g c)), s",
    )  # fmt: skip
    return table(heads, rows, right=4)


def guide_parts() -> dict[str, str]:
    """Return the generated parts of the guide's page on arms that move."""
    return {"lifts": lifts(), "swings": swings()}
