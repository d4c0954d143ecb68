"""What must come out when a standing limb is changed, and what the verb gives out."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
from dataclasses import replace

import pytest

from simgait.case import read_case
from simgait.command.stand import run_stand
from simgait.errors import CaseError
from simgait.library import models_folder, names, read_wearer
from simgait.library.strengths import Strength, read_strength, strength_entry
from simgait.limb import limb_of, limbs_of, sole_in_prosthesis
from simgait.parts.sole import sole_profile
from simgait.physics.bench import BENCH_TILT
from simgait.standing import stand, stand_limb
from simgait.standing.names import AGREED, ENDINGS, LIMITS, QUANTITIES
from simgait.standing.posture import Stance, bench_limb
from simgait.standing.result import length_mismatch, standing
from simgait.units import mm_from_metres
from standers import FEET, aligned, stander, stands, stiffened

CASES = names("cases")
WEARERS = names("wearers")


@pytest.mark.parametrize("foot", FEET)
def test_on_the_bench_the_sole_lies_as_it_is_set(foot: str) -> None:
    # Bench alignment: pylon upright, so the residual limb leans by the socket's flexion, and the
    # unloaded sole is tilted by what the bench sets, seen from the floor.
    limb = bench_limb(stander(foot))
    forward, up = sole_in_prosthesis(limb)
    lean = limb.alignment.socket_flexion + BENCH_TILT
    heights = up * math.cos(lean) - forward * math.sin(lean)
    _, rise = sole_profile(limb.foot)
    assert heights - heights.min() == pytest.approx(rise - rise.min(), abs=1e-6)


def test_lengths_match_in_the_shoes_the_pylon_was_cut_in() -> None:
    for name in CASES:
        case = read_case(models_folder() / "cases" / f"{name}.toml")
        limb = limb_of(case, case.baseline)
        change = case.baseline.length_change
        assert length_mismatch(limb) == pytest.approx(change, abs=1e-12)
        higher = replace(limb, sound_lift=limb.sound_lift + 0.004)
        assert length_mismatch(higher) == pytest.approx(change - 0.004, abs=1e-12)


@pytest.fixture(params=FEET)
def foot(request: pytest.FixtureRequest) -> str:
    return str(request.param)


# (change, measure, sign of the change): statics and common practice
DIRECTIONS = (
    ("foot forward", "load_line_ahead_of_knee_mm", +1),
    ("foot back", "load_line_ahead_of_knee_mm", -1),
    ("foot back", "knee_flexion_deg", +1),
    ("toe up", "knee_flexion_moment_nm", +1),
    ("toe up", "knee_flexion_deg", +1),
    ("toe down", "knee_flexion_moment_nm", -1),
    ("heel high", "knee_flexion_moment_nm", +1),
    ("socket flexed", "knee_flexion_deg", +1),
    ("socket flexed", "knee_flexion_moment_nm", +1),
)


@pytest.mark.parametrize("way", [0, 1])
@pytest.mark.parametrize(("change", "measure", "sign"), DIRECTIONS)
def test_direction(foot: str, change: str, measure: str, sign: int, way: int) -> None:
    gap = stands(foot, change)[way].measures[measure] - stands(foot)[way].measures[measure]
    assert sign * gap > 0.0


def test_a_shift_of_the_foot_moves_the_line_by_about_as_much(foot: str) -> None:
    # Derived: the body stays over the foot, so the knee alone goes back by the shift; the socket
    # gives a little.
    moved = stands(foot, "foot forward")[0].measures["load_line_ahead_of_knee_mm"]
    assert moved - stands(foot)[0].measures["load_line_ahead_of_knee_mm"] == pytest.approx(
        10.0, abs=1.0
    )


def test_the_bench_is_where_the_wearer_learnt_to_stand(foot: str) -> None:
    # the habit, 2.5 degrees at bench alignment, is what the body's place was chosen by
    for way in stands(foot):
        assert way.measures["knee_flexion_deg"] == pytest.approx(2.5, abs=1e-6)
        assert way.measures["hip_effort_percent"] == pytest.approx(0.0, abs=1e-6)


def test_a_longer_prosthesis_lifts_the_hip_by_its_length(foot: str) -> None:
    longer = stand_limb(aligned(stander(foot), length_change=0.010), read_strength("any"))
    for before, after in zip(stands(foot), longer, strict=True):
        name = "hip_below_level_mm"
        assert before.measures[name] - after.measures[name] == pytest.approx(10.0, abs=0.5)
        assert 0.0 < before.measures[name] < 30.0


def test_reserves_add_up_to_the_carrying_sole(foot: str) -> None:
    for way in stands(foot, "toe up"):
        reserves = way.measures["forward_reserve_mm"] + way.measures["backward_reserve_mm"]
        length = mm_from_metres(way.stance.limb.foot.carrying_length)
        assert reserves == pytest.approx(length, abs=1e-9)
        assert way.measures["heel_share"] + way.measures["forefoot_share"] == pytest.approx(1.0)


@pytest.mark.parametrize("way", ["forward", "backward"])
def test_slope_and_push_are_one_question(foot: str, way: str) -> None:
    # Statics: both move the load line alike; only the weight square to the floor differs, by the
    # cosine of the slope.
    for found in stands(foot):
        slope = math.tan(math.radians(found.measures[f"tips_{way}_slope_deg"]))
        push = found.measures[f"tips_{way}_push_n"] / found.stance.limb.body_weight
        assert slope == pytest.approx(push, rel=0.03)
        assert slope > 0.0


def test_two_feet_stand_safer_than_one(foot: str) -> None:
    both, alone = stands(foot)
    for name in ("tips_forward_push_n", "tips_backward_push_n"):
        assert both.measures[name] > alone.measures[name]


def test_nothing_balances_beyond_the_sole(foot: str) -> None:
    # The load may not leave the foot, however strong the wearer.
    limb = stander(foot)
    _, alone = stand_limb(limb, Strength(knee=6.0, hip=6.0, held=1.0))
    height = 0.55 * limb.person.stature + limb.sound_lift
    for way in ("forward", "backward"):
        reserve = alone.measures[f"{way}_reserve_mm"] / 1000.0
        most = limb.body_weight * reserve / height
        assert 0.0 < alone.measures[f"tips_{way}_push_n"] <= most


def test_a_weak_knee_takes_less_load() -> None:
    limb = aligned(stander(), dorsiflexion=math.radians(10.0))
    both, _ = stand_limb(limb, Strength(knee=0.6, hip=1.0, held=0.25))
    assert both.ending == "stands"
    assert 0.06 < both.measures["prosthesis_load_share"] < 0.45
    assert both.measures["knee_effort_percent"] == pytest.approx(25.0, abs=0.1)


def toppling() -> Stance:
    """Return a wearer of weak hips on a hard plate of a foot, toe far down and far ahead."""
    limb = aligned(stander(), dorsiflexion=-math.radians(15.0), foot_forward=0.05)
    stance = stiffened(limb, 1000.0)
    return replace(stance, strength=replace(stance.strength, hip=0.1))


def test_who_cannot_stand_is_told_why() -> None:
    way = standing(toppling(), 1.0)
    assert way.ending == "hip_gives_way"
    assert way.ending in ENDINGS
    assert way.limits == {}
    assert math.isnan(way.measures["knee_flexion_moment_nm"])
    assert math.isfinite(way.measures["heel_mismatch_deg"])


def test_a_knee_without_strength_is_stood_over() -> None:
    # no muscle at all is needed where the line runs through the knee: the body moves there
    limb = aligned(stander(), dorsiflexion=math.radians(10.0))
    for way in stand_limb(limb, Strength(knee=0.02, hip=1.0, held=0.25)):
        assert way.ending == "stands"
        assert 0.0 <= way.measures["knee_flexion_moment_nm"] < 0.5
        assert way.pose.place < way.stance.place


def test_a_knee_past_straight_is_held_by_its_ligaments() -> None:
    # far plantarflexed, the knee goes as far as it can and no farther; the hip takes the rest
    limb = aligned(stander(), dorsiflexion=-math.radians(8.0))
    _, alone = stand_limb(limb, Strength(knee=6.0, hip=6.0, held=1.0))
    assert alone.measures["knee_flexion_deg"] == pytest.approx(-5.0, abs=1e-6)
    assert alone.measures["hip_effort_percent"] > 1.0


@pytest.mark.parametrize("case", CASES)
def test_all_cases_stand_in_all_their_alignments(case: str) -> None:
    checked = read_case(models_folder() / "cases" / f"{case}.toml")
    strength = read_strength(checked.wearer)
    for limb in limbs_of(checked):
        for way in stand_limb(limb, strength):
            assert way.ending == "stands"
            missing = {name for name, value in way.measures.items() if not math.isfinite(value)}
            assert missing <= {"pelvic_tilt_deg"}
            assert all(limit.reason in LIMITS for limit in way.limits.values())


def test_every_wearer_has_a_strength() -> None:
    for wearer in WEARERS:
        assert strength_entry(wearer) == wearer
        assert read_wearer(wearer).mass * read_strength(wearer).knee > 0.0
    assert read_strength("nobody of that name") == read_strength("any")


# ---- the verb ---------------------------------------------------------------------------------

CASE = models_folder() / "cases" / "length-mismatch.toml"


def test_json_has_the_agreed_names(capsys: pytest.CaptureFixture[str]) -> None:
    run_stand(str(CASE), None, True)
    said = json.loads(capsys.readouterr().out)
    for entry in (said, said["prosthesis_alone"]):
        assert entry["ending"] == "stands"
        assert {quantity.name for quantity in QUANTITIES} <= set(entry)
    assert all(said[quantity.name] is not None for quantity in AGREED)
    assert said["prosthesis_alone"]["pelvic_tilt_deg"] is None
    assert any("without guards" in caution for caution in said["cautions"])
    for name in ("title", "filled", "sources", "version", "assumptions"):
        assert said[name]
    both, _ = stand(read_case(CASE))
    name = "load_line_ahead_of_knee_mm"
    assert said[name] == pytest.approx(both.measures[name])


def test_json_loads_nothing_heavy() -> None:
    code = (
        "import sys; from simgait.command.stand import run_stand;"
        f"run_stand({str(CASE)!r}, None, True);"
        "heavy = {'numba', 'pandas', 'pyarrow', 'matplotlib', 'PIL'} & set(sys.modules);"
        "sys.exit(f'loaded: {heavy}' if heavy else 0)"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr


BAD_CASES = (
    ("foot_forward_mm = 0", "foot_forward_mm = 900", "alignment.foot_forward_mm"),
    ("foot_forward_mm = 0", "foot_forwrd_mm = 0", "foot_forward_mm"),
    ("forefoot_stiffness_n_mm = 46", "forefoot_stiffness_n_mm = 400", "stiffness of the sole"),
)


@pytest.mark.parametrize(("good", "bad", "said"), BAD_CASES)
def test_a_bad_case_is_refused_and_nothing_written(
    tmp_path, good: str, bad: str, said: str
) -> None:
    text = CASE.read_text(encoding="utf-8")
    assert good in text
    path = tmp_path / "case.toml"
    text = text.replace("heel_stiffness_n_mm = 40", "heel_stiffness_n_mm = 6")
    path.write_text(text.replace(good, bad), encoding="utf-8")
    with pytest.raises(CaseError, match=re.escape(said)):
        run_stand(str(path), str(tmp_path / "out"), False)
    assert not (tmp_path / "out").exists()


def test_the_figure_is_drawn_and_says_its_cautions(
    tmp_path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    from PIL import Image

    monkeypatch.setenv("COLUMNS", "150")

    run_stand(str(CASE), str(tmp_path), False)
    with Image.open(tmp_path / "stand.png") as picture:
        assert picture.width > 800
        assert "without guards" in picture.info["Description"]
        assert len(picture.convert("RGB").getcolors(1 << 20) or []) > 20
    printed = capsys.readouterr().out
    assert "load_line_ahead_of_knee_mm" in printed
    assert "without guards" in printed


def test_a_figure_without_cautions_is_refused(tmp_path) -> None:
    from simgait.pictures.standing import draw_standing

    both, alone = stands("firm")
    with pytest.raises(ValueError, match="cautions"):
        draw_standing("invented", both, alone, ((), "0"), tmp_path / "stand.png")
    assert list(tmp_path.iterdir()) == []


def test_who_cannot_stand_is_drawn_too(tmp_path) -> None:
    from simgait.pictures.standing import draw_standing

    way = standing(toppling(), 1.0)
    path = draw_standing("invented", way, way, (("caution",), "0"), tmp_path / "stand.png")
    assert path.stat().st_size > 1000


def test_the_socket_decides_how_far_the_limb_turns_in_it() -> None:
    # A stiffer socket turns less under the same moment: turn = moment / stiffness.
    limb = stander()
    for stiffness in (300.0, 3000.0):
        socket = replace(limb.socket, rotational_stiffness=stiffness)
        _, alone = stand_limb(replace(limb, socket=socket), read_strength("steady-transtibial"))
        turn = alone.pose.prosthesis_lean - alone.pose.residual_lean
        moment = alone.measures["socket_flexion_moment_nm"]
        assert turn * stiffness == pytest.approx(moment, rel=1e-9)
