"""What the drawings of a limb's page say beside them, and whether it can be read."""

from itertools import pairwise

import pytest

from browser import DESK, PHONE
from limb_pages import written_page
from simgait.library import models_folder

EVERYDAY = models_folder() / "cases" / "everyday.toml"


@pytest.mark.parametrize(
    ("setting", "knee", "spared"),
    [
        ("foot_forward_mm=-60", "behind the knee, which it tends to fold", False),
        ("foot_forward_mm=60", "ahead of the knee, which it keeps straight", False),
        ("heel_rise_mm=80", "behind the knee, which it tends to fold", True),
    ],
)
def test_standing_says_what_its_line_does_to_the_knee(open_page, setting, knee, spared):
    one = open_page(f"{setting}&standing=1")
    one.settle()
    told, stood = one.page.inner_text(".standing-only .drawing-told"), one.measures()
    assert knee in told
    assert (stood["load_line_ahead_of_knee_mm"] > 0) == ("ahead of the knee" in told)
    assert ("less than half of the body" in told) == spared
    assert (stood["prosthesis_load_share"] < 0.45) == spared


@pytest.mark.parametrize("size", [DESK, PHONE])
def test_the_scales_under_the_floor_do_not_run_into_each_other(open_page, tmp_path, size):
    case = tmp_path / "small.toml"
    text = EVERYDAY.read_text().replace("mass_kg = 80", "mass_kg = 47")
    case.write_text(text.replace("stature_mm = 1760", "stature_mm = 1480"))
    one = open_page(path=written_page(case, tmp_path), size=size)
    boxes = one.page.evaluate(
        """() => [...document.querySelectorAll(".drawing-walking .room text")]
             .map((each) => each.getBoundingClientRect()).filter((box) => box.width > 0)
             .map((box) => [box.left, box.right])"""
    )
    boxes.sort()
    assert boxes
    assert all(left > right for (_, right), (left, _) in pairwise(boxes))
