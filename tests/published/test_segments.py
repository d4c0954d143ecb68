"""The published segment tables re-add to their own totals, as printed."""

import math

import pytest

from simgait.library import names, path_of, segment_table
from simgait.library.figures import read_model
from simgait.people import density_coefficients, least_density

HALF_DIGIT = 0.0005  # masses of the Winter table are printed to 0.001 (foot and leg: 0.0005)
SIDES = 2


def mass(table: str, *rows: str) -> float:
    return sum(segment_table(table).row(row).mass for row in rows)


@pytest.mark.parametrize(
    ("total", "parts"),
    [
        ("Total leg", ("Thigh", "Leg", "Foot")),
        ("Total leg", ("Thigh", "Foot leg")),
        ("Foot leg", ("Foot", "Leg")),
        ("Forearm hand", ("Forearm", "Hand")),
        ("Total arm", ("Upper arm", "Forearm hand")),
        ("Trunk", ("Thorax", "Abdomen", "Pelvis")),
        ("Thorax abdomen", ("Thorax", "Abdomen")),
        ("Abdomen pelvis", ("Abdomen", "Pelvis")),
        ("Trunk head neck", ("Trunk", "Head neck")),
        ("HAT", ("Trunk head neck", "Total arm", "Total arm")),
    ],
)
def test_winter_parts_make_the_printed_total(total, parts):
    assert mass("dempster_winter", *parts) == pytest.approx(
        mass("dempster_winter", total), abs=HALF_DIGIT
    )


def test_winter_body_is_whole():
    assert mass("dempster_winter", "HAT", "Total leg", "Total leg") == pytest.approx(
        1.0, abs=HALF_DIGIT
    )


@pytest.mark.parametrize("table", ["deleva_male", "deleva_female"])
def test_de_leva_body_is_whole(table):
    limbs = ("Upper arm", "Forearm", "Hand", "Thigh", "Shank", "Foot")
    whole = mass(table, "Head", "Trunk") + SIDES * mass(table, *limbs)
    # 14 printed masses, each to half of 0.0001; they can only all err one way
    assert whole == pytest.approx(1.0, abs=14 * 0.00005)


@pytest.mark.parametrize("table", ["deleva_male", "deleva_female"])
def test_de_leva_trunk_is_its_three_parts(table):
    parts = mass(table, "Upper trunk", "Middle trunk", "Lower trunk")
    assert parts == pytest.approx(mass(table, "Trunk"), abs=0.00005)


@pytest.mark.parametrize("table", ["deleva_male", "deleva_female"])
@pytest.mark.parametrize("other", ["Shank 2", "Shank 3"])
def test_de_leva_shanks_are_one_shank_measured_to_three_ends(table, other):
    # the centre is one distance from the knee, the radius of gyration one length: both ratios
    # are the ratio of the two segment lengths
    rows = segment_table(table)
    first, second = rows.row("Shank"), rows.row(other)
    assert first.mass == second.mass
    by_centre = first.centre / second.centre
    assert first.gyration is not None and second.gyration is not None
    by_gyration = first.gyration / second.gyration
    band = by_gyration * 2 * HALF_DIGIT / first.gyration  # half a printed digit of each
    assert by_gyration == pytest.approx(by_centre, abs=band)


# Radii of gyration about the ends, in the same table of Winter 2009: proximal, distal.
# From memory, so a slip of the pen would show, but this is no reading of the book.
ABOUT_THE_ENDS = {
    "Thigh": (0.540, 0.653),
    "Leg": (0.528, 0.643),
    "Foot": (0.690, 0.690),
    "Foot leg": (0.735, 0.572),
}


@pytest.mark.parametrize("name", ["Thigh", "Leg", "Foot", "Foot leg"])
def test_winter_radii_about_the_ends_from_memory(name):
    row = segment_table("dempster_winter").row(name)
    assert row.gyration is not None
    proximal, distal = ABOUT_THE_ENDS[name]
    # the printed inputs carry half a digit each, hence one whole digit here
    assert math.hypot(row.gyration, row.centre) == pytest.approx(proximal, abs=0.001)
    assert math.hypot(row.gyration, 1 - row.centre) == pytest.approx(distal, abs=0.001)


@pytest.mark.parametrize("table", names("segments"))
def test_the_leg_rows_are_there_and_a_shank_can_be_cut(table):
    rows = segment_table(table)
    leg = [rows.row(name) for name in (rows.thigh, rows.shank, rows.foot)]
    assert all(row.gyration is not None for row in leg)
    assert leg[0].mass > leg[1].mass > leg[2].mass
    assert leg[1].gyration is not None
    assert least_density(density_coefficients(leg[1].centre, leg[1].gyration)) > 0


@pytest.mark.parametrize("table", names("segments"))
def test_the_tables_say_where_they_are_from(table):
    data = read_model(path_of("segments", table))
    assert data["segments"]["grade"] == "quoted"
    assert data["segments"]["source"] == ("winter-2009" if "winter" in table else "de-leva-1996")


def test_winter_prints_no_gyration_for_the_trunk():
    assert segment_table("dempster_winter").row("Trunk").gyration is None


def test_the_transverse_axis_is_the_one_used():
    row = segment_table("deleva_male").row("Shank")
    assert row.gyration == 0.246  # transverse; sagittal 0.251, longitudinal 0.102
