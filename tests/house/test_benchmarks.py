"""The benchmark records say what was timed, on what, and how the times spread."""

import importlib.util
import json
import sys
from types import ModuleType

import pytest

from house_tree import ROOT


@pytest.fixture(scope="module")
def run() -> ModuleType:
    spec = importlib.util.spec_from_file_location("benchmark_run", ROOT / "benchmarks/run.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module  # dataclasses look their module up by name
    spec.loader.exec_module(module)
    return module


def job(run, work, **changes):
    return run.Job(**{"name": "j", "sentence": "s", "work": work, "repeats": 3, **changes})


def test_job_names_differ(run):
    names = [each.name for each in run.JOBS]
    assert len(set(names)) == len(names) > 0


def test_the_work_is_done_warm_up_and_repeats_times(run):
    done = []
    work = job(run, lambda: done.append(1) or {"steps": 7}, warm_up=2)
    seconds, counts = run.time_job(work)
    assert len(done) == 5
    assert len(seconds) == 3
    assert counts == {"steps": 7}


def test_work_that_changes_between_repeats_is_refused(run):
    done = []
    work = job(run, lambda: done.append(1) or {"steps": len(done)})
    with pytest.raises(RuntimeError, match="repeats differ"):
        run.time_job(work)


def test_the_spread_is_that_of_the_times(run):
    assert run.spread([4.0, 1.0, 2.0, 3.0, 5.0]) == {
        "median": 3.0,
        "lower_quartile": 2.0,
        "upper_quartile": 4.0,
        "smallest": 1.0,
        "largest": 5.0,
    }
    assert set(run.spread([2.0]).values()) == {2.0}


def test_a_record_is_written_once_and_reads_back(run, tmp_path):
    made = run.record(job(run, dict), [0.1, 0.3, 0.2], {"steps": 7})
    path = run.write_record(made, tmp_path / "records")
    read = json.loads(path.read_text(encoding="utf-8"))
    assert read["seconds"]["median"] == 0.2
    assert read["seconds"]["all"] == [0.1, 0.3, 0.2]
    assert read["counts"] == {"steps": 7}
    assert read["machine"]["cores"] >= 1
    assert read["versions"]["python"] == sys.version.split()[0]
    with pytest.raises(FileExistsError):
        run.write_record(made, tmp_path / "records")


def test_an_unknown_job_is_refused(run):
    with pytest.raises(SystemExit, match="unknown job: nonesuch; there are: help"):
        run.main(["nonesuch"])
