"""Invented scenes of tipping for the pictures: a stick figure that leans, nothing simulated."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
CAUTIONS = ("Planning aid, not a prescription.", "Guard every trial.")


@dataclass(frozen=True, kw_only=True)
class Track:
    time: Array
    ending: str
    hip: Array
    shoulder: Array
    crown: Array
    knee: Array
    brim: Array
    limb_end: Array
    socket_end: Array
    ankle: Array
    sole: Array
    sound_hip: Array
    sound_knee: Array
    sound_ankle: Array
    sound_sole: Array
    force: Array
    pressure: Array
    centre: Array
    extrapolated: Array


@dataclass(frozen=True, kw_only=True)
class Scene:
    size: float
    track: Track
    slope: Array
    under: Array
    reach: Array
    push_sense: float
    push_time: float = 0.1
    push_height: float = 0.95


@dataclass(frozen=True, kw_only=True)
class Pair:
    title: str
    unit: str
    value: float
    below: Scene
    above: Scene | None
    body_weight: float = 784.5


def scene(unit: str, size: float, ending: str, sense: float, lasts: float) -> Scene:
    """A figure that leans by up to 18 degrees if it does not stay, by 3 if it does."""
    time = np.arange(0.0, lasts + 1e-9, 0.005)
    share = time / lasts
    lean = sense * np.radians(3.0 if ending == "stays" else 18.0) * share**2
    foot = np.array([0.0, 0.08])
    sole = np.column_stack([np.linspace(-0.07, 0.13, 20), np.full(20, -0.004)])
    soles = np.repeat(sole[None], len(time), axis=0)

    def at(height: float) -> Array:
        up = np.column_stack([np.sin(lean), np.cos(lean)])
        return foot + up * (height - 0.08)

    load = np.full((len(time), 2), 784.5 / 2.0)
    rise = size / 1000.0 * share if unit == "mm" else np.zeros_like(share)
    under = soles.copy()
    under[:, 12:, 1] -= rise[:, None]
    points = {"ankle": 0.08, "socket_end": 0.3, "limb_end": 0.35, "knee": 0.5, "brim": 0.52}
    points |= {"hip": 0.94, "shoulder": 1.44, "crown": 1.76}
    points |= {"sound_ankle": 0.08, "sound_knee": 0.5, "sound_hip": 0.94}
    return Scene(
        size=size,
        track=Track(
            time=time,
            ending=ending,
            **{name: at(height) for name, height in points.items()},
            sole=soles,
            sound_sole=soles,
            force=np.stack((np.zeros_like(load), load), axis=-1),
            pressure=np.full_like(load, 0.02),
            centre=at(0.98),
            extrapolated=0.02 + 1.2 * lean,
        ),
        slope=sense * np.radians(size) * share if unit == "deg" else np.zeros_like(share),
        under=under,
        reach=np.repeat(np.array([[-0.075, 0.135]]), len(time), axis=0),
        push_sense=sense if unit == "N s" else 0.0,
    )


def pair(title: str, unit: str, size: float, sense: float, lasts: float) -> Pair:
    """A threshold with a scene to both sides of it."""
    return Pair(
        title=title,
        unit=unit,
        value=size,
        below=scene(unit, 0.996 * size, "stays", sense, 0.4 * lasts),
        above=scene(unit, 1.004 * size, "steps_needed", sense, lasts),
    )


def pairs() -> tuple[Pair, ...]:
    """Five thresholds and one that was not reached."""
    most = scene("mm", 40.0, "stays", 1.0, 1.0)
    return (
        pair("push forward", "N s", 18.0, 1.0, 2.1),
        pair("push backward", "N s", 10.4, -1.0, 2.6),
        pair("slope down", "deg", 19.8, 1.0, 5.1),
        pair("slope up", "deg", 10.0, -1.0, 6.2),
        pair("something under the forefoot", "mm", 9.0, -1.0, 2.7),
        Pair(title="under the heel", unit="mm", value=float("nan"), below=most, above=None),
    )
