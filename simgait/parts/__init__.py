"""What a prosthesis is made of: one file a part, each part measured, not modelled."""

from simgait.parts.foot import Foot
from simgait.parts.pylon import Pylon
from simgait.parts.shoe import Shoe
from simgait.parts.socket import Socket

__all__ = ["Foot", "Pylon", "Shoe", "Socket"]
