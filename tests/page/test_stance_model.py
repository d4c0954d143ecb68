"""The stance model of a page, run by Node, gives Python's numbers at any alignment."""

import json
import subprocess

import numpy as np
import pytest

from scripts import node
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.case import read_case
from simgait.errors import RangeError
from simgait.library import models_folder
from simgait.limb import limb_of
from simgait.page.shell import asset
from simgait.page.stance_data import stance_data, stance_physics
from simgait.stance import simulate_stances

CASES = sorted((models_folder() / "cases").glob("*.toml"))
SPANS = ((-30.0, 30.0), (-6.0, 6.0), (0.0, 15.0), (-15.0, 15.0), (0.0, 35.0))
REPORT = """
const listed = (run) => run.refused !== null ? run : {
  ...run, time: Array.from(run.time), pressure_x: Array.from(run.pressure_x),
  sole: [Array.from(run.sole.x), Array.from(run.sole.y)],
  points: Object.fromEntries(Object.entries(run.points).map(([name, at]) =>
    [name, [Array.from(at.x), Array.from(at.y)]])),
  curves: Object.fromEntries(Object.entries(run.curves).map(([name, at]) =>
    [name, Array.from(at)])),
};
console.log(JSON.stringify(settings.map((setting) => listed(model.run(setting)))));
"""
# What is nearly nothing: of a ledger that closes only rounding is left.
ROUNDING = {"ledger_error_percent": 1e-9}


def drawn(count, seed=1):
    rng = np.random.default_rng(seed)
    return [
        {name: rng.uniform(*span) for name, span in zip(WRITTEN_NAMES, SPANS, strict=True)}
        for _ in range(count)
    ]


def told(case, settings, tmp_path):
    """Return what the page's model says of some settings of a case."""
    lines = [
        stance_physics(),
        asset("elements.js"),
        asset("stance_model.js"),
        f"const model = stanceModel({json.dumps(stance_data(case))});",
        f"const settings = {json.dumps(settings)};",
        REPORT,
    ]
    program = tmp_path / "program.js"
    program.write_text("\n".join(lines), encoding="utf-8")
    done = subprocess.run([node(), program], capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)


def numbers(values):
    return np.array([np.nan if value is None else value for value in values])


@pytest.mark.parametrize("path", CASES, ids=[path.stem for path in CASES])
def test_the_pages_numbers_are_pythons(path, tmp_path):
    case = read_case(path)
    settings = [case.baseline.as_written(), *drawn(12)]
    limbs = [limb_of(case, Alignment.from_written(setting)) for setting in settings]
    for run, result in zip(told(case, settings, tmp_path), simulate_stances(limbs), strict=True):
        assert (run["refused"], run["ending"]) == (None, result.ending)
        assert run["end_time"] == pytest.approx(result.end_time, rel=1e-9)
        for name, value in result.measures.items():
            found = numbers([run["measures"][name]])[0]
            assert found == pytest.approx(
                value, rel=1e-9, abs=ROUNDING.get(name, 1e-9), nan_ok=True
            ), name


@pytest.mark.parametrize("path", CASES[:2], ids=[path.stem for path in CASES[:2]])
def test_the_pages_places_and_curves_are_pythons(path, tmp_path):
    case = read_case(path)
    settings = drawn(4, seed=2)
    limbs = [limb_of(case, Alignment.from_written(setting)) for setting in settings]
    for run, result in zip(told(case, settings, tmp_path), simulate_stances(limbs), strict=True):
        curves = result.curves
        for name, at in run["points"].items():
            assert pytest.approx(getattr(curves, name), abs=1e-10) == np.array(at).T, name
        assert np.array(run["sole"]).transpose(1, 0).reshape(
            len(curves.time), -1, 2
        ) == pytest.approx(curves.sole, abs=1e-10)
        assert numbers(run["pressure_x"]) == pytest.approx(curves.pressure_x, abs=1e-9, nan_ok=True)
        for name, values in run["curves"].items():
            assert numbers(values) == pytest.approx(
                getattr(curves, name), rel=1e-9, abs=1e-7, nan_ok=True
            ), name


def test_remarks_are_pythons(tmp_path):
    case = read_case(models_folder() / "cases" / "heel-height-change.toml")
    settings = drawn(30, seed=3)
    limbs = [limb_of(case, Alignment.from_written(setting)) for setting in settings]
    said = [run["remarks"] for run in told(case, settings, tmp_path)]
    expected = [
        [words.replace(" -", " \u2212") for words in result.remarks]
        for result in simulate_stances(limbs)
    ]
    assert said == expected and len({len(words) for words in said}) > 2


def test_what_cannot_be_built_says_why(tmp_path):
    case = read_case(models_folder() / "cases" / "everyday.toml")
    base = case.baseline.as_written()
    settings = [
        base | {"foot_forward_mm": 61.0},
        base | {"dorsiflexion_deg": float("1e9")},
        base | {"length_change_mm": None},
    ]
    said = [run["refused"] for run in told(case, settings, tmp_path)]
    assert said[0] == "foot forward would be 61.0 mm; allowed: \u221260.0 to 60.0"
    assert said[1].startswith("dorsiflexion would be") and said[2].endswith("is not a number")


def test_a_pylon_that_cannot_be_is_refused_where_python_refuses(tmp_path):
    case = read_case(
        models_folder() / "cases" / "everyday.toml",
        {
            "person.stature_mm": "1500",
            "limb.residual_limb_mm": "255",
            "alignment.length_change_mm": "0",
        },
    )
    settings = [
        case.baseline.as_written() | {"length_change_mm": -change, "socket_flexion_deg": flexion}
        for change in np.linspace(0.0, 30.0, 31)
        for flexion in (-5.0, 5.0, 25.0)
    ]
    said = [run["refused"] is not None for run in told(case, settings, tmp_path)]
    expected = []
    for setting in settings:
        try:
            limb_of(case, Alignment.from_written(setting)).require_pylon()
            expected.append(False)
        except RangeError:
            expected.append(True)
    assert any(said) and not all(said)
    assert all(here for here, there in zip(said, expected, strict=True) if there)
