"""What a picture of an arm shows, worked out beforehand: positions, points, the lift."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.arm.moving import Lifted, lift_arm, usual_history
from simgait.arm.names import LIFT_CAUTION
from simgait.arm.pose import ArmPose, arm_pose
from simgait.arm.provenance import arm_cautions, arm_version
from simgait.arm.result import ArmResult
from simgait.arm.statics import travel_wanted
from simgait.arrays import Array

MOST_SHOWN = 5  # positions whose curves are drawn
SAME = 1e-9  # [m] places closer than this are one
FOCUS = {
    "recommended": "recommended position",
    "as_made": "position as made; none fits",
    "lightest": "position with the lightest pull; none fits",
}


@dataclass(frozen=True, kw_only=True, eq=False)
class ArmSheet:
    """All that is drawn of an arm; nothing here has to be worked out by whoever draws."""

    result: ArmResult
    cautions: tuple[str, ...]
    version: str
    shown: tuple[int, ...]  # positions whose curves are drawn, by loop
    focus: int | None  # the position that is drawn to scale
    why: str | None  # one of FOCUS
    flexion: Array  # [3] [rad] beginning, middle and end of the range
    pose: ArmPose | None  # at these
    capacity: Array | None  # [flexions] [N] greatest pull at the focus
    easy: Array | None  # [flexions] [N] the share of it that does not tire
    lifting_limit: float | None  # [m] greatest excursion less what the device needs at the mouth
    lifted: Lifted | None  # the focus lifted with the usual pull

    @property
    def lift_cautions(self) -> tuple[str, ...]:
        """The cautions of the lift that is played, which is no slow one; the others as they are."""
        return (LIFT_CAUTION, *self.cautions[1:])


def arm_sheet(result: ArmResult, move: bool = True) -> ArmSheet:
    """Return what a picture of a result shows. move: whether the lift is played too."""
    focus, why = _focus(result)
    curves = result.flexion_pull
    arm, harness = result.arm, result.harness
    flexion = np.array([arm.flexion_from, (arm.flexion_from + arm.flexion_to) / 2, arm.flexion_to])
    pose, lifted, capacity = None, None, None
    if focus is not None and curves is not None:
        position = result.positions[focus]
        place = {"guide": position.guide, "loop": position.loop}
        pose = arm_pose(arm, result.cable, flexion, **place)
        capacity = curves.capacity[focus]
        if move and math.isfinite(position.peak_pull):
            history = usual_history(position.peak_pull)
            lifted = lift_arm(arm, result.cable, history, **place)
    return ArmSheet(
        result=result,
        cautions=arm_cautions(result),
        version=arm_version(),
        shown=_shown(result, focus),
        focus=focus,
        why=why,
        flexion=flexion,
        pose=pose,
        capacity=capacity,
        easy=None if capacity is None else harness.fatigue_free_share * capacity,
        lifting_limit=_lifting_limit(result),
        lifted=lifted,
    )


def _focus(result: ArmResult) -> tuple[int | None, str | None]:
    """Return the position that is drawn to scale, and why that one."""
    if result.recommended is not None:
        return result.recommended, "recommended"
    if result.own_position is not None:
        return result.own_position, "as_made"
    pulls = [row.peak_pull for row in result.positions]
    able = [place for place, pull in enumerate(pulls) if math.isfinite(pull)]
    if not able:
        return None, None
    return min(able, key=lambda place: pulls[place]), "lightest"


def _shown(result: ArmResult, focus: int | None) -> tuple[int, ...]:
    """Return up to five positions with the focus' guide: it, the case's own, and some between."""
    if focus is None:
        return ()
    guide = result.positions[focus].guide
    row = [
        place
        for place, each in enumerate(result.positions)
        if abs(each.guide - guide) < SAME and math.isfinite(each.peak_pull)
    ]
    row.sort(key=lambda place: result.positions[place].loop)
    chosen = [place for place in (focus, result.own_position) if place in row]
    for share in (0.0, 1.0, 0.5, 0.75, 0.25):
        place = row[round(share * (len(row) - 1))] if row else None
        if place is not None and place not in chosen and len(chosen) < MOST_SHOWN:
            chosen.append(place)
    return tuple(sorted(set(chosen), key=lambda place: result.positions[place].loop))


def _lifting_limit(result: ArmResult) -> float | None:
    """Return the excursion that lifting may take if the device is to be worked at the mouth [m]."""
    harness, cable = result.harness, result.cable
    if cable.device_excursion is None:
        return None
    wanted = travel_wanted(harness.opening_share, cable.device_excursion, cable.pulley)
    return harness.max_excursion - float(wanted)
