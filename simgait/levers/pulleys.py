"""Pulley blocks: strands, the pull they ask for, what the ceiling carries, what sheaves lose."""

from __future__ import annotations

from simgait.errors import RangeError, require
from simgait.levers.limits import LARGEST_FORCE, SMALLEST_EFFICIENCY

MOST_STRANDS = 100


def pulley_advantage(strands: int) -> float:
    """Return the advantage of a block without losses: the strands that pull the load [1].

    OpenStax College Physics 9.5. strands: 1 to 100.

    Raises:
        RangeError: not a whole number, or out of range.

    >>> pulley_advantage(4)
    4.0
    """
    require(1, strands, MOST_STRANDS, "strands [1]")
    if strands != int(strands):
        raise RangeError(f"strands [1] is {strands}; allowed: a whole number")
    return float(strands)


def block_efficiency(strands: int, sheave_efficiency: float) -> float:
    """Return the efficiency of a block whose strands run over one lossy sheave each [1].

    The tensions fall from strand to strand by e, from the hand's pull on; with n strands over n
    sheaves the load is F (e + e² + ... + eⁿ), so the efficiency is e (1 - eⁿ) / (n (1 - e)).
    Derived: the sum of a geometric series. strands: 1 to 100; sheave_efficiency e: tension behind
    over tension before, above 0, up to 1.

    Raises:
        RangeError: a value is out of range.

    >>> round(block_efficiency(2, 0.9), 3)
    0.855
    """
    count = int(pulley_advantage(strands))
    require(SMALLEST_EFFICIENCY, sheave_efficiency, 1.0, "sheave_efficiency [1]")
    return sum(sheave_efficiency**turn for turn in range(1, count + 1)) / count


def pulley_effort(load: float, strands: int, efficiency: float) -> float:
    """Return the pull that raises a load on a block [N]: load / (strands x efficiency).

    OpenStax College Physics 9.5 without losses, and the definition of efficiency. load: with the
    moving pulleys [N], 0 to 1 MN; efficiency: above 0, up to 1.

    Raises:
        RangeError: a value is out of range.

    >>> round(pulley_effort(122.0 * 9.80, 4, 1.0))
    299
    """
    require(0.0, load, LARGEST_FORCE, "load [N]")
    require(SMALLEST_EFFICIENCY, efficiency, 1.0, "efficiency [1]")
    return load / (pulley_advantage(strands) * efficiency)


def support_force(load: float, effort: float, effort_upward: bool) -> float:
    """Return what the ceiling carries [N]: load - effort if the hand pulls up, else load + effort.

    OpenStax College Physics 9.1, first condition of equilibrium. load: everything that hangs [N];
    effort: the hand's pull [N]; both 0 to 1 MN.

    Raises:
        RangeError: a value is out of range.

    >>> round(support_force(122.0 * 9.80, 298.9, effort_upward=True))
    897
    """
    require(0.0, load, LARGEST_FORCE, "load [N]")
    require(0.0, effort, LARGEST_FORCE, "effort [N]")
    return load - effort if effort_upward else load + effort
