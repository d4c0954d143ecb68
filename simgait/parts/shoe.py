"""A shoe, and what it makes of the foot inside it.

Two things are kept apart. The shoe's *material* (springs, losses, mass, sole) becomes part of the
foot through :func:`foot_in_shoe`. The shoe's *heel* does not: it is an alignment
(``Alignment.heel_rise``), because it turns the foot against the floor as a wedge would. How far
it turns the foot is :func:`heel_tilt`, how far it lifts the ankle :func:`ankle_lift`; both are
nothing when the heel rise is the one the foot is built for.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from simgait.arrays import each
from simgait.errors import require
from simgait.parts.foot import LARGEST_LOSS, Foot
from simgait.physics.bench import ankle_lifted, heel_tangent


@dataclass(frozen=True, kw_only=True)
class Shoe:
    """A shoe, measured without a foot in it.

    >>> shoe = Shoe(name="example", heel_stiffness=150e3, forefoot_stiffness=200e3, heel_loss=0.6,
    ...     forefoot_loss=0.5, mass=0.38, sole_thickness=0.012, heel_rise=0.01)
    >>> shoe.mass
    0.38
    """

    name: str
    heel_stiffness: float  # [N/m] of the heel part of its sole
    forefoot_stiffness: float  # [N/m] of the forefoot part of its sole
    heel_loss: float  # [1] share of the energy of a cycle that the heel part loses
    forefoot_loss: float  # [1] share of the energy of a cycle that the forefoot part loses
    mass: float  # [kg]
    sole_thickness: float  # [m] under the forefoot
    heel_rise: float  # [m] thickness under the heel less thickness under the forefoot

    def __post_init__(self) -> None:
        require(5e3, self.heel_stiffness, 5e6, "Shoe.heel_stiffness [N/m]")
        require(5e3, self.forefoot_stiffness, 5e6, "Shoe.forefoot_stiffness [N/m]")
        require(0.0, self.heel_loss, LARGEST_LOSS, "Shoe.heel_loss [1]")
        require(0.0, self.forefoot_loss, LARGEST_LOSS, "Shoe.forefoot_loss [1]")
        require(0.0, self.mass, 3.0, "Shoe.mass [kg]")
        require(0.0, self.sole_thickness, 0.10, "Shoe.sole_thickness [m]")
        require(0.0, self.heel_rise, 0.10, "Shoe.heel_rise [m]")


def stiffness_in_series(first: float, second: float) -> float:
    """Return the stiffness of two springs in series, 1 / (1/k1 + 1/k2) [N/m].

    Statics: both carry the same force, so their deflections, and with them 1/k, add.
    ``first``, ``second``: stiffnesses [N/m].

    >>> stiffness_in_series(60e3, 120e3)
    40000.0
    """
    return 1.0 / (1.0 / first + 1.0 / second)


def loss_in_series(
    first_loss: float, first_stiffness: float, second_loss: float, second_stiffness: float
) -> float:
    """Return the share of energy lost by two springs in series [1].

    At one force F each spring takes the energy F²/(2k), so the shares lost are averaged with the
    compliances 1/k as weights. Losses [1], stiffnesses [N/m].

    >>> round(loss_in_series(0.4, 60e3, 0.7, 120e3), 6)
    0.5
    """
    first_share = second_stiffness / (first_stiffness + second_stiffness)
    return first_loss * first_share + second_loss * (1.0 - first_share)


def foot_in_shoe(foot: Foot, shoe: Shoe) -> Foot:
    """Return the foot and its shoe as one foot.

    Springs act in series (:func:`stiffness_in_series`, :func:`loss_in_series`), masses add, and
    the sole height grows by the sole thickness. Levers, length, sole shape and the heel rise that
    the foot is built for stay the foot's own; the shoe's heel acts through the alignment.

    >>> foot = Foot(name="example", heel_stiffness=60e3, forefoot_stiffness=50e3, heel_loss=0.4,
    ...     forefoot_loss=0.25, heel_lever=0.05, toe_lever=0.135, sole_height=0.075,
    ...     heel_rise=0.01, mass=0.55, length=0.26, toe_spring=0.01, heel_round=0.006)
    >>> shoe = Shoe(name="shoe", heel_stiffness=120e3, forefoot_stiffness=200e3, heel_loss=0.7,
    ...     forefoot_loss=0.5, mass=0.38, sole_thickness=0.012, heel_rise=0.01)
    >>> shod = foot_in_shoe(foot, shoe)
    >>> shod.heel_stiffness, round(shod.sole_height, 3), round(shod.mass, 2)
    (40000.0, 0.087, 0.93)
    """
    return replace(
        foot,
        name=f"{foot.name} in {shoe.name}",
        heel_stiffness=stiffness_in_series(foot.heel_stiffness, shoe.heel_stiffness),
        forefoot_stiffness=stiffness_in_series(foot.forefoot_stiffness, shoe.forefoot_stiffness),
        heel_loss=loss_in_series(
            foot.heel_loss, foot.heel_stiffness, shoe.heel_loss, shoe.heel_stiffness
        ),
        forefoot_loss=loss_in_series(
            foot.forefoot_loss, foot.forefoot_stiffness, shoe.forefoot_loss, shoe.forefoot_stiffness
        ),
        sole_height=foot.sole_height + shoe.sole_thickness,
        mass=foot.mass + shoe.mass,
    )


def heel_tilt(heel_rise: float, built_for: float, foot_length: float) -> float:
    """Return how far a heel turns the foot, + toe down against its own upper face [rad].

    atan((rise - built for) / (0.70 x foot length)): derived, the sole as a beam from heel contact
    to forefoot contact. With the sole on the floor, the same angle tips the shank forward, as a
    dorsiflexed foot does. All parameters [m].

    >>> import math
    >>> round(math.degrees(heel_tilt(0.020, 0.010, 0.260)), 1)
    3.1
    """
    return each(math.atan, heel_tangent(heel_rise, built_for, foot_length))


def ankle_lift(heel_rise: float, built_for: float, foot_length: float, heel_lever: float) -> float:
    """Return how far a heel lifts the ankle axis, the forefoot staying down [m].

    (rise - built for) x (1 - heel lever / (0.70 x foot length)): derived, the same beam. For a
    natural foot give 0 as ``built_for`` and the distance from heel to ankle axis as the lever.
    All parameters [m].

    >>> round(ankle_lift(0.020, 0.010, 0.260, 0.050), 5)
    0.00725
    """
    return ankle_lifted(heel_rise, built_for, foot_length, heel_lever)
