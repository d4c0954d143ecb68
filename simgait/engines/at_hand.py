"""Whichever engine is there already: for a few numbers, compiled code is not worth loading."""

from __future__ import annotations

from types import ModuleType

from simgait.engines import compiled
from simgait.physics import bench


def kernel_at_hand() -> ModuleType:
    """Return the compiled kernel if this process has loaded it, else the module of the bench.

    Only for functions of `simgait.physics.bench`, which compiled code rounds as CPython does.

    >>> hasattr(kernel_at_hand(), "set_up")
    True
    """
    return compiled.kernel() if compiled.is_loaded() else bench
