"""What each case of the gallery answers: three sentences, every number taken from its runs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from making.runs import Runs, case_of, change, holds, moves
from simgait.limb import limb_of
from simgait.parts.shoe import heel_tilt
from simgait.stance import StanceResult, simulate_stance
from simgait.units import degrees_from_radians
from simgait.wearer import GRAVITY

FLEXION, EXTENSION = "knee_flexion_moment_peak_nm_kg", "knee_extension_moment_peak_nm_kg"


def peaks(run: StanceResult) -> str:
    """Return both knee peaks of a run in words."""
    return f"{run.measures[FLEXION]:.2f} bending and {run.measures[EXTENSION]:.2f} straightening"


def everyday() -> str:
    """Return the answer of the everyday case."""
    runs = Runs("everyday")
    ahead, back = runs.at(foot_forward_mm=10.0), runs.at(foot_forward_mm=-10.0)
    up = runs.at(dorsiflexion_deg=3.0)
    for measure in (FLEXION, EXTENSION):
        alike = change(up, runs.base, measure) * change(back, runs.base, measure) > 0.0
        holds("toe up works the way of a foot moved back", alike)
    easiest = runs.least(lambda run: max(run.measures[FLEXION], run.measures[EXTENSION]))
    return (
        "With the foot 10 mm forward the late straightening moment of the knee "
        f"{moves(change(ahead, runs.base, EXTENSION), 2, 'N m/kg', 'rises', 'falls')} and the "
        "early bending one "
        f"{moves(change(ahead, runs.base, FLEXION), 2, 'N m/kg', 'rises', 'falls')}; 10 mm back "
        f"they change by {change(back, runs.base, EXTENSION):+.2f} and "
        f"{change(back, runs.base, FLEXION):+.2f}. Three degrees toe up work the way of a foot "
        f"moved back ({change(up, runs.base, EXTENSION):+.2f} and "
        f"{change(up, runs.base, FLEXION):+.2f}), so that shift and tilt can be set against each "
        "other. If *easiest* means that the larger of the two peaks is smallest, it is "
        f"{runs.label(easiest)}: {peaks(easiest)}, against {peaks(runs.base)} at the baseline (N "
        "m/kg)."
    )


def heavy_worker() -> str:
    """Return the answer of the heavy worker's case."""
    runs = Runs("heavy-worker")
    far, near = runs.at(foot_forward_mm=15.0), runs.at(foot_forward_mm=-15.0)
    slope = change(far, near, EXTENSION) / 6.0
    share = 100.0 * slope / (GRAVITY * 0.005)
    moment = "socket_extension_moment_peak_nm"
    holds("the socket moment grows", change(far, near, moment) > 0.0 and slope > 0.0)
    holds("the drop shrinks", change(far, near, "drop_off") < 0.0)
    used = max(run.measures["utilised_friction"] for run in runs.results)
    slid = max(run.measures["slip_mm"] for run in runs.results)
    return (
        f"Every 5 mm forward add {slope:.3f} N m/kg to the late straightening moment of the "
        f"knee, {share:.0f} % of what statics gives for one body weight. From 15 mm back to 15 "
        f"mm forward that moment grows from {near.measures[EXTENSION]:.2f} to "
        f"{far.measures[EXTENSION]:.2f} N m/kg, and the extending moment in the socket from "
        f"{near.measures[moment]:.0f} to "
        f"{far.measures[moment]:.0f} N m, while the drop onto the "
        f"other leg shrinks from {near.measures['drop_off']:.2f} to "
        f"{far.measures['drop_off']:.2f} m/s. How much is too much no figure here can say, but "
        f"the dusty floor says something: the foot asks for {used:.2f} of the "
        f"{case_of('heavy-worker').friction:.2f} that it gives, and slides by {slid:.0f} mm."
    )


def mending_tilt(runs: Runs, heel: float) -> float:
    """Return the dorsiflexion that brings the bending moment back to the baseline's [deg]."""
    tilts = (-3.0, 0.0, 3.0)
    found = [runs.at(heel_rise_mm=heel, dorsiflexion_deg=tilt).measures[FLEXION] for tilt in tilts]
    wanted = runs.base.measures[FLEXION]
    left = 0 if (found[0] - wanted) * (found[1] - wanted) <= 0.0 else 1
    share = (wanted - found[left]) / (found[left + 1] - found[left])
    return tilts[left] + share * (tilts[left + 1] - tilts[left])


def heel_height() -> str:
    """Return the answer of the heel height's case."""
    runs = Runs("heel-height-change")
    high, low = runs.at(heel_rise_mm=20.0), runs.at(heel_rise_mm=0.0)
    mended = runs.at(heel_rise_mm=20.0, dorsiflexion_deg=-3.0)
    turn = degrees_from_radians(heel_tilt(0.020, 0.010, case_of("heel-height-change").foot.length))
    tilts = (mending_tilt(runs, 20.0), mending_tilt(runs, 0.0))
    holds("opposite tilts", tilts[0] < 0.0 < tilts[1])
    holds("the hip stays level", abs(change(mended, runs.base, "hip_rise_mm")) < 5.0)
    return (
        "A heel 10 mm higher changes the early bending moment of the knee by "
        f"{change(high, runs.base, FLEXION):+.3f} N m/kg and a heel 10 mm lower by "
        f"{change(low, runs.base, FLEXION):+.3f}; the hip's highest point moves by "
        f"{change(high, runs.base, 'hip_rise_mm'):+.1f} and "
        f"{change(low, runs.base, 'hip_rise_mm'):+.1f} mm. Read between the runs, a tilt of "
        f"{tilts[0]:+.1f} degrees brings the bending moment back under the "
        f"higher heel and {tilts[1]:+.1f} degrees under the lower one; the heel itself turns a "
        f"foot of this length by {turn:.1f} degrees. With the higher heel and the toe 3 degrees "
        f"down the hip rises {change(mended, runs.base, 'hip_rise_mm'):+.1f} mm against the "
        "baseline over the sound side, which the other shoe has lifted as well."
    )


def length_mismatch() -> str:
    """Return the answer of the length mismatch's case."""
    runs, case = Runs("length-mismatch"), case_of("length-mismatch")
    thickness = 0.0 if case.shoe is None else case.shoe.sole_thickness
    missing = 1000.0 * (case.sound_side.shoe_thickness - thickness)
    short, long = runs.at(length_change_mm=-10.0), runs.at(length_change_mm=10.0)
    for measure in (FLEXION, EXTENSION):
        onward = change(long, runs.base, measure) * change(runs.base, short, measure) > 0.0
        holds("10 mm beyond level go on in the same direction", onward)
    return (
        f"The sound side's sole is {missing:.0f} mm thicker than the prosthesis', so a "
        f"prosthesis that was level before is about {missing:.0f} mm short now, close to the run "
        "at -10 mm (0 is level with the sound side). From there to level the hip's highest "
        f"point {moves(-change(short, runs.base, 'hip_rise_mm'), 1, 'mm', 'rises', 'falls')}, "
        "the late straightening moment of the knee "
        f"{moves(-change(short, runs.base, EXTENSION), 3, 'N m/kg', 'rises', 'falls')} and the "
        "early bending one "
        f"{moves(-change(short, runs.base, FLEXION), 3, 'N m/kg', 'rises', 'falls')}. Another 10 "
        f"mm beyond level go on in the same direction ({change(long, runs.base, EXTENSION):+.3f} "
        f"and {change(long, runs.base, FLEXION):+.3f} N m/kg): in stance alone length is a mild "
        "setting, and what a tilted pelvis costs is not in this model."
    )


def short_limb() -> str:
    """Return the answer of the short residual limb's case."""
    runs, name = Runs("short-residual-limb"), "short-residual-limb"
    limb = limb_of(case_of(name), runs.base.alignment)
    longer = simulate_stance(replace(limb, residual_limb_length=0.150))
    easiest = runs.least(lambda run: run.measures["socket_couple_force_n"])
    more, less = runs.at(socket_flexion_deg=12.0), runs.at(socket_flexion_deg=4.0)
    moment, force = "socket_extension_moment_peak_nm", "socket_couple_force_n"
    flexes = less.measures["socket_flexion_moment_peak_nm"] > less.measures[moment]
    sense = "flexing" if flexes else "extending"
    return (
        f"With {1000 * limb.socket_depth:.0f} mm of limb in the socket the extending moment of "
        f"{runs.base.measures[moment]:.1f} N m is a couple of {runs.base.measures[force]:.0f} N "
        "at brim and end; with a residual limb of 150 mm the same setting gives "
        f"{longer.measures[moment]:.1f} N m but only {longer.measures[force]:.0f} N. Four "
        f"degrees more socket flexion bring {more.measures[force]:.0f} N, four degrees less "
        f"{less.measures[force]:.0f} N, in the "
        f"{sense} sense. The smallest couple of the six, {easiest.measures[force]:.0f} N, has "
        f"{runs.label(easiest)}: the knee is then loaded with {peaks(easiest)} N m/kg."
    )


ANSWERS: dict[str, Callable[[], str]] = {
    "everyday": everyday,
    "heavy-worker": heavy_worker,
    "heel-height-change": heel_height,
    "length-mismatch": length_mismatch,
    "short-residual-limb": short_limb,
}
