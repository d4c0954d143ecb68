"""simgait transfer: the agreed object, the bench sheet, and what is refused."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from simgait.case import read_case
from simgait.command import main
from simgait.library import models_folder
from simgait.pictures.transfer import CHECK_BAR, draw_transfer
from simgait.symbols import CAUTIONS, MAIN_MEASURES
from simgait.transfer import transfer
from simgait.transfer.result import ON_TRANSFER

CASES = models_folder() / "cases"
AGREED = (
    "pylon_mm", "upper_tilt_deg", "lower_tilt_deg", "offset_mm", "error_mm", "error_deg",
)  # fmt: skip
UNIT = """
[unit]
pylon_mm = 160
upper_tilt_deg = 2
lower_tilt_deg = -1
slide_mm = -4
spacer_mm = 10
[finished]
offsets_mm = [0, 5, -5]
"""


def run(*words: str | Path) -> Result:
    return CliRunner().invoke(main, ["transfer", *map(str, words)])


def case_with(folder: Path, tables: str = UNIT, name: str = "case.toml") -> Path:
    path = folder / name
    path.write_text((CASES / "everyday.toml").read_text(encoding="utf-8") + tables, "utf-8")
    return path


def answer(path: Path) -> dict:
    result = run(path, "--json")
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_json_has_the_agreed_names_first(tmp_path: Path) -> None:
    found = answer(case_with(tmp_path))
    assert set(found["pose"]) == {"forward_mm", "below_mm", "turn_deg"}
    assert len(found["chains"]) == 3
    for chain in found["chains"]:
        assert tuple(chain)[: len(AGREED)] == AGREED
        assert chain["error_mm"] <= found["tolerance_mm"]
        assert chain["error_deg"] <= found["tolerance_deg"]
        assert chain["cut_from_mm"] <= chain["pylon_mm"] <= chain["cut_to_mm"]
        assert set(chain["changes"]) == set(MAIN_MEASURES)
    assert {*CAUTIONS, *ON_TRANSFER} <= set(found["cautions"])
    assert list(tmp_path.iterdir()) == [tmp_path / "case.toml"]


def test_a_unit_that_is_the_finished_chain_is_found_again(tmp_path: Path) -> None:
    tables = """
[unit]
pylon_mm = 165
upper_tilt_deg = 3
lower_tilt_deg = -2
slide_mm = 5
[finished]
offsets_mm = [5]
"""
    (chain,) = answer(case_with(tmp_path, tables))["chains"]
    assert [chain[name] for name in AGREED] == pytest.approx([165, 3, -2, 5, 0, 0], abs=1e-6)
    assert chain["changes"] == pytest.approx(dict.fromkeys(MAIN_MEASURES, 0.0), abs=1e-9)


def test_a_spacer_is_a_longer_tube_and_a_slide_at_the_foot_a_plate(tmp_path: Path) -> None:
    first = answer(case_with(tmp_path, UNIT))["pose"]
    longer = UNIT.replace("spacer_mm = 10", "spacer_mm = 0").replace("= 160", "= 170")
    assert answer(case_with(tmp_path, longer))["pose"] == first
    level = UNIT.replace("upper_tilt_deg = 2", "upper_tilt_deg = 1")
    above = answer(case_with(tmp_path, level))["pose"]
    shifted = level.replace("slide_mm = -4", "slide_mm = 0\nfoot_slide_mm = -4")
    assert answer(case_with(tmp_path, shifted))["pose"] == pytest.approx(above)


def test_a_unit_that_disagrees_with_the_alignment_is_followed_and_said(tmp_path: Path) -> None:
    apart = UNIT.replace("slide_mm = -4", "slide_mm = 20")
    said = answer(case_with(tmp_path, apart))["cautions"]
    assert any("from where [alignment] has it; the unit was followed" in line for line in said)
    bare = answer(CASES / "everyday.toml")
    assert not bare["from_unit"]
    assert not any("Read both again" in line for line in bare["cautions"])


def test_a_cut_that_rests_on_invented_lengths_says_so(tmp_path: Path) -> None:
    parts = "clamps_mm = 40\nsocket_adapter_mm = 30\nfoot_adapter_mm = 20\n"
    stated = UNIT.replace("[finished]\n", f"{parts}[finished]\n{parts}")
    for tables, warned in ((UNIT, True), (stated, False), ("", True)):
        found = answer(case_with(tmp_path, tables))
        said = [line for line in found["cautions"] if line.startswith("Measure the parts before")]
        assert bool(said) == warned
        assert all("finished.clamps_mm: 40 (illustrative)" in line for line in said)
        assert any("unit.clamps_mm" in line for line in said) == (tables == UNIT)


def test_an_alignment_that_is_no_walk_is_not_transferred_in_silence(tmp_path: Path) -> None:
    path = case_with(tmp_path, "\n[finished]\noffsets_mm = [25]\n")
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("foot_forward_mm = 0", "foot_forward_mm = 50"), "utf-8")
    found = answer(path)
    (said,) = [line for line in found["cautions"] if "no walk to aim for" in line]
    assert "back beyond straight" in said
    assert any("in the step with it the knee" in each for each in found["chains"][0]["remarks"])
    assert not any("no walk" in line for line in answer(CASES / "everyday.toml")["cautions"])


def test_what_is_printed_says_whose_pose_it_is_and_on_which_side(tmp_path: Path) -> None:
    whole = " ".join(run(CASES / "everyday.toml", "--out", tmp_path).output.split())
    assert "Pose of the foot of [alignment]: ankle" in whole
    back = UNIT.replace("slide_mm = -4", "slide_mm = -9").replace("= 2\n", "= 0\n")
    whole = " ".join(run(case_with(tmp_path, back), "--out", tmp_path).output.split())
    assert "Pose of the foot as the unit reads: ankle 9.3 mm behind the socket's axis" in whole


def test_a_pose_out_of_reach_is_told_in_millimetres_with_its_sense(tmp_path: Path) -> None:
    far = UNIT.replace("slide_mm = -4", "slide_mm = -40\nfoot_slide_mm = -40")
    said = run(case_with(tmp_path, far)).stderr
    assert re.search(r"does: \d+\.\d mm back, \d+\.\d mm (lower|higher) from where", said)
    assert "[m]" not in said


def test_a_tilt_close_to_its_limit_is_said(tmp_path: Path) -> None:
    tables = UNIT + "upper_tilt_most_deg = 2.5\n"
    chains = answer(case_with(tmp_path, tables))["chains"]
    assert any("upper tilt is within 1 deg of its limit" in line
               for chain in chains for line in chain["remarks"])  # fmt: skip


@pytest.mark.parametrize(
    ("tables", "said"),
    [
        (UNIT + "upper_tilt_most_deg = 0\nlower_tilt_most_deg = 0\n", "has no chain that keeps"),
        (UNIT + "pylon_most_mm = 100\n", "at best"),
        (UNIT + "tolerance_mm = 0\n", "within 0 mm and 0.5 deg"),
        (UNIT + "pylon_least_mm = 300\npylon_most_mm = 200\n", "shortest tube is longer"),
        (UNIT + "upper_tilt_step_deg = 0.01\n", "is too fine (allowed: 0 for any tilt, or from"),
        (UNIT.replace("[0, 5, -5]", "[0, 5, 5]"), "says a value twice"),
        (UNIT.replace("[0, 5, -5]", "[]"), "is not a list of shifts"),
        (UNIT.replace("[0, 5, -5]", '["5"]'), "is no shift of a plate"),
        (UNIT.replace("[0, 5, -5]", "[0, 60]"), "finished.offsets_mm[1] = 60"),
        (UNIT.replace("pylon_mm = 160\n", ""), "unit.pylon_mm is missing"),
        (UNIT.replace("pylon_mm = 160", "pylon_mm = 0.16"), "0.16 looks like metres"),
        (UNIT + "ofsets_mm = [0]\n", "nearest: offsets_mm"),
        (
            UNIT.replace("slide_mm = -4", "slide_mm = 40\nfoot_slide_mm = 40"),
            "holds the foot where no alignment",
        ),
        (UNIT.replace("pylon_mm = 160", "pylon_mm = 250"), "holds the foot where no alignment"),
    ],
)
def test_what_cannot_be_is_refused_and_leaves_nothing(
    tmp_path: Path, tables: str, said: str
) -> None:
    case = case_with(tmp_path, tables)
    result = run(case, "--out", tmp_path / "out")
    assert result.exit_code == 2
    assert said in result.stderr
    assert not (tmp_path / "out" / "transfer.pdf").exists()


def test_a_unit_too_short_for_its_pylon_is_refused_with_the_file(tmp_path: Path) -> None:
    tables = """
[unit]
pylon_mm = 19.7
clamps_mm = 20
socket_adapter_mm = 5
foot_adapter_mm = 5
upper_tilt_deg = 0
lower_tilt_deg = 1
slide_mm = 0
[finished]
pylon_least_mm = 1
clamps_mm = 20
socket_adapter_mm = 5
foot_adapter_mm = 5
"""
    path = case_with(tmp_path, tables)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("residual_limb_mm = 150", "residual_limb_mm = 300"), "utf-8")
    result = run(path, "--json")
    assert result.exit_code == 2
    assert f"{path}: unit makes no limb" in result.stderr


def test_other_verbs_read_such_a_case_and_refuse_its_faults(tmp_path: Path) -> None:
    good = CliRunner().invoke(main, ["stance", str(case_with(tmp_path)), "--json"])
    assert good.exit_code == 0
    bare = CliRunner().invoke(main, ["stance", str(CASES / "everyday.toml"), "--json"])
    assert json.loads(good.stdout)["measures"] == json.loads(bare.stdout)["measures"]
    bad = case_with(tmp_path, UNIT.replace("slide_mm = -4", "slide_mm = 400"))
    refused = CliRunner().invoke(main, ["stance", str(bad), "--json"])
    assert refused.exit_code == 2
    assert "unit.slide_mm = 400" in refused.stderr


def test_an_arm_is_refused(tmp_path: Path) -> None:
    result = run(CASES / "arms" / "forearm-level.toml", "--json")
    assert result.exit_code == 2
    assert "simgait arm reads" in result.stderr


def test_the_sheet_is_one_page_of_a4_the_same_each_time(tmp_path: Path) -> None:
    case = case_with(tmp_path)
    for name in ("one", "two"):
        result = run(case, "--out", tmp_path / name)
        assert result.exit_code == 0, result.output
        assert CAUTIONS[1] in " ".join(result.output.split())
    one, two = ((tmp_path / name / "transfer.pdf").read_bytes() for name in ("one", "two"))
    assert one == two
    assert len(re.findall(rb"/Type /Page\b", one)) == 1
    (box,) = re.findall(rb"/MediaBox \[ 0 0 ([\d.]+) ([\d.]+) \]", one)
    assert [float(side) * 25.4 / 72.0 for side in box] == pytest.approx([210.0, 297.0], abs=0.1)


def test_the_check_bar_and_the_drawing_are_true_to_their_scale(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from matplotlib.backends.backend_pdf import PdfPages

    kept, save = [], PdfPages.savefig

    def saved(self: PdfPages, figure: object) -> None:
        kept.append(figure)
        save(self, figure)

    monkeypatch.setattr(PdfPages, "savefig", saved)
    made = transfer(read_case(case_with(tmp_path)))
    draw_transfer(made, tmp_path / "sheet.pdf")
    (figure,) = kept
    bars = figure.findobj(lambda artist: artist.get_gid() == "check bar")
    longest = max(max(bar.get_xdata()) - min(bar.get_xdata()) for bar in bars)
    assert longest * figure.get_size_inches()[0] * 25.4 == pytest.approx(CHECK_BAR)
    (axes,) = figure.axes
    shown = axes.get_xlim()[1] - axes.get_xlim()[0]
    drawn = axes.get_position().width * figure.get_size_inches()[0] * 25.4
    scale = 1000.0 * shown / drawn
    words = [text.get_text() for text in figure.texts]
    (told,) = [re.search(r"Drawn 1 : ([\d.]+)", line) for line in words if "Drawn 1" in line]
    assert told is not None
    assert scale == pytest.approx(float(told[1]))
    tall = axes.get_ylim()[1] - axes.get_ylim()[0]
    high = axes.get_position().height * figure.get_size_inches()[1] * 25.4
    assert 1000.0 * tall / high == pytest.approx(scale)


def test_other_endings_are_refused_in_python(tmp_path: Path) -> None:
    made = transfer(read_case(CASES / "everyday.toml"))
    with pytest.raises(ValueError, match=r"\.pdf"):
        draw_transfer(made, tmp_path / "sheet.png")
    assert list(tmp_path.iterdir()) == []
