"""Cases with goals or signs, made from the library's, for what tests of advice share."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from simgait.advice.causes import alike, causes_of
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.case import Case, case_of_text
from simgait.library import models_folder

WALKING = ("everyday", "heavy-worker", "length-mismatch", "short-residual-limb")


def case_with_tables(name: str, tables: str) -> Case:
    """Return a library case with further tables."""
    return case_of_text(text_with_tables(name, tables), f"{name}.toml")


def text_with_tables(name: str, tables: str) -> str:
    """Return the text of a library case without [compare], with further tables."""
    text = (models_folder() / "cases" / f"{name}.toml").read_text(encoding="utf-8")
    return f"{text.partition('[compare]')[0]}\n{tables}\n"


def complaint(name: str) -> str:
    """Return the table of a case whose wearer has one complaint."""
    return f'[goal]\ncomplaints = ["{name}"]'


# What is measured of a wearer whose alignment is off, and how well: invented.
MEASURED = {
    "heel_off_s": 0.012,
    "knee_flexion_loading_deg": 1.5,
    "knee_flexion_moment_peak_nm": 2.0,
    "knee_extension_moment_peak_nm": 2.5,
    "hip_rise_mm": 5.0,
}
OFF = {"foot_forward_mm": 12.0, "dorsiflexion_deg": 5.0, "socket_flexion_deg": 4.0}
READ_BACK = ("everyday", "heavy-worker")
REPEATED = 2


@dataclass(kw_only=True)
class Found:
    """How often a misalignment was found back from its own signs with noise."""

    tried: int = 0
    first: int = 0  # its number alone was the most plausible cause
    among: int = 0  # or could not be told from the most plausible one
    inside: int = 0  # its size lay where 9 in 10 should


def signs_of(name: str, off: dict[str, float], noise: np.random.Generator) -> str:
    """Return the table of what is measured of a case whose alignment is off."""
    case = case_with_tables(name, "")
    setting = setting_of(case)
    for key, size in off.items():
        setting[WRITTEN_NAMES.index(key)] += size
    true = Trials(case=case).outcomes(setting[None]).measures(0)
    lines = [
        f"{key} = {{ value = {true[key] + within * noise.standard_normal()!r}, within = {within} }}"
        for key, within in MEASURED.items()
    ]
    return "[seen]\n" + "\n".join(lines)


def found_back(seed: int) -> dict[str, Found]:
    """Return for each number how often it was found back, both ways, in `READ_BACK` cases."""
    noise = np.random.default_rng(seed)
    found = {key: Found() for key in OFF}
    for name in READ_BACK:
        for key, size in OFF.items():
            for off in (size, -size) * REPEATED:
                causes = causes_of(case_with_tables(name, signs_of(name, {key: off}, noise)))
                mine = next(each for each in causes if set(each.off) == {key})
                low, high = mine.ranges[key]
                row = found[key]
                row.tried += 1
                row.first += causes[0] is mine
                row.among += mine in [causes[place] for place in alike(causes)]
                row.inside += low <= off <= high
    return found
