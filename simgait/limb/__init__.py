"""Person, parts, alignment and wearer put together: the limb that is simulated."""

from simgait.limb.assembly import limb_of, limbs_of, sound_lift
from simgait.limb.columns import Columns, bench_columns, limb_columns
from simgait.limb.geometry import Limb
from simgait.limb.many import (
    as_many,
    limb_part,
    limb_run,
    many_alignments,
    runs_of,
    stands_for_many,
)
from simgait.limb.prosthesis import prosthesis_bodies, sole_in_prosthesis

__all__ = [
    "Columns",
    "Limb",
    "as_many",
    "bench_columns",
    "limb_columns",
    "limb_of",
    "limb_part",
    "limb_run",
    "limbs_of",
    "many_alignments",
    "prosthesis_bodies",
    "runs_of",
    "sole_in_prosthesis",
    "sound_lift",
    "stands_for_many",
]
