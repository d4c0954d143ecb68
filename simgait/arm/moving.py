"""Arms that move: the forearm lifted by a given pull, and the arm that swings freely.

Nobody steers here: the pull is a history given beforehand, and a swing is what gravity makes of a
relaxed shoulder. The limb inside the socket is left out, as in the lengths.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from simgait.arm.links import bent_arm, forearm_link, upper_arm_link
from simgait.arm.monotone import MonotoneCurve
from simgait.arm.pose import ArmPose, arm_pose
from simgait.arrays import Array
from simgait.engines.arm_scene import play_lift, play_swing
from simgait.engines.arm_setting import LiftSetting, LiftTrack, Stop
from simgait.errors import RangeError, require
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable
from simgait.wearer import GRAVITY

STOP_STIFFNESS = 150.0  # [N m/rad] assumed, no published figure: a few degrees for a brisk lift
STOP_LOSS = 0.5  # [s/rad] assumed: most of the energy of a brisk lift is gone after one rebound
PULL_RISE = 0.5  # [s] assumed: in which the usual pull is built up
PULL_SURPLUS = 1.1  # [1] assumed: usual pull over the peak pull of a slow lift
TABLED = 721  # flexions at which the lift assist is tabled
LEAST_MOTION = math.radians(1.0)  # that counts as lifted at all
LEDGER_PERCENT = 0.1  # of the energy exchanged; above it a lift ends as "energy_drift"
ENDINGS = {
    "lifted": "the elbow reaches the end of its range",
    "part_way": "the forearm rises, but not to the end of its range",
    "stays_down": "the pull does not lift the forearm",
    "energy_drift": "the ledger of energy does not close; the run is not to be used",
}


@dataclass(frozen=True, kw_only=True)
class PullHistory:
    """Pull at the harness over time, straight between its points and held after the last.

    >>> rise = PullHistory(times=(0.0, 0.5), pulls=(0.0, 40.0))
    >>> rise.at(0.25), rise.at(9.0)
    (20.0, 40.0)
    """

    times: tuple[float, ...]  # [s] rising, from 0
    pulls: tuple[float, ...]  # [N]

    def __post_init__(self) -> None:
        if len(self.times) != len(self.pulls) or not self.times or self.times[0] != 0.0:
            raise RangeError("PullHistory: as many times as pulls are wanted, the first time 0")
        if any(b <= a for a, b in zip(self.times, self.times[1:], strict=False)):
            raise RangeError("PullHistory.times [s] must rise")
        for time, pull in zip(self.times, self.pulls, strict=True):
            require(0.0, time, 60.0, "PullHistory.times [s]")
            require(0.0, pull, 1000.0, "PullHistory.pulls [N]")

    def at(self, time: float) -> float:
        """Return the pull at a time [N]. time: [s]."""
        return float(np.interp(time, self.times, self.pulls))


def usual_history(peak_pull: float) -> PullHistory:
    """Return a pull that rises within half a second to a tenth above the peak of a slow lift.

    Both figures are assumed. peak_pull: of the slow lift [N].

    >>> usual_history(40.0).pulls
    (0.0, 44.0)
    """
    require(0.0, peak_pull, 900.0, "peak_pull [N]")
    return PullHistory(times=(0.0, PULL_RISE), pulls=(0.0, PULL_SURPLUS * peak_pull))


@dataclass(frozen=True, kw_only=True, eq=False)
class Lifted:
    """A lift with a given pull: how it ended, how fast, and everything at every millisecond."""

    ending: str  # one of ENDINGS
    history: PullHistory
    guide: float  # [m]
    loop: float  # [m]
    time_to_end: float  # [s] until the elbow reaches the end of its range; nan if it does not
    peak_rate: float  # [rad/s]
    peak_tip_speed: float  # [m/s] of the device's tip
    arrival_rate: float  # [rad/s] at the end of the range; nan if it does not reach it
    overshoot: float  # [rad] beyond the end of the range, into the stop; 0 if it does not reach it
    harness_work: float  # [J] put into the cable
    housing_loss: float  # [J]
    assist_work: float  # [J] given by the lift assist
    stop_loss: float  # [J] taken by the stop
    load_gain: float  # [J] forearm, device and load: height and motion
    error_percent: float  # [%] that the ledger leaves unexplained
    track: LiftTrack
    pose: ArmPose  # at the track's instants


@dataclass(frozen=True, kw_only=True, eq=False)
class Swung:
    """A free swing about the shoulder; the elbow is locked, or free."""

    elbow_locked: bool
    period: float  # [s] of the first whole swing; nan if there is none
    small_period: float  # [s] 2 pi sqrt(I / (m g c)), elbow locked; nan if it is free
    energy_drift: float  # [1] greatest change of energy over the energy that is exchanged
    time: Array  # [n] [s]
    shoulder_flexion: Array  # [n] [rad]
    flexion: Array  # [n] [rad] of the elbow
    pose: ArmPose  # at these instants


def lift_setting(
    arm: Arm, cable: Cable, history: PullHistory, *, guide: float, loop: float
) -> LiftSetting:
    """Return a lift ready to be played. guide, loop: from the elbow's axis [m].

    Raises:
        RangeError: the arm has no mass beyond the elbow, or has no powered elbow.
    """
    if arm.level == "forearm":
        raise RangeError("an arm of the forearm's level has its own elbow: no cable lifts it")
    curve = MonotoneCurve(places=cable.assist_at, values=cable.assist)
    flexions = np.linspace(-0.5, math.pi + 0.5, TABLED)
    moments = curve.at(flexions)
    return LiftSetting(
        forearm=forearm_link(arm),
        shoulder_flexion=arm.shoulder_flexion,
        guide=(guide, cable.guide_offset),
        loop=(loop, cable.loop_offset),
        through=cable.share_through,
        pulley=cable.pulley,
        stop=Stop(
            low=arm.flexion_from, high=arm.flexion_to, stiffness=STOP_STIFFNESS, loss=STOP_LOSS
        ),
        start=arm.flexion_from,
        gravity=GRAVITY,
        pull=history.at,
        assist=lambda flexion: float(np.interp(flexion, flexions, moments)),
    )


def lift_arm(
    arm: Arm, cable: Cable, history: PullHistory, *, guide: float, loop: float, until: float = 3.0
) -> Lifted:
    """Let a pull lift the forearm from the beginning of its range (pymunk).

    guide, loop: along upper arm and forearm from the elbow's axis [m]; until: [s], 0.05 to 20.

    Raises:
        RangeError: there is no elbow to lift, no mass beyond it, or a value is out of range.
    """
    require(0.05, until, 20.0, "until [s]")
    setting = lift_setting(arm, cable, history, guide=guide, loop=loop)
    track = play_lift(setting, until)
    end = arm.flexion_to
    arrived = np.flatnonzero(track.flexion >= end)
    load = track.kinetic + setting.forearm.mass * setting.gravity * (track.height - track.height[0])
    left = load - track.cable_work - track.assist_work - track.stop_work
    error = 100.0 * float(np.abs(left).max()) / _exchanged(track, load)
    return Lifted(
        ending=_ending(track, arm, error),
        history=history,
        guide=guide,
        loop=loop,
        time_to_end=float(track.time[arrived[0]]) if arrived.size else math.nan,
        peak_rate=float(track.rate.max()),
        peak_tip_speed=float(np.abs(track.rate).max()) * arm.tip,
        arrival_rate=float(track.rate[arrived[0]]) if arrived.size else math.nan,
        overshoot=max(float(track.flexion.max()) - end, 0.0),
        harness_work=float(track.harness_work[-1]),
        housing_loss=float(track.harness_work[-1] - track.cable_work[-1]),
        assist_work=float(track.assist_work[-1]),
        stop_loss=-float(track.stop_work[-1]),
        load_gain=float(load[-1]),
        error_percent=error,
        track=track,
        pose=arm_pose(arm, cable, track.flexion, guide=guide, loop=loop),
    )


def _exchanged(track: LiftTrack, load: Array) -> float:
    """Return the greatest of the energies that went to and fro [J]."""
    terms = (load, track.cable_work, track.assist_work, track.stop_work)
    return max(1e-3, *(float(np.abs(term).max()) for term in terms))


def _ending(track: LiftTrack, arm: Arm, error_percent: float) -> str:
    if not error_percent <= LEDGER_PERCENT:
        return "energy_drift"
    highest = float(track.flexion.max())
    if highest >= arm.flexion_to:
        return "lifted"
    return "part_way" if highest > arm.flexion_from + LEAST_MOTION else "stays_down"


def swing_arm(
    arm: Arm,
    cable: Cable,
    *,
    guide: float,
    loop: float,
    lean: float,
    flexion: float,
    elbow_locked: bool,
    until: float = 6.0,
) -> Swung:
    """Let the arm go from rest and swing about the shoulder (pymunk).

    guide, loop: where the slack cable is drawn [m]; lean: of the upper arm at the start, from
    hanging [rad]; flexion: of the elbow at the start [rad]; until: [s], 0.05 to 60.

    Raises:
        RangeError: a value is out of range, or the elbow is free and the upper arm has no mass.
    """
    require(0.05, until, 60.0, "until [s]")
    require(-math.pi, lean, math.pi, "lean [rad]")
    require(0.0, flexion, math.pi, "flexion [rad]")
    whole, rest = bent_arm(arm, flexion)
    links = [whole] if elbow_locked else [upper_arm_link(arm), forearm_link(arm)]
    leans = [lean] if elbow_locked else [lean, lean + flexion]
    track = play_swing(links, leans, [0.0] * len(links), GRAVITY, until)
    upper = track.lean[:, 0]
    bent = np.full(len(upper), flexion) if elbow_locked else track.lean[:, 1] - upper
    hanging = whole.mass * GRAVITY * math.hypot(*whole.centre)
    deepest = sum(link.mass * GRAVITY * (link.length + math.hypot(*link.centre)) for link in links)
    small = 2.0 * math.pi * math.sqrt(whole.inertia_about_joint / hanging)
    return Swung(
        elbow_locked=elbow_locked,
        period=_period(track.time, upper - rest) if elbow_locked else math.nan,
        small_period=small if elbow_locked else math.nan,
        energy_drift=float(np.abs(track.energy).max()) / deepest,
        time=track.time,
        shoulder_flexion=upper,
        flexion=bent,
        pose=arm_pose(arm, cable, bent, guide=guide, loop=loop, shoulder_flexion=upper),
    )


def _period(time: Array, angle: Array) -> float:
    """Return the time between the first and the third passing of an angle through nothing [s]."""
    passed = np.flatnonzero(angle[:-1] * angle[1:] < 0.0)
    if len(passed) < 3:
        return math.nan
    first, third = (
        time[n] - angle[n] * (time[n + 1] - time[n]) / (angle[n + 1] - angle[n])
        for n in (passed[0], passed[2])
    )
    return float(third - first)
