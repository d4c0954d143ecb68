"""Invented results for the pictures: smooth curves of a plausible size, nothing simulated."""

from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Alignment:
    foot_forward: float = 0.0
    dorsiflexion: float = 0.0
    socket_flexion: float = 0.0
    length_change: float = 0.0
    heel_rise: float = 0.0


@dataclass(frozen=True, kw_only=True)
class Curves:
    time: Array
    percent: Array
    hip: Array
    knee: Array
    brim: Array
    socket_pivot: Array
    limb_end: Array
    socket_end: Array
    ankle: Array
    sole: Array
    pressure_x: Array
    force_forward: Array
    force_up: Array
    knee_flexion_moment: Array
    socket_flexion_moment: Array
    pressure_ahead_of_ankle: Array


@dataclass(frozen=True, kw_only=True)
class Result:
    alignment: Alignment
    curves: Curves
    ending: str = "toe_off"
    measures: dict[str, float] = field(default_factory=dict)
    mass: float = 80.0
    body_weight: float = 784.5


@dataclass(frozen=True, kw_only=True)
class Comparison:
    results: tuple[Result, ...]
    baseline: int = 0
    title: str = "Invented wearer, foot moved fore and aft"
    cautions: tuple[str, ...] = (
        "Planning aid, not a prescription.",
        "The simulated wearer keeps the same strategy; real wearers adapt.",
        "Guard every trial; local rules and licensed practice decide.",
    )
    sources: tuple[str, ...] = ("illustrative: invented curves",)
    version: str = "0.0.test"


def _up(lean: Array, length: float) -> Array:
    """A vector of `length` [m] along a segment of `lean` [rad]."""
    return np.column_stack([np.sin(lean), np.cos(lean)]) * length


def _sole(alignment: Alignment, lean: Array) -> Array:
    """The undeformed sole about the ankle [m] when the shank has this lean [rad]."""
    pitch = -lean + alignment.dorsiflexion
    place = np.linspace(-0.07, 0.19, 26)
    strip = np.column_stack([place, -0.075 + 0.25 * np.maximum(place - 0.12, 0.0)])
    strip[:, 0] += alignment.foot_forward
    cos, sin = np.cos(pitch)[:, None], np.sin(pitch)[:, None]
    return np.stack(
        [strip[:, 0] * cos - strip[:, 1] * sin, strip[:, 0] * sin + strip[:, 1] * cos], axis=-1
    )


def curves(alignment: Alignment, share: float = 1.0, instants: int = 400) -> Curves:
    """An invented stance; `share` of it is run before it is cut off."""
    s = np.linspace(0.0, share, instants)
    lean = np.radians(-19.0 + 10.0 * np.sin(np.pi * np.minimum(s / 0.3, 1.0) / 2) + 44.0 * s**1.6)
    bend = np.radians(4.0 + 12.0 * np.exp(-(((s - 0.18) / 0.1) ** 2)) + 45.0 * s**7)
    load = np.sin(np.pi * s) ** 0.6 * (1.08 - 0.3 * np.exp(-(((s - 0.5) / 0.15) ** 2)))
    sole = _sole(alignment, lean)
    ankle_y = -sole[:, :, 1].min(axis=1) - 0.022 * load
    ankle = np.column_stack([0.10 * (lean + 0.2), ankle_y])
    sole = sole + ankle[:, None, :]
    socket_end = ankle + _up(lean, 0.22 + alignment.length_change)
    soft = lean + np.radians(3.0) * np.sin(2.5 * np.pi * s)
    pivot = socket_end + _up(lean, 0.10)
    limb_end = pivot - _up(soft, 0.08)
    knee = pivot + _up(soft, 0.10)
    pressure = -0.05 + 0.19 / (1.0 + np.exp(-9.0 * (s - 0.38))) + 0.3 * alignment.foot_forward
    force = 784.5 * load
    forward = -0.17 * 784.5 * np.sin(2 * np.pi * s) * np.sin(np.pi * s)
    shift = alignment.foot_forward - 0.25 * alignment.dorsiflexion
    ahead = 0.06 * (s - 0.3) + shift
    moment = -force * ahead * 0.8 + 14.0 * np.sin(2 * np.pi * s)
    return Curves(
        time=s * (0.66 + 0.8 * alignment.foot_forward),
        percent=100.0 * s,
        hip=knee + _up(lean - bend, 0.43),
        knee=knee,
        brim=socket_end + _up(lean, 0.19),
        socket_pivot=pivot,
        limb_end=limb_end,
        socket_end=socket_end,
        ankle=ankle,
        sole=sole,
        pressure_x=np.where(force > 1.0, pressure + 0.05 * s, np.nan),
        force_forward=forward,
        force_up=force,
        knee_flexion_moment=moment,
        socket_flexion_moment=0.8 * moment - 9.0 * np.sin(np.pi * s),
        pressure_ahead_of_ankle=pressure,
    )


def result(alignment: Alignment, ending: str = "toe_off", share: float = 1.0) -> Result:
    drawn = curves(alignment, share)
    knee, socket = drawn.knee_flexion_moment / 80.0, drawn.socket_flexion_moment
    bad = float("nan")
    normal = ending == "toe_off"
    values = {
        "knee_flexion_moment_peak_nm_kg": knee.max(),
        "knee_extension_moment_peak_nm_kg": -knee.min(),
        "socket_flexion_moment_peak_nm": socket.max(),
        "socket_extension_moment_peak_nm": -socket.min(),
        "forward_margin_min_mm": 40.0 + 900.0 * alignment.foot_forward,
        "backward_margin_min_mm": 30.0 - 900.0 * alignment.foot_forward,
    }
    measures = {name: float(value) if normal else bad for name, value in values.items()}
    return Result(alignment=alignment, curves=drawn, ending=ending, measures=measures)


def comparison(count: int, bad: bool = False) -> Comparison:
    """`count` alignments on a grid of shifts and dorsiflexions; the last ends badly if asked."""
    made = []
    for i in range(count):
        row, column = divmod(i, 3)
        made.append(
            result(
                Alignment(
                    foot_forward=0.010 * (column - 1) if count > 1 else 0.0,
                    dorsiflexion=np.radians(3.0 * (row - 1)) if count > 3 else 0.0,
                    socket_flexion=np.radians(5.0),
                )
            )
        )
    if bad:
        made[-1] = result(made[-1].alignment, "fell_forward", 0.6)
    return Comparison(results=tuple(made), baseline=count // 2)


def crowded() -> Comparison:
    """Five runs in which all five settings differ, a long title, long cautions, a bad ending."""
    settings = (
        Alignment(),
        Alignment(foot_forward=0.01, dorsiflexion=0.05, socket_flexion=0.09, heel_rise=0.01),
        Alignment(foot_forward=-0.0125, dorsiflexion=-0.05, length_change=-0.0125, heel_rise=0.02),
        Alignment(foot_forward=-0.005, dorsiflexion=-0.05),
    )
    made = [result(alignment) for alignment in settings]
    made.append(result(Alignment(heel_rise=0.0325), "knee_collapsed", 0.85))
    return Comparison(
        results=tuple(made),
        title="An invented case whose long title tells of a short residual limb, a heavy worker, "
        "a shoe with a higher heel and a floor that is not level",
        cautions=Comparison.cautions * 4,
    )
