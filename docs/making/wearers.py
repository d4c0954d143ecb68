"""The reference page of the calibrated wearers, and their pictures of targets against model."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

from making.ink import dress, save, sheet
from making.reference import short
from making.text import page, plain, shown, table
from simgait.arrays import Array
from simgait.library import names, read_calibration, read_wearer, read_wearer_data, source
from simgait.pictures.style import ACCENT, INK, hex_colour
from simgait.stance import StanceResult
from simgait.stance.targets import targets_at
from simgait.stance.unknowns import FORCE_FIELDS, START_FIELDS, unknowns
from walkers import stance_of

CURVES = (
    ("force_up", "Vertical force", "body weights", 1.0, "force_up_bw", 3),
    ("force_forward", "Fore-aft force", "body weights", 1.0, "force_forward_bw", 3),
    ("knee_flexion_moment", "Knee moment, + bends", "Nm/kg", 1.0, "knee_flexion_moment_nm_kg", 3),
    ("knee_flexion", "Knee flexion", "degrees", np.degrees(1.0), "knee_flexion_deg", 1),
    ("shank_lean", "Shank lean, + knee ahead", "degrees", np.degrees(1.0), "shank_lean_deg", 1),
)
ASKED = {  # of the able-bodied-like wearer
    "force_up_bw": 0.04,
    "force_forward_bw": 0.02,
    "knee_flexion_moment_nm_kg": 0.05,
    "knee_flexion_deg": 4.0,
    "shank_lean_deg": 4.0,
}
SECTIONS = ("body", "parts", "pace", "strategy", "targets")
ORIGIN = ("grade", "source", "place")


def modelled_curves(result: StanceResult) -> dict[str, Array]:
    """Return a stance's curves under the names and in the units of the targets."""
    c = result.curves
    return {
        "force_up": c.force_up / result.body_weight,
        "force_forward": c.force_forward / result.body_weight,
        "knee_flexion_moment": c.knee_flexion_moment / result.mass,
        "knee_flexion": c.knee_flexion,
        "shank_lean": c.shank_lean,
    }


def draw_targets(name: str, path: Path) -> None:
    """Draw a wearer's five target curves and the model's, as calibrated."""
    result = stance_of(name)
    share = result.curves.time / result.limb.wearer.stance_time
    aims = targets_at(share, read_calibration(name)).curves
    modelled = modelled_curves(result)
    figure = sheet(9.2, 4.6)
    for place, (key, title, unit, scale, _, _) in enumerate(CURVES):
        axes = figure.add_subplot(2, 3, place + 1)
        dress(axes, title, "% of stance" if place > 1 else "", unit)
        aim = aims[key] * scale
        axes.plot(100.0 * share, aim, color=hex_colour(ACCENT), linewidth=1.6, dashes=(4, 1.6))
        axes.plot(100.0 * share, modelled[key] * scale, color=hex_colour(INK), linewidth=1.7)
        axes.set_xlim(0, 100)
    key_axes = figure.add_subplot(2, 3, 6)
    key_axes.axis("off")
    key_axes.plot([0.0, 0.14], [0.78, 0.78], color=hex_colour(ACCENT), lw=1.6, dashes=(4, 1.6))
    key_axes.plot([0.0, 0.14], [0.58, 0.58], color=hex_colour(INK), linewidth=1.7)
    key_axes.text(0.18, 0.78, "target (input of the fit)", va="center", size=9)
    key_axes.text(0.18, 0.58, "model, as calibrated", va="center", size=9)
    key_axes.text(
        0.0, 0.28, "An input of a fit is never\nevidence that the model predicts.", size=9
    )
    key_axes.set_xlim(0, 1)
    key_axes.set_ylim(0, 1)
    save(figure, path)


def listed_values(section: Mapping[str, Any]) -> str:
    """Return the values of a section of a calibration file in one cell."""
    return ", ".join(
        f"`{key}` {plain(value) if isinstance(value, float) else value}"
        for key, value in section.items()
        if key not in ORIGIN
    )


def provenance(name: str) -> str:
    """Return what of a wearer is published and what assumed, section by section."""
    recipe = read_calibration(name)
    rows = []
    for key in SECTIONS:
        section = recipe[key]
        cited = source(section["source"])
        whose = "" if section["source"] == section["grade"] else f", {short(cited.citation)}"
        rows.append((key, listed_values(section), f"{section['grade']}{whose}", section["place"]))
    return table(("section", "values", "grade", "where from"), rows)


def residuals(name: str) -> str:
    """Return the table of what the fit leaves over."""
    fit = read_wearer_data(name)["fit"]
    asked = ASKED if name == "able-bodied-like" else {}
    rows = [
        (title, unit, shown(fit[key], digits), plain(asked[key]) if key in asked else "")
        for _, title, unit, _, key, digits in CURVES
    ]
    return table(("curve", "unit", "root mean square", "asked for"), rows, right=2)


def wearer_section(name: str) -> str:
    """Return the section of one wearer."""
    data, wearer = read_wearer_data(name), read_wearer(name)
    unknown = len(unknowns(wearer))
    return "\n".join(
        (
            f"## {name}\n",
            f"{data['title']}. {data['sentence']}\n",
            f"Made by `{data['command']}` from `models/calibrations/{name}.toml`: {unknown} "
            f"numbers fitted in {data['fit']['evaluations']} evaluations; the rest is as stated "
            "there.\n",
            provenance(name),
            f"What the fit leaves over, through stance:\n\n{residuals(name)}",
            f"![Targets and model of {name}: forces, knee moment, knee flexion and shank lean]"
            f"(wearer-{name}.png)\n",
        )
    )


def wearers_page() -> str:
    """Return the page of all calibrated wearers."""
    forces = len(FORCE_FIELDS) * 4 + 1
    return page(
        "Calibrated wearers",
        "A wearer is a controller with named physical parameters, fitted so that the model "
        "walks like a published set of curves. How that is done: [the "
        "wearer](../guide/wearer.md).\n\n**Inputs of a fit are never evidence.** That the model "
        "follows the curves below shows that the fit worked, not that the model predicts; what "
        "it predicts is on the page of [agreement](../agreement/stance.md). The only published "
        "data among the inputs are curves of able-bodied walking; for the two wearers with a "
        "prosthesis they are reshaped as said in the section *targets*, by amounts that are "
        "recalled or assumed.\n\nFitted are the two reference curves (thigh lean and knee "
        f"flexion), the state at touch-down ({len(START_FIELDS)} numbers) and the other limb's "
        f"support ({forces} numbers). Pace, body, parts, stiffnesses and dampings are stated, "
        "not fitted.",
        *(wearer_section(name) for name in names("wearers")),
    )


def pictures() -> list[tuple[str, partial[None]]]:
    """Return path and drawing of each wearer's picture."""
    return [
        (f"reference/wearer-{name}.png", partial(draw_targets, name)) for name in names("wearers")
    ]
