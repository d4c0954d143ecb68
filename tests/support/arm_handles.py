"""Handles and numbers on an open page of an arm."""

from typing import Any

import pytest

from arm_pages import in_python, library_case
from browser import DESK, PHONE, PROJECTOR
from limb_pages import LimbPage
from simgait.case.arm_case import ArmCase
from simgait.library import models_folder
from simgait.page.arm_data import baseline_setting

FOLDER = models_folder() / "cases" / "arms"
HANDLES = {
    "loop": "Loop of the cable on the forearm",
    "guide": "Guide of the cable on the upper arm",
    "length": "Length of the forearm",
}
SIZES = {"phone": PHONE, "desk": DESK, "projector": PROJECTOR}
SHOWN = ("peak_pull_n", "pull_at_90_n", "lever_at_90_mm", "excursion_mm", "work_j")
SHOWN_OF_LENGTH = ("shoulder_moment_nm", "inertia_kg_m2", "reach_mm")


def handle(one: LimbPage, name: str, place: int = 0) -> Any:
    """Return a handle by its short name; place: in which of the drawings in sight."""
    return one.page.get_by_role("slider", name=HANDLES[name], exact=True).nth(place)


def standing_at(one: LimbPage, name: str) -> float:
    """Return where a handle stands, in the unit of its setting."""
    return float(handle(one, name).get_attribute("aria-valuenow"))


def drag(one: LimbPage, name: str, right: float, down: float, place: int = 0) -> None:
    """Drag a handle by mouse and let go. right, down: [px]."""
    handle(one, name, place).scroll_into_view_if_needed()
    box = handle(one, name, place).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    one.page.mouse.move(x + right, y + down, steps=6)
    one.page.mouse.up()
    one.settle()


def agree(
    one: LimbPage, name: str = "above-elbow", case: ArmCase | None = None, **changed: float
) -> None:
    """Compare what the tables show with `simgait.arm`."""
    case = case or library_case(name)
    found = in_python(case, {**baseline_setting(case), **changed})
    wanted = {key: found["length"][key] for key in SHOWN_OF_LENGTH}
    if found["measures"] is not None:
        wanted |= {key: found["measures"][key] for key in SHOWN}
    shown = one.measures()
    assert {key: shown[key] for key in wanted} == pytest.approx(wanted, rel=1e-9)
