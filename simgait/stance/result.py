"""What a simulated stance returns: an ending, measures, a ledger, and curves through time."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

from simgait.alignment import Alignment
from simgait.arrays import Array
from simgait.limb import Limb
from simgait.stance.remarks import remarks_on
from simgait.symbols import BY_NAME

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True, kw_only=True, eq=False)
class StanceCurves:
    """Curves through stance, one row a recorded instant; SI, x forward and y up from the floor."""

    time: Array  # [n] s
    percent: Array  # [n] % of stance (of the time until the ending, if that is not toe-off)
    hip: Array  # [n, 2] m
    knee: Array  # [n, 2] m
    brim: Array  # [n, 2] m
    socket_pivot: Array  # [n, 2] m middle of the enclosed limb, about which the socket turns
    limb_end: Array  # [n, 2] m
    socket_end: Array  # [n, 2] m
    ankle: Array  # [n, 2] m
    sole: Array  # [n, elements, 2] m undeformed; y < 0 is pressed in
    pressure_x: Array  # [n] m, NaN where the foot carries next to nothing
    force_forward: Array  # [n] N ground on foot
    force_up: Array  # [n] N
    knee_flexion_moment: Array  # [n] N m external, + bends the knee
    socket_flexion_moment: Array  # [n] N m external, + in the sense that bends the knee
    hip_flexion_moment: Array  # [n] N m external, + bends the hip
    pressure_ahead_of_ankle: (
        Array  # [n] m along the sole, NaN where the foot carries next to nothing
    )
    thigh_lean: Array  # [n] rad, + hip ahead of knee
    knee_flexion: Array  # [n] rad
    shank_lean: Array  # [n] rad of the residual limb, + knee ahead
    hip_speed: Array  # [n, 2] m/s
    other_force_up: Array  # [n] N of the other limb on the hip
    other_force_forward: Array  # [n] N

    def __post_init__(self) -> None:
        for field in fields(self):
            getattr(self, field.name).setflags(write=False)


@dataclass(frozen=True, kw_only=True)
class Ledger:
    """Energy of one stance [J]: what the mechanical energy gained, and every flow that made it."""

    gained: float  # mechanical energy at the end less that at the start
    hip: float  # work of the hip muscles
    knee: float  # work of the knee muscles
    other_limb: float  # work of the other limb on the hip
    trunk: float  # work of the trunk regulator on the hip
    sole: float  # work of the sole's normal forces on the limb (negative: stored and lost)
    friction: float  # work of the friction forces on the limb
    lost_in_socket: float
    lost_in_sole: float
    exchanged: float  # sum of the sizes of all flows

    @property
    def error_percent(self) -> float:
        """What is left unexplained, over all energy exchanged [%]."""
        flows = self.hip + self.knee + self.other_limb + self.trunk + self.sole + self.friction
        return 100.0 * abs(self.gained - flows + self.lost_in_socket) / self.exchanged


@dataclass(frozen=True, kw_only=True, eq=False)
class StanceResult:
    """One stance: how it ended, its measures (NaN unless it ended with toe-off), its curves."""

    limb: Limb
    ending: str  # "toe_off" for a normal stance
    end_time: float  # [s]
    measures: Mapping[str, float]
    ledger: Ledger
    curves: StanceCurves

    @property
    def alignment(self) -> Alignment:
        """The alignment that was simulated."""
        return self.limb.alignment

    @property
    def remarks(self) -> tuple[str, ...]:
        """What should make a reader doubt that a wearer would walk so; see `remarks_on`."""
        return remarks_on(self.limb, self.ending, self.measures)

    @property
    def mass(self) -> float:
        """Body mass [kg]."""
        return self.limb.person.mass

    @property
    def body_weight(self) -> float:
        """Body weight [N]."""
        return self.limb.body_weight

    def table(self) -> pd.DataFrame:
        """Return the measures as a table: name, value, unit, definition, sentence, source."""
        import pandas as pd

        rows = [
            {
                "measure": name,
                "value": value,
                "unit": BY_NAME[name].unit,
                "definition": BY_NAME[name].definition,
                "sentence": BY_NAME[name].sentence,
                "source": BY_NAME[name].source,
            }
            for name, value in self.measures.items()
        ]
        return pd.DataFrame(rows).set_index("measure")


@dataclass(frozen=True, kw_only=True, eq=False)
class Comparison:
    """Several alignments of one case, simulated through stance."""

    title: str
    results: tuple[StanceResult, ...]
    baseline: int  # index of the alignment that the case itself states
    cautions: tuple[str, ...]
    filled: tuple[str, ...]  # what the case left out and how it was filled
    sources: tuple[str, ...]
    version: str
    assumption: str = "keeps"  # of the wearer: "keeps" the strategy, or "adapts"
    # one a run, in degrees, None for one that does not walk and so is not adapted; () of `keeps`
    adaptations: tuple[Mapping[str, float] | None, ...] = ()

    def table(self) -> pd.DataFrame:
        """Return one row a run: the five alignment values, the ending, every measure.

        Of a wearer who adapts also how, NaN where the wearer is not adapted.
        """
        import pandas as pd

        changes: tuple[Mapping[str, float] | None, ...] = self.adaptations

        rows = [
            {
                "run": number,
                "baseline": number == self.baseline + 1,
                **result.alignment.as_written(),
                "ending": result.ending,
                **result.measures,
                "remarks": "; ".join(result.remarks),
                **((changes[number - 1] or {}) if changes else {}),
            }
            for number, result in enumerate(self.results, start=1)
        ]
        return pd.DataFrame(rows).set_index("run")
