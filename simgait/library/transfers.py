"""What a chain of components is made of where a case does not say: ``models/transfer.toml``."""

from __future__ import annotations

from functools import cache

from simgait.library.figures import figures_of, read_model
from simgait.library.folder import models_folder
from simgait.sources import Figure

FILE = "transfer.toml"


@cache
def transfer_figures() -> dict[str, Figure]:
    """Return the figures of ``models/transfer.toml`` by their written names.

    Raises:
        CaseError: the file is faulty.

    >>> transfer_figures()["pylon_step_mm"].number
    1.0
    """
    return figures_of(read_model(models_folder() / FILE), FILE)
