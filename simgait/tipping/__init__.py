"""Tipping: free scenes in which a standing wearer is pushed, tilted, or steps onto something."""

from simgait.tipping.result import Tipping, tip, tip_limb

__all__ = ["Tipping", "tip", "tip_limb"]
