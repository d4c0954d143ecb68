"""Limbs drawn at random from all that the library has: wearers, parts, lengths, settings."""

from __future__ import annotations

import numpy as np

from simgait.case import read_case
from simgait.errors import CaseError, RangeError
from simgait.library import models_folder, names
from simgait.limb import Limb, limb_of

SPANS = {
    "person.mass_kg": (50.0, 110.0),
    "person.stature_mm": (1550.0, 1900.0),
    "limb.residual_limb_mm": (70.0, 250.0),
    "walking.speed_m_s": (0.7, 1.5),
    "ground.friction": (0.2, 1.0),
    "alignment.foot_forward_mm": (-40.0, 40.0),
    "alignment.dorsiflexion_deg": (-8.0, 8.0),
    "alignment.socket_flexion_deg": (0.0, 15.0),
    "alignment.length_change_mm": (-20.0, 20.0),
    "alignment.heel_rise_mm": (0.0, 40.0),
}
PARTS = {"wearer": "wearers", "foot": "feet", "shoe": "shoes", "socket": "sockets"}


def drawn_limbs(count: int, seed: int) -> list[Limb]:
    """Return so many limbs that can be built; those drawn that cannot are passed over."""
    rng, limbs = np.random.default_rng(seed), []
    path = models_folder() / "cases" / "everyday.toml"
    while len(limbs) < count:
        said = {name: repr(float(rng.uniform(*span))) for name, span in SPANS.items()}
        said |= {f"{part}.model": str(rng.choice(names(kind))) for part, kind in PARTS.items()}
        try:
            case = read_case(path, said)
            limbs.append(limb_of(case, case.baseline))
        except (CaseError, RangeError):
            continue
    return limbs
