"""Parts: what they refuse, and the formulas between them."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.errors import RangeError
from simgait.library import names, read_foot, read_pylon, read_shoe, read_socket
from simgait.parts.pylon import screw_turns
from simgait.parts.shoe import (
    ankle_lift,
    foot_in_shoe,
    heel_tilt,
    loss_in_series,
    stiffness_in_series,
)

FOOT, SHOE = read_foot("carbon-leaf"), read_shoe("everyday")
SOCKET, PYLON = read_socket("usual"), read_pylon("usual")

stiffnesses = st.floats(1e4, 1e6)
shares = st.floats(0.0, 0.85)


@pytest.mark.parametrize(
    ("part", "field", "value"),
    [
        (FOOT, "heel_stiffness", 45.0),  # newton per millimetre
        (FOOT, "toe_lever", 150.0),  # millimetres
        (FOOT, "heel_loss", 34.0),  # per cent
        (FOOT, "toe_lever", 0.22),  # levers longer than the foot
        (SHOE, "mass", 360.0),
        (SHOE, "heel_rise", float("nan")),
        (SOCKET, "rotational_stiffness", 15.0),  # per degree
        (SOCKET, "end_gap", -0.01),
        (PYLON, "turn", 2.8),  # degrees
    ],
)
def test_an_impossible_part_is_not_made(part, field, value):
    with pytest.raises(RangeError, match=type(part).__name__):
        replace(part, **{field: value})


def test_a_shoe_softens_and_takes_energy():
    for foot in map(read_foot, names("feet")):
        for shoe in map(read_shoe, names("shoes")):
            shod = foot_in_shoe(foot, shoe)
            assert shod.heel_stiffness < min(foot.heel_stiffness, shoe.heel_stiffness)
            low, high = sorted((foot.heel_loss, shoe.heel_loss))
            assert low <= shod.heel_loss <= high
            assert shod.sole_height == foot.sole_height + shoe.sole_thickness
            assert shod.heel_rise == foot.heel_rise


@given(first=stiffnesses, second=stiffnesses, first_loss=shares, second_loss=shares)
def test_series_follows_from_force_and_energy(first, second, first_loss, second_loss):
    force = 800.0
    deflection = force / first + force / second
    assert force / stiffness_in_series(first, second) == pytest.approx(deflection)
    stored = force**2 / (2 * first), force**2 / (2 * second)
    lost = first_loss * stored[0] + second_loss * stored[1]
    loss = loss_in_series(first_loss, first, second_loss, second)
    assert loss * sum(stored) == pytest.approx(lost, abs=1e-12)


def test_a_rigid_shoe_changes_no_spring():
    shoe = replace(SHOE, heel_stiffness=5e6, forefoot_stiffness=5e6)
    shod = foot_in_shoe(FOOT, shoe)
    assert shod.heel_stiffness == pytest.approx(FOOT.heel_stiffness, rel=0.01)


def test_ten_millimetres_of_heel_tilt_as_derived():
    # derived in the reference: 10 mm on a 260 mm foot = 3.1 degrees
    assert math.degrees(heel_tilt(0.010, 0.0, 0.260)) == pytest.approx(3.1, abs=0.05)
    assert heel_tilt(0.010, 0.010, 0.260) == 0.0
    assert heel_tilt(0.0, 0.010, 0.260) < 0.0


def test_a_heel_lifts_the_ankle_by_its_share():
    length, span = 0.260, 0.70 * 0.260
    assert ankle_lift(0.020, 0.0, length, 0.0) == pytest.approx(0.020)  # ankle over the heel
    assert ankle_lift(0.020, 0.0, length, span) == pytest.approx(0.0)  # ankle over the forefoot
    assert ankle_lift(0.010, 0.010, length, 0.05) == 0.0


def test_socket_depths():
    assert SOCKET.enclosed_length(0.15) == pytest.approx(0.13)
    assert SOCKET.pivot_below_knee(0.15) == pytest.approx(0.02 + 0.065)
    assert SOCKET.end_below_knee(0.15) == pytest.approx(0.17)
    with pytest.raises(RangeError, match="inside"):
        SOCKET.enclosed_length(0.04)


def test_screw_turns_keep_the_sign():
    assert screw_turns(-math.radians(5.6), math.radians(2.8)) == pytest.approx(-2.0)
    with pytest.raises(RangeError):
        screw_turns(0.1, 0.0)


def test_pylon_mass_grows_with_length():
    assert PYLON.mass(0.30) - PYLON.mass(0.20) == pytest.approx(0.10 * PYLON.mass_per_length)
    with pytest.raises(RangeError):
        PYLON.mass(0.01)


@given(
    values=st.tuples(
        st.integers(-60, 60), st.integers(-15, 15), st.integers(-5, 25),
        st.integers(-60, 60), st.integers(0, 100),
    )
)  # fmt: skip
def test_an_alignment_is_read_back_as_written(values):
    written = dict(zip(WRITTEN_NAMES, map(float, values), strict=True))
    assert Alignment.from_written(written).as_written() == written


@pytest.mark.parametrize(
    ("name", "value"),
    [("foot_forward_mm", 61.0), ("foot_forward_mm", -61.0),
     ("dorsiflexion_deg", -15.1), ("socket_flexion_deg", 25.1),
     ("length_change_mm", float("inf")), ("heel_rise_mm", -1.0)],
)  # fmt: skip
def test_an_alignment_out_of_range_is_refused(name, value):
    with pytest.raises(RangeError):
        Alignment.from_written({**dict.fromkeys(WRITTEN_NAMES, 0.0), name: value})
