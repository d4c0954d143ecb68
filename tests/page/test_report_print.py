"""A report's page in a browser: it prints on two sheets of A4, and nothing is lost over an edge."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from browser import PHONE, findings
from simgait.case import read_case
from simgait.library import models_folder
from simgait.pictures.report import draw_report
from simgait.report import report_of
from simgait.stance import compare

POINT = 25.4 / 72.0  # [mm]
# of every sheet: how far its content reaches below its own edge, and beyond its right one [px]
OVER = """() => [...document.querySelectorAll('.page')].map((page) => [
    page.scrollHeight - page.clientHeight, page.scrollWidth - page.clientWidth])"""


def written(name: str, folder: Path) -> Path:
    case = read_case(models_folder() / "cases" / f"{name}.toml")
    report = report_of(case, compare(case), adapting=True, draws=50)
    return draw_report(report, folder / "report.html")


@pytest.mark.parametrize("name", ["everyday", "heavy-worker", "length-mismatch"])
def test_it_prints_on_two_sheets_of_a4(name: str, tmp_path: Path, page_of) -> None:
    with page_of(written(name, tmp_path), media="print") as page:
        assert page.evaluate(OVER) == [[0, 0], [0, 0]]
        data = page.pdf(prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", data)) == 2
    boxes = re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", data)
    assert len(boxes) >= 1
    for wide, high in boxes:
        assert float(wide) * POINT == pytest.approx(210.0, abs=0.5)
        assert float(high) * POINT == pytest.approx(297.0, abs=0.5)


def test_it_can_be_read_on_a_phone_and_by_a_screen_reader(tmp_path: Path, page_of) -> None:
    path = written("everyday", tmp_path)
    with page_of(path, size=PHONE) as page:
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE[0]
        assert findings(page) == []
    with page_of(path) as page:
        assert findings(page) == []
        assert page.get_by_role("heading", level=1).count() == 1
        assert page.get_by_role("img").count() == 1
