"""The calibrated wearers: they fit as their files say, and the files are what the command makes."""

from __future__ import annotations

import pytest

from simgait.library import names, read_calibration, read_wearer_data
from simgait.stance.calibration import calibrate
from simgait.stance.wearer_file import wearer_file
from walkers import WEARERS, stance_of

# What the project asks of the reference fit; the others are told, not bounded so tightly.
REFERENCE_BOUNDS = {
    "force_up_bw": 0.04,
    "force_forward_bw": 0.02,
    "knee_flexion_moment_nm_kg": 0.05,
    "knee_flexion_deg": 4.0,
    "shank_lean_deg": 4.0,
}
OTHER_BOUNDS = {
    "force_up_bw": 0.06,
    "force_forward_bw": 0.02,
    "knee_flexion_moment_nm_kg": 0.04,
    "knee_flexion_deg": 4.0,
    "shank_lean_deg": 6.0,
}


@pytest.fixture(scope="module", params=WEARERS)
def fitted(request: pytest.FixtureRequest):
    return calibrate(str(request.param))


def test_every_wearer_has_its_calibration() -> None:
    assert set(names("wearers")) == set(names("calibrations")) == set(WEARERS)


def test_residuals_of_a_new_fit(fitted) -> None:
    bounds = REFERENCE_BOUNDS if fitted.wearer.name == "able-bodied-like" else OTHER_BOUNDS
    assert {k: v for k, v in fitted.residuals.items() if v > bounds[k]} == {}


def test_the_shipped_residuals_are_those_of_a_new_fit(fitted) -> None:
    shipped = read_wearer_data(fitted.wearer.name)["fit"]
    for name, value in fitted.residuals.items():
        assert shipped[name] == pytest.approx(value, rel=0.02)


def test_the_shipped_file_has_the_form_the_command_writes(fitted) -> None:
    name = fitted.wearer.name
    shipped = read_wearer_data(name)
    text = wearer_file(name, read_calibration(name), fitted)
    assert shipped["command"] == f"simgait calibrate {name}"
    for key in shipped["wearer"]:
        assert f"\n{key} = " in text


@pytest.mark.parametrize("name", WEARERS)
def test_a_wearer_starts_and_walks_plausibly(name: str) -> None:
    result = stance_of(name)
    curves = result.curves
    start = curves.knee_flexion[0] * 180.0 / 3.141592653589793
    assert -8.0 < start < 10.0
    assert abs(result.measures["speed_change_m_s"]) < 0.10
    assert float(curves.other_force_up.min()) > -0.15 * result.body_weight
    assert float(curves.other_force_up.max()) < 1.35 * result.body_weight
