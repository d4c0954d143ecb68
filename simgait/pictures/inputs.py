"""The shapes of results that pictures can draw; the results themselves are made elsewhere."""

from collections.abc import Mapping, Sequence
from typing import Protocol

import numpy as np
import numpy.typing as npt

__all__ = [
    "AlignmentLike",
    "ComparisonLike",
    "CurvesLike",
    "FloatArray",
    "ResultLike",
    "TippingPairLike",
    "TippingSceneLike",
    "TippingTrackLike",
    "require_drawable",
]

FloatArray = npt.NDArray[np.float64]


class AlignmentLike(Protocol):
    """The five settings of an alignment, in SI and radians."""

    @property
    def foot_forward(self) -> float: ...  # [m] + foot ahead of the socket
    @property
    def dorsiflexion(self) -> float: ...  # [rad] + toe up
    @property
    def socket_flexion(self) -> float: ...  # [rad] + knee starts bent
    @property
    def length_change(self) -> float: ...  # [m] + longer
    @property
    def heel_rise(self) -> float: ...  # [m] heel height minus forefoot height of the shoe


class CurvesLike(Protocol):
    """Curves through stance; n instants, e sole elements from the heel end to the toe end."""

    @property
    def time(self) -> FloatArray: ...  # [n] s
    @property
    def percent(self) -> FloatArray: ...  # [n] % of stance
    @property
    def hip(self) -> FloatArray: ...  # [n, 2] m
    @property
    def knee(self) -> FloatArray: ...  # [n, 2] m
    @property
    def brim(self) -> FloatArray: ...  # [n, 2] m, proximal end of the socket
    @property
    def socket_pivot(self) -> FloatArray: ...  # [n, 2] m
    @property
    def limb_end(self) -> FloatArray: ...  # [n, 2] m, distal end of the residual limb
    @property
    def socket_end(self) -> FloatArray: ...  # [n, 2] m
    @property
    def ankle(self) -> FloatArray: ...  # [n, 2] m
    @property
    def sole(self) -> FloatArray: ...  # [n, e, 2] m, undeformed; y < 0 is pressed in
    @property
    def pressure_x(self) -> FloatArray: ...  # [n] m, NaN when unloaded
    @property
    def force_forward(self) -> FloatArray: ...  # [n] N
    @property
    def force_up(self) -> FloatArray: ...  # [n] N
    @property
    def knee_flexion_moment(self) -> FloatArray: ...  # [n] N m, external, + bends the knee
    @property
    def socket_flexion_moment(self) -> FloatArray: ...  # [n] N m, external, + flexing
    @property
    def pressure_ahead_of_ankle(self) -> FloatArray: ...  # [n] m


class ResultLike(Protocol):
    """One stance: what was set, how it ended, what was measured."""

    @property
    def alignment(self) -> AlignmentLike: ...
    @property
    def ending(self) -> str: ...  # "toe_off" is the normal one
    @property
    def measures(self) -> Mapping[str, float]: ...
    @property
    def curves(self) -> CurvesLike: ...
    @property
    def mass(self) -> float: ...  # [kg]
    @property
    def body_weight(self) -> float: ...  # [N]


class ComparisonLike(Protocol):
    """Several stances of one wearer, one of them the baseline."""

    @property
    def title(self) -> str: ...
    @property
    def results(self) -> Sequence[ResultLike]: ...
    @property
    def baseline(self) -> int: ...
    @property
    def cautions(self) -> Sequence[str]: ...
    @property
    def version(self) -> str: ...


class TippingTrackLike(Protocol):
    """A whole wearer through n instants of a scene, in the frame of the floor, x forward."""

    @property
    def time(self) -> FloatArray: ...  # [n] s
    @property
    def ending(self) -> str: ...  # "stays" is the good one
    @property
    def hip(self) -> FloatArray: ...  # [n, 2] m
    @property
    def shoulder(self) -> FloatArray: ...  # [n, 2] m
    @property
    def crown(self) -> FloatArray: ...  # [n, 2] m
    @property
    def knee(self) -> FloatArray: ...  # [n, 2] m
    @property
    def brim(self) -> FloatArray: ...  # [n, 2] m
    @property
    def limb_end(self) -> FloatArray: ...  # [n, 2] m
    @property
    def socket_end(self) -> FloatArray: ...  # [n, 2] m
    @property
    def ankle(self) -> FloatArray: ...  # [n, 2] m
    @property
    def sole(self) -> FloatArray: ...  # [n, e, 2] m, undeformed; y < 0 is pressed in
    @property
    def sound_hip(self) -> FloatArray: ...  # [n, 2] m
    @property
    def sound_knee(self) -> FloatArray: ...  # [n, 2] m
    @property
    def sound_ankle(self) -> FloatArray: ...  # [n, 2] m
    @property
    def sound_sole(self) -> FloatArray: ...  # [n, e, 2] m
    @property
    def force(self) -> FloatArray: ...  # [n, 2, 2] N, prosthesis and sound foot, forward and up
    @property
    def pressure(self) -> FloatArray: ...  # [n, 2] m along the floor, NaN when unloaded
    @property
    def centre(self) -> FloatArray: ...  # [n, 2] m, the body's
    @property
    def extrapolated(self) -> FloatArray: ...  # [n] m along the floor


class TippingSceneLike(Protocol):
    """One scene of tipping: the wearer, and what was done to them."""

    @property
    def size(self) -> float: ...  # in the unit of the pair
    @property
    def track(self) -> TippingTrackLike: ...
    @property
    def slope(self) -> FloatArray: ...  # [n] rad, + falls away ahead
    @property
    def under(self) -> FloatArray: ...  # [n, e, 2] m, under side of an obstacle under the sole
    @property
    def reach(self) -> FloatArray: ...  # [n, 2] m, hindmost heel end, foremost toe end
    @property
    def push_sense(self) -> float: ...  # +1 forward, -1 backward, 0 no push
    @property
    def push_time(self) -> float: ...  # s
    @property
    def push_height(self) -> float: ...  # m above the floor


class TippingPairLike(Protocol):
    """The scenes just below and just above a threshold; none above if the largest is stood."""

    @property
    def title(self) -> str: ...
    @property
    def unit(self) -> str: ...  # "N s", "deg" or "mm"
    @property
    def value(self) -> float: ...  # the threshold, in the unit; NaN if none was found
    @property
    def body_weight(self) -> float: ...  # [N]
    @property
    def below(self) -> TippingSceneLike: ...
    @property
    def above(self) -> TippingSceneLike | None: ...


def require_drawable(comparison: ComparisonLike) -> None:
    """Refuse a comparison that no honest picture can be made of.

    Raises
    ------
    ValueError : there is no result, the baseline is not one of them, or there is no caution.
    """
    if not comparison.results:
        raise ValueError("a comparison without results cannot be drawn; run at least one stance")
    if not 0 <= comparison.baseline < len(comparison.results):
        raise ValueError(
            f"baseline {comparison.baseline} is not one of the {len(comparison.results)} results"
        )
    if not comparison.cautions:
        raise ValueError("a picture without cautions is not drawn; pass the result's cautions")
