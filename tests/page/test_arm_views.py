"""The page of an arm in a real browser: its words, its comparison, its files, its safety."""

import json
import re
from dataclasses import replace

import pytest

from arm_handles import FOLDER, SIZES, agree, drag, handle, standing_at
from arm_pages import LIBRARY, in_python, library_case
from browser import findings
from limb_pages import written_page
from simgait.arm.running import work_arm
from simgait.case.arm_case import read_arm_case
from simgait.page.arm_data import baseline_setting


def test_what_binds_is_said_in_words_and_follows(open_arm):
    one = open_arm()
    case = library_case("above-elbow")
    for loop in (20.0, 35.0, 60.0):
        one.page.get_by_label("Loop, millimetres").fill(f"{loop:g}")
        one.page.get_by_label("Loop, millimetres").press("Enter")
        one.settle()
        found = in_python(case, {**baseline_setting(case), "loop_mm": loop})
        words = one.page.inner_text(".verdict")
        left = {name: f"{abs(100.0 * margin):.0f}%" for name, margin in found["margins"].items()}
        nearest = min(found["margins"], key=found["margins"].get)
        assert ("Within the limits" in words) is found["measures"]["feasible"]
        assert ("does not tire." in words.split("\n")[2]) is found["measures"]["fatigue_free"]
        assert left[nearest] in one.page.locator(".verdict p").nth(1).inner_text()
    assert "travel left for the device" in words  # at 60 mm, as Python's smallest margin says
    assert nearest == "device_excursion"


def test_the_best_balanced_place_is_the_recommended_one(open_arm):
    for name in ("above-elbow", "shoulder-level"):
        one = open_arm(name=name)
        result = work_arm(library_case(name), draws=0)
        best = 1000.0 * result.positions[result.recommended].loop
        button = one.page.get_by_role("button", name="Put the loop there")
        button.click()
        one.settle()
        assert standing_at(one, "loop") == pytest.approx(best)
        assert not button.is_visible()


@pytest.mark.parametrize("state", ["", "guide_mm=110&held_mass_kg=0.4"])
def test_where_the_loop_fits_is_where_python_says(open_arm, state):
    one = open_arm(state)
    changed = {key: float(value) for key, value in re.findall(r"(\w+)=([-.\d]+)", state)}
    case = library_case("above-elbow")
    kept = {"feasible": [], "fatigue_free": []}
    for loop in range(5, 251):
        setting = {**baseline_setting(case), **changed, "loop_mm": float(loop)}
        found = in_python(case, setting)["measures"]
        for name, loops in kept.items():
            if found[name]:
                loops.append(loop)
    words = one.page.locator(".verdict > p").last.inner_text()
    fits, easy = kept["feasible"], kept["fatigue_free"]
    assert fits == list(range(fits[0], fits[-1] + 1))  # one stretch
    assert f"pull and travel: {fits[0]} to {fits[-1]} mm" in words
    if easy:
        assert f"does not tire: {easy[0]} to {easy[-1]} mm" in words
    else:
        assert "lifting tires at all of these" in words


def test_the_ledger_balances_and_is_pythons(open_arm):
    one = open_arm("loop_mm=45", "shoulder-level")
    case = library_case("shoulder-level")
    found = in_python(case, {**baseline_setting(case), "loop_mm": 45.0})
    cells = one.page.locator(".ledger tr[data-ledger]")
    shown = {
        row.get_attribute("data-ledger"): row.locator("td")
        .first.inner_text()
        .replace("\u2212", "-")
        for row in cells.all()
    }
    signs = {"cable": 1, "spring": 1, "load": -1, "housing": -1, "surplus": -1}
    wanted = {name: f"{signs[name] * found['ledger'][name]:.3f}" for name in shown}
    assert shown == wanted and {"cable", "spring", "load", "housing"} <= shown.keys()
    assert abs(sum(map(float, shown.values()))) <= 0.003


def test_a_held_arm_is_drawn_and_compared(open_arm):
    one = open_arm()
    held = one.page.locator(".arm-whole .arm-held")
    assert "absent" in held.get_attribute("class")
    handle(one, "loop").focus()
    one.page.keyboard.press("PageUp")
    one.settle()
    assert "absent" not in held.get_attribute("class")
    cells = one.page.locator("tr[data-measure='peak_pull_n'] td").all_inner_texts()
    case = library_case("above-elbow")
    before = in_python(case, baseline_setting(case))["measures"]["peak_pull_n"]
    now = in_python(case, {**baseline_setting(case), "loop_mm": 37.0})["measures"]["peak_pull_n"]
    change = f"{now - before:+.0f}".replace("-", "\u2212")
    assert cells == [f"{now:.0f}", f"{before:.0f}", change]
    one.page.get_by_role("button", name="Hold as comparison").click()
    one.settle()
    assert "absent" in held.get_attribute("class")
    one.page.get_by_role("button", name="Back to the case").click()
    one.settle()
    assert standing_at(one, "loop") == 32.0
    assert one.page.locator("tr[data-measure='peak_pull_n'] td").nth(2).inner_text() == "0"
    agree(one)


def test_the_address_carries_the_state_and_gives_it_back(open_arm):
    one = open_arm()
    drag(one, "loop", 30, 8)
    one.page.get_by_role("button", name="Hold as comparison").click()
    drag(one, "guide", 0, -25)
    address = one.page.evaluate("location.hash")
    again = open_arm(address.removeprefix("#"))
    assert again.measures() == one.measures()
    cells = "tr[data-measure='peak_pull_n'] td"
    shown = one.page.locator(cells).all_inner_texts()
    assert again.page.locator(cells).all_inner_texts() == shown
    agree(again, loop_mm=standing_at(one, "loop"), guide_mm=standing_at(one, "guide"))


def test_a_setting_that_cannot_be_says_why_and_keeps_the_last_drawing(open_arm):
    one = open_arm("loop_mm=230")
    cable = one.page.locator(".arm-whole .arm-now .arm-cable")
    drawn = cable.get_attribute("d")
    one.page.get_by_label("Change of the forearm, millimetres").fill("-50")
    one.page.get_by_label("Change of the forearm, millimetres").press("Enter")
    one.settle()
    assert "beyond the end of the forearm at 200 mm" in one.page.inner_text(".messages")
    assert cable.get_attribute("d") == drawn
    assert one.page.locator(".drawing.stale").count() == 2


def test_a_cable_that_passes_the_axis_is_said(open_arm):
    one = open_arm("loop_mm=6")
    case = library_case("above-elbow")
    found = in_python(case, {**baseline_setting(case), "loop_mm": 6.0})
    where = found["measures"]["crosses_axis_at_deg"]
    assert f"the cable passes it at {where:.0f}\u00b0" in one.page.inner_text(".verdict")
    assert "no pull can lift" in one.page.inner_text(".drawing-told")


def test_the_voice_says_setting_and_measures_once_things_rest(open_arm):
    one = open_arm()
    one.page.wait_for_timeout(500)
    one.page.evaluate(
        """() => { window.said = []; new MutationObserver(() => window.said.push(
             document.getElementById("live").textContent))
             .observe(document.getElementById("live"), {childList: true}); }"""
    )
    drag(one, "loop", 24, 6)
    one.page.wait_for_timeout(600)
    (said,) = one.page.evaluate("window.said")
    assert f"loop {standing_at(one, 'loop'):g}" in said.replace("\u00a0", " ")
    assert "Peak pull" in said and "limit" in said


def test_the_files_are_small(arm_files):
    assert max(page.stat().st_size for page in arm_files.values()) <= 1_000_000


def test_a_hostile_title_stays_a_text(open_arm, tmp_path):
    hostile = "<img src=x onerror=\"alert('1')\"></script><script>document.title=1</script>&amp;\\"
    text = (FOLDER / "above-elbow.toml").read_text()
    case = tmp_path / "hostile.toml"
    line = f"title = {json.dumps(hostile)}"
    case.write_text(re.sub(r"^title = .*$", lambda found: line, text, flags=re.M))
    one = open_arm(path=written_page(case, tmp_path))
    assert one.page.locator("h1").evaluate("node => node.textContent") == hostile
    assert one.page.locator("img").count() == 0
    agree(one)
    with one.page.expect_download() as got:
        one.page.get_by_role("button", name="Save as a case file").click()
    got.value.save_as(tmp_path / "saved.toml")
    assert read_arm_case(tmp_path / "saved.toml").title == hostile


@pytest.mark.parametrize(
    ("name", "state"),
    [
        ("above-elbow", "loop_mm=41&guide_mm=90&forearm_change_mm=-30&held_mass_kg=0.35"),
        ("shoulder-level", "loop_mm=50&forearm_change_mm=-38"),
        ("forearm-level", "forearm_change_mm=-19&held_mass_kg=0.5"),
    ],
)
def test_a_saved_case_is_the_same_arm(open_arm, tmp_path, name, state):
    changed = {key: float(value) for key, value in re.findall(r"(\w+)=([-.\d]+)", state)}
    one = open_arm(state, name)
    with one.page.expect_download() as got:
        one.page.get_by_role("button", name="Save as a case file").click()
    saved = tmp_path / got.value.suggested_filename
    got.value.save_as(saved)
    case, own = read_arm_case(saved), library_case(name)
    agree(one, name, case)
    wanted = replace(own.arm, held_mass=changed.get("held_mass_kg", own.arm.held_mass))
    wanted = wanted.with_forearm(changed["forearm_change_mm"] / 1000.0)
    for part in ("forearm", "forearm_mass", "forearm_centre", "device_centre", "tip", "held_mass"):
        assert getattr(case.arm, part) == pytest.approx(getattr(wanted, part), rel=1e-9)
    assert case.harness == own.harness and case.person == own.person
    assert case.errors == own.errors and case.cable.bends == pytest.approx(own.cable.bends)


def test_what_is_printed_is_the_setting_and_the_tables(open_arm):
    one = open_arm("loop_mm=41")
    one.page.emulate_media(media="print")
    assert one.page.locator(".settings-table").is_visible()
    assert "41\u00a0mm" in one.page.inner_text(".settings-table")
    assert not one.page.get_by_role("button", name="Play").is_visible()
    assert one.page.locator(".caution").is_visible()


def test_every_curve_has_a_table_that_shows_its_numbers(open_arm):
    one = open_arm()
    case = library_case("above-elbow")
    found = in_python(case, baseline_setting(case))
    summaries = one.page.locator(".plot summary")
    assert summaries.count() == one.page.locator(".plot").count() == 5
    summaries.first.click()
    rows = one.page.locator(".plot").first.locator("tbody tr")
    last = rows.last.locator("td").all_inner_texts()
    assert last[0] == f"{found['pull'][-1]:.1f}"
    assert last[-1] == f"{found['capacity'][-1]:.1f}"


@pytest.mark.parametrize("name", LIBRARY)
@pytest.mark.parametrize("size", ["phone", "desk"])
def test_a_checker_of_access_finds_nothing_serious(open_arm, size, name):
    state = "loop_mm=50" if name != "forearm-level" else ""
    one = open_arm(state, name, size=SIZES[size])
    for summary in one.page.locator("summary").all():
        if summary.is_visible():
            summary.click()
    assert findings(one.page) == []
