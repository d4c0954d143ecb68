"""simgait: what a change of a below-knee prosthesis' alignment does, computed before it is made.

>>> import simgait
>>> from simgait.library import models_folder
>>> case = simgait.read_case(models_folder() / "cases" / "everyday.toml")
>>> comparison = simgait.compare(case)
>>> comparison.results[comparison.baseline].ending
'toe_off'

The names below are loaded when they are first used, so that importing the package is quick.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from simgait.arm.running import work_arm
    from simgait.case import Case, read_case
    from simgait.case.arm_case import ArmCase, read_arm_case
    from simgait.limb import Limb, limb_of, limbs_of
    from simgait.stance import (
        Comparison,
        StanceCurves,
        StanceResult,
        compare,
        simulate_stance,
        simulate_stances,
    )
    from simgait.studies import read_curves, read_study, read_study_file, run_study

__all__ = [
    "ArmCase",
    "Case",
    "Comparison",
    "Limb",
    "StanceCurves",
    "StanceResult",
    "compare",
    "limb_of",
    "limbs_of",
    "read_arm_case",
    "read_case",
    "read_curves",
    "read_study",
    "read_study_file",
    "run_study",
    "simulate_stance",
    "simulate_stances",
    "work_arm",
]

_HOMES = {
    "ArmCase": "simgait.case.arm_case",
    "read_arm_case": "simgait.case.arm_case",
    "work_arm": "simgait.arm.running",
    "Case": "simgait.case",
    "read_case": "simgait.case",
    "Limb": "simgait.limb",
    "limb_of": "simgait.limb",
    "limbs_of": "simgait.limb",
    "Comparison": "simgait.stance",
    "StanceCurves": "simgait.stance",
    "StanceResult": "simgait.stance",
    "compare": "simgait.stance",
    "simulate_stance": "simgait.stance",
    "simulate_stances": "simgait.stance",
    "read_curves": "simgait.studies",
    "read_study": "simgait.studies",
    "read_study_file": "simgait.studies",
    "run_study": "simgait.studies",
}


def __getattr__(name: str) -> Any:
    if name not in _HOMES:
        raise AttributeError(f"module 'simgait' has no attribute {name!r}")
    return getattr(import_module(_HOMES[name]), name)


def __dir__() -> list[str]:
    return sorted(__all__)
