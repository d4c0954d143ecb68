"""Many cases at once: design, run, store, read.

A study file says which cases, what varies and how it is sampled (`read_study_file`); `run_study`
runs it into a folder, part by part, and goes on where it was stopped; `read_study` gives the table.
"""

from simgait.studies.reading import read_study_file
from simgait.studies.running import StudyRun, run_study
from simgait.studies.store import StoreError
from simgait.studies.study import Axis, Deviation, Study
from simgait.studies.table import read_curves, read_study

__all__ = [
    "Axis",
    "Deviation",
    "StoreError",
    "Study",
    "StudyRun",
    "read_curves",
    "read_study",
    "read_study_file",
    "run_study",
]
