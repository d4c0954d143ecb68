"""The ledger of work: what is put in, what arrives at the load, what is lost on the way."""

from __future__ import annotations

from dataclasses import dataclass

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_FORCE, LARGEST_LENGTH
from simgait.levers.machine import Machine

ROUNDING = 1.0e-12  # [1] of the work put in, that the load may seem to get too much


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """Work of one stroke. No machine gives more than it gets: that is refused.

    >>> in_and_out = Ledger(work_in=11.0 * 0.4, work_out=40.0 * 0.1)
    >>> round(100.0 * in_and_out.efficiency), round(in_and_out.loss, 3)
    (91, 0.4)
    """

    work_in: float  # [J] effort times its travel
    work_out: float  # [J] load times its travel

    def __post_init__(self) -> None:
        most = LARGEST_FORCE * LARGEST_LENGTH
        require(0.0, self.work_in, most, "Ledger.work_in [J]")
        require(0.0, self.work_out, most, "Ledger.work_out [J]")
        if self.work_out > self.work_in * (1.0 + ROUNDING):
            raise RangeError(
                f"Ledger.work_out [J] is {self.work_out}; allowed: up to the work put in, "
                f"{self.work_in:g}"
            )

    @property
    def loss(self) -> float:
        """Work put in that does not reach the load [J] (OpenStax Physics 9.3)."""
        return self.work_in - self.work_out

    @property
    def efficiency(self) -> float:
        """Work out over work in [1] (OpenStax Physics 9.3).

        RangeError if nothing was put in.
        """
        if self.work_in == 0.0:
            raise RangeError("nothing was put in, so there is no efficiency")
        return self.work_out / self.work_in


def work_ledger(machine: Machine, load: float, load_travel: float) -> Ledger:
    """Return the ledger of moving a load some way with a machine (OpenStax Physics 9.3).

    load: [N], 0 to 1 MN; load_travel: [m], 0 to 100.

    Raises:
        RangeError: a value is out of range.

    >>> lift = work_ledger(Machine(motion_ratio=2.0, efficiency=0.8), load=40.0, load_travel=0.1)
    >>> round(lift.work_in, 6), round(lift.work_out, 6), round(lift.loss, 6)
    (5.0, 4.0, 1.0)
    """
    effort, travel = machine.effort(load), machine.effort_travel(load_travel)
    return Ledger(work_in=effort * travel, work_out=load * load_travel)
