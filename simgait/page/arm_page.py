"""The page of an arm: one file that runs the model of `simgait.arm` in the browser."""

from __future__ import annotations

from simgait.case.arm_case import ArmCase
from simgait.engines.script_formulas import formulas_text
from simgait.page.arm_data import arm_data
from simgait.page.shell import BASE_SCRIPTS, BASE_STYLES, asset, page_text

__all__ = ["MODEL_SCRIPTS", "arm_formulas", "arm_page"]

# What the page computes with: the functions that simgait.arm itself calls, translated
FORMULAS = {
    "simgait.arm.geometry": (
        "cable_length", "lever_arm", "working_flexions", "guide_place", "forearm_place",
        "square_foot",
    ),
    "simgait.arm.statics": (
        "moment_to_give", "tension_for", "surplus_moment", "pull_for", "pull_that_lets_down",
        "cable_drawn", "lost_in_housing", "load_gain", "ledger_error", "share_asked",
        "pull_margin", "excursion_margin", "travel_wanted", "opening_for",
        "margin_without_tiring",
    ),
    "simgait.arm.monotone": ("end_slope", "inner_slope", "cubic_between", "simpson"),
    "simgait.arm.lengths": (
        "held_moment", "inertia_about_shoulder", "moment_of_hanging", "whole_load",
        "moment_moved", "acceleration_from", "swing_period", "socket_couple",
        "comes_as_near_and_far",
    ),
    "simgait.arm.pose": ("common_centre",),
    "simgait.parts.arm": ("elbow_moment", "with_length", "with_end"),
}  # fmt: skip
MODEL_SCRIPTS = ("arm_curve.js", "arm_lift.js", "arm_lengths.js", "arm_model.js")
_SCRIPTS = (
    *BASE_SCRIPTS, "address.js", "handles.js", "transport.js", "measures.js",
    "limb_geometry.js", "limb_drawing.js", "page_frame.js", *MODEL_SCRIPTS,
    "arm_drawing.js", "arm_handles.js", "arm_level.js", "arm_pictures.js", "arm_plot.js",
    "arm_plots.js", "arm_settings.js", "arm_verdict.js", "arm_case_file.js", "arm_layout.js",
    "arm_page.js",
)  # fmt: skip
_STYLES = (*BASE_STYLES, "stance_page.css", "arm_page.css")
_BODY = """<header id="head" class="page-head"></header>
<main id="page" class="stance-page arm-page"></main>
<footer id="foot" class="page-foot"></footer>"""


def arm_formulas() -> str:
    """Return the formulas of arms as one JavaScript object named `formulas`.

    >>> "function lever_arm(" in arm_formulas()
    True
    """
    return formulas_text(FORMULAS)


def arm_page(case: ArmCase, name: str = "arm.toml") -> str:
    """Return the page of an arm's case, whole: nothing in it is fetched.

    The numbers in it are those of `simgait arm` for the same setting, computed by the same
    formulas; without draws of the errors of measurement.  name: of the case's file.

    >>> from simgait.case.arm_case import read_arm_case
    >>> from simgait.library import models_folder
    >>> case = read_arm_case(models_folder() / "cases" / "arms" / "above-elbow.toml")
    >>> "<title>Above-elbow arm" in arm_page(case)
    True
    """
    scripts = (arm_formulas(), *(asset(name) for name in _SCRIPTS), "startArmPage();")
    return page_text(
        title=f"{case.title} - simgait",
        body=_BODY,
        data=arm_data(case, name),
        scripts=scripts,
        styles=[asset(name) for name in _STYLES],
    )
