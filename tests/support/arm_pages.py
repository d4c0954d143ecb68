"""The arm's model of the page in Node, and random arms; every number invented."""

from __future__ import annotations

import json
import math
import random
import subprocess
from dataclasses import asdict, replace
from pathlib import Path
from typing import Any

import pytest

from simgait.arm.entries import length_entry, position_entry
from simgait.arm.judging import judge
from simgait.arm.lifting import lift, setting_of
from simgait.arm.reaching import length_row
from simgait.arm.result import WorkLedger
from simgait.arm.search import best_place, positions_of
from simgait.case.arm_case import ArmCase, read_arm_case
from simgait.library import models_folder
from simgait.page.arm_data import arm_data
from simgait.page.arm_page import MODEL_SCRIPTS, arm_formulas
from simgait.page.shell import asset, safe_json

LIBRARY = ("above-elbow", "forearm-level", "shoulder-level")
RUNNER = """
const asked = JSON.parse(require("fs").readFileSync(0, "utf8"));
const plain = (key, value) => typeof value === "number" && !Number.isFinite(value) ? String(value)
  : value instanceof Float64Array ? Array.from(value) : value;
const answers = asked.map(({data, settings}) => settings.map((setting) => {
  const model = armModel(data);
  const run = model.run(setting);
  if (run.refused !== null) return {refused: run.refused};
  const search = model.lifts ? model.search(setting) : null;
  return {measures: run.lift && run.lift.measures, margins: run.lift && run.lift.margins,
    ledger: run.lift && run.lift.ledger, pull: run.lift && run.lift.curves.pull,
    drawn: run.lift && run.lift.curves.drawn, capacity: run.lift && run.lift.curves.capacity,
    length: run.length, best: search && search.best && search.best.loop_mm};
}));
console.log(JSON.stringify(answers, plain));
"""


def library_case(name: str) -> ArmCase:
    """Return an arm's case of the library."""
    return read_arm_case(models_folder() / "cases" / "arms" / f"{name}.toml")


def run_in_node(asked: list[dict[str, Any]], folder: Path) -> list[list[dict[str, Any]]]:
    """Return what the page's model answers, run by Node without a browser."""
    script = folder / "model.js"
    texts = (arm_formulas(), *(asset(name) for name in MODEL_SCRIPTS), RUNNER)
    script.write_text("\n".join(texts), encoding="utf-8")
    try:
        done = subprocess.run(
            ["node", str(script)], input=safe_json(asked), capture_output=True, text=True,
            check=False,
        )  # fmt: skip
    except FileNotFoundError:
        pytest.skip("Node is not installed")
    assert done.returncode == 0, done.stderr
    answers: list[list[dict[str, Any]]] = json.loads(done.stdout)
    return answers


def random_case(seed: int) -> ArmCase:
    """Return a library case with nearly every number drawn anew, within what an arm can be."""
    draw = random.Random(seed)
    case = library_case(draw.choice(("above-elbow", "shoulder-level")))
    forearm = draw.uniform(0.16, 0.32)
    device = forearm + draw.uniform(0.02, 0.08)
    start = math.radians(draw.uniform(0.0, 40.0))
    arm = replace(
        case.arm, forearm=forearm, upper_arm=draw.uniform(0.22, 0.36),
        forearm_mass=draw.uniform(0.2, 0.9), forearm_centre=forearm * draw.uniform(0.3, 0.6),
        device_mass=draw.uniform(0.05, 0.5), device_centre=device, tip=device + 0.05,
        held_mass=draw.choice((0.0, draw.uniform(0.0, 0.8))),
        shoulder_flexion=math.radians(draw.uniform(-20.0, 60.0)),
        flexion_from=start, flexion_to=start + math.radians(draw.uniform(40.0, 110.0)),
        upper_arm_mass=draw.uniform(0.0, 0.8), upper_arm_centre=draw.uniform(0.05, 0.2),
    )  # fmt: skip
    points = draw.choice((1, 2, 3, 4))
    spans = tuple(sorted(draw.uniform(0.2, 2.2) for _ in range(points)))
    cable = replace(
        case.cable, guide_offset=draw.uniform(-0.02, 0.03), loop_offset=draw.uniform(-0.02, 0.03),
        bends=tuple(draw.uniform(0.0, 2.0) for _ in range(draw.randint(0, 3))),
        friction=draw.uniform(0.0, 0.3), pulley=draw.choice((1.0, 2.0)), assist_at=spans,
        assist=tuple(draw.uniform(0.0, 1.5) for _ in spans),
        device_excursion=draw.choice((None, 0.03, 0.05)), device_start_pull=draw.uniform(10, 60),
    )  # fmt: skip
    harness = replace(
        case.harness, max_pull=draw.uniform(80, 400), max_excursion=draw.uniform(0.05, 0.15),
        opening_share=draw.choice((0.5, 1.0)),
        max_shoulder_moment=draw.choice((None, draw.uniform(2.0, 8.0))),
    )  # fmt: skip
    loops = tuple(sorted(draw.uniform(0.02, 0.9 * forearm) for _ in range(7)))
    return replace(case, arm=arm, cable=cable, harness=harness, loops=loops, own_loop=loops[3])


def random_setting(case: ArmCase, seed: int) -> dict[str, float]:
    """Return a setting of the page within its ranges, its loop on the forearm."""
    draw = random.Random(seed)
    ranges = arm_data(case)["ranges"]
    setting = {name: draw.uniform(low, high) for name, (low, high, _) in ranges.items()}
    setting["forearm_change_mm"] = draw.uniform(-40.0, 40.0)
    if "loop_mm" in setting:
        longest = 1000.0 * case.arm.forearm + setting["forearm_change_mm"]
        low, high, _ = ranges["loop_mm"]
        setting["loop_mm"] = draw.uniform(low, min(high, longest))
    return setting


def in_python(case: ArmCase, setting: dict[str, float]) -> dict[str, Any]:
    """Return the same numbers from `simgait.arm`."""
    changed = replace(case, arm=replace(case.arm, held_mass=setting["held_mass_kg"]))
    arm = changed.arm.with_forearm(setting["forearm_change_mm"] / 1000.0)
    length = length_entry(length_row(changed, setting["forearm_change_mm"] / 1000.0, None))
    if case.arm.level == "forearm":
        return {"measures": None, "length": length, "best": None}
    guide = setting["guide_mm"] / 1000.0
    here = setting_of(arm, case.cable, case.harness, guide, setting["loop_mm"] / 1000.0)
    curves, rows, _ = positions_of(here, case.cable, case.harness)
    return {
        "measures": position_entry(rows[0]),
        "margins": dict(rows[0].margins),
        "ledger": ledger_of(rows[0].ledger),
        "pull": curves.pull[0].tolist(),
        "drawn": curves.drawn[0].tolist(),
        "capacity": curves.capacity[0].tolist(),
        "length": length,
        "best": best_loop(case, arm, guide),
    }


def ledger_of(ledger: WorkLedger) -> dict[str, float]:
    """Return a ledger by the page's names."""
    return {**asdict(ledger), "error": ledger.error_percent}


def best_loop(case: ArmCase, arm: Any, guide: float) -> float | None:
    """Return the loop that is recommended with this guide and arm [mm], or None."""
    import numpy as np

    loops = np.array([loop for loop in case.loops if loop <= arm.forearm + 1e-9])
    setting = setting_of(arm, case.cable, case.harness, np.full(len(loops), guide), loops)
    curves = lift(setting)
    share = case.harness.fatigue_free_share
    best = best_place(
        judge(setting, curves, case.cable, case.harness),
        judge(setting, curves, case.cable, case.harness, share),
    )
    return None if best is None else 1000.0 * float(loops[best])
