"""Standing still: statics of the limb on its yielding foot and socket, and what tips it."""

from simgait.standing.posture import Stance
from simgait.standing.result import Standing, stand, stand_limb
from simgait.standing.tipping import Limit

__all__ = ["Limit", "Stance", "Standing", "stand", "stand_limb"]
