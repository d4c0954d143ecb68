"""A case file: what it fills, what it refuses, and that it refuses everything at once."""

import math
from pathlib import Path

import pytest

from simgait.case import MOST_ALIGNMENTS, read_case
from simgait.case.entries import TABLES, number_range
from simgait.errors import CaseError, Fault
from simgait.library import models_folder, names

LEAST = """[person]
sex = "male"
mass_kg = 80
stature_mm = 1760
[limb]
residual_limb_mm = 150
[foot]
model = "firm"
"""
OWN_FOOT = """[foot]
heel_stiffness_n_mm = 40
forefoot_stiffness_n_mm = 46
heel_loss = 0.4
forefoot_loss = 0.2
heel_lever_mm = 50
toe_lever_mm = 140
sole_height_mm = 76
heel_rise_mm = 10
mass_kg = 0.5
length_mm = 260
"""


@pytest.fixture
def write(tmp_path):
    def written(text: str) -> Path:
        path = tmp_path / "some case.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return written


def faults(path, overrides=None) -> tuple[Fault, ...]:
    with pytest.raises(CaseError) as caught:
        read_case(path, overrides)
    assert all("\n" not in fault.message() for fault in caught.value.faults)
    return caught.value.faults


def only(path, overrides=None) -> Fault:
    found = faults(path, overrides)
    assert len(found) == 1, [fault.message() for fault in found]
    return found[0]


@pytest.mark.parametrize("name", names("cases"))
def test_the_cases_that_ship_are_read_and_say_that_they_are_invented(name):
    path = models_folder() / "cases" / f"{name}.toml"
    case = read_case(path)
    assert "invented" in case.title
    assert "no real person" in path.read_text(encoding="utf-8")
    assert case.alignments()[case.baseline_index] == case.baseline
    assert len(set(case.alignments())) == len(case.alignments()) > 1


def test_what_is_left_out_is_filled_and_said(write):
    case = read_case(write(LEAST))
    assert case.title == "some case"
    assert case.person.segment_table.name == "deleva_male"
    assert (case.shoe.name, case.socket.name, case.pylon.name) == ("everyday", "usual", "usual")
    assert case.wearer == "steady-transtibial"
    assert case.speed is None and case.friction == 0.7
    assert case.baseline.as_written() == {
        "foot_forward_mm": 0, "dorsiflexion_deg": 0, "socket_flexion_deg": 5,
        "length_change_mm": 0, "heel_rise_mm": 10,
    }  # fmt: skip
    assert case.sound_side.shoe_thickness == case.shoe.sole_thickness
    assert case.sound_side.heel_rise(case.baseline) == case.baseline.heel_rise
    said = {sentence.partition(":")[0] for sentence in case.filled}
    assert {
        "title", "person.segment_table", "person.thigh_mm", "shoe.model", "socket.model",
        "pylon.model", "wearer.model", "walking.speed_m_s", "ground.friction",
        "sound_side.shoe_thickness_mm", "sound_side.shoe_heel_rise_mm",
        "alignment.foot_forward_mm", "alignment.heel_rise_mm",
    } <= said  # fmt: skip


def test_what_is_given_is_taken_and_not_called_filled(write):
    text = LEAST + (
        "[walking]\nspeed_m_s = 1.1\n[ground]\nfriction = 0.4\n"
        + "[sound_side]\nshoe_heel_rise_mm = 25\nshoe_thickness_mm = 30\n"
        + "[alignment]\nfoot_forward_mm = -7.5\nheel_rise_mm = 0\n"
    )
    case = read_case(write(text))
    assert (case.speed, case.friction) == (1.1, 0.4)
    assert case.sound_side.shoe_thickness == 0.03
    assert case.sound_side.heel_rise(case.baseline) == 0.025
    assert case.baseline.foot_forward == -0.0075 and case.baseline.heel_rise == 0.0
    said = {sentence.partition(":")[0] for sentence in case.filled}
    assert not said & {"walking.speed_m_s", "ground.friction", "alignment.foot_forward_mm"}


def test_a_named_shoe_brings_its_heel_and_no_shoe_is_bare(write):
    case = read_case(write(LEAST + '[shoe]\nmodel = "firm-leather"\n'))
    assert case.baseline.heel_rise == 0.020
    assert case.shod_foot.sole_height > case.foot.sole_height
    bare = read_case(write(LEAST + '[shoe]\nmodel = "none"\n'))
    assert bare.shoe is None and bare.shod_foot == bare.foot
    assert bare.sound_side.shoe_thickness == 0.0


def test_a_foot_of_ones_own(write):
    case = read_case(write(LEAST.replace('[foot]\nmodel = "firm"\n', OWN_FOOT)))
    assert case.foot.heel_stiffness == 40e3 and case.foot.toe_lever == 0.14
    assert any(sentence.startswith("foot.toe_spring_mm") for sentence in case.filled)


@pytest.mark.parametrize(
    ("lists", "count", "place"),
    [
        ("", 1, 0),
        ("foot_forward_mm = [-10, 0, 10]\ndorsiflexion_deg = [-3, 0, 3]", 9, 4),
        ("foot_forward_mm = [-10, 10]", 3, 0),
        ("foot_forward_mm = [5, 10, 0]", 3, 2),
        ("heel_rise_mm = [10.0]", 1, 0),
    ],
)
def test_all_combinations_and_the_baseline_among_them(write, lists, count, place):
    case = read_case(write(LEAST + f"[alignment]\nfoot_forward_mm = 0\n[compare]\n{lists}\n"))
    assert (len(case.alignments()), case.baseline_index) == (count, place)
    assert case.baseline.foot_forward == 0.0


def test_overrides_replace_and_are_checked(write):
    path = write(LEAST)
    case = read_case(path, {"alignment.foot_forward_mm": "10", "foot.model": "short-keel"})
    assert case.baseline.foot_forward == 0.010 and case.foot.name == "short-keel"
    case = read_case(path, {"compare.dorsiflexion_deg": "[-3, 3]", "title": "3"})
    assert len(case.alignments()) == 3 and case.title == "3"
    assert only(path, {"alignment.foot_forward_mm": "100"}).file == "--set"
    assert only(path, {"alignment.foot_forwrd_mm": "1"}).nearest == "foot_forward_mm"
    assert only(path, {"alignment.foot_forward_mm": "ten"}).value == "'ten'"
    assert only(path, {"alignmnt.foot_forward_mm": "1"}).nearest == "alignment"
    for key in ("foot_forward_mm", "alignment.", "", "title.more", "."):
        assert only(path, {key: "1"}).problem == "names nothing that can be set"
    injected = "1\nlength_change_mm = 50"
    assert only(path, {"alignment.foot_forward_mm": injected}).problem == "is not a number"


@pytest.mark.parametrize(
    ("old", "new", "field", "near", "words"),
    [
        ("mass_kg = 80", "", "person.mass_kg", None, "missing"),
        ("mass_kg = 80", "mass_kg = 80000", "person.mass_kg", "200", "grams"),
        ("mass_kg = 80", "mass_kg = 300", "person.mass_kg", "200", "pounds"),
        ("mass_kg = 80", 'mass_kg = "80"', "person.mass_kg", None, "not a number"),
        ("mass_kg = 80", "mass_kg = true", "person.mass_kg", None, "not a number"),
        ("mass_kg = 80", "mass_kg = nan", "person.mass_kg", None, "not finite"),
        ("mass_kg = 80", "mass_kg = -inf", "person.mass_kg", None, "not finite"),
        ("mass_kg = 80", "mass_kg = 2026-01-01", "person.mass_kg", None, "not a number"),
        ("1760", "1.76", "person.stature_mm", "1200", "looks like metres; this field is in mm"),
        ("1760", "176", "person.stature_mm", "1200", "centimetres"),
        ("1760", "69", "person.stature_mm", "1200", "inches"),
        ("= 150", "= 0.15", "limb.residual_limb_mm", "60", "metres"),
        ('"male"', '"Male"', "person.sex", "male", "words"),
        ('"male"', "1", "person.sex", None, "female, male"),
        ('"firm"', '"frim"', "foot.model", "firm", "known foot"),
        ('"firm"', "7", "foot.model", None, "not a text"),
        ('model = "firm"', "", "foot.model", None, "missing"),
        ("[foot]", "[foot]\nheel_loss = 0.3", "foot", None, "not both"),
        ("[foot]", '[wearer]\nmodel = "stedy"\n[foot]', "wearer.model", None, "known wearer"),
        ("[foot]", '[shoe]\nmodel = "boot"\n[foot]', "shoe.model", None, "work-boot"),
        ("[foot]", "[walking]\nspeed_m_s = 4.5\n[foot]", "walking.speed_m_s", "2.2", "km/h"),
        ("[foot]", "[ground]\nfriction = 0\n[foot]", "ground.friction", "0.05", "0.05 to 1.5"),
        ("[person]", "[persons]\n[person]", "persons", "person", "not a key"),
        ("[person]", "person_ = 1\n[person]", "person_", "person", "not a key"),
        ("[person]", "walking = 4\n[person]", "walking", None, "[walking]"),
        ("[person]", "title = 4\n[person]", "title", None, "text"),
        ("[person]", 'title = "a\\nb"\n[person]', "title", None, "one line"),
        ('sex = "male"', 'sex = "male"\nsegment_table = "deleva_female"', "person.segment_table",
         "deleva_male", "contradicts"),
        ('sex = "male"', 'sex = "male"\nsegment_table = "dempster"', "person.segment_table",
         "dempster_winter", "known segment table"),
        ('sex = "male"', 'sex = "male"\nthigh_mm = 550\nhip_height_mm = 900\nknee_height_mm = 500',
         "person.thigh_mm", "400", "contradicts"),
        ('sex = "male"', 'sex = "male"\nhip_height_mm = 520\nknee_height_mm = 600',
         "person", None, "not below"),
        ("= 150", "= 300", "limb.residual_limb_mm", None, "no room"),
    ],
)  # fmt: skip
def test_one_fault_is_named(write, old, new, field, near, words):
    assert old in LEAST
    text = LEAST.replace(old, new, 1)
    if words == "no room":
        text = text.replace("1760", "1300")
    fault = only(write(text))
    assert fault.field == field
    assert words in fault.message()
    assert "some case.toml" in fault.file
    if near is not None:
        assert fault.nearest == near


@pytest.mark.parametrize(
    ("lists", "words"),
    [
        ("foot_forward_mm = 10", "list of values"),
        ("foot_forward_mm = []", "list of values"),
        ("foot_forward_mm = [0, 99]", "foot_forward_mm[1] = 99"),
        ("foot_forward_mm = [0, true]", "not a number"),
        ("foot_forward_mm = [5, 5.0]", "twice"),
        ("foot_forwrd_mm = [5]", "nearest: foot_forward_mm"),
        (f"foot_forward_mm = {list(range(-10, 11))}\nheel_rise_mm = {list(range(20))}", "420"),
    ],
)
def test_a_fault_in_compare_is_named(write, lists, words):
    assert words in only(write(LEAST + f"[compare]\n{lists}\n")).message()


def test_four_hundred_combinations_are_not_too_many(write):
    lists = f"foot_forward_mm = {list(range(20))}\nheel_rise_mm = {list(range(20))}"
    case = read_case(write(LEAST + f"[compare]\n{lists}\n"))
    assert len(case.alignments()) == MOST_ALIGNMENTS == 400


def test_a_length_in_compare_that_leaves_no_room_is_seen(write):
    limb = LEAST.replace("= 150", "= 300").replace("1760", "1620")
    assert read_case(write(limb)).residual_limb == 0.3
    fault = only(write(limb + "[compare]\nlength_change_mm = [-60, 0]\n"))
    assert fault.field == "limb.residual_limb_mm"


def test_every_figure_of_an_own_foot_is_asked_for(write):
    text = LEAST.replace('model = "firm"', "heel_loss = 40\nheel_lever_mm = 50")
    found = {fault.field for fault in faults(write(text))}
    assert found == {
        "foot.heel_loss", "foot.heel_stiffness_n_mm", "foot.forefoot_stiffness_n_mm",
        "foot.forefoot_loss", "foot.toe_lever_mm", "foot.sole_height_mm", "foot.heel_rise_mm",
        "foot.mass_kg", "foot.length_mm",
    }  # fmt: skip


def test_levers_longer_than_the_foot_are_a_fault(write):
    own = OWN_FOOT.replace("= 140", "= 240")
    assert (
        "up to Foot.length" in only(write(LEAST.replace('[foot]\nmodel = "firm"\n', own))).message()
    )


def test_all_faults_come_at_once(write):
    text = """titel = "x"
[person]
sex = "man"
mass_kg = 720
[limb]
residual_limb_mm = 15
[foot]
model = "frim"
heel_loss = 40
[wearer]
model = "stedy"
[walking]
speed_m_s = 4.5
[alignment]
dorsiflexion_deg = nan
[compare]
foot_forward_mm = [1, "a"]
"""
    found = faults(write(text), {"alignment.heel_rise_mm": "-5"})
    assert sorted(fault.field for fault in found) == [
        "alignment.dorsiflexion_deg", "alignment.heel_rise_mm", "compare.foot_forward_mm[1]",
        "foot", "foot.heel_loss", "foot.model", "limb.residual_limb_mm", "person.mass_kg",
        "person.sex", "person.stature_mm", "titel", "walking.speed_m_s", "wearer.model",
    ]  # fmt: skip


def test_very_many_unknown_keys_are_counted(write):
    many = "".join(f"k{n} = {n}\n" for n in range(60_000))
    found = faults(write(LEAST + "[ground]\n" + many))
    assert len(found) == 51 and "59950 more" in found[-1].message()


NUMBERS = [
    (table, name, *span)
    for table, entry in TABLES.items()
    for name in entry.model_fields
    if (span := number_range(entry, name))
]


@pytest.mark.parametrize(("table", "name", "low", "high"), NUMBERS)
def test_every_number_has_a_range_that_is_kept(write, table, name, low, high):
    base = LEAST.replace('[foot]\nmodel = "firm"\n', OWN_FOOT)
    for value in (math.nextafter(low, -math.inf), math.nextafter(high, math.inf), math.nan):
        found = faults(write(base), {f"{table}.{name}": str(value)})
        assert [fault.field for fault in found] == [f"{table}.{name}"]
