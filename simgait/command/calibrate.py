"""simgait calibrate: fit a wearer and write its file."""

from __future__ import annotations

from pathlib import Path

import click

from simgait.command.running import ready_folder
from simgait.files import write_whole
from simgait.library import models_folder, read_calibration


def run_calibrate(name: str, out: str | None) -> None:
    """Run the verb; see `simgait.command.calibrate`."""
    recipe = read_calibration(name)
    path = Path(out) if out else models_folder() / "wearers" / f"{name}.toml"
    ready_folder(str(path.parent))
    from simgait.stance.calibration import calibrate
    from simgait.stance.wearer_file import wearer_file

    calibration = calibrate(name)
    with write_whole(path) as partial:
        partial.write_text(wearer_file(name, recipe, calibration), encoding="utf-8")
    for key, value in calibration.residuals.items():
        click.echo(f"root mean square misfit, {key}: {value:.4g}")
    click.echo(f"written: {path}")
