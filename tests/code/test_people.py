"""People, and the residual limb cut from a shank."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from simgait.errors import RangeError
from simgait.library import names, segment_table
from simgait.people import (
    Person,
    SegmentRow,
    SegmentTable,
    density_coefficients,
    density_moment,
    foot_mass,
    least_density,
    residual_limb,
    shank,
    thigh,
)


def person(table: str = "dempster_winter", **changes: float) -> Person:
    rows = segment_table(table)
    return Person(sex="male", mass=80.0, stature=1.76, segment_table=rows, **changes)  # type: ignore[arg-type]


def test_lengths_follow_from_stature():
    one = person()
    assert one.thigh_length == pytest.approx(0.245 * 1.76)
    assert one.shank_length == pytest.approx(0.246 * 1.76)  # printed beside the heights
    assert one.hip_height == pytest.approx(one.knee_height + one.thigh_length)


def test_measured_lengths_win_and_stay_consistent():
    thighed = person(measured_thigh=0.40)
    assert thighed.thigh_length == 0.40
    assert thighed.hip_height == pytest.approx(thighed.knee_height + 0.40)
    high = person(measured_knee_height=0.53, measured_hip_height=0.98)
    assert high.thigh_length == pytest.approx(0.45)
    assert high.shank_length == pytest.approx(0.53 - 0.039 * 1.76)


def test_segments_are_the_table_times_the_person():
    one = person()
    assert thigh(one).mass == pytest.approx(8.0)
    assert thigh(one).centre == pytest.approx(0.433 * thigh(one).length)
    assert shank(one).inertia == pytest.approx(0.0465 * 80 * (0.302 * one.shank_length) ** 2)
    assert foot_mass(one) == pytest.approx(0.0145 * 80)


@pytest.mark.parametrize(
    "changes",
    [
        {"mass": 80000.0},
        {"mass": float("nan")},
        {"stature": 176.0},
        {"measured_thigh": 430.0},
        {"measured_knee_height": 0.60, "measured_hip_height": 0.55},
    ],
)
def test_a_person_who_cannot_be_is_refused(changes):
    values = {"mass": 80.0, "stature": 1.76, **changes}
    with pytest.raises(RangeError):
        Person(sex="male", segment_table=segment_table("dempster_winter"), **values)


@pytest.mark.parametrize("table", names("segments"))
def test_a_cut_at_the_ankle_leaves_the_whole_shank(table):
    whole = shank(person(table))
    uncut = residual_limb(person(table), whole.length)
    for name in ("length", "mass", "centre", "inertia"):
        assert getattr(uncut, name) == pytest.approx(getattr(whole, name), rel=1e-12)


@pytest.mark.parametrize("table", names("segments"))
@given(share=st.floats(0.1, 0.95))
def test_a_cut_and_its_rest_make_the_whole(table, share):
    # the piece below the cut is integrated numerically, on its own
    one = person(table)
    whole, row = shank(one), one.segment_table.row(one.segment_table.shank)
    upper = residual_limb(one, share * whole.length)
    a, b, c = density_coefficients(row.centre, row.gyration or 0.0)

    def moment(power: int) -> float:
        value, _ = quad(lambda s: (a + b * s + c * s**2) * s**power, share, 1.0)
        return whole.mass * value * whole.length**power

    assert upper.mass + moment(0) == pytest.approx(whole.mass, rel=1e-9)
    assert upper.mass * upper.centre + moment(1) == pytest.approx(
        whole.mass * whole.centre, rel=1e-9
    )
    about_knee = upper.inertia + upper.mass * upper.centre**2 + moment(2)
    assert about_knee == pytest.approx(whole.inertia + whole.mass * whole.centre**2, rel=1e-9)


def test_a_uniform_rod_is_cut_in_proportion():
    rows = (SegmentRow(name="Rod", ends="a-b", mass=0.05, centre=0.5, gyration=(1 / 12) ** 0.5),)
    table = SegmentTable(
        name="rod", title="rod", source="illustrative", rows=rows,
        thigh="Rod", shank="Rod", foot="Rod",
    )  # fmt: skip
    one = Person(sex="female", mass=60.0, stature=1.6, segment_table=table)
    whole, half = shank(one), residual_limb(one, shank(one).length / 2)
    assert half.mass == pytest.approx(whole.mass / 2)
    assert half.centre == pytest.approx(whole.length / 4)
    assert half.inertia == pytest.approx(whole.inertia / 8)


def test_a_shank_whose_density_would_be_negative_is_refused():
    assert least_density(density_coefficients(0.433, 0.10)) < 0
    row = SegmentRow(name="Odd", ends="a-b", mass=0.05, centre=0.433, gyration=0.10)
    table = SegmentTable(
        name="odd", title="odd", source="illustrative", rows=(row,),
        thigh="Odd", shank="Odd", foot="Odd",
    )  # fmt: skip
    with pytest.raises(RangeError, match="density"):
        residual_limb(Person(sex="male", mass=80.0, stature=1.76, segment_table=table), 0.15)


@given(centre=st.floats(0.3, 0.7), gyration=st.floats(0.15, 0.4))
def test_least_density_is_the_least(centre, gyration):
    a, b, c = density_coefficients(centre, gyration)
    sampled = min(a + b * s / 1000 + c * (s / 1000) ** 2 for s in range(1001))
    assert least_density((a, b, c)) <= sampled + 1e-12
    assert least_density((a, b, c)) == pytest.approx(sampled, abs=abs(c) * 1e-6 + 1e-12)


@given(centre=st.floats(0.3, 0.7), gyration=st.floats(0.15, 0.4))
def test_the_density_has_the_moments_it_was_made_for(centre, gyration):
    coefficients = density_coefficients(centre, gyration)
    assert density_moment(coefficients, 1.0, 0) == pytest.approx(1.0, abs=1e-12)
    assert density_moment(coefficients, 1.0, 1) == pytest.approx(centre, abs=1e-12)
    assert density_moment(coefficients, 1.0, 2) == pytest.approx(centre**2 + gyration**2, abs=1e-12)


@pytest.mark.parametrize("length", [0.0, 0.60, float("nan"), 150.0])
def test_a_cut_that_cannot_be_is_refused(length):
    with pytest.raises(RangeError):
        residual_limb(person(), length)
