"""What a study's folder is told to say: sensitivities, differences, maps, fronts; refusals."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest

from invented_studies import written
from simgait import read_study, read_study_file, run_study
from simgait.errors import CaseError
from simgait.studies.analysis import Report, report_of
from simgait.studies.telling import tables_of

FLEXION, EXTENSION = "knee_flexion_moment_peak_nm", "knee_extension_moment_peak_nm"
SHIFT, TILT = "alignment.foot_forward_mm", "alignment.dorsiflexion_deg"
SPANS = f'[vary]\n"{SHIFT}" = {{ from = -15, to = 15 }}\n"{TILT}" = {{ from = -3, to = 3 }}\n'
MEASURES = f'measures = ["{FLEXION}", "{EXTENSION}"]\n'
HEAD = 'case = "everyday.toml"\n' + MEASURES


def told(folder: Path, text: str) -> Report:
    run_study(read_study_file(written(folder, text)), folder / "out")
    return report_of(folder / "out")


@pytest.fixture(scope="module")
def grid(tmp_path_factory: pytest.TempPathFactory) -> Report:
    """Three shifts by two tilts, thirty draws of mass and length each."""
    return told(
        tmp_path_factory.mktemp("grid"),
        HEAD
        + f'[vary]\n"{SHIFT}" = [-10, 0, 10]\n"{TILT}" = [0, 3]\n'
        + '[error]\n"person.mass_kg" = 3\n"limb.residual_limb_mm" = 5\n[sample]\nsize = 30\n'
        + f'[report]\ngoals = {{ {FLEXION} = "low", {EXTENSION} = "low" }}\n'
        + f'[report.base]\n"{SHIFT}" = 0\n"{TILT}" = 0\n',
    )


def test_a_cell_holds_the_mean_of_its_rows(grid: Report) -> None:
    assert grid.cells is not None and grid.across == (SHIFT, TILT)
    assert len(grid.cells) == 6 and (grid.cells["runs"] == 30).all()
    rows = grid.frame[(grid.frame[SHIFT] == 10.0) & (grid.frame[TILT] == 3.0)]
    cell = grid.cells[(grid.cells[SHIFT] == 10.0) & (grid.cells[TILT] == 3.0)]
    assert cell[FLEXION].item() == pytest.approx(rows[FLEXION].mean(), rel=1e-12)
    assert cell["bad"].item() == 0.0


def test_the_foot_forward_is_told_from_an_unknown_mass(grid: Report) -> None:
    # Design section 8: forward, the late extension moment grows and the early flexion shrinks; the
    # change is shared by all draws, the mass is not known to 3 kg.
    assert grid.differences is not None
    moved = grid.differences[(grid.differences[SHIFT] == 10.0) & (grid.differences[TILT] == 0.0)]
    signs = dict(zip(moved["measure"], np.sign(moved["difference"]), strict=True))
    assert signs == {FLEXION: -1.0, EXTENSION: 1.0}
    assert (moved["sign_kept"] == 1.0).all() and (moved["pairs"] == 30).all()
    by_hand = grid.frame.set_index("draw")
    first = by_hand[(by_hand[SHIFT] == 10.0) & (by_hand[TILT] == 0.0)][FLEXION]
    second = by_hand[(by_hand[SHIFT] == 0.0) & (by_hand[TILT] == 0.0)][FLEXION]
    expected = (first - second).mean()
    found = moved[moved["measure"] == FLEXION]["difference"].item()
    assert found == pytest.approx(expected, rel=1e-12)


def test_nothing_on_the_front_is_beaten(grid: Report) -> None:
    (front,) = grid.front.values()
    goals = [FLEXION, EXTENSION]
    everything = grid.frame[goals].to_numpy()
    for row in front[goals].to_numpy():
        assert not (np.all(everything <= row, axis=1) & np.any(everything < row, axis=1)).any()
    assert 0 < len(front) < len(everything)


def test_a_design_for_sensitivities_tells_what_matters(tmp_path: Path) -> None:
    found = told(tmp_path, HEAD + SPANS + '[sample]\nmethod = "saltelli"\nsize = 64\nseed = 4\n')
    assert len(found.frame) == 64 * 4
    shift, tilt = found.indices["everyday.toml", EXTENSION]
    assert shift.total > 0.6 > 0.4 > tilt.total > 0.0
    assert shift.total_low < shift.total < shift.total_high
    # nearly additive: first-order indices leave little over
    assert 0.85 < shift.first + tilt.first < 1.15


def test_any_sample_tells_first_orders(tmp_path: Path) -> None:
    found = told(tmp_path, HEAD + SPANS + '[sample]\nmethod = "sobol"\nsize = 256\n')
    shift, tilt = found.indices["everyday.toml", EXTENSION]
    assert shift.first > 0.6 > tilt.first
    assert math.isnan(shift.total)


def test_screening_ranks_and_has_signs(tmp_path: Path) -> None:
    found = told(tmp_path, HEAD + SPANS + '[sample]\nmethod = "morris"\nsize = 20\n')
    assert len(found.frame) == 20 * 3
    shift, tilt = found.screenings["everyday.toml", EXTENSION]
    assert shift.mean > 0.0 > tilt.mean  # toe up lessens the late extension moment
    assert shift.mean_size > tilt.mean_size


def test_too_few_runs_are_said_and_not_guessed(tmp_path: Path) -> None:
    found = told(tmp_path, HEAD + SPANS + '[sample]\nmethod = "saltelli"\nsize = 8\n')
    assert found.indices == {}
    assert len(found.unsaid) == 2 and "only 8 of 8 blocks" in found.unsaid[0]


def test_tables_hold_what_was_told(grid: Report) -> None:
    tables = tables_of(grid)
    assert set(tables) == {"differences", "front", "cells"}
    assert len(tables["cells"]) == 6 and len(tables["differences"]) == 2 * 5
    assert all((table["seed"] == 0).all() for table in tables.values())


def test_what_is_told_changes_no_run(tmp_path: Path) -> None:
    base = HEAD + f'[vary]\n"{SHIFT}" = [0, 10]\n"{TILT}" = [0, 3]\n'
    study = read_study_file(written(tmp_path, base))
    run_study(study, tmp_path / "out")
    before = read_study(tmp_path / "out")
    other = read_study_file(written(tmp_path, base + f'[report]\nmeasures = ["{FLEXION}"]\n'))
    assert run_study(other, tmp_path / "out").resumed_rows == 4
    assert read_study(tmp_path / "out").equals(before)
    cells = report_of(tmp_path / "out").cells
    assert cells is not None and FLEXION in cells and EXTENSION not in cells


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (f'[report]\nmeasures = ["{FLEXION[:-1]}"]', f"nearest: {FLEXION}"),
        ('[report]\nmeasures = ["hip_rise_mm"]', "no measure that is kept"),
        (f"[report]\ngoals = {{ {FLEXION} = 1 }}", "not two or three"),
        (f'[report]\ngoals = {{ {FLEXION} = "lo", {EXTENSION} = 1 }}', "low, high, a number"),
        (f'[report]\nlimits = {{ {FLEXION} = "low" }}', "a number"),
        ('[report]\nbase = { "person.mass_kg" = 80 }', "does not vary"),
        (f'[report]\nbase = {{ "{SHIFT}" = 5 }}', "is no level"),
        ("[report]\ngoal = 1", "nearest: goals"),
        ('[error]\n"person.mass_kg" = 2\n[sample]\nmethod = "morris"\nsize = 4', "as a span"),
    ],
)
def test_a_wish_that_cannot_be_is_refused(tmp_path: Path, text: str, said: str) -> None:
    grid = f'[vary]\n"{SHIFT}" = [0, 10]\n"{TILT}" = [0, 3]\n'
    with pytest.raises(CaseError) as caught:
        read_study_file(written(tmp_path, HEAD + grid + text))
    assert said in str(caught.value)


def test_one_name_alone_has_no_sensitivities(tmp_path: Path) -> None:
    text = HEAD + f'[vary]\n"{SHIFT}" = {{ from = 0, to = 5 }}\n'
    with pytest.raises(CaseError, match="2 names or more"):
        read_study_file(written(tmp_path, text + '[sample]\nmethod = "saltelli"\nsize = 4\n'))
