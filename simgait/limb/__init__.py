"""Person, parts, alignment and wearer put together: the limb that is simulated."""

from simgait.limb.assembly import limb_of, limbs_of, sound_lift
from simgait.limb.columns import Columns, limb_columns
from simgait.limb.geometry import Limb, prosthesis_bodies, sole_in_prosthesis
from simgait.limb.inertia import lean_mass_matrices

__all__ = [
    "Columns",
    "Limb",
    "lean_mass_matrices",
    "limb_columns",
    "limb_of",
    "limbs_of",
    "prosthesis_bodies",
    "sole_in_prosthesis",
    "sound_lift",
]
