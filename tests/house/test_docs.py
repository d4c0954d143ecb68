"""The documentation is up to date: generated pages, pictures, links, and names that it uses."""

import importlib
import re
import sys

import pytest
from PIL import Image

from house_tree import ROOT, files, name, read
from simgait.alignment import WRITTEN_NAMES
from simgait.arm.names import DEVICE, LENGTH, MARGINS, POSITION
from simgait.case.arm_entries import ARM_TABLES, arm_keys
from simgait.case.entries import TABLES
from simgait.case.transfer_entries import TRANSFER_TABLES
from simgait.standing.names import BY_NAME as STANDING
from simgait.symbols import BY_NAME
from simgait.tipping.names import BY_NAME as TIPPING

sys.path.insert(0, str(ROOT / "docs"))
GENERATE = importlib.import_module("generate")
TEXT = importlib.import_module("making.text")

PAGES = [path for path in files() if path.suffix == ".md"]
LINK = re.compile(r"!?\[[^\]]*\]\(([^)\s]+)\)")
CODE = re.compile(r"`([a-z0-9]+(?:_[a-z0-9]+)+)`")
UNIT = re.compile(r"_(nm|nm_kg|nms|mm|deg|percent|s|bw|bw_s|ns|j|n|m_s|kg|n_mm)$")
# written in the files that calibrations and wearers are made from, or in the guide's equations
ELSEWHERE = {
    "toe_off_percent_cycle", "stance_time_s", "speed_m_s", "turn_deg", "shortest_mm",
}  # fmt: skip


@pytest.mark.parametrize("page", GENERATE.PAGES, ids=lambda page: page.path)
def test_a_generated_page_is_what_would_be_made_now(page):
    assert page.file.is_file(), "run python docs/generate.py"
    found = TEXT.differences(page.file.read_text(encoding="utf-8"), page.fresh(), page.band)
    assert found == [], "run python docs/generate.py"


@pytest.mark.parametrize("picture", GENERATE.PICTURES, ids=lambda picture: picture.path)
def test_a_generated_picture_is_there_and_is_no_blank_sheet(picture):
    assert 0 < picture.file.stat().st_size <= 1024 * picture.most_kb
    with Image.open(picture.file) as image:
        assert image.size[0] > 400
        assert image.getcolors(2) is None


def dead_links(path, text):
    """Return the links of a page to files that are not there."""
    inner = [link for link in LINK.findall(text) if not re.match(r"[a-z]+:|#", link)]
    return [link for link in inner if not (path.parent / link.partition("#")[0]).exists()]


def test_links_between_pages_lead_somewhere():
    assert {name(path): dead for path in PAGES if (dead := dead_links(path, read(path)))} == {}


def unknown_names(text):
    """Return the names with a unit that a page uses and the program does not."""
    keys = {key for entry in (TABLES | TRANSFER_TABLES).values() for key in entry.model_fields}
    arms = {each.name for each in (*POSITION, *MARGINS, *LENGTH, *DEVICE)}
    arms |= {key for table in ARM_TABLES for key in arm_keys(table)}
    known = {*BY_NAME, *STANDING, *TIPPING, *WRITTEN_NAMES, *keys, *arms, *ELSEWHERE}
    return sorted({used for used in CODE.findall(text) if UNIT.search(used)} - known)


def test_the_guide_uses_names_that_exist():
    guide = [path for path in PAGES if name(path).startswith(("docs/guide/", "docs/gallery/"))]
    assert len(guide) > 8
    assert {name(path): bad for path in guide if (bad := unknown_names(read(path)))} == {}


def test_a_stale_word_and_a_stale_number_are_seen():
    page = "rises by 0.40 N, see 2005\nno number here\n"
    assert TEXT.differences(page, page, 0.0) == []
    assert TEXT.differences(page, page.replace("0.40", "0.41"), 0.01) == []
    assert len(TEXT.differences(page, page.replace("0.40", "0.43"), 0.01)) == 1
    assert len(TEXT.differences(page, page.replace("0.40", "0.41"), 0.0)) == 1
    assert len(TEXT.differences(page, page.replace("rises", "falls"), 0.01)) == 1
    assert len(TEXT.differences(page, page.replace("0.40", "-0.40"), 0.01)) == 1
    assert len(TEXT.differences(page, page + "more\n", 0.01)) == 1


def test_a_part_that_nobody_makes_is_refused():
    page = "a\n<!-- begin x -->\nold\n<!-- end x -->\nb\n"
    assert "old" not in TEXT.filled(page, {"x": "new"})
    assert "new" in TEXT.filled(page, {"x": "new"})
    with pytest.raises(KeyError):
        TEXT.filled(page, {})
    with pytest.raises(KeyError):
        TEXT.filled(page, {"x": "new", "y": "more"})


def test_a_dead_link_and_an_unknown_name_are_seen():
    assert dead_links(ROOT / "README.md", "[a](docs/index.md) [b](docs/nothing.md#x)") == [
        "docs/nothing.md#x"
    ]
    assert unknown_names("`hip_rise_mm` and `hip_fall_mm`") == ["hip_fall_mm"]
