"""How near a fall is, and how smoothly the body passes over the foot."""

from simgait.symbols.measure import MM_PER_METRE, PERCENT, measure
from simgait.units import DEGREES_PER_RADIAN

TIPPING = (
    measure(
        "forward_margin_min_mm",
        MM_PER_METRE,
        "mm",
        "forward margin, smallest",
        "Toe end of the sole less the extrapolated centre of mass x + v/sqrt(g/l), l = 1.2 hip "
        "heights (from memory); smallest while the prosthesis alone stands. Below nothing in "
        "walking: the next step catches the fall.",
        "How far the body has fallen past the toe before the next foot is there.",
        source="hof-2005",
    ),
    measure(
        "forward_margin_min_percent",
        PERCENT,
        "% of stance",
        "forward margin, when",
        "When it is smallest.",
        "When the body is farthest past the toe.",
    ),
    measure(
        "backward_margin_min_mm",
        MM_PER_METRE,
        "mm",
        "backward margin, smallest",
        "The extrapolated centre of mass less the heel end of the sole, smallest while the "
        "prosthesis alone stands.",
        "How safely the body passes over the heel; near nothing it would fall back.",
        source="hof-2005",
    ),
    measure(
        "backward_margin_min_percent",
        PERCENT,
        "% of stance",
        "backward margin, when",
        "When it is smallest.",
        "When a fall backward is nearest.",
    ),
    measure(
        "drop_off",
        1.0,
        "m/s",
        "drop-off",
        "Downward speed of the hip when the other foot touches down.",
        "How hard the body drops over the toe onto the other leg.",
    ),
    measure(
        "forward_thrust",
        DEGREES_PER_RADIAN,
        "deg/s",
        "forward thrust",
        "Mean forward turning speed of the residual limb from 10 to 30 % of stance.",
        "How fast the heel drives the shank forward at loading.",
    ),
    measure(
        "forward_thrust_deg",
        DEGREES_PER_RADIAN,
        "deg",
        "forward thrust, angle",
        "How far the residual limb turns forward from touch-down to 30 % of stance.",
        "How far the heel drives the shank forward at loading.",
    ),
    measure(
        "hip_rise_mm",
        MM_PER_METRE,
        "mm",
        "hip rise",
        "Highest hip height in stance less the hip height of standing on the sound leg.",
        "How far the hip must climb over the prosthesis; more when it is long.",
    ),
)
