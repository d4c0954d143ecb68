"""Pages of below-knee limbs in a real browser: written by the verb, opened, their numbers read."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from click.testing import CliRunner
from playwright.sync_api import Page

from simgait.command import main

NAMES = {
    "foot": "Foot fore and aft",
    "toe": "Tilt of the foot, toe up or down",
    "pylon": "Length of the pylon",
}


@dataclass(frozen=True)
class LimbPage:
    """An open page of a limb."""

    page: Page

    def measures(self) -> dict[str, float]:
        """Return the measures that the table shows, as exactly as the page knows them."""
        found: dict[str, float] = self.page.evaluate(
            """() => Object.fromEntries([...document.querySelectorAll("[data-value]")]
                 .map((row) => [row.dataset.measure, Number(row.dataset.value)]))"""
        )
        return found

    def setting(self, name: str) -> float:
        """Return where a handle stands, by its short name."""
        return float(self.handle(name).get_attribute("aria-valuenow") or "nan")

    def handle(self, name: str) -> Any:
        """Return a handle by its short name."""
        return self.page.get_by_role("slider", name=NAMES[name], exact=True)

    def middle(self, name: str) -> tuple[float, float]:
        """Return where a handle is on the screen [pixel]."""
        box = self.handle(name).bounding_box()
        assert box is not None
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2

    def settle(self) -> None:
        """Wait until what was asked is computed and drawn, and the address is written."""
        self.page.evaluate(
            """() => new Promise((done) => requestAnimationFrame(() =>
                 requestAnimationFrame(() => setTimeout(done, 350))))"""
        )


def written_page(case: Path, folder: Path) -> Path:
    """Return the page that the verb writes of a case."""
    place = folder / f"{case.stem}.html"
    done = CliRunner().invoke(main, ["page", str(case), "-o", str(place)])
    assert done.exit_code == 0, done.output
    return place
