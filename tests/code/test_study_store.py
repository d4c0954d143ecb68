"""The store of a study: stopped, killed, split, damaged, full; the table is always the same."""

import json
import os
import random
import signal
import subprocess
import sys
import time
from dataclasses import replace

import pytest
from click.testing import CliRunner

import simgait.studies.running as running
import simgait.studies.store as store
from invented_studies import GRID, SAMPLE, written
from simgait import read_curves, read_study, read_study_file, run_study
from simgait.command import main
from simgait.studies import StoreError
from simgait.studies.store import files_of

RUN = """
import sys
from simgait import read_study_file, run_study
run_study(read_study_file(sys.argv[1]), sys.argv[2], jobs=2, begun=lambda rows: print(flush=True))
"""


def names(folder):
    """Return the files of a store; their names hold the hash of their bytes."""
    return [path.name for path in files_of(folder)]


@pytest.fixture(scope="module")
def whole(tmp_path_factory):
    """Return a study's file, the study, its folder and its files after an uninterrupted run."""
    folder = tmp_path_factory.mktemp("whole")
    path = written(folder, SAMPLE.replace("size = 70", "size = 500"))
    study = read_study_file(path)
    run_study(study, folder / "out", jobs=1)
    return path, study, folder / "out", names(folder / "out")


def test_killed_at_random_moments_and_run_again_gives_the_same_bytes(whole, tmp_path):
    path, study, _, expected = whole
    chance, killed = random.Random(), 0
    for longest in (0.0, 0.1):
        words = [sys.executable, "-c", RUN, str(path), str(tmp_path / "out")]
        with subprocess.Popen(words, stdout=subprocess.PIPE) as process:
            assert process.stdout is not None
            process.stdout.readline()  # it has looked at the folder and begins
            time.sleep(chance.uniform(0.0, longest))
            process.kill()
            killed += process.wait() == -signal.SIGKILL
        assert set(names(tmp_path / "out")) <= set(expected)
    assert killed >= 1
    there = len(names(tmp_path / "out"))
    run = run_study(study, tmp_path / "out")
    assert names(tmp_path / "out") == expected
    assert run.resumed_rows >= (there - 1) * study.part_rows
    assert read_study(tmp_path / "out").equals(read_study(whole[2]))


def test_shards_into_one_folder_and_merged_folders_make_the_whole(whole, tmp_path):
    _, study, _, expected = whole
    for shard in ((2, 3), (1, 3)):
        run = run_study(study, tmp_path / "here", shard=shard)
        assert 0 < run.rows < study.rows
    run_study(study, tmp_path / "there", shard=(3, 3))
    for path in files_of(tmp_path / "there"):
        path.rename(tmp_path / "here" / path.name)
    assert names(tmp_path / "here") == expected
    manifest = json.loads((tmp_path / "here" / "manifest.json").read_text())
    assert not manifest["complete"]  # until it is looked at again
    assert run_study(study, tmp_path / "here").resumed_rows == study.rows
    assert json.loads((tmp_path / "here" / "manifest.json").read_text())["complete"]


def test_any_number_of_threads_gives_the_same_bytes(whole, tmp_path):
    _, study, _, expected = whole
    run_study(study, tmp_path / "out", jobs=3)
    assert names(tmp_path / "out") == expected


@pytest.mark.parametrize("harm", ["cut", "flipped", "emptied"])
def test_a_damaged_part_is_seen_and_computed_anew(whole, tmp_path, harm):
    _, study, _, _ = whole
    short = replace(study, keep_curves=(3,), size=64)
    run_study(short, tmp_path / "out")
    kept = names(tmp_path / "out")
    for path in (files_of(tmp_path / "out")[0], files_of(tmp_path / "out")[-1]):
        content = bytearray(path.read_bytes())
        content[len(content) // 2] ^= 1
        path.write_bytes({"cut": content[:-9], "flipped": content, "emptied": b""}[harm])
    with pytest.raises(StoreError, match="damaged"):
        read_study(tmp_path / "out")
    run = run_study(short, tmp_path / "out")
    assert run.resumed_rows == short.rows - 2 * short.part_rows
    assert names(tmp_path / "out") == kept


def test_another_study_is_refused_and_nothing_changes(whole, tmp_path):
    _, study, _, _ = whole
    few = replace(study, size=32)
    run_study(few, tmp_path / "out")
    before = names(tmp_path / "out")
    for other in (replace(few, seed=12), replace(few, measures=study.measures[:3])):
        with pytest.raises(StoreError, match=r"another study.*specification"):
            run_study(other, tmp_path / "out")
    assert names(tmp_path / "out") == before


def test_another_case_text_or_model_is_another_study(whole, tmp_path):
    _, study, _, _ = whole
    few = replace(study, size=16)
    run_study(few, tmp_path / "out")
    heavier = few.cases[0].text.replace("stature_mm = 1760", "stature_mm = 1761")
    case = replace(few.cases[0], text=heavier)
    with pytest.raises(StoreError, match="cases"):
        run_study(replace(few, cases=(case,)), tmp_path / "out")


def test_a_part_of_another_study_among_the_parts_is_refused(whole, tmp_path):
    _, study, _, _ = whole
    few = replace(study, size=32)
    run_study(few, tmp_path / "out")
    run_study(replace(few, seed=12), tmp_path / "other")
    stray = files_of(tmp_path / "other")[0]
    stray.rename(tmp_path / "out" / stray.name)
    with pytest.raises(StoreError, match="never mixed"):
        run_study(few, tmp_path / "out")
    with pytest.raises(StoreError, match="never mixed"):
        read_study(tmp_path / "out")


def test_a_full_disk_is_said_and_loses_nothing(whole, tmp_path, monkeypatch):
    _, study, _, expected = whole
    calls = []

    def full(handle):
        calls.append(handle)
        if len(calls) > 9:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(store.os, "fsync", full)
    with pytest.raises(StoreError, match="No space left on device"):
        run_study(study, tmp_path / "out", jobs=1)
    monkeypatch.undo()
    stored = names(tmp_path / "out")
    assert 0 < len(stored) < len(expected)
    assert [path for path in (tmp_path / "out").iterdir() if ".part" in path.name] == []
    assert run_study(study, tmp_path / "out").resumed_rows == len(stored) * study.part_rows


def test_ctrl_c_keeps_what_is_done_and_the_manifest_says_so(whole, tmp_path, monkeypatch):
    path, study, _, expected = whole

    def stop_after_three(folder, part):
        store_part(folder, part)
        if len(names(folder)) == 3:
            os.kill(os.getpid(), signal.SIGINT)

    store_part = running.store_part
    monkeypatch.setattr(running, "store_part", stop_after_three)
    words = ["study", str(path), "--out", str(tmp_path / "out"), "--jobs", "1", "--json"]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 130
    assert "goes on" in result.stderr and result.stdout == ""
    assert 3 <= len(names(tmp_path / "out")) < len(expected)
    manifest = json.loads((tmp_path / "out" / "manifest.json").read_text())
    assert manifest["interrupted"] and not manifest["complete"]
    monkeypatch.undo()
    run_study(study, tmp_path / "out")
    assert names(tmp_path / "out") == expected


def test_strays_of_a_killed_run_go_once_they_are_old(tmp_path):
    old, young = tmp_path / ".part-1.ab.part.parquet", tmp_path / ".part-2.ab.part.parquet"
    for path in (old, young):
        path.write_bytes(b"half")
    os.utime(old, (0.0, 0.0))
    store.clear_strays(tmp_path)
    assert not old.exists() and young.exists()


def test_the_manifest_counts_what_is_stored(whole):
    _, study, folder, _ = whole
    manifest = json.loads((folder / "manifest.json").read_text())
    counts = read_study(folder)["ending"].value_counts()
    assert manifest["endings"] == {name: n for name, n in counts.items() if n}
    assert sum(manifest["endings"].values()) == manifest["rows"] == study.rows
    assert {"version", "libraries", "machine", "command", "specification"} <= manifest.keys()


def test_curves_are_kept_of_the_rows_that_were_chosen(tmp_path):
    study = read_study_file(written(tmp_path, "keep_curves = [1, 5]\n" + GRID))
    run_study(study, tmp_path / "out")
    curves, table = read_curves(tmp_path / "out"), read_study(tmp_path / "out")
    assert curves["row"].unique().tolist() == [1, 5]
    for row, each in curves.groupby("row"):
        peak = table.loc[row, "knee_flexion_moment_peak_nm"]
        assert each["knee_flexion_moment_nm"].max() == pytest.approx(peak, rel=0.01)
