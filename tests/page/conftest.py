"""What the tests of pages share: one browser a file, and pages that must meet no fault."""

import pytest

from chromium_pages import chromium, opened, written_page
from simgait.library import models_folder


@pytest.fixture(scope="module")
def browser():
    with chromium() as one:
        yield one


@pytest.fixture(scope="session")
def everyday(tmp_path_factory):
    """The page of the everyday case."""
    return written_page(
        models_folder() / "cases" / "everyday.toml", tmp_path_factory.mktemp("page")
    )


@pytest.fixture
def open_page(browser, everyday):
    """What opens a page at a state of its address, that of the everyday case unless told."""
    made = []

    def make(state="", path=everyday, **options):
        made.append(opened(browser, path, state, **options))
        return made[-1]

    yield make
    for one in made:
        assert one.troubles == []
        one.page.context.close()
