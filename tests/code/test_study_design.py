"""The inputs of a study's rows: from seed and row alone, and distributed as stated."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import kstest, norm, qmc, uniform

from invented_studies import GRID, SAMPLE, written
from simgait import read_study_file
from simgait.studies.design import Design, errors_of
from simgait.studies.study import Deviation


def study_of(tmp_path, text, **changes):
    return replace(read_study_file(written(tmp_path, text)), **changes)


@pytest.mark.parametrize("method", ["sobol", "lhs"])
@pytest.mark.parametrize("cases", [1, 2])
def test_any_split_gives_the_same_rows(tmp_path, method, cases):
    study = study_of(tmp_path, SAMPLE, method=method, size=100)
    study = replace(study, cases=study.cases * cases)
    whole = Design(study).rows(range(study.rows))
    design = Design(study)
    for begin in (90, 0, 37, 36, 3):  # in no order
        span = range(begin, min(begin + 50, study.rows))
        part = design.rows(span)
        for name in study.names:
            assert np.array_equal(part.values[name], whole.values[name][begin : begin + 50])


def test_sobol_points_are_scipys(tmp_path):
    study = study_of(tmp_path, SAMPLE, size=64)
    points = qmc.Sobol(3, rng=np.random.default_rng(11)).random(64)
    rows = Design(study).rows(range(64))
    forward = rows.values["alignment.foot_forward_mm"]
    assert np.array_equal(forward, -20.0 + 40.0 * points[:, 0])
    tilts, counts = np.unique(rows.aims["alignment.dorsiflexion_deg"], return_counts=True)
    assert tilts.tolist() == [-3.0, 0.0, 3.0] and counts.min() >= 20


def test_a_hypercube_has_one_point_in_each_row_of_its_cells(tmp_path):
    study = study_of(tmp_path, SAMPLE, method="lhs", size=50)
    aims = Design(study).rows(range(50)).aims["person.mass_kg"]
    assert sorted(np.floor((aims - 60.0) / 40.0 * 50.0).astype(int)) == list(range(50))


def test_a_grid_runs_through_all_combinations_the_last_fastest(tmp_path):
    study = study_of(tmp_path, GRID)
    rows = Design(study).rows(range(study.rows))
    pairs = list(
        zip(rows.values["alignment.foot_forward_mm"], rows.values["foot.model"], strict=True)
    )
    assert pairs[:3] == [(-10.0, "firm"), (-10.0, "carbon-leaf"), (0.0, "firm")]
    assert len(set(pairs)) == study.rows == 6


@pytest.mark.parametrize(
    ("spread", "expected"), [("normal", norm(0.0, 2.5)), ("uniform", uniform(-2.5, 5.0))]
)
def test_errors_are_distributed_as_stated(spread, expected):
    error = Deviation(name="person.mass_kg", spread=spread, size=2.5)
    assert kstest(errors_of(error, 1, np.arange(20_000)), expected.cdf).pvalue > 1e-3


def test_errors_of_two_names_or_seeds_have_nothing_to_do_with_each_other():
    draws = np.arange(4000)
    one = errors_of(Deviation(name="person.mass_kg", spread="normal", size=1.0), 1, draws)
    two = errors_of(Deviation(name="ground.friction", spread="normal", size=1.0), 1, draws)
    other = errors_of(Deviation(name="person.mass_kg", spread="normal", size=1.0), 2, draws)
    assert abs(np.corrcoef([one, two, other])[np.triu_indices(3, 1)]).max() < 0.06


def test_draws_of_a_grid_are_common_to_its_combinations(tmp_path):
    text = GRID + '[sample]\nsize = 4\n[error]\n"person.mass_kg" = 3.0\n'
    study = study_of(tmp_path, text)
    rows = Design(study).rows(range(study.rows))
    masses = rows.values["person.mass_kg"].reshape(6, 4)
    assert study.rows == 24
    assert np.array_equal(masses, np.tile(masses[0], (6, 1))) and len(set(masses[0])) == 4


def test_without_a_size_every_row_of_a_grid_has_an_error_of_its_own(tmp_path):
    study = study_of(tmp_path, GRID + '[error]\n"person.mass_kg" = 3.0\n')
    masses = Design(study).rows(range(study.rows)).values["person.mass_kg"]
    assert len(set(masses)) == study.rows == 6
    assert abs(masses - 80.0).max() < 15.0  # about what the case states
