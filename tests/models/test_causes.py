"""Signs read backward: a known misalignment is found back from its own signs with noise."""

import numpy as np
import pytest
from click.testing import CliRunner

from advised import MEASURED, case_with_tables, found_back, text_with_tables
from simgait.advice.causes import alike, causes_of, telling_apart
from simgait.advice.outcomes import Trials, setting_of
from simgait.alignment import WRITTEN_NAMES
from simgait.command import main
from simgait.errors import CaseError
from simgait.symbols.watching import VISIBLE


def test_a_known_misalignment_is_found_back():
    """Of 24 with noise; the guide tells the shares by number."""
    rows = found_back(seed=4).values()
    tried, first, among, inside = (
        sum(getattr(row, name) for row in rows) for name in ("tried", "first", "among", "inside")
    )
    assert tried == 24
    assert among >= 20 and first >= 16 and inside >= 18, (first, among, inside)


def test_without_noise_in_the_middle_nothing_is_off():
    case = case_with_tables("everyday", "")
    true = Trials(case=case).outcomes(setting_of(case)[None]).measures(0)
    lines = [
        f"{key} = {{ value = {true[key]!r}, within = {w / 4} }}" for key, w in MEASURED.items()
    ]
    found = causes_of(case_with_tables("everyday", "[seen]\n" + "\n".join(lines)))
    assert found[0].off == {}


def test_plausibilities_add_to_one_and_fall():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    shares = [each.plausibility for each in found]
    assert sum(shares) == pytest.approx(1.0) and shares == sorted(shares, reverse=True)


def test_one_sign_cannot_tell_and_says_what_would():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    assert len(alike(found)) > 1
    name, gap = telling_apart(found, ("heel_off_s",))
    assert name != "heel_off_s" and gap > 0.0


def test_what_would_tell_is_never_what_was_seen():
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    seen: list[str] = []
    gaps = []
    for _ in range(4):
        name, gap = telling_apart(found, seen)
        assert name not in seen
        seen.append(name)
        gaps.append(gap)
    assert gaps == sorted(gaps, reverse=True)


def test_words_point_the_way_that_numbers_do():
    """Early heel-off: foot back, or toe down (the model's own effects, tests/models)."""
    found = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "early"'))
    single = {next(iter(each.off)): each.off for each in found if len(each.off) == 1}
    assert single["foot_forward_mm"]["foot_forward_mm"] < 0.0
    assert single["dorsiflexion_deg"]["dorsiflexion_deg"] < 0.0
    late = causes_of(case_with_tables("everyday", '[seen]\nheel_off_s = "late"'))
    single = {next(iter(each.off)): each.off for each in late if len(each.off) == 1}
    assert single["foot_forward_mm"]["foot_forward_mm"] > 0.0


def test_a_case_without_signs_is_refused():
    with pytest.raises(CaseError, match="seen is missing"):
        causes_of(case_with_tables("everyday", ""))


def test_a_finely_measured_sign_weighs_as_an_integral_of_ones_own_says():
    """Signs of 8 mm and 1 degree, measured four times as well: simulated without a grid's help."""
    case = case_with_tables("everyday", "")
    setting = setting_of(case) + np.array([9.3, 0.0, -0.7, 0.0, 0.0])
    true = Trials(case=case).outcomes(setting[None]).measures(0)
    table = "[seen]\n" + "\n".join(
        f"{key} = {{ value = {true[key]!r}, within = {within / 4} }}"
        for key, within in MEASURED.items()
    )
    names, spreads = ("foot_forward_mm", "socket_flexion_deg"), np.array([8.0, 3.0])
    draws = np.random.default_rng(11).standard_normal((20_000, 2))

    def evidence(sizes):
        rows = np.tile(setting_of(case), (len(sizes), 1))
        for column, name in enumerate(names):
            rows[:, WRITTEN_NAMES.index(name)] += sizes[:, column]
        then = Trials(case=case).outcomes(rows)
        far = [(then.measure(key) - true[key]) / (w / 4) for key, w in MEASURED.items()]
        likely = np.exp(-0.5 * np.sum(np.square(far), axis=0))
        return float(np.nan_to_num(likely).mean())  # who falls was not seen so

    alone = evidence(draws * spreads * np.array([1.0, 0.0]))
    both = 0.15 * evidence(draws * spreads)
    found = {tuple(each.off): each for each in causes_of(case_with_tables("everyday", table))}
    told = found[names].plausibility / found[names[:1]].plausibility
    assert told == pytest.approx(both / alone, rel=0.15)
    assert found[names].off["foot_forward_mm"] == pytest.approx(9.3, abs=1.5)


def verdict_on(tmp_path, signs):
    """Return what the command says of a case with signs."""
    case = tmp_path / "case.toml"
    case.write_text(text_with_tables("everyday", f"[seen]\n{signs}"), encoding="utf-8")
    result = CliRunner().invoke(main, ["causes", str(case)], env={"COLUMNS": "300"})
    assert result.exit_code == 0, result.output
    return result.stdout


def test_what_nothing_explains_is_not_blamed_on_the_alignment(tmp_path):
    said = verdict_on(tmp_path, "knee_flexion_loading_deg = { value = 60, within = 1 }")
    assert "does not explain knee flexion at loading" in said and "Do not act" in said
    assert "speak for one cause" not in said
    said = verdict_on(tmp_path, "knee_flexion_loading_deg = { value = 17, within = 1 }")
    assert "does not explain" not in said


def test_everything_that_is_visible_may_have_been_seen(tmp_path):
    said = verdict_on(tmp_path, "\n".join(f'{name} = "usual"' for name in VISIBLE))
    assert "Nothing else that the eye can see" in said or "speak for one cause" in said
    assert "does not explain" not in said
