"""The command line: agreed names, what is written, and what is refused."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pandas as pd
import pytest
from click.testing import CliRunner, Result
from PIL import Image

from simgait.command import main
from simgait.library import models_folder, names
from simgait.symbols import CAUTIONS

EVERYDAY = models_folder() / "cases" / "everyday.toml"
AGREED_MEASURES = {
    "knee_flexion_moment_peak_nm", "knee_extension_moment_peak_nm",
    "knee_flexion_moment_peak_nm_kg", "knee_extension_moment_peak_nm_kg",
    "knee_flexion_moment_peak_percent", "socket_flexion_moment_peak_nm",
    "socket_extension_moment_peak_nm", "socket_couple_force_n", "force_up_peak_bw",
    "braking_impulse_ns", "propulsive_impulse_ns", "utilised_friction", "forward_margin_min_mm",
    "backward_margin_min_mm", "heel_lever_mm", "toe_lever_mm", "foot_flat_s", "heel_off_s",
    "stance_time_s", "drop_off", "forward_thrust", "speed_change_m_s", "hip_rise_mm",
    "foot_energy_lost_j", "ledger_error_percent",
}  # fmt: skip
AGREED_ALIGNMENT = {
    "foot_forward_mm", "dorsiflexion_deg", "socket_flexion_deg", "length_change_mm", "heel_rise_mm",
}  # fmt: skip


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, [str(word) for word in words])


@pytest.fixture(scope="module")
def compared(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict, Path]:
    out = tmp_path_factory.mktemp("compared") / "deep" / "out"
    result = run("compare", EVERYDAY, "--out", out, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout), out


def test_compare_prints_the_agreed_object(compared) -> None:
    answer, _ = compared
    agreed = {"title", "runs", "baseline", "cautions", "sources", "version"}
    assert agreed <= set(answer)
    assert len(answer["runs"]) == 9
    for entry in answer["runs"]:
        assert set(entry["alignment"]) == AGREED_ALIGNMENT
        assert entry["ending"] == "toe_off"
        assert set(entry["measures"]) >= AGREED_MEASURES
    base = answer["runs"][answer["baseline"]]["alignment"]
    assert (base["foot_forward_mm"], base["dorsiflexion_deg"]) == (0.0, 0.0)
    assert answer["cautions"][: len(CAUTIONS)] == list(CAUTIONS)
    assert any("Fukuchi" in line for line in answer["sources"])


def test_compare_writes_whole_files(compared) -> None:
    answer, out = compared
    assert sorted(path.name for path in out.iterdir()) == [
        "comparison.png",
        "stance.gif",
        "table.csv",
        "table.parquet",
    ]
    table = pd.read_csv(out / "table.csv")
    assert list(table["ending"]) == [entry["ending"] for entry in answer["runs"]]
    assert set(table.columns) >= AGREED_ALIGNMENT | AGREED_MEASURES
    assert CAUTIONS[0] in table["cautions"][0]
    parquet = pd.read_parquet(out / "table.parquet").reset_index()
    name = "knee_flexion_moment_peak_nm"
    printed = [entry["measures"][name] for entry in answer["runs"]]
    assert list(table[name]) == pytest.approx(printed, rel=1e-12)
    assert list(parquet[name]) == printed
    with Image.open(out / "comparison.png") as picture:
        assert picture.size > (800, 600)
    with Image.open(out / "stance.gif") as film:
        assert film.n_frames > 20


def test_compare_without_json_prints_a_table_and_writes_beside_it(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "150")
    case = tmp_path / "two.toml"
    text = EVERYDAY.read_text(encoding="utf-8").split("[compare]")[0]
    case.write_text(text + "[compare]\nfoot_forward_mm = [0, 5]\n", encoding="utf-8")
    result = run("compare", case)
    assert result.exit_code == 0, result.output
    assert "toe off" in result.stdout
    assert CAUTIONS[0] in result.stdout
    assert (tmp_path / "out" / "two" / "stance.gif").exists()


def test_tilts_are_told_in_turns_of_a_screw(tmp_path, monkeypatch) -> None:
    # quoted (Shepherd 2021): one turn of a usual set screw is about 2.8 degrees
    monkeypatch.setenv("COLUMNS", "150")
    result = run("compare", EVERYDAY, "--out", tmp_path)
    assert "at 2.8 deg a turn: 3 deg = 1.07" in result.stdout


def test_json_alone_writes_nothing(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("compare", EVERYDAY, "--json").exit_code == 0
    assert list(tmp_path.iterdir()) == []


def test_stance_prints_one_run_at_top_level() -> None:
    result = run("stance", EVERYDAY, "--set", "alignment.foot_forward_mm=10", "--json")
    answer = json.loads(result.stdout)
    assert answer["alignment"]["foot_forward_mm"] == 10.0
    assert set(answer["measures"]) >= AGREED_MEASURES
    assert answer["ending"] == "toe_off"
    flows = answer["ledger"]
    total = sum(flows[k] for k in ("hip", "knee", "other_limb", "trunk", "sole", "friction"))
    assert flows["gained"] == pytest.approx(total - flows["lost_in_socket"], abs=1e-3)


def test_stance_equals_the_same_run_of_compare(compared) -> None:
    answer, _ = compared
    words = ("--set", "alignment.foot_forward_mm=10", "--set", "alignment.dorsiflexion_deg=3")
    single = json.loads(run("stance", EVERYDAY, *words, "--json").stdout)
    beside = [r for r in answer["runs"] if r["alignment"] == single["alignment"]]
    assert [r["measures"] for r in beside] == [single["measures"]]


def test_a_bad_end_is_a_row_with_nulls() -> None:
    result = run("stance", EVERYDAY, "--set", "ground.friction=0.05", "--json")
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    assert answer["ending"] != "toe_off"
    assert answer["measures"]["knee_flexion_moment_peak_nm"] is None


@pytest.mark.parametrize("name", names("feet"))
def test_foot_gives_its_bench_figures_back(name: str) -> None:
    answer = json.loads(run("foot", name, "--json").stdout)
    for key in ("heel_stiffness_n_mm", "forefoot_stiffness_n_mm", "heel_loss", "forefoot_loss"):
        assert answer["bench"][key] == pytest.approx(answer["stated"][key], rel=0.01)
    assert math.isfinite(answer["rollover_radius_mm"])
    assert "Rolled under 800 N" in run("foot", name).stdout


REFUSED = (
    (("compare", "no-such-file.toml"), "does not exist"),
    (("stance", EVERYDAY, "--set", "alignment.foot_forward=10"), "foot_forward_mm"),
    (("stance", EVERYDAY, "--set", "alignment.foot_forward_mm"), "KEY=VALUE"),
    (("stance", EVERYDAY, "--set", "alignment.foot_forward_mm=1000"), "60"),
    (("stance", EVERYDAY, "--set", "alignment.foot_forward_mm=nan"), "foot_forward_mm"),
    (("stance", EVERYDAY, "--set", "wearer.model=steady"), "steady-transtibial"),
    (("stance", EVERYDAY, "--set", "=3", "--set", "alignment.dorsiflexion_deg=40"), "15"),
    (("stance", EVERYDAY, "--set", "person.hip_height_mm=700"), "thigh"),
    (("foot", "carbon-leef"), "carbon-leaf"),
    (("calibrate", "stedy-transtibial"), "steady-transtibial"),
)


@pytest.mark.parametrize(("words", "told"), REFUSED)
def test_refusals_are_one_clear_message(words, told) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert told in result.stderr
    assert result.stdout == ""
    assert "Traceback" not in result.output


def test_a_folder_that_cannot_be_made_is_refused_before_anything_runs(tmp_path) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("not a folder")
    result = run("compare", EVERYDAY, "--out", in_the_way / "out")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr
    assert in_the_way.read_text() == "not a folder"


def test_all_faults_of_a_case_are_told_at_once(tmp_path) -> None:
    case = tmp_path / "bad.toml"
    text = EVERYDAY.read_text(encoding="utf-8")
    text = text.replace("mass_kg = 80", "mass_kg = 800").replace("sex", "gender")
    case.write_text(text.replace('"carbon-leaf"', '"carbon-lief"'), encoding="utf-8")
    result = run("compare", case, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) >= 3
    for told in ("mass_kg", "25 to 200", "gender", "carbon-leaf"):
        assert told in result.stderr
    assert not (tmp_path / "out").exists()


def test_wrong_objects_are_refused_in_python() -> None:
    import simgait

    case = simgait.read_case(EVERYDAY)
    with pytest.raises(TypeError, match="Limb"):
        simgait.simulate_stance(case)  # type: ignore[arg-type]
    with pytest.raises(TypeError, match="Case"):
        simgait.compare(str(EVERYDAY))  # type: ignore[arg-type]
    from simgait.errors import RangeError

    with pytest.raises(RangeError, match="step"):
        simgait.compare(case, step=-1.0)


def test_results_are_frozen() -> None:
    import simgait

    result = simgait.compare(simgait.read_case(EVERYDAY)).results[0]
    with pytest.raises(TypeError):
        result.measures["hip_rise_mm"] = 1.0  # type: ignore[index]
    with pytest.raises(ValueError, match="read-only"):
        result.curves.knee_flexion_moment[:] = 0.0
