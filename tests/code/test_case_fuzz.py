"""No content of a case file, and no override, gets anything but a case or its faults."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from simgait.case import read_case
from simgait.case.entries import TABLES
from simgait.errors import CaseError
from simgait.library import models_folder, names

LEAST = (models_folder() / "cases" / "everyday.toml").read_text(encoding="utf-8")

anything = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)
KEYS = sorted({name for entry in TABLES.values() for name in entry.model_fields})


def read_or_refuse(path, overrides=None) -> None:
    """Read a case; CaseError, with faults, is the only exception allowed out."""
    try:
        assert read_case(path, overrides).alignments()
    except CaseError as trouble:
        assert trouble.faults
        assert str(trouble)


QUIET = settings(max_examples=150, deadline=None, suppress_health_check=list(HealthCheck))


@QUIET
@given(content=st.binary(max_size=300))
def test_no_bytes_get_a_traceback(tmp_path, content):
    path = tmp_path / "bytes.toml"
    path.write_bytes(content)
    read_or_refuse(path)


@QUIET
@given(at=st.integers(0, len(LEAST)), length=st.integers(0, 12), put=st.text(max_size=12))
def test_no_slip_of_the_pen_gets_a_traceback(tmp_path, at, length, put):
    path = tmp_path / "slip.toml"
    text = LEAST[:at] + put + LEAST[at + length :]
    path.write_bytes(text.encode("utf-8", errors="replace"))
    read_or_refuse(path)


@QUIET
@given(
    overrides=st.dictionaries(
        st.tuples(st.sampled_from([*TABLES, "compare", "title"]), st.sampled_from(KEYS)).map(
            ".".join
        )
        | st.text(max_size=8),
        anything.map(str) | st.text(max_size=8) | st.floats(-1e3, 1e3).map(str),
        max_size=6,
    )
)
def test_no_override_gets_a_traceback(tmp_path, overrides):
    path = tmp_path / "base.toml"
    path.write_text(LEAST, encoding="utf-8")
    read_or_refuse(path, overrides)


@QUIET
@given(
    mass=st.floats(25, 200), stature=st.floats(1200, 2200), residual=st.floats(60, 300),
    foot=st.sampled_from(names("feet")), table=st.sampled_from(names("segments")),
)  # fmt: skip
def test_every_person_in_range_is_read_or_told_why(tmp_path, mass, stature, residual, foot, table):
    path = tmp_path / "person.toml"
    path.write_text(
        f'[person]\nsex = "{"female" if "female" in table else "male"}"\nmass_kg = {mass}\n'
        f'stature_mm = {stature}\nsegment_table = "{table}"\n'
        f'[limb]\nresidual_limb_mm = {residual}\n[foot]\nmodel = "{foot}"\n',
        encoding="utf-8",
    )
    try:
        case = read_case(path)
    except CaseError as trouble:
        assert [fault.field for fault in trouble.faults] == ["limb.residual_limb_mm"]
        assert residual > 191  # 0.285 x 1200 less 81 (tallest foot), 20 (gap) and 50 (unit)
    else:
        assert case.residual_limb < case.person.shank_length
