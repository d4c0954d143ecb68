"""The browser of these tests: one for each process that runs them, started when first asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from functools import partial
from typing import TYPE_CHECKING

import pytest

from browser import opened_page, running_browser

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
