"""Ways to run the equations of `simgait.physics`: plain (CPython) and compiled (numba)."""
