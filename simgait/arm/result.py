"""What comes out for an arm: curves of the lift, a row a position, lengths, the device's cable.

Frozen, in SI and radians.  Arrays are [positions, flexions] where both are named.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from simgait.arm.statics import ledger_error
from simgait.arrays import Array
from simgait.parts.arm import Arm
from simgait.parts.cable import Cable, Harness


@dataclass(frozen=True, kw_only=True)
class LiftCurves:
    """Bending the elbow slowly, through its range, for each place of guide and loop."""

    flexion: Array  # [flexions, rad]
    guide: Array  # [positions, m] above the elbow's axis
    loop: Array  # [positions, m] below it
    lever: Array  # [positions, flexions, m] of the cable about the elbow
    tension: Array  # [positions, flexions, N] of the cable at the loop
    pull: Array  # [positions, flexions, N] at the harness, lifting; nan where no pull can
    lowering: Array  # [positions, flexions, N] at the harness, letting down
    drawn: Array  # [positions, flexions, m] of cable at the harness, from the range's start
    capacity: Array  # [positions, flexions, N] greatest pull of the wearer at that much cable
    work: Array  # [positions, J] put into the cable over the range, lifting


@dataclass(frozen=True, kw_only=True)
class WorkLedger:
    """Where the work put into the cable goes over one lift [J]."""

    cable: float  # put in at the harness
    load: float  # gained by forearm, device and what is held
    spring: float  # taken from the lift assist; below nothing: given to it
    housing: float  # lost in the housing
    surplus: float  # of the assist where it lifts alone: has to be braked

    @property
    def error_percent(self) -> float:
        """What is left unexplained, in per cent of the work and the load's gain [%]."""
        return ledger_error(self.cable, self.load, self.spring, self.housing, self.surplus)


@dataclass(frozen=True, kw_only=True)
class Position:
    """One place of guide and loop; nan where the cable cannot bend the elbow through the range."""

    guide: float  # [m]
    loop: float  # [m]
    peak_pull: float  # [N] at the harness
    peak_flexion: float  # [rad] where that is
    pull_at_right_angle: float  # [N] with the elbow at 90 degrees; nan if that is not in the range
    excursion: float  # [m] of cable at the harness for the whole range
    excursion_left: float  # [m] for the device with the elbow fully bent
    opening_left: float  # [1] share of the device's excursion that this is; nan if unknown
    lever_at_right_angle: float  # [m]
    ledger: WorkLedger
    turns_over: float | None  # [rad] flexion in the range where the cable passes the elbow's axis
    margins: Mapping[str, float]  # [1] by limit: what is left, as a share of the limit
    feasible: bool
    fatigue_free: bool
    opens_while_lifting: bool
    on_front: bool  # no other position needs less pull and less excursion


@dataclass(frozen=True, kw_only=True)
class Binding:
    """A limit that keeps positions from being feasible."""

    limit: str
    positions: int  # how many exceed it
    least_excess: float  # [1] by which share of the limit the best of all positions exceeds it
    excess_at_nearest: float  # [1] the same at the position that is nearest to fitting
    nearest: int  # place of that position


@dataclass(frozen=True, kw_only=True)
class Remedy:
    """One change, and how much it helps at the position that is nearest to fitting."""

    name: str
    change: float  # size of the step, in the unit
    unit: str
    peak_pull_change: float  # [N]
    excursion_change: float  # [m]
    feasible_positions: int  # after the step
    needed: float | None  # least change that makes a position fit; None: it cannot alone
    wanted: str  # what is to be reached: "feasible" or "fatigue_free"


@dataclass(frozen=True, kw_only=True)
class Length:
    """The arm with its forearm changed, held straight out and level."""

    change: float  # [m]
    forearm: float  # [m]
    shoulder_moment: float  # [N m] of the prosthesis and what is held, about the shoulder
    shoulder_moment_bent: float  # [N m] the same with the elbow at 90 degrees, the hand up
    elbow_moment: float  # [N m] about the elbow
    inertia: float  # [kg m^2] about the shoulder
    first_acceleration: float | None  # [rad/s^2] of the straight hanging arm, whole capacity
    slowest_swing: float  # [s] period of a small free swing, arm straight
    fastest_swing: float  # [s] the same, elbow fully bent
    socket_moment: float | None  # [N m] about the end of the limb in the socket
    brim_force: float | None  # [N] of the couple in the socket
    end_force: float | None  # [N]
    reach: float  # [m] shoulder's axis to the tip
    reach_lost: float  # [m] against the arm as given
    other_side_difference: float | None  # [m] longer than the other arm
    mouth: bool  # whether the tip reaches the mouth
    midline: bool  # whether it reaches the midline in front of the trunk
    peak_pull: float | None  # [N] at the harness, at the case's position
    within_capacity: bool | None  # None: no capacity was measured


@dataclass(frozen=True, kw_only=True)
class DeviceCable:
    """Harness to device: travel and force, on the way out and back."""

    travel: Array  # [points, m] of cable at the device
    device_force: Array  # [points, N] that the device asks for
    pull: Array  # [points, N] at the harness, pulling
    return_pull: Array  # [points, N] at the harness, letting back
    peak_pull: float  # [N]
    excursion: float  # [m] at the harness
    work: float  # [J] put in, pulling
    stored: float  # [J] that the device's spring takes, or that its grip is worth
    lost: float  # [J] in a whole cycle: the loop between pull and return
    efficiency: float  # [1] pull at the device over pull at the harness
    usual_minimum: float  # [1] of that efficiency, by level
    efficient: bool
    feasible: bool
    fatigue_free: bool


@dataclass(frozen=True, kw_only=True)
class ArmResult:
    """All of it for one case."""

    title: str
    arm: Arm
    cable: Cable
    harness: Harness
    flexion_pull: LiftCurves | None  # None on a forearm-level arm
    positions: tuple[Position, ...]
    recommended: int | None  # place among the positions
    stands_share: float | None  # [1] of draws in which the recommendation stays feasible
    front: tuple[int, ...]  # places among the positions, by rising excursion
    binding: tuple[Binding, ...]
    remedies: tuple[Remedy, ...]
    lengths: tuple[Length, ...]
    recommended_length: int | None  # place among the lengths
    longest_change: float | None  # [m] at which the shoulder's capacity is met; None: unknown
    device: DeviceCable | None
    own_position: int | None  # place of the case's own loop among the positions
