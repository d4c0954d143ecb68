"""What the foot carries, and what that asks of the floor."""

from simgait.symbols.measure import MM_PER_METRE, measure

LOAD = (
    measure(
        "force_up_peak_bw",
        1.0,
        "body weights",
        "vertical force, first peak",
        "Largest vertical ground force in the first half of stance.",
        "How hard the step lands.",
    ),
    measure(
        "force_up_second_peak_bw",
        1.0,
        "body weights",
        "vertical force, second peak",
        "Largest vertical ground force in the second half.",
        "How hard the foot pushes up late in the step.",
    ),
    measure(
        "force_up_impulse_ns",
        1.0,
        "N s",
        "vertical impulse",
        "Time integral of the vertical ground force.",
        "How much of the body this leg carries.",
    ),
    measure(
        "braking_peak_bw",
        1.0,
        "body weights",
        "braking force, peak",
        "Largest backward ground force.",
        "How hard the step brakes.",
    ),
    measure(
        "propulsive_peak_bw",
        1.0,
        "body weights",
        "propulsive force, peak",
        "Largest forward ground force.",
        "How hard the step pushes on.",
    ),
    measure(
        "braking_impulse_ns",
        1.0,
        "N s",
        "braking impulse",
        "Time integral of the backward ground force.",
        "How much speed the step takes away.",
    ),
    measure(
        "propulsive_impulse_ns",
        1.0,
        "N s",
        "propulsive impulse",
        "Time integral of the forward ground force.",
        "How much speed the step gives back.",
    ),
    measure(
        "loading_rate_bw_s",
        1.0,
        "body weights/s",
        "loading rate",
        "0.5 body weights over the time from touch-down until the vertical force reaches them.",
        "How suddenly the leg is loaded.",
    ),
    measure(
        "utilised_friction",
        1.0,
        "1",
        "friction used",
        "Largest ratio of the size of the fore-aft to the vertical force while the latter exceeds "
        "0.2 body weights.",
        "How grippy the floor must be.",
        source="yamaguchi-2008",
    ),
    measure(
        "slip_mm",
        MM_PER_METRE,
        "mm",
        "slip",
        "Distance that the sole slides over the floor, each element weighted by its load.",
        "How far the foot slides.",
    ),
)
