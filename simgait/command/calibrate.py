"""simgait calibrate: fit a wearer and write its file."""

from __future__ import annotations

from pathlib import Path

import click

from simgait.command.running import ready_folder, refused_if_unwritable
from simgait.files import write_whole
from simgait.library import models_folder, read_calibration


def run_calibrate(name: str, out: str | None) -> None:
    """Fit the wearer and write its file to `out`, or to its place in models/.

    Raises:
        CaseError: no such calibration file, or a place that cannot be written.
    """
    recipe = read_calibration(name)
    path = Path(out) if out else models_folder() / "wearers" / f"{name}.toml"
    ready_folder(str(path.parent))
    from simgait.stance.calibration import calibrate
    from simgait.stance.wearer_file import wearer_file

    calibration = calibrate(name)
    with refused_if_unwritable(path), write_whole(path) as partial:
        partial.write_text(wearer_file(name, recipe, calibration), encoding="utf-8")
    for key, value in calibration.residuals.items():
        click.echo(f"root mean square misfit, {key}: {value:.4g}")
    click.echo(f"written: {path}")
