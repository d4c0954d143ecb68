"""From a study file to a checked study."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from simgait.case import Case, case_of_text
from simgait.case.checking import checked_title
from simgait.case.findings import Findings
from simgait.case.many import MANY_NAMES, stated
from simgait.case.reading import OVERRIDES, read_bytes, tables_of, text_of
from simgait.errors import CaseError, one_line, shown
from simgait.library import nearest
from simgait.studies.entries import checked_axis, checked_deviation, flat
from simgait.studies.settings import (
    LEAST_PART,
    check_design,
    checked_curves,
    checked_measures,
    checked_part_rows,
    checked_sample,
)
from simgait.studies.study import CaseText, Level, Study
from simgait.studies.wishing import checked_wishes

KEYS = (
    "title",
    "case",
    "cases",
    "vary",
    "sample",
    "error",
    "measures",
    "keep_curves",
    "part_rows",
    "report",
)
MOST_UNASKED = 20_000  # combinations of a grid that run without being asked for
MOST_ROWS = 100_000_000


def read_study_file(path: str | Path, *, ask_for_many: bool = False) -> Study:
    """Return a study file, checked, with the text of its cases.

    path: of the file; the cases' paths in it are relative to its folder.  ask_for_many: whether a
    grid of more than 20,000 rows is wanted (``[sample] most`` in the file asks for it too).

    Raises:
        CaseError: with all faults of the file at once, or those of a case.
    """
    label = one_line(str(path))
    data = study_tables(Path(path), label)
    findings = Findings(label=label)
    for key in data.keys() - set(KEYS):
        findings.fault(
            key, "is not a key of a study", allowed=", ".join(KEYS), near=nearest(key, KEYS)
        )
    title = checked_title(data, one_line(Path(path).stem), findings)
    sample = checked_sample(data.get("sample", {}), findings)
    vary = flat("vary", data.get("vary", {}), findings)
    axes = [checked_axis(*item, sample.method != "grid", findings) for item in vary.items()]
    error = flat("error", data.get("error", {}), findings)
    errors = [checked_deviation(*item, findings) for item in error.items()]
    if not vary and not error and not findings.faults:
        findings.fault("vary", "names nothing", allowed="a name of a case and its values")
    check_design(sample, len(axes), len(errors), findings)
    study = Study(
        title=title,
        cases=checked_cases(data, Path(path).parent, findings),
        axes=tuple(axis for axis in axes if axis is not None),
        errors=tuple(deviation for deviation in errors if deviation is not None),
        method=sample.method,
        size=sample.size,
        seed=sample.seed,
        measures=checked_measures(data.get("measures"), findings),
        keep_curves=False,
        part_rows=LEAST_PART,
    )
    findings.raise_faults()
    study = replace(
        study,
        wishes=checked_wishes(data.get("report", {}), study.measures, study.axes, findings),
        keep_curves=checked_curves(data.get("keep_curves", False), study.rows, findings),
        part_rows=checked_part_rows(data.get("part_rows"), study.rows, findings),
    )
    check_count(study, MOST_ROWS if ask_for_many else sample.most or MOST_UNASKED, findings)
    findings.raise_faults()
    check_cases(study, findings)
    return study


def study_tables(path: Path, label: str) -> dict[str, Any]:
    """Return a study file as parsed TOML.

    Raises:
        CaseError: it cannot be read, or is no TOML.
    """
    try:
        return tables_of(text_of(read_bytes(path, label), label), label)
    except CaseError as refusal:
        raise CaseError(
            replace(
                fault,
                allowed=fault.allowed.replace("a case file", "a study file").replace(
                    "[person], [limb] and [foot]", "case and [vary]"
                ),
            )
            for fault in refusal.faults
        ) from refusal


def checked_cases(
    data: Mapping[str, Any], folder: Path, findings: Findings
) -> tuple[CaseText, ...]:
    """Return the case files that a study names, read; what is wrong with the list is noted.

    Raises:
        CaseError: a file cannot be read.
    """
    given = data.get("cases", data.get("case"))
    paths = [given] if isinstance(given, str) else given
    if "case" in data and "cases" in data:
        findings.fault("cases", "stands beside case", allowed="either case or cases")
    elif given is None:
        findings.fault("case", "is missing", allowed="the path of a case file")
    elif not isinstance(paths, list) or not paths or not all(isinstance(p, str) for p in paths):
        findings.fault("cases", "are no paths", value=shown(given), allowed="a list of paths")
    elif len(set(paths)) < len(paths):
        findings.fault("cases", "name a file twice", value=shown(given), allowed="each once")
    else:
        labels = [one_line(path) for path in paths]
        texts = [text_of(read_bytes(folder / path, path), path) for path in labels]
        return tuple(CaseText(label=a, text=b) for a, b in zip(labels, texts, strict=True))
    return ()


def check_count(study: Study, most: int, findings: Findings) -> None:
    """Note a fault if a grid makes more rows than were asked for, or a study more than ever."""
    if study.rows > (most if study.method == "grid" else MOST_ROWS):
        factors = [str(len(axis.levels)) for axis in study.axes]
        how = f" ({' x '.join(factors)} combinations)" if study.method == "grid" else ""
        findings.fault(
            "vary",
            f"makes {study.rows} rows{how}, more than were asked for",
            allowed=f"up to {min(most, MOST_ROWS)}; --yes, or most = {study.rows} under [sample], "
            "asks for more",
        )


def overrides_of(names: tuple[str, ...], values: tuple[Level, ...]) -> dict[str, str]:
    """Return values as overrides of a case, in which a number is read back digit by digit.

    >>> overrides_of(("person.mass_kg", "foot.model"), (80.1, "firm"))
    {'person.mass_kg': '80.1', 'foot.model': 'firm'}
    """
    return {
        name: value if isinstance(value, str) else repr(float(value))
        for name, value in zip(names, values, strict=True)
    }


def check_cases(study: Study, findings: Findings) -> None:
    """Refuse a study of which a case can be read at neither first, last nor middle values.

    Raises:
        CaseError: the faults of the first; or an error of a number that the case does not state.
    """
    names = tuple(axis.name for axis in study.axes)
    for case in study.cases:
        trouble: CaseError | None = None
        for values in zip(*(axis.probes for axis in study.axes), strict=True) if names else [()]:
            try:
                read = case_of_text(case.text, case.label, overrides_of(names, values))
                break
            except CaseError as refusal:
                trouble = trouble or refusal
        else:
            assert trouble is not None
            raise _named(trouble, findings.label) from trouble
        for deviation in study.errors:
            if deviation.name not in names and nominal(case, read, deviation.name) is None:
                findings.fault(
                    f"error.{deviation.name}",
                    f"is an error of what {case.label} does not state",
                    allowed="a number that the case states or [vary] names",
                )
    findings.raise_faults()


def _named(refusal: CaseError, label: str) -> CaseError:
    """Return a refusal whose faults of overrides are those of the study file."""
    return CaseError(
        replace(fault, file=label, field=f"vary.{fault.field}")
        if fault.file == OVERRIDES
        else fault
        for fault in refusal.faults
    )


def nominal(case: CaseText, read: Case, name: str) -> float | None:
    """Return what a case states for a number, in the unit of its name; filled if it is left out.

    None if the case does not state it and nothing fills it.
    """
    table, _, key = name.partition(".")
    written = tables_of(case.text, case.label).get(table, {}).get(key)
    if isinstance(written, int | float):
        return float(written)
    return stated(read, name) if name in MANY_NAMES else None
