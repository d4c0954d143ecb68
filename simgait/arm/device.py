"""Harness to device: force and travel through the housing, out and back."""

from __future__ import annotations

import numpy as np

from simgait.arm.lifting import greatest_pull
from simgait.arm.result import DeviceCable
from simgait.arm.statics import pull_for, pull_that_lets_down
from simgait.arrays import Array
from simgait.parts.cable import Cable, DeviceAction, Harness

POINTS = 51  # along the travel


def device_path(
    action: DeviceAction, excursion: float, start: float, end: float
) -> tuple[Array, Array]:
    """Return travel [m] and force [N] at the device, from rest to the end.

    Opening against a spring: the force rises evenly with the travel.  Closing by pull: the travel
    goes against the start pull, that of the spring that opens the device again; then the device
    grips and the force rises in place.

    excursion: [m]; start, end: pulls at the device [N].

    >>> travel, force = device_path("closes", 0.03, 10.0, 40.0)
    >>> float(travel[-2]), float(force[-2]), float(force[-1])
    (0.03, 10.0, 40.0)
    """
    travel = np.linspace(0.0, excursion, POINTS)
    if action == "opens":
        return travel, np.linspace(start, end, POINTS)
    return np.append(travel, excursion), np.append(np.full(POINTS, start), end)


def device_cable(cable: Cable, harness: Harness, usual_minimum: float) -> DeviceCable | None:
    """Return what working the device asks of the wearer; None if the device was not measured.

    Pulling, the housing takes its share; letting back, its friction helps to hold.

    usual_minimum: of pull at the device over pull at the harness [1].
    """
    end = cable.device_pull
    if cable.device_excursion is None or end is None:
        return None
    start = end if cable.device_start_pull is None else cable.device_start_pull
    travel, force = device_path(cable.device_action, cable.device_excursion, start, end)
    through, pulley = cable.share_through, cable.pulley
    pull = np.asarray(pull_for(force, through, pulley))
    back = np.asarray(pull_that_lets_down(force, through, pulley))
    drawn = travel * pulley
    can = greatest_pull(harness).at(drawn)
    within = bool(drawn[-1] <= harness.max_excursion)
    easy = within and bool((pull <= harness.fatigue_free_share * can).all())
    return DeviceCable(
        travel=travel,
        device_force=force,
        pull=pull,
        return_pull=back,
        peak_pull=float(pull.max()),
        excursion=float(drawn[-1]),
        work=float(np.trapezoid(pull, drawn)),
        stored=float(np.trapezoid(force, travel)),
        lost=float(np.trapezoid(pull - back, drawn)),
        efficiency=through,
        usual_minimum=usual_minimum,
        efficient=through >= usual_minimum,
        feasible=within and bool((pull <= can).all()),
        fatigue_free=easy,
    )
