"""From the adjustable unit to the finished limb: chains of components that keep the foot's pose."""

from simgait.transfer.geometry import Chain, Pose
from simgait.transfer.result import Fitted, Transfer, transfer
from simgait.transfer.words import ahead_words, plate_words, tilt_words

__all__ = [
    "Chain",
    "Fitted",
    "Pose",
    "Transfer",
    "ahead_words",
    "plate_words",
    "tilt_words",
    "transfer",
]
