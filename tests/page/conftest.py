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
