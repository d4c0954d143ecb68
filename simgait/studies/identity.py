"""What makes a study this study: the key that its parts carry."""

from __future__ import annotations

import functools
import hashlib
import json
from collections.abc import Iterator
from importlib import resources
from typing import Any

from simgait.case import Case, case_of_text
from simgait.case.naming import NAMED
from simgait.engines.source import physics_version
from simgait.errors import CaseError
from simgait.library import defaults_text, model_text, names
from simgait.studies.design import Design
from simgait.studies.reading import overrides_of
from simgait.studies.study import Study

MAKERS = (  # what turns a case into numbers, beside the equations
    "alignment.py",
    "arrays.py",
    "case",
    "limb",
    "parts",
    "people.py",
    "stance",
    "studies/design.py",
    "studies/lots.py",
    "symbols",
    "units.py",
    "wearer.py",
)


def digest(value: object) -> str:
    """Return a short hash of a value that JSON can say.

    >>> digest({"a": 1, "b": 2}) == digest({"b": 2, "a": 1})
    True
    """
    text = json.dumps(value, sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:16]


@functools.cache
def making_version() -> str:
    """Return a short hash of the code, beside the equations, from which a row's numbers follow."""
    root = resources.files("simgait")
    texts = []
    for name in MAKERS:
        place = root.joinpath(*name.split("/"))
        files = [place] if place.is_file() else sorted(place.iterdir(), key=lambda file: file.name)
        texts += [file.read_text(encoding="utf-8") for file in files if file.name.endswith(".py")]
    return digest(texts)


@functools.cache
def equations_version() -> str:
    """Return the hash of the equations, worked out once."""
    return physics_version()


@functools.lru_cache(maxsize=8)
def cases_read(study: Study) -> tuple[Case, ...]:
    """Return the cases of a study at first, last and middle values, as far as they can be read."""
    return tuple(_cases_read(study))


def _cases_read(study: Study) -> Iterator[Case]:
    axes = tuple(axis.name for axis in study.axes)
    for case in study.cases:
        for values in zip(*(axis.probes for axis in study.axes), strict=True) if axes else [()]:
            try:
                yield case_of_text(case.text, case.label, overrides_of(axes, values))
            except CaseError:
                continue


def models_used(study: Study) -> dict[str, str]:
    """Return a hash of every model file that the study's rows can rest on, by kind and name."""
    used = {("segments", name) for name in names("segments")}
    for case in cases_read(study):
        used |= {
            ("feet", case.foot.name),
            ("shoes", case.shoe.name if case.shoe else ""),
            ("sockets", case.socket.name),
            ("pylons", case.pylon.name),
            ("wearers", case.wearer),
        }
    kinds = {f"{table}.{key}": kind for table, key, kind in NAMED}
    used |= {
        (kinds[axis.name], str(level))
        for axis in study.axes
        if axis.name in kinds
        for level in axis.levels
    }
    found = {
        f"{kind}/{name}": digest(model_text(kind, name))
        for kind, name in sorted(used)
        if name in names(kind)
    }
    return {"defaults": digest(defaults_text()), **found}


def identity(study: Study, design: Design) -> dict[str, Any]:
    """Return what a study's rows follow from, each part as a hash.

    The first and last rows' inputs are among it, so that another release of the sampler's library,
    should it draw other points, is another study.
    """
    inputs = []
    for span in (range(min(study.rows, 8)), range(study.rows - 1, study.rows)):
        rows = design.rows(span)
        inputs.append({name: column.tolist() for name, column in rows.values.items()})
    return {
        "equations": equations_version(),
        "program": making_version(),
        "specification": digest(study.specification()),
        "inputs": digest(inputs),
        "cases": digest([case.text for case in study.cases]),
        "library": models_used(study),
    }
