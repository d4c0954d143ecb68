"""What the step does to the knee."""

from simgait.symbols.measure import PERCENT, measure
from simgait.units import DEGREES_PER_RADIAN

KNEE = (
    measure(
        "knee_flexion_moment_peak_nm",
        1.0,
        "N m",
        "knee flexion moment, peak",
        "Largest external flexion moment of the knee (net, from the muscles' moment) in the first "
        "half of stance; + bends the knee.",
        "How hard the step tries to bend the knee at loading; the thigh muscles must hold it.",
    ),
    measure(
        "knee_flexion_moment_peak_nm_kg",
        1.0,
        "N m/kg",
        "knee flexion moment, peak per mass",
        "The same, divided by body mass.",
        "The same for a body of any mass.",
        per_mass=True,
    ),
    measure(
        "knee_flexion_moment_peak_percent",
        PERCENT,
        "% of stance",
        "knee flexion moment, when",
        "When that peak occurs.",
        "Early means that the heel drives the shank at once.",
    ),
    measure(
        "knee_extension_moment_peak_nm",
        1.0,
        "N m",
        "knee extension moment, peak",
        "Largest external extension moment of the knee in the second half of stance, as a positive "
        "number.",
        "How hard the toe forces the knee back late in the step.",
    ),
    measure(
        "knee_extension_moment_peak_nm_kg",
        1.0,
        "N m/kg",
        "knee extension moment, peak per mass",
        "The same, divided by body mass.",
        "The same for a body of any mass.",
        per_mass=True,
    ),
    measure(
        "knee_extension_moment_peak_percent",
        PERCENT,
        "% of stance",
        "knee extension moment, when",
        "When that peak occurs.",
        "When the toe holds the wearer back most.",
    ),
    measure(
        "knee_moment_midstance_nm",
        1.0,
        "N m",
        "knee moment at mid-stance",
        "External flexion moment of the knee at 50 % of stance; + bends the knee.",
        "Whether the knee is being bent or forced back when the body passes over the foot.",
    ),
    measure(
        "knee_flexion_impulse_nms",
        1.0,
        "N m s",
        "knee flexion impulse",
        "Time integral of the flexion moment while it bends the knee.",
        "How much holding the knee costs over the whole step.",
    ),
    measure(
        "knee_extension_impulse_nms",
        1.0,
        "N m s",
        "knee extension impulse",
        "Time integral of the extension moment, as a positive number.",
        "How much the knee is forced back over the whole step.",
    ),
    measure(
        "force_behind_knee_percent",
        PERCENT,
        "%",
        "force behind the knee",
        "Share of the time with more than 0.2 body weights on the foot in "
        "which the ground force's line passes behind the knee axis.",
        "How long the ground force itself tends to bend the knee.",
    ),
    measure(
        "knee_flexion_loading_deg",
        DEGREES_PER_RADIAN,
        "deg",
        "knee flexion at loading",
        "Largest knee flexion in the first half of stance.",
        "How far the knee gives when the step is loaded.",
    ),
    measure(
        "knee_flexion_least_deg",
        DEGREES_PER_RADIAN,
        "deg",
        "knee flexion, least",
        "Smallest knee flexion from 10 to 80 % of stance; below nothing the knee is bent backward.",
        "How straight the knee gets, or how far it is forced back beyond straight.",
    ),
)
