"""The browser of these tests: one for each process that runs them, started when first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, ExitStack
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from browser import opened_page, running_browser
from limb_pages import LimbPage, written_page
from simgait.library import models_folder

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Give the browser."""
    with running_browser() as found:
        yield found


@pytest.fixture
def page_of(browser: Browser) -> Callable[..., AbstractContextManager[Page]]:
    """Return what opens a file: `with page_of(path, size=PHONE) as page`; see `opened_page`."""
    return partial(opened_page, browser)


@pytest.fixture(scope="session")
def everyday(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the page of the everyday case."""
    case = models_folder() / "cases" / "everyday.toml"
    return written_page(case, tmp_path_factory.mktemp("page"))


@pytest.fixture
def open_page(browser: Browser, everyday: Path) -> Iterator[Callable[..., LimbPage]]:
    """Return what opens the page of a limb at a state of its address, the everyday case's first."""
    with ExitStack() as stack:

        def make(state: str = "", path: Path = everyday, **options: Any) -> LimbPage:
            opened = opened_page(browser, path, fragment=state, **options)
            found = LimbPage(page=stack.enter_context(opened))
            found.settle()
            return found

        yield make


@pytest.fixture(scope="session")
def arm_files(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Write the pages of the library's cases of arms."""
    folder = tmp_path_factory.mktemp("arms")
    cases = (models_folder() / "cases" / "arms").glob("*.toml")
    return {case.stem: written_page(case, folder) for case in sorted(cases)}


@pytest.fixture
def open_arm(browser: Browser, arm_files: dict[str, Path]) -> Iterator[Callable[..., LimbPage]]:
    """Return what opens the page of an arm at a state of its address."""
    with ExitStack() as stack:

        def make(
            state: str = "", name: str = "above-elbow", path: Path | None = None, **options: Any
        ) -> LimbPage:
            opened = opened_page(browser, path or arm_files[name], fragment=state, **options)
            found = LimbPage(page=stack.enter_context(opened))
            found.settle()
            return found

        yield make
