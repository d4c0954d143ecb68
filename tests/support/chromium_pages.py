"""Pages of cases in a real browser: written by the verb, opened from a file, their numbers read."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from click.testing import CliRunner
from playwright.sync_api import Browser, Page, sync_playwright

from simgait.command import main

PROGRAM = "/usr/bin/chromium"
NAMES = {
    "foot": "Foot fore and aft",
    "toe": "Tilt of the foot, toe up or down",
    "pylon": "Length of the pylon",
}


@contextmanager
def chromium() -> Iterator[Browser]:
    """Give a browser, and close it afterwards."""
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=PROGRAM, args=["--no-sandbox"])
        try:
            yield browser
        finally:
            browser.close()


@dataclass
class Opened:
    """An open page, what it asked for, and what went wrong in it."""

    page: Page
    requests: list[str] = field(default_factory=list)
    troubles: list[str] = field(default_factory=list)

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
        self.page.wait_for_timeout(400)


def opened(browser: Browser, path: Path, state: str = "", **options: Any) -> Opened:
    """Return a page opened from a file at a state of its address.

    options: of the browser's context, such as its viewport [pixel].
    """
    context = browser.new_context(**{"viewport": {"width": 1280, "height": 800}, **options})
    found = Opened(page=context.new_page())
    found.page.on("request", lambda request: found.requests.append(request.url))
    found.page.on("pageerror", lambda trouble: found.troubles.append(str(trouble)))
    found.page.on(
        "console",
        lambda message: found.troubles.append(message.text) if message.type == "error" else None,
    )
    found.page.goto(path.as_uri() + (f"#{state}" if state else ""))
    found.settle()
    return found


def written_page(case: Path, folder: Path) -> Path:
    """Return the page that the verb writes of a case."""
    place = folder / f"{case.stem}.html"
    done = CliRunner().invoke(main, ["page", str(case), "-o", str(place)])
    assert done.exit_code == 0, done.output
    return place
