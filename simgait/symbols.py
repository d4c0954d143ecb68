"""Every quantity that a reader meets: its name, unit, sign, definition, source and plain sentence.

Also the cautions, which go wherever a result is shown.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from simgait.physics import layout as rows

CAUTIONS = (
    "A planning aid: it computes one wearer who keeps the same strategy; real wearers adapt.",
    "Guard every trial on the wearer. Local rules and the licensed clinician decide.",
)

MM = 1000.0
DEGREES = 180.0 / math.pi
PERCENT = 100.0


@dataclass(frozen=True, kw_only=True)
class Measure:
    """One outcome measure.  ``name`` ends in the unit where it has one."""

    name: str
    row: int  # row of the SI value in the kernel's output
    scale: float  # from SI to the unit shown
    unit: str
    title: str  # a few words, for tables and pictures
    definition: str
    source: str  # key of a Source, or "definition" where it is the project's own
    sentence: str  # for someone who is no engineer
    per_mass: bool = False  # divided by body mass


def _measure(
    name: str,
    row: int,
    scale: float,
    unit: str,
    title: str,
    definition: str,
    sentence: str,
    source: str = "definition",
    per_mass: bool = False,
) -> Measure:
    return Measure(
        name=name,
        row=row,
        scale=scale,
        unit=unit,
        title=title,
        definition=definition,
        sentence=sentence,
        source=source,
        per_mass=per_mass,
    )


_KNEE = (
    _measure(
        "knee_flexion_moment_peak_nm",
        rows.KNEE_FLEXION_PEAK,
        1.0,
        "N m",
        "knee flexion moment, peak",
        "Largest external flexion moment of the knee (net, from the muscles' moment) in the first "
        "half of stance; + bends the knee.",
        "How hard the step tries to bend the knee at loading; the thigh muscles must hold it.",
    ),
    _measure(
        "knee_flexion_moment_peak_nm_kg",
        rows.KNEE_FLEXION_PEAK,
        1.0,
        "N m/kg",
        "knee flexion moment, peak per mass",
        "The same, divided by body mass.",
        "The same for a body of any mass.",
        per_mass=True,
    ),
    _measure(
        "knee_flexion_moment_peak_percent",
        rows.KNEE_FLEXION_PEAK_WHEN,
        PERCENT,
        "% of stance",
        "knee flexion moment, when",
        "When that peak occurs.",
        "Early means that the heel drives the shank at once.",
    ),
    _measure(
        "knee_extension_moment_peak_nm",
        rows.KNEE_EXTENSION_PEAK,
        1.0,
        "N m",
        "knee extension moment, peak",
        "Largest external extension moment of the knee in the second half of stance, as a positive "
        "number.",
        "How hard the toe forces the knee back late in the step.",
    ),
    _measure(
        "knee_extension_moment_peak_nm_kg",
        rows.KNEE_EXTENSION_PEAK,
        1.0,
        "N m/kg",
        "knee extension moment, peak per mass",
        "The same, divided by body mass.",
        "The same for a body of any mass.",
        per_mass=True,
    ),
    _measure(
        "knee_extension_moment_peak_percent",
        rows.KNEE_EXTENSION_PEAK_WHEN,
        PERCENT,
        "% of stance",
        "knee extension moment, when",
        "When that peak occurs.",
        "When the toe holds the wearer back most.",
    ),
    _measure(
        "knee_moment_midstance_nm",
        rows.KNEE_MIDSTANCE,
        1.0,
        "N m",
        "knee moment at mid-stance",
        "External flexion moment of the knee at 50 % of stance; + bends the knee.",
        "Whether the knee is being bent or forced back when the body passes over the foot.",
    ),
    _measure(
        "knee_flexion_impulse_nms",
        rows.KNEE_FLEXION_IMPULSE,
        1.0,
        "N m s",
        "knee flexion impulse",
        "Time integral of the flexion moment while it bends the knee.",
        "How much holding the knee costs over the whole step.",
    ),
    _measure(
        "knee_extension_impulse_nms",
        rows.KNEE_EXTENSION_IMPULSE,
        1.0,
        "N m s",
        "knee extension impulse",
        "Time integral of the extension moment, as a positive number.",
        "How much the knee is forced back over the whole step.",
    ),
    _measure(
        "force_behind_knee_percent",
        rows.FORCE_BEHIND_KNEE,
        PERCENT,
        "%",
        "force behind the knee",
        "Share of the time with more than 0.2 body weights on the foot in "
        "which the ground force's line passes behind the knee axis.",
        "How long the ground force itself tends to bend the knee.",
    ),
    _measure(
        "knee_flexion_loading_deg",
        rows.LOADING_FLEXION,
        DEGREES,
        "deg",
        "knee flexion at loading",
        "Largest knee flexion in the first half of stance.",
        "How far the knee gives when the step is loaded.",
    ),
)

_SOCKET = (
    _measure(
        "socket_flexion_moment_peak_nm",
        rows.SOCKET_FLEXION_PEAK,
        1.0,
        "N m",
        "socket flexion moment, peak",
        "Largest external moment between prosthesis and residual "
        "limb, about the middle of the enclosed limb, in the sense that bends the knee.",
        "How hard the socket levers on the limb when the heel is loaded.",
    ),
    _measure(
        "socket_extension_moment_peak_nm",
        rows.SOCKET_EXTENSION_PEAK,
        1.0,
        "N m",
        "socket extension moment, peak",
        "The same in the other sense, as a positive number.",
        "How hard the socket levers on the limb when the toe is loaded.",
    ),
    _measure(
        "socket_couple_force_n",
        rows.SOCKET_COUPLE,
        1.0,
        "N",
        "socket couple force",
        "The larger of the two socket moments over the enclosed length of the residual limb: the "
        "force of a couple at brim and end.",
        "The same moment presses harder on a short residual limb.",
    ),
    _measure(
        "brim_force_peak_n",
        rows.BRIM_FORCE,
        1.0,
        "N",
        "force at the brim, peak",
        "Largest force across the limb at the brim: half the shear force plus moment over depth.",
        "How hard the brim presses on the limb at most.",
    ),
    _measure(
        "limb_end_force_peak_n",
        rows.LIMB_END_FORCE,
        1.0,
        "N",
        "force at the limb's end, peak",
        "Largest force across the limb at its end: half the shear force minus moment over depth.",
        "How hard the socket presses on the limb's end at most.",
    ),
    _measure(
        "socket_moment_30_nm",
        rows.SOCKET_30,
        1.0,
        "N m",
        "socket moment at 30 %",
        "Socket moment at 30 % of stance; + in the sense that bends the knee.",
        "Early in the step: heel against toe.",
    ),
    _measure(
        "socket_moment_45_nm",
        rows.SOCKET_45,
        1.0,
        "N m",
        "socket moment at 45 %",
        "Socket moment at 45 % of stance; + in the sense that bends the knee.",
        "The middle of the step, a common reading for alignment.",
        source="boone-2013",
    ),
    _measure(
        "socket_moment_75_nm",
        rows.SOCKET_75,
        1.0,
        "N m",
        "socket moment at 75 %",
        "Socket moment at 75 % of stance; + in the sense that bends the knee.",
        "Late in the step: what the toe lever does.",
    ),
)

_LEVERS = (
    _measure(
        "heel_lever_mm",
        rows.HEEL_LEVER,
        MM,
        "mm",
        "effective heel lever",
        "Farthest that the pressure point lies behind the residual limb's axis (prolonged to the "
        "floor), measured across it, while the vertical force exceeds 0.2 body weights.",
        "How far behind the limb the step really loads the heel.",
    ),
    _measure(
        "toe_lever_mm",
        rows.TOE_LEVER,
        MM,
        "mm",
        "effective toe lever",
        "Farthest that the pressure point lies ahead of that axis, measured in the same way.",
        "How far ahead of the limb the step really loads the toe.",
    ),
    _measure(
        "foot_flat_s",
        rows.FOOT_FLAT,
        1.0,
        "s",
        "foot flat",
        "Time from touch-down until the front third of the sole meets the floor.",
        "How soon the whole foot stands.",
    ),
    _measure(
        "heel_off_s",
        rows.HEEL_OFF,
        1.0,
        "s",
        "heel off",
        "Time from touch-down until the rear quarter of the sole is clear of the floor for good.",
        "How soon the heel rises.",
    ),
    _measure(
        "stance_time_s",
        rows.STANCE_LENGTH,
        1.0,
        "s",
        "stance time",
        "Time from touch-down until the whole sole is clear of the floor.",
        "How long the foot is on the floor.",
    ),
    _measure(
        "rollover_radius_mm",
        rows.ROLL_RADIUS,
        MM,
        "mm",
        "roll-over radius",
        "Radius of the circle that fits the pressure points in the prosthesis' frame from foot "
        "flat until the other foot's contact (Kasa's least squares).",
        "The wheel as which foot and shank roll.",
        source="hansen-meier-2010",
    ),
    _measure(
        "rollover_centre_mm",
        rows.ROLL_CENTRE,
        MM,
        "mm",
        "roll-over centre",
        "How far that circle's centre lies ahead of the residual limb's axis.",
        "Ahead of the limb means that the foot rolls late.",
    ),
)

_TIPPING = (
    _measure(
        "forward_margin_min_mm",
        rows.FORWARD_MARGIN,
        MM,
        "mm",
        "forward margin, smallest",
        "Toe end of the sole less the extrapolated centre of mass x + v/sqrt(g/l), l = 1.2 hip "
        "heights (from memory); smallest while the prosthesis alone stands. Below nothing in walking: "
        "the next step catches the fall.",
        "How far the body has fallen past the toe before the next foot is there.",
        source="hof-2005",
    ),
    _measure(
        "forward_margin_min_percent",
        rows.FORWARD_MARGIN_WHEN,
        PERCENT,
        "% of stance",
        "forward margin, when",
        "When it is smallest.",
        "When the body is farthest past the toe.",
    ),
    _measure(
        "backward_margin_min_mm",
        rows.BACKWARD_MARGIN,
        MM,
        "mm",
        "backward margin, smallest",
        "The extrapolated centre of mass less the heel end of the sole, smallest while the "
        "prosthesis alone stands.",
        "How safely the body passes over the heel; near nothing it would fall back.",
        source="hof-2005",
    ),
    _measure(
        "backward_margin_min_percent",
        rows.BACKWARD_MARGIN_WHEN,
        PERCENT,
        "% of stance",
        "backward margin, when",
        "When it is smallest.",
        "When a fall backward is nearest.",
    ),
    _measure(
        "drop_off",
        rows.DROP_OFF,
        1.0,
        "m/s",
        "drop-off",
        "Downward speed of the hip when the other foot touches down.",
        "How hard the body drops over the toe onto the other leg.",
    ),
    _measure(
        "forward_thrust",
        rows.FORWARD_THRUST,
        DEGREES,
        "deg/s",
        "forward thrust",
        "Mean forward turning speed of the residual limb from 10 to 30 % of stance.",
        "How fast the heel drives the shank forward at loading.",
    ),
    _measure(
        "forward_thrust_deg",
        rows.FORWARD_THRUST_ANGLE,
        DEGREES,
        "deg",
        "forward thrust, angle",
        "How far the residual limb turns forward from touch-down to 30 % of stance.",
        "How far the heel drives the shank forward at loading.",
    ),
    _measure(
        "hip_rise_mm",
        rows.HIP_RISE,
        MM,
        "mm",
        "hip rise",
        "Highest hip height in stance less the hip height of standing on the sound leg.",
        "How far the hip must climb over the prosthesis; more when it is long.",
    ),
)

_LOAD = (
    _measure(
        "force_up_peak_bw",
        rows.UP_PEAK_FIRST,
        1.0,
        "body weights",
        "vertical force, first peak",
        "Largest vertical ground force in the first half of stance.",
        "How hard the step lands.",
    ),
    _measure(
        "force_up_second_peak_bw",
        rows.UP_PEAK_SECOND,
        1.0,
        "body weights",
        "vertical force, second peak",
        "Largest vertical ground force in the second half.",
        "How hard the foot pushes up late in the step.",
    ),
    _measure(
        "force_up_impulse_ns",
        rows.UP_IMPULSE,
        1.0,
        "N s",
        "vertical impulse",
        "Time integral of the vertical ground force.",
        "How much of the body this leg carries.",
    ),
    _measure(
        "braking_peak_bw",
        rows.BRAKING_PEAK,
        1.0,
        "body weights",
        "braking force, peak",
        "Largest backward ground force.",
        "How hard the step brakes.",
    ),
    _measure(
        "propulsive_peak_bw",
        rows.PROPULSIVE_PEAK,
        1.0,
        "body weights",
        "propulsive force, peak",
        "Largest forward ground force.",
        "How hard the step pushes on.",
    ),
    _measure(
        "braking_impulse_ns",
        rows.BRAKING_IMPULSE,
        1.0,
        "N s",
        "braking impulse",
        "Time integral of the backward ground force.",
        "How much speed the step takes away.",
    ),
    _measure(
        "propulsive_impulse_ns",
        rows.PROPULSIVE_IMPULSE,
        1.0,
        "N s",
        "propulsive impulse",
        "Time integral of the forward ground force.",
        "How much speed the step gives back.",
    ),
    _measure(
        "loading_rate_bw_s",
        rows.LOADING_RATE,
        1.0,
        "body weights/s",
        "loading rate",
        "Mean slope of the vertical force from 20 % to 80 % of its first peak.",
        "How suddenly the leg is loaded.",
    ),
    _measure(
        "utilised_friction",
        rows.UTILISED_FRICTION,
        1.0,
        "1",
        "friction used",
        "Largest ratio of the size of the fore-aft to the vertical force while the latter exceeds 0.2 "
        "body weights.",
        "How grippy the floor must be.",
        source="yamaguchi-2008",
    ),
    _measure(
        "slip_mm",
        rows.SLIP_LENGTH,
        MM,
        "mm",
        "slip",
        "Distance that the sole slides over the floor, each element weighted by its load.",
        "How far the foot slides.",
    ),
)

_ENERGY = (
    _measure(
        "foot_energy_stored_j",
        rows.FOOT_STORED,
        1.0,
        "J",
        "energy taken up by the foot",
        "Integral of the power that flows into the sole.",
        "What the foot takes from the step.",
    ),
    _measure(
        "foot_energy_returned_j",
        rows.FOOT_RETURNED,
        1.0,
        "J",
        "energy returned by the foot",
        "Integral of the power that flows back.",
        "What it gives back.",
    ),
    _measure(
        "foot_energy_lost_j",
        rows.FOOT_LOST,
        1.0,
        "J",
        "energy lost in the foot",
        "Integral of the power that the sole turns into heat.",
        "What is gone.",
    ),
    _measure(
        "speed_change_m_s",
        rows.SPEED_CHANGE,
        1.0,
        "m/s",
        "speed gained over stance",
        "Forward speed of the hip at toe-off less that at touch-down.",
        "Whether the step slows the walk.",
    ),
    _measure(
        "ledger_error_percent",
        rows.LEDGER_ERROR,
        PERCENT,
        "%",
        "energy ledger error",
        "What the ledger of work, storage and loss leaves unexplained, over all energy exchanged.",
        "How well the computation keeps its books.",
    ),
)

MEASURES: tuple[Measure, ...] = _KNEE + _SOCKET + _LEVERS + _TIPPING + _LOAD + _ENERGY
BY_NAME = {measure.name: measure for measure in MEASURES}

MAIN_MEASURES = (
    "knee_flexion_moment_peak_nm_kg",
    "knee_extension_moment_peak_nm_kg",
    "socket_flexion_moment_peak_nm",
    "socket_extension_moment_peak_nm",
    "forward_thrust",
    "drop_off",
    "heel_off_s",
    "hip_rise_mm",
)

ENDINGS = {
    rows.TOE_OFF: "toe_off",
    rows.FELL_FORWARD: "fell_forward",
    rows.FELL_BACKWARD: "fell_backward",
    rows.KNEE_COLLAPSED: "knee_collapsed",
    rows.FOOT_SLIPPED: "foot_slipped",
    rows.STEP_LIMIT: "step_limit",
    rows.NOT_FINITE: "not_finite",
    rows.ENERGY_DRIFT: "energy_drift",
}
