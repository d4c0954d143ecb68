"""Person, parts, alignment and wearer put together: the limb that is simulated."""

from simgait.limb.assembly import limb_of, limbs_of, sound_lift
from simgait.limb.columns import Columns, bench_columns, limb_columns
from simgait.limb.geometry import Limb
from simgait.limb.prosthesis import prosthesis_bodies, sole_in_prosthesis

__all__ = [
    "Columns",
    "Limb",
    "bench_columns",
    "limb_columns",
    "limb_of",
    "limbs_of",
    "prosthesis_bodies",
    "sole_in_prosthesis",
    "sound_lift",
]
