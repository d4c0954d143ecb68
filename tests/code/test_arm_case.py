"""Arm cases at the door: what is refused, by name and all at once, and what is filled in."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from simgait.arm.running import work_arm
from simgait.case import read_case
from simgait.case.arm_case import ArmCase, read_arm_case
from simgait.case.arm_entries import ARM_LISTS, ARM_TABLES, arm_keys
from simgait.errors import CaseError, Fault
from simgait.library import models_folder

FOLDER = models_folder() / "cases" / "arms"
WHOLE = (FOLDER / "above-elbow.toml").read_text(encoding="utf-8")
DEVICE = (FOLDER / "forearm-level.toml").read_text(encoding="utf-8")
LEAST = """
[person]
sex = "female"
mass_kg = 60
stature_mm = 1650
[arm]
level = "upper_arm"
upper_arm_mm = 290
forearm_mm = 240
forearm_mass_kg = 0.4
forearm_centre_mm = 110
device_mass_kg = 0.2
device_centre_mm = 300
[cable]
guide_mm = 75
loop_mm = 38
[wearer]
max_pull_n = 150
max_excursion_mm = 90
"""


def written(folder: Path, text: str) -> Path:
    path = folder / "arm.toml"
    path.write_text(text, encoding="utf-8")
    return path


def read(folder: Path, text: str) -> ArmCase:
    return read_arm_case(written(folder, text))


def faults(folder: Path, text: str) -> tuple[Fault, ...]:
    with pytest.raises(CaseError) as caught:
        read(folder, text)
    return caught.value.faults


def changed(text: str, old: str, new: str) -> str:
    assert text.count(old) == 1, old
    return text.replace(old, new)


def test_the_least_case_reads_and_says_what_it_filled(tmp_path) -> None:
    case = read(tmp_path, LEAST)
    assert case.loops == (0.038,) and case.forearm_changes == (0.0,)
    assert case.arm.flexion_to == pytest.approx(math.radians(135.0))
    assert case.harness.fatigue_free_share == 0.2
    filled = " ".join(case.filled)
    for key in (
        "flexion_from_deg", "flexion_to_deg", "held_mass_kg", "shoulder_flexion_deg", "tip_mm",
        "fatigue_free_share", "search.loop_mm", "search.forearm_change_mm", "friction", "errors",
    ):  # fmt: skip
        assert key in filled, key
    assert len(work_arm(case, draws=10).positions) == 1


@pytest.mark.parametrize(
    ("old", "new", "field", "words"),
    [
        ("loop_mm = 32", "loop_mm = 260", "cable.loop_mm", "beyond the end of the forearm"),
        ("to = 70,", "to = 300,", "search.loop_mm", "beyond the end of the forearm"),
        ("guide_mm = 75", "guide_mm = 330", "cable.guide_mm", "beyond the end of the upper arm"),
        ("flexion_to_deg = 135", "flexion_to_deg = 5", "arm.flexion_to_deg", "the wrong way"),
        ("flexion_from_deg = 10", "flexion_from_deg = 135", "arm.flexion_to_deg", "wrong way"),
        ("max_pull_n = 260", "max_pull_n = 0", "wearer.max_pull_n", "out of range"),
        ("max_pull_n = 260", "max_pull_n = -5", "wearer.max_pull_n", "out of range"),
        ("device_pull_n = 70", "device_pull_n = 0", "cable.device_pull_n", "out of range"),
        ("friction = 0.08", "friction = 0.08\nefficiency = 0.8", "cable.efficiency", "contradicts"),
        ("friction = 0.08\n", "", "cable.friction", "missing beside bends_deg"),
        ("loop_offset_mm = 10", "loop_offset_mm = 60", "cable.loop_mm", "cross the elbow's axis"),
        ("guide_offset_mm = 15", "guide_offset_mm = -40", "cable.loop_mm", "cross the elbow"),
        ("guide_mm = 75", "guide_m = 75", "cable.guide_m", "not a key"),
        ("bends_deg = [60, 45]", "bend_deg = [60]", "cable.bend_deg", "not a key"),
        ("bends_deg = [60, 45]", "bends_deg = 60", "cable.bends_deg", "not a list"),
        ("bends_deg = [60, 45]", 'bends_deg = [60, "a"]', "cable.bends_deg[1]", "not a number"),
        ("bends_deg = [60, 45]", "bends_deg = [60, true]", "cable.bends_deg[1]", "not a number"),
        ("bends_deg = [60, 45]", "bends_deg = [60, -1]", "cable.bends_deg[1]", "out of range"),
        ('level = "upper_arm"', 'level = "upper arm"', "arm.level", "not one of the words"),
        ("forearm_mm = 250", "forearm_mm = 0.25", "arm.forearm_mm", "looks like metres"),
        ("forearm_mass_kg = 0.45", "forearm_mass_kg = 450", "arm.forearm_mass_kg", "like grams"),
        ("forearm_mass_kg = 0.45", "forearm_mass_kg = nan", "arm.forearm_mass_kg", "not finite"),
        ("forearm_mass_kg = 0.45\n", "", "arm.forearm_mass_kg", "missing"),
        ("upper_arm_mm = 310\n", "", "arm.upper_arm_mm", "missing"),
        ("forearm_centre_mm = 115", "forearm_centre_mm = 260", "arm.forearm_centre_mm", "beyond"),
        ("tip_mm = 360", "tip_mm = 300", "arm.tip_mm", "nearer than"),
        ("device_start_pull_n = 60", "device_start_pull_n = 80", "cable.device_start_pull_n",
         "more than the pull at the end"),
        ("{ from = 20, to = 70, step = 1 }", "[]", "search.loop_mm", "not a list"),
        ("{ from = 20, to = 70, step = 1 }", "{ from = 70, to = 20, step = 1 }", "search.loop_mm",
         "leads nowhere"),
        ("{ from = 20, to = 70, step = 1 }", "{ from = 20, to = 70, step = 0 }", "search.loop_mm",
         "leads nowhere"),
        ("{ from = 20, to = 70, step = 1 }", "{ from = 20, to = 70, step = 0.001 }",
         "search.loop_mm", "makes 50001 numbers"),
        ("{ from = 20, to = 70, step = 1 }", "{ from = 20, to = 70 }", "search.loop_mm.step",
         "missing"),
        ("{ from = 20, to = 70, step = 1 }", "{ from = 20, to = 70, stp = 1 }",
         "search.loop_mm.stp", "not a key"),
        ("{ from = -50, to = 10, step = 5 }", "[-250]", "search.forearm_change_mm", "leaves a"),
        ("[search]", "[serch]", "serch", "not a key"),
        ("[wearer]", "[errors]\nmass_share = 0.9\n[wearer]", "errors.mass_share", "out of range"),
    ],
)  # fmt: skip
def test_bad_input_is_refused_by_name(tmp_path, old, new, field, words) -> None:
    found = faults(tmp_path, changed(WHOLE, old, new))
    assert field in [fault.field for fault in found]
    fault = next(each for each in found if each.field == field)
    assert words in fault.message()
    assert fault.file.endswith("arm.toml")
    assert all("\n" not in each.message() for each in found)


def test_near_names_are_offered(tmp_path) -> None:
    text = changed(changed(WHOLE, "bends_deg", "bend_deg"), "[search]", "[serch]")
    near = {fault.field: fault.nearest for fault in faults(tmp_path, text)}
    assert near["cable.bend_deg"] == "bends_deg" and near["serch"] == "search"


def test_all_faults_come_at_once(tmp_path) -> None:
    text = changed(WHOLE, "max_pull_n = 260", "max_pull_n = 0")
    text = changed(text, "friction = 0.08", "friction = 0.08\nefficiency = 0.9")
    text = changed(text, "flexion_to_deg = 135", "flexion_to_deg = 5")
    text = changed(text, "to = 70,", "to = 300,")
    fields = {fault.field for fault in faults(tmp_path, text)}
    assert fields == {
        "wearer.max_pull_n", "cable.efficiency", "arm.flexion_to_deg", "search.loop_mm",
    }  # fmt: skip


def test_pulls_that_fall_need_places_that_rise(tmp_path) -> None:
    def wearer(lines: str) -> str:
        return changed(WHOLE, "max_pull_n = 260", f"max_pull_n = 260\n{lines}")

    good = "excursion_points_mm = [0, 50, 90]\npull_points_n = [260, 200, 90]"
    assert read(tmp_path, wearer(good)).harness.pulls == (260.0, 200.0, 90.0)
    for lines, field, words in (
        ("pull_points_n = [260, 90]", "wearer.pull_points_n", "does not match"),
        (good.replace("200", "290"), "wearer.pull_points_n", "rises"),
        (good.replace("200", "290"), "wearer.max_pull_n", "less than a pull"),
        (good.replace("50", "95"), "wearer.excursion_points_mm", "does not rise"),
    ):
        found = {fault.field: fault.message() for fault in faults(tmp_path, wearer(lines))}
        assert words in found[field]


def test_an_assist_may_be_one_number_or_a_curve(tmp_path) -> None:
    def assisted(line: str) -> str:
        return changed(WHOLE, "friction = 0.08", f"friction = 0.08\n{line}")

    assert read(tmp_path, assisted("assist_nm = 0.5")).cable.assist == (0.5,)
    curve = read(tmp_path, assisted("assist_nm = [0.5, 0.1]\nassist_at_deg = [10, 135]"))
    assert curve.cable.assist_at == pytest.approx((math.radians(10.0), math.radians(135.0)))
    found = faults(tmp_path, assisted("assist_nm = [0.5, 0.1]"))
    assert [fault.field for fault in found] == ["cable.assist_nm"]


@pytest.mark.parametrize("line", ["device_excursion_mm = 40\n", "device_pull_n = 65\n"])
def test_a_forearm_level_arm_needs_its_device(tmp_path, line: str) -> None:
    found = faults(tmp_path, changed(DEVICE, line, ""))
    assert f"cable.{line.split()[0]}" in {fault.field for fault in found}


def test_a_forearm_level_arm_passes_over_guide_and_loop_and_says_so(tmp_path) -> None:
    text = changed(DEVICE, "[cable]", "[cable]\nguide_mm = 75\nloop_mm = 400")
    case = read(tmp_path, text)
    assert case.loops == () and any("not used" in line for line in case.filled)


def test_steps_reach_their_end(tmp_path) -> None:
    loops = read(tmp_path, changed(WHOLE, "step = 1 }", "step = 0.1 }")).loops
    assert len(loops) == 501
    assert (loops[0], loops[-1]) == pytest.approx((0.020, 0.070))


def test_each_kind_of_case_is_refused_by_the_other_verb(tmp_path) -> None:
    leg = models_folder() / "cases" / "everyday.toml"
    with pytest.raises(CaseError, match="case of a leg, which simgait stance") as caught:
        read_arm_case(leg)
    assert len(caught.value.faults) == 1
    with pytest.raises(CaseError, match="case of an arm, which simgait arm reads") as caught:
        read_case(FOLDER / "above-elbow.toml")
    assert len(caught.value.faults) == 1
    with pytest.raises(CaseError, match="arm is missing"):
        read(tmp_path, "[wearer]\nmax_pull_n = 100\nmax_excursion_mm = 80\n")


# ---- no content gets a traceback ----------------------------------------------------------------

anything = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=5,
)
QUIET = settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
KEYS = [f"{table}.{key}" for table in ARM_TABLES for key in arm_keys(table)]


def as_toml(value: object) -> str:
    """Return a value as TOML writes it; null, which it cannot say, as an empty list."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{as_toml(str(k))} = {as_toml(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return '"' + "".join(f"\\U{ord(mark):08X}" for mark in value) + '"'
    return "[]" if value is None else repr(value)


def reads_or_refuses(path: Path) -> None:
    """Read a case and work it out; a refusal with faults is the only exception allowed out."""
    try:
        case = read_arm_case(path)
    except CaseError as trouble:
        assert trouble.faults and str(trouble)
        return
    result = work_arm(case, draws=3)
    assert len(result.lengths) == len(case.forearm_changes)


@QUIET
@given(at=st.integers(0, len(WHOLE)), length=st.integers(0, 12), put=st.text(max_size=12))
def test_no_slip_of_the_pen_gets_a_traceback(tmp_path, at, length, put) -> None:
    path = tmp_path / "slip.toml"
    text = WHOLE[:at] + put + WHOLE[at + length :]
    path.write_bytes(text.encode("utf-8", errors="replace"))
    reads_or_refuses(path)


@QUIET
@given(
    values=st.dictionaries(
        st.sampled_from(KEYS), anything | st.floats(-1e3, 1e3) | st.integers(-10, 400), max_size=5
    ),
    base=st.sampled_from([WHOLE, DEVICE]),
)
def test_no_value_gets_a_traceback(tmp_path, values, base) -> None:
    data = tomllib.loads(base)
    for key, value in values.items():
        table, _, name = key.partition(".")
        data.setdefault(table, {})[name] = value
    text = "".join(
        f"[{table}]\n" + "".join(f"{key} = {as_toml(value)}\n" for key, value in part.items())
        for table, part in data.items()
        if isinstance(part, dict)
    )
    reads_or_refuses(written(tmp_path, text.encode("utf-8", "replace").decode("utf-8")))


def test_every_listed_key_is_a_key_of_its_table() -> None:
    assert {f"{table}.{key}" for table, keys in ARM_LISTS.items() for key in keys} <= set(KEYS)
