"""How the socket levers on the residual limb."""

from simgait.symbols.measure import measure

SOCKET = (
    measure(
        "socket_flexion_moment_peak_nm",
        1.0,
        "N m",
        "socket flexion moment, peak",
        "Largest external moment between prosthesis and residual "
        "limb, about the middle of the enclosed limb, in the sense that bends the knee.",
        "How hard the socket levers on the limb when the heel is loaded.",
    ),
    measure(
        "socket_extension_moment_peak_nm",
        1.0,
        "N m",
        "socket extension moment, peak",
        "The same in the other sense, as a positive number.",
        "How hard the socket levers on the limb when the toe is loaded.",
    ),
    measure(
        "socket_couple_force_n",
        1.0,
        "N",
        "socket couple force",
        "The larger of the two socket moments over the enclosed length of the residual limb: the "
        "force of a couple at brim and end.",
        "The same moment presses harder on a short residual limb.",
    ),
    measure(
        "brim_force_peak_n",
        1.0,
        "N",
        "force at the brim, peak",
        "Largest force across the limb at the brim: half the shear force plus moment over depth.",
        "How hard the brim presses on the limb at most.",
    ),
    measure(
        "limb_end_force_peak_n",
        1.0,
        "N",
        "force at the limb's end, peak",
        "Largest force across the limb at its end: half the shear force minus moment over depth.",
        "How hard the socket presses on the limb's end at most.",
    ),
    measure(
        "socket_moment_30_nm",
        1.0,
        "N m",
        "socket moment at 30 %",
        "Socket moment at 30 % of stance; + in the sense that bends the knee.",
        "Early in the step: heel against toe.",
    ),
    measure(
        "socket_moment_45_nm",
        1.0,
        "N m",
        "socket moment at 45 %",
        "Socket moment at 45 % of stance; + in the sense that bends the knee.",
        "The middle of the step, a common reading for alignment.",
        source="boone-2013",
    ),
    measure(
        "socket_moment_75_nm",
        1.0,
        "N m",
        "socket moment at 75 %",
        "Socket moment at 75 % of stance; + in the sense that bends the knee.",
        "Late in the step: what the toe lever does.",
    ),
)
