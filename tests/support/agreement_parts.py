"""Comparisons of body segments, plain geometry, and parts on the bench."""

from __future__ import annotations

import math
from functools import cache, partial
from typing import Any

from agreement import Comparison, Got, as_printed
from simgait.library import names, read_foot, read_shoe, read_socket, segment_table
from simgait.parts import Foot
from simgait.parts.rolling import roll_over
from simgait.parts.shoe import foot_in_shoe, heel_tilt
from simgait.parts.sole import (
    bench_test,
    forefoot_test,
    heel_test,
    sole_profile,
    solved_sole,
    tilted_heights,
)
from simgait.units import degrees_from_radians, mm_from_metres
from simgait.wearer import GRAVITY
from walkers import aligned, walker

BODY_TOPIC, GEOMETRY_TOPIC, PARTS_TOPIC = "Body segments", "Geometry and statics", "Parts"
STATURE = 1.76  # [m] of the middle wearer, for radii given as shares of stature
HIP_SHARE = 0.530  # hip height over stature (Drillis & Contini 1966, quoted)

SUMS = (
    ("Total leg", ("Thigh", "Leg", "Foot")),
    ("Foot leg", ("Foot", "Leg")),
    ("Forearm hand", ("Forearm", "Hand")),
    ("Total arm", ("Upper arm", "Forearm hand")),
    ("Trunk", ("Thorax", "Abdomen", "Pelvis")),
    ("Thorax abdomen", ("Thorax", "Abdomen")),
    ("Abdomen pelvis", ("Abdomen", "Pelvis")),
    ("Trunk head neck", ("Trunk", "Head neck")),
    ("HAT", ("Trunk head neck", "Total arm", "Total arm")),
)
DE_LEVA = ("Head", "Trunk", *2 * ("Upper arm", "Forearm", "Hand", "Thigh", "Shank", "Foot"))


def summed(table: str, parts: tuple[str, ...]) -> tuple[float, ...]:
    """Return the sum of the mass fractions of rows of a segment table [1]."""
    return (sum(segment_table(table).row(part).mass for part in parts),)


def winter_sum(total: str, parts: tuple[str, ...]) -> Comparison:
    """Return the comparison of a printed total of the Winter table with the sum of its parts."""
    printed = f"{segment_table('dempster_winter').row(total).mass:.3f}"
    low, high = as_printed(printed)
    return Comparison(
        topic=BODY_TOPIC, source="winter-2009", place=f"mass of {total} = {' + '.join(parts)}",
        printed=printed, got=partial(summed, "dempster_winter", parts), low=low, high=high,
        unit="1", digits=4, grade="quoted", kind="arithmetic",
    )  # fmt: skip


def de_leva_sum(table: str) -> Comparison:
    """Return the comparison of a whole body of de Leva's with 1."""
    return Comparison(
        topic=BODY_TOPIC, source="de-leva-1996",
        place=f"masses of the whole body, {table.removeprefix('deleva_')}",
        printed="1", got=partial(summed, table, DE_LEVA), low=1 - 0.0007, high=1 + 0.0007,
        unit="1", digits=4, grade="quoted", kind="arithmetic",
        note="14 printed masses, each to half of 0.0001",
    )  # fmt: skip


BODY = (
    *(winter_sum(total, parts) for total, parts in SUMS),
    de_leva_sum("deleva_female"),
    de_leva_sum("deleva_male"),
)


def force_times_shift(shift: float) -> tuple[float, ...]:
    """Return one body weight times a shift [m], per body mass [N m/kg]."""
    return (GRAVITY * shift,)


def place_under_tilt(degrees: float) -> tuple[float, ...]:
    """Return how far a point 0.30 m above the floor moves when the limb's sole is tilted [mm]."""
    limb = walker("steady-transtibial")
    turned = aligned(limb, dorsiflexion=math.radians(degrees)).sole_tilt - limb.sole_tilt
    return (mm_from_metres(0.30 * turned),)


def derived(place: str, printed: str, got: Got, unit: str, digits: int) -> Comparison:
    """Return a comparison with a figure derived by arithmetic, as printed."""
    low, high = as_printed(printed)
    return Comparison(
        topic=GEOMETRY_TOPIC, source="own-arithmetic", place=place, printed=printed, got=got,
        low=low, high=high, unit=unit, digits=digits, grade="derived", kind="arithmetic",
    )  # fmt: skip


GEOMETRY = (
    *(
        derived(
            f"moment of one body weight shifted by {mm} mm", printed,
            partial(force_times_shift, mm / 1000.0), "N m/kg", 4,
        )
        for mm, printed in ((5, "0.049"), (10, "0.098"), (15, "0.147"))
    ),
    *(
        derived(
            f"shift of the contact by a tilt of {angle} deg, seen 0.30 m above it", printed,
            partial(place_under_tilt, angle), "mm", 1,
        )
        for angle, printed in ((3, "16"), (6, "31"))
    ),
    derived(
        "turn of a 260 mm foot by 10 mm more heel", "3.1",
        lambda: (degrees_from_radians(heel_tilt(0.020, 0.010, 0.260)),), "deg", 2,
    ),
    Comparison(
        topic=GEOMETRY_TOPIC, source="poi-2016-socket",
        place="rotational stiffness of a soft fit: 72 N m over 15 deg", printed="about 5",
        got=lambda: (read_socket("soft").rotational_stiffness * math.pi / 180.0,),
        low=4.5, high=5.5, unit="N m/deg", digits=2, grade="derived", kind="chosen",
        note="the library's soft socket",
    ),
)  # fmt: skip


@cache
def feet() -> tuple[Foot, ...]:
    """Return the feet of the library that stand for prosthetic feet."""
    return tuple(read_foot(name) for name in names("feet") if name != "natural-stand-in")


@cache
def shod_pairs() -> tuple[tuple[Foot, Foot], ...]:
    """Return each foot of the library bare and in each shoe."""
    shoes = [read_shoe(name) for name in names("shoes")]
    return tuple((foot, foot_in_shoe(foot, shoe)) for foot in feet() for shoe in shoes)


def ends(values: list[float]) -> tuple[float, ...]:
    """Return the smallest and the largest of some values."""
    return min(values), max(values)


def simulated(test: str, figure: str) -> tuple[float, ...]:
    """Return the ends of a simulated bench figure over the library's feet [N/mm or share]."""
    run = {"heel": heel_test, "forefoot": forefoot_test}[test]
    found = [getattr(run(foot, solved_sole(foot)), figure) for foot in feet()]
    return ends([value / 1000.0 if figure == "stiffness" else value for value in found])


def shod_losses() -> tuple[float, ...]:
    """Return the ends of the heel's loss in the library's shoes, of the foot nearest to 45.3 %."""
    foot = min(feet(), key=lambda each: abs(each.heel_loss - 0.453))
    shod = [pair[1] for pair in shod_pairs() if pair[0] == foot]
    return ends([100.0 * heel_test(each, solved_sole(each)).loss for each in shod])


def hardening() -> tuple[float, ...]:
    """Return the ends of the ratio of heel stiffness at 800 N to that at 200 N."""
    ratios = []
    for foot in feet():
        sole, (x, rise) = solved_sole(foot), sole_profile(foot)
        heights = tilted_heights(x, rise, math.radians(15.0))
        low, high = (bench_test(heights, sole.stiffness, sole.loss, n) for n in (200.0, 800.0))
        ratios.append(high.stiffness / low.stiffness)
    return ends(ratios)


def radii(over: float) -> tuple[float, ...]:
    """Return the ends of the feet's roll-over radius over a length [m]."""
    return ends([roll_over(foot, solved_sole(foot)).radius / over for foot in feet()])


def part(
    source: str, place: str, printed: str, got: Got, band: tuple[float, float], **more: Any
) -> Comparison:
    """Return a comparison of parts; published unless it says otherwise."""
    usual = {"grade": "published", "unit": "1", "digits": 2, "kind": "predicted"}
    return Comparison(
        topic=PARTS_TOPIC, source=source, place=place, printed=printed, got=got,
        low=band[0], high=band[1], **{**usual, **more},
    )  # fmt: skip


SMALLER = (
    "the library's feet, rigid at the ankle and rolled under a steady 800 N, roll on a smaller "
    "wheel; what the ankle and the knee of a natural leg add is not there"
)
PARTS = (
    part(
        "asme-2012", "heel stiffness on the bench, softest and stiffest", "27 to 68",
        partial(simulated, "heel", "stiffness"), (26.5, 68.5),
        unit="N/mm", digits=1, kind="chosen",
    ),
    part(
        "asme-2012", "forefoot stiffness on the bench, softest and stiffest", "28 to 76",
        partial(simulated, "forefoot", "stiffness"), (27.5, 76.5),
        unit="N/mm", digits=1, kind="chosen",
    ),
    part(
        "klute-2004", "energy lost by a bare heel, least and most", "33.6 to 52.6 %",
        lambda: tuple(100.0 * share for share in simulated("heel", "loss")), (33.55, 52.65),
        unit="%", digits=1, kind="chosen",
    ),
    part(
        "klute-2004", "energy lost by one heel, 45.3 % bare, in three shoes",
        "63.0, 73.0, 82.4 %", shod_losses, (62.95, 82.45), unit="%", digits=1, agrees=False,
        note="the library's shoes are invented and lose less; their bench is a slow push, the "
        "published one a blow",
    ),
    part(
        "front-rehabil-sci-2024", "a shoe lowers the heel's stiffness: shod over bare", "lower",
        lambda: ends([shod.heel_stiffness / bare.heel_stiffness for bare, shod in shod_pairs()]),
        (0.0, 0.99),
    ),
    part(
        "front-rehabil-sci-2024", "a shoe adds loss: shod less bare", "more",
        lambda: ends([100.0 * (shod.heel_loss - bare.heel_loss) for bare, shod in shod_pairs()]),
        (0.0, 100.0), unit="% points", digits=1,
        note="nothing is added where foot and shoe lose the same share",
    ),
    part(
        "front-rehabil-sci-2024", "stiffness grows with load: heel at 800 N over 200 N", "grows",
        hardening, (1.01, math.inf),
    ),
    part(
        "hansen-meier-2010", "radius of the ankle and foot's roll-over shape over stature", "0.22",
        lambda: radii(STATURE), as_printed("0.22"), agrees=False, note=SMALLER,
    ),
    part(
        "adamczyk-2006", "radius of the wheel of foot, ankle and knee over leg length", "0.3",
        lambda: radii(HIP_SHARE * STATURE), as_printed("0.3"), agrees=False, note=SMALLER,
    ),
)  # fmt: skip
