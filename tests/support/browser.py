"""A page in a real browser: headless Chromium that fails on errors and on every request outward."""

from __future__ import annotations

import contextlib
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, WebSocket

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
ARGUMENTS = (
    "--no-sandbox",  # as root there is none
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
WITHIN = ("data:", "blob:", "about:")  # of the page itself: nothing is asked of anybody
DESK, PHONE, PROJECTOR = (1280, 800), (360, 740), (1920, 1080)  # [px]
BAD = ("serious", "critical")  # findings of axe-core that a page may not have


def chromium() -> str:
    """Return where Chromium is; without it the test is skipped, or fails where it is needed."""
    found = next(filter(None, map(shutil.which, NAMES)), None)
    if found:
        return found
    if os.environ.get("SIMGAIT_NEEDS_BROWSER") == "1":
        pytest.fail("SIMGAIT_NEEDS_BROWSER is 1 and there is no Chromium")
    pytest.skip("no Chromium to open a page with")


@contextlib.contextmanager
def running_browser() -> Iterator[Browser]:
    """Give a headless Chromium, one for each process that runs tests."""
    from playwright.sync_api import sync_playwright

    path = chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=[*ARGUMENTS])
        yield browser
        browser.close()


def watch(context: BrowserContext, own: str) -> list[str]:
    """Return the list that takes every fault of a context's pages; requests outward are stopped."""
    faults: list[str] = []

    def decide(route: Any) -> None:
        address = route.request.url.partition("#")[0]
        if address == own or address.startswith(WITHIN):
            route.continue_()
        else:
            faults.append(f"request: {address}")
            route.abort()

    def hear(message: ConsoleMessage) -> None:
        if message.type in ("error", "assert"):
            faults.append(f"console: {message.text}")

    def join(socket: WebSocket) -> None:
        faults.append(f"socket: {socket.url}")

    context.route("**/*", decide)
    context.on("console", hear)
    context.on("weberror", lambda failure: faults.append(f"error: {failure.error}"))
    context.on("page", lambda page: page.on("websocket", join))
    return faults


@contextlib.contextmanager
def opened_page(
    browser: Browser,
    path: Path,
    *,
    size: tuple[int, int] = DESK,
    reduced_motion: bool = False,
    media: Literal["screen", "print"] = "screen",
    more_contrast: bool = False,
    touch: bool = False,
    fragment: str = "",
) -> Iterator[Page]:
    """Give a page opened from a file, as by a double click; fail if anything went wrong in it.

    Wrong is, until the block's end: an error in the console, an exception that nobody caught, and
    any request but that for the file itself.  size: of the window [px]; touch: whether fingers are
    used; fragment: what stands behind # in the address.
    """
    own = path.resolve().as_uri()
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        reduced_motion="reduce" if reduced_motion else "no-preference",
        contrast="more" if more_contrast else "no-preference",
        has_touch=touch,
    )
    faults = watch(context, own)
    try:
        page = context.new_page()
        page.emulate_media(media=media)
        page.goto(f"{own}#{fragment}" if fragment else own)
        yield page
        page.evaluate("() => new Promise((done) => setTimeout(done, 0))")  # let it go on once
    finally:
        context.close()
    assert not faults, f"{path.name}: {'; '.join(faults)}"


def findings(page: Page, impacts: tuple[str, ...] = BAD) -> list[str]:
    """Return what axe-core finds of these impacts: rule, impact, and the elements concerned."""
    from axe_playwright_python.sync_playwright import Axe

    options = {"resultTypes": ["violations"], "preload": False}
    found = Axe().run(page, options=options).response["violations"]
    return [
        f"{each['id']} ({each['impact']}): {each['help']}: "
        + ", ".join(str(node["target"]) for node in each["nodes"])
        for each in found
        if each["impact"] in impacts
    ]
