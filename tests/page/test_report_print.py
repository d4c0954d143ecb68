"""A report's page, printed by a browser: two sheets of A4, and nothing lost over their edges."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from simgait.case import read_case
from simgait.library import models_folder
from simgait.pictures.report import draw_report
from simgait.report import report_of
from simgait.stance import compare

BROWSER = shutil.which("chromium")
POINT = 25.4 / 72.0  # [mm]

needs_browser = pytest.mark.skipif(BROWSER is None, reason="no chromium to print with")


def printed(page: Path, folder: Path) -> bytes:
    out = folder / "printed.pdf"
    subprocess.run(
        [
            str(BROWSER), "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
            f"--user-data-dir={folder / 'profile'}", f"--print-to-pdf={out}", page.as_uri(),
        ],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    return out.read_bytes()


def page_count(data: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", data))


@needs_browser
@pytest.mark.parametrize("name", ["everyday", "heavy-worker", "length-mismatch"])
def test_it_prints_on_two_sheets_of_a4(name: str, tmp_path: Path) -> None:
    case = read_case(models_folder() / "cases" / f"{name}.toml")
    page = draw_report(report_of(case, compare(case), draws=50), tmp_path / "report.html")
    data = printed(page, tmp_path)
    assert page_count(data) == 2
    for wide, high in re.findall(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", data):
        assert float(wide) * POINT == pytest.approx(210.0, abs=0.5)
        assert float(high) * POINT == pytest.approx(297.0, abs=0.5)
