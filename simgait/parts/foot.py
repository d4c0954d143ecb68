"""A prosthetic foot, described by what a bench test and a ruler can say about it."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.errors import RangeError, require

HEEL_BENCH_ANGLE_DEGREES = 15.0  # heel contact
FOREFOOT_BENCH_ANGLE_DEGREES = 20.0  # toe contact
SOFTEST, STIFFEST = 5e3, 500e3  # [N/m] heel or forefoot, with a shoe or without
LARGEST_LOSS = 0.85  # share of a bench cycle; the largest published figure, in a shoe, is 0.824


@dataclass(frozen=True, kw_only=True)
class Foot:
    """A foot (or a foot in a shoe, see :func:`simgait.parts.shoe.foot_in_shoe`).

    Stiffnesses are secants: bench load over deflection at that load. ``heel_rise`` is how much
    higher the heel than the forefoot must stand for the foot's upper face to be level;
    ``sole_height`` is the ankle axis above the floor when it stands so. The levers run from the
    ankle axis along the sole to where the sole stops carrying.

    >>> foot = Foot(name="example", heel_stiffness=45e3, forefoot_stiffness=40e3, heel_loss=0.4,
    ...     forefoot_loss=0.25, heel_lever=0.05, toe_lever=0.135, sole_height=0.075,
    ...     heel_rise=0.01, mass=0.55, length=0.26, toe_spring=0.01, heel_round=0.006)
    >>> round(foot.effective_length_ratio, 3)
    0.712
    """

    name: str
    heel_stiffness: float  # [N/m] secant at the bench load, heel contact at 15 degrees
    forefoot_stiffness: float  # [N/m] secant at the bench load, toe contact at 20 degrees
    heel_loss: float  # [1] share of the energy of a heel bench cycle that is lost
    forefoot_loss: float  # [1] share of the energy of a forefoot bench cycle that is lost
    heel_lever: float  # [m] from the ankle axis back to where the sole stops carrying
    toe_lever: float  # [m] from the ankle axis ahead to where the sole stops carrying
    sole_height: float  # [m] ankle axis above the floor, standing at its own heel rise
    heel_rise: float  # [m] heel height less forefoot height that it is built for
    mass: float  # [kg]
    length: float  # [m] size, heel end to toe end
    toe_spring: float  # [m] how far the unloaded sole rises at its toe end
    heel_round: float  # [m] how far the unloaded sole rises at its heel end

    def __post_init__(self) -> None:
        require(SOFTEST, self.heel_stiffness, STIFFEST, "Foot.heel_stiffness [N/m]")
        require(SOFTEST, self.forefoot_stiffness, STIFFEST, "Foot.forefoot_stiffness [N/m]")
        require(0.0, self.heel_loss, LARGEST_LOSS, "Foot.heel_loss [1]")
        require(0.0, self.forefoot_loss, LARGEST_LOSS, "Foot.forefoot_loss [1]")
        require(0.01, self.heel_lever, 0.12, "Foot.heel_lever [m]")
        require(0.03, self.toe_lever, 0.25, "Foot.toe_lever [m]")
        require(0.02, self.sole_height, 0.30, "Foot.sole_height [m]")
        require(0.0, self.heel_rise, 0.10, "Foot.heel_rise [m]")
        require(0.05, self.mass, 3.0, "Foot.mass [kg]")
        require(0.10, self.length, 0.36, "Foot.length [m]")
        require(0.0, self.toe_spring, 0.05, "Foot.toe_spring [m]")
        require(0.0, self.heel_round, 0.05, "Foot.heel_round [m]")
        if self.carrying_length > self.length:
            raise RangeError(
                f"Foot.heel_lever + Foot.toe_lever [m] is {self.carrying_length:g}; "
                f"allowed: up to Foot.length, {self.length:g}"
            )

    @property
    def carrying_length(self) -> float:
        """Heel lever plus toe lever: the part of the sole that can carry [m]."""
        return self.heel_lever + self.toe_lever

    @property
    def effective_length_ratio(self) -> float:
        """Carrying length over foot length [1]; Hansen, Sam, Childress 2004 (from memory)."""
        return self.carrying_length / self.length
