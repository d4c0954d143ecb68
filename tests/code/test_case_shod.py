"""A foot in its shoe: what neither is wrong in alone, but both together are."""

import re

import pytest

from simgait.case import read_case
from simgait.command import main
from simgait.errors import CaseError
from simgait.library import read_shoe

SOFT_FOOT = """[person]
sex = "male"
mass_kg = 80
stature_mm = 1760
[limb]
residual_limb_mm = 150
[foot]
heel_stiffness_n_mm = {heel}
forefoot_stiffness_n_mm = {forefoot}
heel_loss = 0.4
forefoot_loss = 0.2
heel_lever_mm = 50
toe_lever_mm = 140
sole_height_mm = 76
heel_rise_mm = 10
mass_kg = {mass}
length_mm = 260
[shoe]
model = "everyday"
"""


@pytest.fixture
def path(tmp_path):
    def written(heel: float, forefoot: float, mass: float = 0.5):
        place = tmp_path / "case.toml"
        place.write_text(SOFT_FOOT.format(heel=heel, forefoot=forefoot, mass=mass))
        return place

    return written


def refused(path):
    with pytest.raises(CaseError) as caught:
        read_case(path)
    return caught.value.faults


def test_a_heel_too_soft_for_its_shoe_is_named(path):
    (fault,) = refused(path(5.1, 46))
    assert fault.field == "foot.heel_stiffness_n_mm"
    assert fault.value == "5.1"
    shoe = read_shoe("everyday").heel_stiffness / 1000.0
    in_series = 1.0 / (1.0 / 5.1 + 1.0 / shoe)
    assert f"{in_series:.3g}" in fault.message()
    assert "everyday" in fault.message()


def test_heel_and_forefoot_are_both_named_at_once(path):
    found = refused(path(5.1, 5.1))
    assert [fault.field for fault in found] == [
        "foot.heel_stiffness_n_mm",
        "foot.forefoot_stiffness_n_mm",
    ]


@pytest.mark.parametrize("part", ["heel", "forefoot"])
def test_what_is_said_to_be_allowed_is(path, part):
    figures = {"heel": 40.0, "forefoot": 46.0}
    (fault,) = refused(path(**{**figures, part: 5.1}))
    found = re.match(r"from ([\d.]+) in this shoe", fault.allowed)
    assert found
    least = float(found[1])
    read_case(path(**{**figures, part: least}))
    (fault,) = refused(path(**{**figures, part: least - 0.02}))
    assert fault.field == f"foot.{part}_stiffness_n_mm"


def test_a_foot_too_heavy_in_its_shoe_is_a_fault_too(path):
    (fault,) = refused(path(40, 46, mass=2.9))
    assert fault.field == "foot"
    assert "Foot.mass" in fault.message()


def test_an_override_is_blamed_for_what_it_sets(path):
    with pytest.raises(CaseError) as caught:
        read_case(path(40, 46), {"foot.heel_stiffness_n_mm": "5.1"})
    assert [fault.file for fault in caught.value.faults] == ["--set"]


def test_the_command_refuses_it_without_a_traceback(path):
    from click.testing import CliRunner

    result = CliRunner().invoke(main, ["stand", str(path(5.1, 46)), "--json"])
    assert result.exit_code == 2
    assert "foot.heel_stiffness_n_mm" in result.output
