"""The generated parts of the guide: trunk, fit, and classroom tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from making.text import plain, shown, table
from simgait.case import read_case
from simgait.library import models_folder, names
from simgait.limb import limb_of
from simgait.stance import StanceResult, simulate_stance
from simgait.stance.misfit import LARGEST_PUSH, LARGEST_SUPPORT, SAMPLES, TOLERANCE
from simgait.symbols import BY_NAME
from walkers import stance_of

FIT_UNITS = {
    "force_up": ("body weights", 1.0),
    "force_forward": ("body weights", 1.0),
    "knee_flexion_moment": ("N m/kg", 1.0),
    "knee_flexion": ("degrees", 180.0 / np.pi),
    "shank_lean": ("degrees", 180.0 / np.pi),
}


def trunk_row(name: str) -> tuple[str, ...]:
    """Return one wearer's row: what the trunk regulator does through stance."""
    result = stance_of(name)
    wearer, curves = result.limb.wearer, result.curves
    force = wearer.trunk_damping * (wearer.trunk_speed - curves.hip_speed[:, 0])
    impulse = float(np.trapezoid(force, curves.time))
    return (
        name,
        shown(impulse, 1),
        shown(result.measures["braking_impulse_ns"], 1),
        shown(float(np.abs(force).max()), 0),
        shown(result.ledger.trunk, 1),
        shown(result.ledger.exchanged, 0),
    )


def model_parts() -> dict[str, str]:
    """Return the generated parts of the page on the model."""
    heads = (
        "wearer, as calibrated",
        "impulse N s",
        "braking impulse N s",
        "largest force N",
        "work J",
        "all energy exchanged J",
    )
    return {"trunk": table(heads, [trunk_row(name) for name in names("wearers")], right=5)}


def wearer_parts() -> dict[str, str]:
    """Return the generated parts of the page on the wearer."""
    rows = []
    for name, value in TOLERANCE.items():
        unit, scale = FIT_UNITS[name]
        rows.append((f"`{name}`", shown(float(value) * scale, 3).rstrip("0").rstrip("."), unit))
    text = table(("curve", "counts as one", "unit"), rows)
    return {
        "fit": f"Compared at {SAMPLES} instants of stance:\n\n{text}\n"
        f"Mildly held as well: smooth references, a plausible start, steady walking, and an other "
        f"limb that carries no more than {plain(LARGEST_SUPPORT)} body weights, does not pull, and "
        f"pushes or brakes with no more than {plain(LARGEST_PUSH)}."
    }


def everyday(settings: Mapping[str, str]) -> StanceResult:
    """Return the everyday case with settings replaced, as `simgait stance --set` does."""
    case = read_case(models_folder() / "cases" / "everyday.toml", settings)
    return simulate_stance(limb_of(case, case.baseline))


def experiment(key: str, values: Sequence[str], measures: Sequence[tuple[str, int]]) -> str:
    """Return an experiment's commands and the table that they fill."""
    runs = [everyday({key: value}) for value in values]
    commands = "\n".join(
        f"simgait stance models/cases/everyday.toml --set {key}={value}" for value in values
    )
    rows = [
        (
            f"`{name}`",
            BY_NAME[name].unit,
            *(shown(run.measures[name], digits) for run in runs),
        )
        for name, digits in measures
    ]
    heads = ("measure", "unit", *values)
    return f"```\n{commands}\n```\n\n" + table(heads, rows, right=len(values))


def teaching_parts() -> dict[str, str]:
    """Return the generated parts of the page for teachers."""
    return {
        "shift": experiment(
            "alignment.foot_forward_mm",
            ("-10", "0", "10"),
            (
                ("heel_lever_mm", 0),
                ("toe_lever_mm", 0),
                ("knee_flexion_moment_peak_nm_kg", 2),
                ("knee_extension_moment_peak_nm_kg", 2),
                ("forward_thrust", 0),
            ),
        ),
        "limb": experiment(
            "limb.residual_limb_mm",
            ("100", "130", "160"),
            (
                ("socket_flexion_moment_peak_nm", 1),
                ("socket_extension_moment_peak_nm", 1),
                ("socket_couple_force_n", 0),
                ("brim_force_peak_n", 0),
            ),
        ),
        "keel": experiment(
            "foot.model",
            ("short-keel", "carbon-leaf", "firm"),
            (
                ("toe_lever_mm", 0),
                ("knee_extension_moment_peak_nm_kg", 2),
                ("drop_off", 2),
                ("rollover_radius_mm", 0),
            ),
        ),
    }
