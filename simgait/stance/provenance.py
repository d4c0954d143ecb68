"""What a result rests on: the model's version and the sources of its figures."""

from __future__ import annotations

from simgait.case import Case
from simgait.engines.source import physics_version


def model_version() -> str:
    """Return the package's version and the hash of its equations."""
    from importlib.metadata import PackageNotFoundError, version

    try:
        number = version("simgait")
    except PackageNotFoundError:
        number = "0"
    return f"{number}+{physics_version()}"


def case_sources(case: Case) -> tuple[str, ...]:
    """Return citations of what a case's numbers rest on."""
    return ()
