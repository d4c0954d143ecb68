"""How large and how small the things may be that these formulas are used for."""

LARGEST_FORCE = 1.0e6  # [N]
SMALLEST_LENGTH = 1.0e-5  # [m]; below it a length is a slip of the pen
LARGEST_LENGTH = 100.0  # [m]
LARGEST_RATIO = 1.0e6  # [1] of a machine
SMALLEST_EFFICIENCY = 1.0e-6  # [1]
LARGEST_FRICTION = 2.0  # [1]; rubber on concrete is about 1
