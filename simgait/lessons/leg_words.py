"""Words and figures that the lessons on legs share."""

from __future__ import annotations

from simgait.lessons.lesson import Figure
from simgait.symbols import BY_NAME, CAUTIONS

LEG_AUDIENCE = "students of the trade; classes that know force times lever"
LEG_CAUTIONS = CAUTIONS
LEG_SOURCE = (
    "The model of simgait: a chain of planar rigid bodies through the stance phase, with a wearer "
    "fitted to published curves of walking; the guide's pages on the model and its agreement say "
    "how well. How a larger or smaller lever feels to a person is common practice, not computed.",
)
LEG_LEFT_OUT = (
    "The simulated wearer keeps the same strategy at every setting; real wearers adapt. One plane, "
    "one step. Pain, fear and habit have no number here.",
)


def measure_figure(name: str, label: str, decimals: int = 0) -> Figure:
    """Return a measure of a stance as a figure of a lesson, in the unit of `simgait.symbols`.

    >>> measure_figure("heel_lever_mm", "heel lever").written(18.28)
    '18 mm'
    """
    return Figure(key=name, label=label, unit=BY_NAME[name].unit, decimals=decimals)
