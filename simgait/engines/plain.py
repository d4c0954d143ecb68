"""The plain engine: the same gathered physics under CPython, slow and readable."""

from __future__ import annotations

import functools
from types import ModuleType

from simgait.engines.source import gathered_source


@functools.cache
def kernel() -> ModuleType:
    """Return the physics as a module of plain Python functions.

    >>> round(kernel().half_sine(1.0), 12)
    0.479425538604
    """
    module = ModuleType("simgait_plain_kernel")
    exec(compile(gathered_source(), "<simgait.physics>", "exec"), module.__dict__)
    return module
