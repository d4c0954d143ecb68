"""The standing view of a limb's page: the numbers of Python, dragging, links, words."""

from math import isfinite

import pytest

from simgait.case import read_case
from simgait.library import models_folder
from simgait.standing import stand
from simgait.standing.names import AGREED

EVERYDAY = models_folder() / "cases" / "everyday.toml"
AGREED_STANDING = {quantity.name for quantity in AGREED}


@pytest.mark.parametrize("changed", [{}, {"foot_forward_mm": 12}, {"dorsiflexion_deg": -4}])
def test_the_standing_view_shows_pythons_numbers(open_page, changed):
    one = open_page("&".join(f"{name}={value}" for name, value in changed.items()))
    one.page.locator(".view-chooser label", has_text="standing").click()
    one.settle()
    overrides = {f"alignment.{name}": str(value) for name, value in changed.items()}
    both, _ = stand(read_case(EVERYDAY, overrides))
    shown = {name: value for name, value in one.measures().items() if name in AGREED_STANDING}
    wanted = {
        name: both.measures[name] for name in AGREED_STANDING if isfinite(both.measures[name])
    }
    assert shown == pytest.approx(wanted, rel=1e-6, abs=1e-6)
    assert len(wanted) >= 5
    ahead = both.measures["load_line_ahead_of_knee_mm"]
    side = "ahead of" if ahead >= 0.0 else "behind"
    assert f"{abs(ahead):.0f} mm {side} the knee" in one.page.inner_text(".limb-below")
    assert one.page.locator(".standing-only .drawing").is_visible()


def test_the_foot_is_dragged_while_it_stands_and_a_link_opens_the_same_view(open_page):
    one = open_page("standing=1")
    x, y = one.middle("foot")
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    one.page.mouse.move(x + 20, y, steps=5)
    one.page.mouse.up()
    one.settle()
    assert one.setting("foot") > 0.0
    again = open_page(one.page.evaluate("location.hash").removeprefix("#"))
    assert again.page.locator(".standing-only .drawing").is_visible()
    assert again.measures() == one.measures()


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
