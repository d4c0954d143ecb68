"""Over which levers and when the foot carries, and how it rolls."""

from simgait.symbols.measure import MM_PER_METRE, measure

LEVERS = (
    measure(
        "heel_lever_mm",
        MM_PER_METRE,
        "mm",
        "effective heel lever",
        "Farthest that the pressure point lies behind the residual limb's axis (prolonged to the "
        "floor), measured across it, while the vertical force exceeds 0.2 body weights.",
        "How far behind the limb the step really loads the heel.",
    ),
    measure(
        "toe_lever_mm",
        MM_PER_METRE,
        "mm",
        "effective toe lever",
        "Farthest that the pressure point lies ahead of that axis, measured in the same way.",
        "How far ahead of the limb the step really loads the toe.",
    ),
    measure(
        "foot_flat_s",
        1.0,
        "s",
        "foot flat",
        "Time from touch-down until the front third of the sole meets the floor.",
        "How soon the whole foot stands.",
    ),
    measure(
        "heel_off_s",
        1.0,
        "s",
        "heel off",
        "Time from touch-down until the rear quarter of the sole is clear of the floor for good.",
        "How soon the heel rises.",
    ),
    measure(
        "stance_time_s",
        1.0,
        "s",
        "stance time",
        "Time from touch-down until the whole sole is clear of the floor.",
        "How long the foot is on the floor.",
    ),
    measure(
        "rollover_radius_mm",
        MM_PER_METRE,
        "mm",
        "roll-over radius",
        "Radius of the circle that fits the pressure points in the prosthesis' frame from foot "
        "flat until the other foot's contact (Kasa's least squares).",
        "The wheel as which foot and shank roll.",
        source="hansen-meier-2010",
    ),
    measure(
        "rollover_centre_mm",
        MM_PER_METRE,
        "mm",
        "roll-over centre",
        "How far that circle's centre lies ahead of the residual limb's axis.",
        "Ahead of the limb means that the foot rolls late.",
    ),
)
