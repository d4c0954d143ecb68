"""Any machine as two numbers, its motion ratio and its efficiency; machines one after another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_FORCE, LARGEST_LENGTH, LARGEST_RATIO, SMALLEST_EFFICIENCY


@dataclass(frozen=True, kw_only=True)
class Machine:
    """What an effort moves, and what of its work arrives.

    >>> rope = Machine(motion_ratio=2.0, efficiency=0.9)
    >>> rope.force_ratio, rope.effort_travel(0.05)
    (1.8, 0.1)
    >>> round(rope.effort(36.0), 6)
    20.0
    """

    motion_ratio: float  # [1] travel of the effort over travel of the load
    efficiency: float  # [1] work on the load over work put in

    def __post_init__(self) -> None:
        require(1.0 / LARGEST_RATIO, self.motion_ratio, LARGEST_RATIO, "Machine.motion_ratio [1]")
        require(SMALLEST_EFFICIENCY, self.efficiency, 1.0, "Machine.efficiency [1]")

    @property
    def force_ratio(self) -> float:
        """Load over effort while the load is moved: motion ratio times efficiency [1].

        From the definitions of the two ratios and of efficiency (OpenStax Physics 9.3).
        """
        return self.motion_ratio * self.efficiency

    def effort(self, load: float) -> float:
        """Return the effort that moves a load [N]: load / force ratio (OpenStax Physics 9.3).

        load: [N], 0 to 1 MN. RangeError if it is out of range.
        """
        require(0.0, load, LARGEST_FORCE, "load [N]")
        return load / self.force_ratio

    def effort_travel(self, load_travel: float) -> float:
        """Return how far the effort moves [m]: motion ratio times the load's travel.

        OpenStax Physics 9.3. load_travel: [m], 0 to 100. RangeError if it is out of range.
        """
        require(0.0, load_travel, LARGEST_LENGTH, "load_travel [m]")
        return self.motion_ratio * load_travel


def compound(machines: Sequence[Machine]) -> Machine:
    """Return machines one after another as one: ratios multiply, and so do efficiencies.

    OpenStax Physics 9.3 (compound machines). machines: from the effort to the load, at least one.

    Raises:
        RangeError: no machine, or the whole is out of a machine's range.

    >>> jaws, handles = (Machine(motion_ratio=n, efficiency=e) for n, e in ((5.0, 0.9), (4.0, 1.0)))
    >>> compound([handles, jaws]).force_ratio
    18.0
    """
    if not machines:
        raise RangeError("a compound machine has at least one part")
    return Machine(
        motion_ratio=math.prod(machine.motion_ratio for machine in machines),
        efficiency=math.prod(machine.efficiency for machine in machines),
    )
