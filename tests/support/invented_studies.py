"""Small invented studies, written into a folder of their own."""

from __future__ import annotations

import shutil
from pathlib import Path

from simgait.library import models_folder

SAMPLE = """
title = "Trial"
case = "everyday.toml"
part_rows = 16

[vary]
"alignment.foot_forward_mm" = { from = -20, to = 20 }
"alignment.dorsiflexion_deg" = [-3, 0, 3]
"person.mass_kg" = { from = 60, to = 100 }

[sample]
method = "sobol"
size = 70
seed = 11

[error]
"alignment.socket_flexion_deg" = 1.0
"person.mass_kg" = { plus_minus = 2.0 }
"""

GRID = """
case = "everyday.toml"
part_rows = 16
measures = ["hip_rise_mm", "knee_flexion_moment_peak_nm"]

[vary]
"alignment.foot_forward_mm" = { from = -10, to = 10, steps = 3 }
"foot.model" = ["firm", "carbon-leaf"]
"""


def written(folder: Path, text: str, name: str = "study.toml") -> Path:
    """Return the path of a study file, written beside copies of the cases of the library."""
    for case in (models_folder() / "cases").glob("*.toml"):
        shutil.copy(case, folder / case.name)
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path
