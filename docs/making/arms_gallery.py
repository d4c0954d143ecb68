"""The gallery's page on arms: the library's cases, drawn, and one of them lifted."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from making.standing import listed
from making.text import page
from simgait.arm.names import OWN_CAUTIONS
from simgait.arm.running import work_arm
from simgait.arm.sheet import ArmSheet, arm_sheet
from simgait.case.arm_case import read_arm_case
from simgait.library import models_folder
from simgait.pictures.arm import draw_arm_still, in_a_line
from simgait.pictures.arm_film import draw_lift_film

CASES = ("above-elbow", "shoulder-level", "forearm-level")
LIFTED = "above-elbow"


@cache
def sheet(name: str) -> ArmSheet:
    """Return what is drawn of a case."""
    return arm_sheet(work_arm(read_arm_case(models_folder() / "cases" / "arms" / f"{name}.toml")))


def draw(name: str, path: Path) -> None:
    """Draw a case's figure."""
    draw_arm_still(sheet(name), path)


def draw_film(path: Path) -> None:
    """Draw the film of the lifted case."""
    draw_lift_film(sheet(LIFTED), path)


def section(name: str) -> str:
    """Return a case's part of the page."""
    drawn = sheet(name)
    film = (
        "\n\n![The arm, lifted by a pull given beforehand](arms-lift.gif)" if name == LIFTED else ""
    )
    said = f"{in_a_line(drawn)}\n\n" if in_a_line(drawn) else ""
    return (
        f"## {drawn.result.title}\n\n{said}```\nsimgait arm models/cases/arms/{name}.toml\n```\n\n"
        f"![Pull, travel, the arm to scale, and its length](arms-{name}.png){film}"
    )


def gallery_page() -> str:
    """Return the gallery's page on arms."""
    return page(
        "Arms",
        "Invented cases of arms; no real person stands behind them. How to read the figures: "
        "[arms](../guide/arms.md), [arms that move](../guide/arm-motion.md).",
        *(section(name) for name in CASES),
        "## Cautions\n\n" + listed(OWN_CAUTIONS),
    )
