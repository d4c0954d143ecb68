"""A study on a dask cluster: the same files, and clear words where there is no cluster."""

import os
import signal
from dataclasses import replace

import pytest

from invented_studies import SAMPLE, written
from simgait import read_study_file, run_study
from simgait.studies.store import files_of

distributed = pytest.importorskip("distributed", reason="the dask extra is not installed")

from simgait.studies.cluster import ClusterError, run_elsewhere  # noqa: E402
from simgait.studies.design import Design  # noqa: E402


@pytest.fixture(scope="module")
def cluster():
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=2, dashboard_address=None
    ) as found:
        yield found


def contents(folder):
    return [path.name for path in files_of(folder)]  # a name holds the hash of the bytes


@pytest.mark.filterwarnings("default")
def test_a_cluster_that_loses_a_worker_gives_the_files_of_this_machine(tmp_path, cluster):
    study = replace(read_study_file(written(tmp_path, SAMPLE)), keep_curves=(2,))
    told, lost = [], []

    def hear(rows):
        told.append(rows)
        if not lost:
            lost.append(cluster.workers[0].process.pid)
            os.kill(lost[0], signal.SIGKILL)  # its nanny starts another

    address = cluster.scheduler_address
    run = run_study(study, tmp_path / "far", cluster=address, told=hear)
    assert cluster.workers[0].process.pid != lost[0]
    run_study(study, tmp_path / "near")
    assert contents(tmp_path / "far") == contents(tmp_path / "near")
    assert run.rows == sum(told) == study.rows == 70


@pytest.mark.filterwarnings("default")
def test_no_cluster_is_said(tmp_path, monkeypatch):
    monkeypatch.setattr("simgait.studies.cluster.REACHED_WITHIN", 0.5)
    study = read_study_file(written(tmp_path, SAMPLE))
    with pytest.raises(ClusterError, match="no cluster"):
        run_study(study, tmp_path / "out", cluster="tcp://127.0.0.1:9")


def test_a_worker_of_another_release_is_refused(tmp_path):
    study = read_study_file(written(tmp_path, SAMPLE))
    rows = Design(study).rows(study.span_of(0))
    with pytest.raises(ClusterError, match="another release"):
        run_elsewhere(study, "0" * 16, 0, rows)
