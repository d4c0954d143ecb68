"""A study's report as tables that can be written."""

from __future__ import annotations

from dataclasses import asdict

import pandas as pd

from simgait.studies.analysis import Report
from simgait.symbols import BY_NAME


def index_table(report: Report) -> pd.DataFrame:
    """Return all indices: one row a case, measure and name; 95 per cent intervals."""
    return pd.DataFrame(
        {"case": case, "measure": measure, **asdict(index)}
        for (case, measure), found in report.indices.items()
        for index in found
    )


def screening_table(report: Report) -> pd.DataFrame:
    """Return all elementary effects, in the measure's unit for a whole span."""
    return pd.DataFrame(
        {"case": case, "measure": measure, "unit": BY_NAME[measure].unit, **asdict(each)}
        for (case, measure), found in report.screenings.items()
        for each in found
    )


def front_table(report: Report) -> pd.DataFrame:
    """Return the runs on the trade-off front: row number, what varies, all told measures."""
    columns = [*report.names, *report.wishes.goals]
    columns += [name for name in report.wishes.measures if name not in columns]
    parts = [found[columns].assign(case=case) for case, found in report.front.items()]
    return pd.concat(parts) if parts else pd.DataFrame()


def tables_of(report: Report) -> dict[str, pd.DataFrame]:
    """Return the tables of a report that hold anything, by the stem of their file.

    Every table ends in the seed and the version of the model.
    """
    differences = pd.DataFrame() if report.differences is None else report.differences
    tables = {
        "sensitivities": index_table(report),
        "screening": screening_table(report),
        "differences": differences,
        "front": front_table(report),
        "cells": pd.DataFrame() if report.cells is None else report.cells.assign(**report.held),
    }
    return {
        name: table.assign(seed=report.stock.seed, version=report.stock.version)
        for name, table in tables.items()
        if len(table)
    }
