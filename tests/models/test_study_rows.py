"""Rows of a study are what `simgait stance` gives for the same case, to the last digit."""

import json

import numpy as np
import pytest
from click.testing import CliRunner

from invented_studies import GRID, SAMPLE, written
from simgait import read_case, read_study, read_study_file, run_study
from simgait.command import main
from simgait.errors import CaseError
from simgait.symbols import MEASURES

OWN_FOOT = """
case = "length-mismatch.toml"
[vary]
"foot.heel_stiffness_n_mm" = { from = 35, to = 50 }
"limb.residual_limb_mm" = { from = 120, to = 260 }
[sample]
method = "lhs"
size = 6
seed = 2
[error]
"foot.forefoot_stiffness_n_mm" = 3
"""
TEXTS = """
cases = ["everyday.toml", "heavy-worker.toml"]
[vary]
"wearer.model" = ["steady-transtibial", "weak-kneed-slow"]
"socket.model" = ["firm", "soft"]
"shoe.model" = ["none", "work-boot"]
"""
UNBUILDABLE = """
case = "everyday.toml"
[vary]
"limb.residual_limb_mm" = [60, 150, 290, 300]
"person.stature_mm" = [1300, 1760]
"""


def stance(folder, row, names):
    settings = [f"--set={name}={value_text(row[name])}" for name in names]
    result = CliRunner().invoke(main, ["stance", str(folder / row["case"]), *settings, "--json"])
    return json.loads(result.stdout) if result.exit_code == 0 else None


def value_text(value):
    return value if isinstance(value, str) else repr(float(value))


@pytest.mark.parametrize("text", [SAMPLE, GRID, OWN_FOOT, TEXTS, UNBUILDABLE])
def test_rows_are_what_stance_gives(tmp_path, text):
    study = read_study_file(written(tmp_path, text))
    run_study(study, tmp_path / "out")
    table = read_study(tmp_path / "out")
    assert len(table) == study.rows
    compared = 0
    for _, row in table.iloc[:: max(1, len(table) // 12)].iterrows():
        alone = stance(tmp_path, row, study.names)
        if alone is None:
            assert row["ending"] == "cannot_be_built"
            assert np.isnan(row[list(study.measures)].astype(float)).all()
            continue
        compared += 1
        assert alone["ending"] == row["ending"]
        expected = [alone["measures"][name] for name in study.measures]
        found = [None if np.isnan(row[name]) else row[name] for name in study.measures]
        assert found == expected
    assert compared > 0


def test_a_case_that_only_its_varied_values_make_possible_runs(tmp_path):
    text = """
case = "long.toml"
[vary]
"limb.residual_limb_mm" = [140, 150, 260]
"""
    path = written(tmp_path, text)
    everyday = (tmp_path / "everyday.toml").read_text()
    short = everyday.replace("stature_mm = 1760", "stature_mm = 1400")
    long = short.replace("residual_limb_mm = 150", "residual_limb_mm = 300")
    assert len({everyday, short, long}) == 3
    (tmp_path / "long.toml").write_text(long)
    with pytest.raises(CaseError, match="leaves no room"):
        read_case(tmp_path / "long.toml")
    run = run_study(read_study_file(path), tmp_path / "out")
    assert (run.rows, run.endings["cannot_be_built"]) == (3, 1)


def test_some_rows_cannot_be_built_and_are_counted(tmp_path):
    run = run_study(read_study_file(written(tmp_path, UNBUILDABLE)), tmp_path / "out")
    assert 0 < run.endings["cannot_be_built"] < run.rows == 8


def test_the_table_has_every_measure_by_default_and_the_names_that_vary(tmp_path):
    study = read_study_file(written(tmp_path, SAMPLE))
    run_study(study, tmp_path / "out")
    table = read_study(tmp_path / "out")
    assert {*study.names, "ending", *(measure.name for measure in MEASURES)} <= set(table.columns)
    assert table.index.tolist() == list(range(70))
    assert list(table.attrs["cautions"])
    off = table["person.mass_kg"] - table["person.mass_kg.aim"]
    assert 0.0 < off.abs().max() <= 2.0


def test_few_columns_can_be_read(tmp_path):
    run_study(read_study_file(written(tmp_path, GRID)), tmp_path / "out")
    assert read_study(tmp_path / "out", ["hip_rise_mm"]).columns.tolist() == ["hip_rise_mm"]
