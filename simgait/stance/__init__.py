"""The stance phase of walking: runs, their results, their comparison, the wearer's calibration."""

from simgait.stance.comparing import compare
from simgait.stance.result import Comparison, StanceCurves, StanceResult
from simgait.stance.running import simulate_stance, simulate_stance_in_bodies, simulate_stances

__all__ = [
    "Comparison",
    "StanceCurves",
    "StanceResult",
    "compare",
    "simulate_stance",
    "simulate_stance_in_bodies",
    "simulate_stances",
]
