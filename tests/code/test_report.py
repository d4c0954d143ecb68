"""simgait report: two A4 pages as PDF and HTML, the same each time, and what is refused."""

from __future__ import annotations

import re
import subprocess
import sys
import time
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from simgait.case import read_case
from simgait.command import main
from simgait.library import models_folder
from simgait.pictures.report import draw_report
from simgait.pictures.report_pages import fitted, page_one, page_two
from simgait.pictures.report_pen import BOTTOM, Pen, printable
from simgait.report import Report, report_of
from simgait.report.making import MOST_SHOWN, chosen_runs
from simgait.stance import compare
from simgait.symbols import CAUTIONS, MAIN_MEASURES

CASES = models_folder() / "cases"
HOSTILE = '<script>alert(1)</script> & $x^2$ \\u4e2d \\"q\\" <img src=x onerror=alert(2)>'
WRITTEN = """
title = "TITLE"
[person]
sex = "male"
mass_kg = 80
stature_mm = 1760
[limb]
residual_limb_mm = 150
[foot]
model = "carbon-leaf"
[alignment]
foot_forward_mm = 0
socket_flexion_deg = 5
heel_rise_mm = 10
[compare]
foot_forward_mm = [0, 60]
socket_flexion_deg = [-5, 5]
heel_rise_mm = [0, 10, 100]
"""


class Words(HTMLParser):
    """The tags of a page and its text."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.links: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        fetched = ("src", "href", "xlink:href", "data", "action")
        self.links += [value or "" for name, value in attrs if name in fetched]

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def read(path: Path) -> Words:
    words = Words()
    words.feed(path.read_text(encoding="utf-8"))
    return words


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["report", *map(str, words)])


def falling(folder: Path, title: str = "Two that fall") -> Path:
    path = folder / "case.toml"
    path.write_text(WRITTEN.replace("TITLE", title), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def everyday() -> Report:
    case = read_case(CASES / "everyday.toml")
    return report_of(case, compare(case), adapting=True, draws=50)


@pytest.mark.parametrize("ending", ["pdf", "html"])
def test_the_same_case_gives_the_same_file(tmp_path: Path, ending: str) -> None:
    written = []
    for name in ("one", "two"):
        result = run(CASES / "heavy-worker.toml", "-o", tmp_path / f"{name}.{ending}")
        assert result.exit_code == 0, result.output
        written.append((tmp_path / f"{name}.{ending}").read_bytes())
    assert written[0] == written[1]
    today = time.strftime("%Y-%m-%d").encode()
    assert today not in written[0]
    assert sorted(path.name for path in tmp_path.iterdir()) == [f"one.{ending}", f"two.{ending}"]


def test_a_pdf_has_two_pages_of_a4_and_says_its_cautions(everyday: Report, tmp_path: Path) -> None:
    data = draw_report(everyday, tmp_path / "report.pdf").read_bytes()
    assert len(re.findall(rb"/Type /Page\b", data)) == 2
    boxes = re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", data)
    assert len(boxes) == 2
    for wide, high in boxes:
        assert float(wide) * 25.4 / 72.0 == pytest.approx(210.0, abs=0.1)
        assert float(high) * 25.4 / 72.0 == pytest.approx(297.0, abs=0.1)
    assert CAUTIONS[0].encode() in data
    assert b"/Subtype /Image" not in data  # all of it is vectors


def test_a_page_says_everything_and_fetches_nothing(everyday: Report, tmp_path: Path) -> None:
    page = read(draw_report(everyday, tmp_path / "report.html"))
    text = " ".join(" ".join(page.text).split())
    sentences = [sentence for change in everyday.changes for sentence in change.sentences]
    facts = [value for group in everyday.facts for _, value in group.lines]
    rows = [cell.value for row in everyday.rows for cell in row.cells]
    for words in (*sentences, *facts, *rows, *everyday.cautions, *everyday.uncertainty):
        assert " ".join(words.split()) in text
    assert len(everyday.rows) == len(MAIN_MEASURES)
    for words in ("signature", "Wearer's code: ____", "Date: ____", everyday.version):
        assert words in text
    for line in (*everyday.filled, *everyday.sources):
        assert line.rstrip(".") in text
    assert page.tags.count("svg") == 1
    assert not {"script", "img", "link", "iframe", "object", "image"} & set(page.tags)
    assert all(link.startswith("#") for link in page.links)


def test_a_hostile_title_stays_text(tmp_path: Path) -> None:
    case = falling(tmp_path, HOSTILE)
    for ending in ("html", "pdf"):
        result = run(case, "-o", tmp_path / f"hostile.{ending}", "--draws", 25)
        assert result.exit_code == 0, result.output
    page = read(tmp_path / "hostile.html")
    assert not {"script", "img"} & set(page.tags)
    assert '<script>alert(1)</script> & $x^2$ \u4e2d "q" <img src=x' in " ".join(page.text)


def test_alignments_that_fall_are_told_and_two_pages_still_hold_all(tmp_path: Path) -> None:
    read_falling = read_case(falling(tmp_path))
    comparison = compare(read_falling)
    fell = [place for place, run in enumerate(comparison.results) if run.ending != "toe_off"]
    assert len(fell) >= 2
    report = report_of(read_falling, comparison, runs=fell[:4], draws=200)
    told = [change for change in report.changes if change.number - 1 in fell]
    assert told
    assert all("did not end at the toe" in change.sentences[0] for change in told)
    for place in fell[:4]:
        cells = [row.cells[report.shown.index(place)] for row in report.rows]
        assert [cell.value for cell in cells] == ["-"] * len(MAIN_MEASURES)
        assert [cell.span for cell in cells] == [""] * len(MAIN_MEASURES)  # though draws have some
    data = draw_report(report, tmp_path / "report.pdf").read_bytes()
    assert len(re.findall(rb"/Type /Page\b", data)) == 2


def test_a_baseline_that_slips_has_no_span_and_nothing_has_a_change_from_it(
    tmp_path: Path,
) -> None:
    path = tmp_path / "slips.toml"
    text = (CASES / "everyday.toml").read_text(encoding="utf-8")
    path.write_text(f"{text}\n[ground]\nfriction = 0.155\n", encoding="utf-8")
    case = read_case(path)
    comparison = compare(case)
    ends = [result.ending for result in comparison.results]
    assert ends[comparison.baseline] != "toe_off"
    walks = ends.index("toe_off")
    report = report_of(case, comparison, runs=(walks, comparison.baseline), draws=100)
    for row in report.rows:
        base = row.cells[report.shown.index(comparison.baseline)]
        other = row.cells[report.shown.index(walks)]
        assert (base.value, base.span, base.change) == ("-", "", "")
        assert (other.change, other.span) == ("", "")
        assert other.value != "-"
    stood = [line for line in report.uncertainty if line.startswith("Draws that did not end")]
    assert stood and ": 100" not in stood[0]  # some draws stand, and could have given a span


def test_pages_fit_even_with_everything_as_long_as_it_can_be(everyday: Report) -> None:
    longest = max(everyday.changes, key=lambda change: len(" ".join(change.sentences)))
    remark = "; ".join(["the shoe's heel is +85 mm from what the foot is built for"] * 6)
    full = replace(
        everyday,
        title="W" * 120,
        code="W" * 40,
        runs=tuple(replace(line, remarks=remark) for line in everyday.runs),
        changes=(longest,) * (MOST_SHOWN - 1),
        filled=everyday.filled * 2,
        cautions=(*everyday.cautions, "A caution of some length, once more. " * 4),
        sources=everyday.sources * 2,
    )
    for page, least in ((page_one, 58.0), (page_two, 38.0)):
        scale, free = fitted(page, full, least, 120.0)
        assert least <= free
        assert scale >= 0.7  # of 6.6 points: still to be read
        pen = Pen(None, scale)
        page(pen, full, free)
        assert pen.down <= BOTTOM + 1e-9
        assert fitted(page, everyday, least, 120.0)[0] > scale or scale == 1.0


def test_the_alignments_that_differ_least_are_shown_and_numbered_as_compared() -> None:
    comparison = compare(read_case(CASES / "everyday.toml"))
    assert chosen_runs(comparison) == (1, 3, 4, 5, 7)
    comparison = compare(read_case(CASES / "heavy-worker.toml"))
    assert chosen_runs(comparison) == (0, 2, 3, 4, 6)
    comparison = compare(read_case(CASES / "short-residual-limb.toml"))
    assert len(chosen_runs(comparison)) == MOST_SHOWN
    assert comparison.baseline in chosen_runs(comparison)


def test_only_runs_on_the_pages_are_named_in_the_cautions(tmp_path: Path) -> None:
    case = read_case(falling(tmp_path))
    comparison = compare(case)
    doubted = [place for place, run in enumerate(comparison.results) if run.remarks]
    quiet = {comparison.baseline, doubted[0]}
    assert len(doubted) > 1
    report = report_of(case, comparison, runs=sorted(quiet), draws=25)
    (named,) = [caution for caution in report.cautions if caution.startswith("Run")]
    assert named.startswith(f"Run {doubted[0] + 1}:")


def test_runs_that_are_asked_for_are_shown(tmp_path: Path) -> None:
    out = tmp_path / "asked.html"
    result = run(CASES / "everyday.toml", "-o", out, "--run", 9, "--code", "B-17", "--date",
                 "2026-01-31", "--draws", 25)  # fmt: skip
    assert result.exit_code == 0, result.output
    text = " ".join(read(out).text)
    assert "2 of the 9 alignments of the case: as asked for" in text
    assert "9: foot 10 mm further forward, toe 3 deg further up" in text
    assert "Wearer's code: B-17" in text
    assert "A wearer who adapts would change the moment that bends the knee by" in text
    assert "Date: 2026-01-31" in text


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("-o", "a.docx"), "--out: 'a.docx' is neither page nor PDF (allowed: .html, .pdf"),
        (("-o", "a.pdf", "--run", "12"), "--run: 12 is no alignment (allowed: 1 to 9; nearest: 9)"),
        (("-o", "a.pdf", "--run", "0"), "allowed: 1 to 9; nearest: 1"),
        (("-o", "a.pdf", *(f"--run={number}" for number in (1, 2, 3, 4, 6))), "up to 4 beside"),
        (("-o", "a.pdf", "--date", "soon"), "--date: 'soon' is no date"),
        (("-o", "a.pdf", "--date", "2026-13-01"), "--date: '2026-13-01' is no date"),
        (("-o", "a.pdf", "--code", "x" * 41), "does not fit on one line"),
        (("-o", "nowhere/a.pdf"), "nowhere/a.pdf cannot be written"),
    ],
)
def test_what_cannot_be_is_refused_and_leaves_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], said: str
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(CASES / "everyday.toml", *words, "--draws", "25")
    assert result.exit_code == 2
    assert said in result.stderr
    assert "Traceback" not in result.output
    assert list(tmp_path.iterdir()) == []


def test_an_arm_is_refused_by_the_verb_that_reads_it(tmp_path: Path) -> None:
    result = run(CASES / "arms" / "forearm-level.toml", "-o", tmp_path / "arm.pdf")
    assert result.exit_code == 2
    assert "simgait arm reads" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_other_endings_and_missing_cautions_are_refused_in_python(
    everyday: Report, tmp_path: Path
) -> None:
    with pytest.raises(ValueError, match=r"\.html or \.pdf"):
        draw_report(everyday, tmp_path / "report.txt")
    with pytest.raises(ValueError, match="without cautions"):
        draw_report(replace(everyday, cautions=()), tmp_path / "report.pdf")
    assert list(tmp_path.iterdir()) == []


def test_a_report_loads_no_library_of_studies() -> None:
    """They take as long to load as the report itself to make."""
    words = (
        "import sys, simgait.command.report, simgait.report, simgait.pictures.report; "
        "print([name for name in ('pandas', 'scipy.stats', 'pyarrow') if name in sys.modules])"
    )
    told = subprocess.run([sys.executable, "-c", words], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


def test_letters_that_the_page_lacks_are_marked() -> None:
    assert printable("Å \u4e2d") == "Å \ufffd"
