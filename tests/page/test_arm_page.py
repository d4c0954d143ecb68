"""The page of an arm in a real browser: its numbers, its ways in, its safety."""

import json
import re
from contextlib import ExitStack
from dataclasses import replace

import pytest

from arm_pages import LIBRARY, in_python, library_case
from browser import DESK, PHONE, PROJECTOR, findings, opened_page
from limb_pages import LimbPage, written_page
from simgait.arm.running import work_arm
from simgait.case.arm_case import read_arm_case
from simgait.library import models_folder
from simgait.page.arm_data import baseline_setting

FOLDER = models_folder() / "cases" / "arms"
HANDLES = {
    "loop": "Loop of the cable on the forearm",
    "guide": "Guide of the cable on the upper arm",
    "length": "Length of the forearm",
}
SIZES = {"phone": PHONE, "desk": DESK, "projector": PROJECTOR}
SHOWN = ("peak_pull_n", "pull_at_90_n", "lever_at_90_mm", "excursion_mm", "work_j")
SHOWN_OF_LENGTH = ("shoulder_moment_nm", "inertia_kg_m2", "reach_mm")


@pytest.fixture(scope="session")
def pages(tmp_path_factory):
    folder = tmp_path_factory.mktemp("arms")
    return {name: written_page(FOLDER / f"{name}.toml", folder) for name in LIBRARY}


@pytest.fixture
def open_page(browser, pages):
    with ExitStack() as stack:

        def make(state="", name="above-elbow", path=None, **options):
            opened = opened_page(browser, path or pages[name], fragment=state, **options)
            found = LimbPage(page=stack.enter_context(opened))
            found.settle()
            return found

        yield make


def handle(one, name, place=0):
    return one.page.get_by_role("slider", name=HANDLES[name], exact=True).nth(place)


def standing_at(one, name):
    return float(handle(one, name).get_attribute("aria-valuenow"))


def drag(one, name, right, down, place=0):
    handle(one, name, place).scroll_into_view_if_needed()
    box = handle(one, name, place).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    one.page.mouse.move(x + right, y + down, steps=6)
    one.page.mouse.up()
    one.settle()


def agree(one, name="above-elbow", case=None, **changed):
    """Compare what the tables show with `simgait.arm`."""
    case = case or library_case(name)
    found = in_python(case, {**baseline_setting(case), **changed})
    wanted = {key: found["length"][key] for key in SHOWN_OF_LENGTH}
    if found["measures"] is not None:
        wanted |= {key: found["measures"][key] for key in SHOWN}
    shown = one.measures()
    assert {key: shown[key] for key in wanted} == pytest.approx(wanted, rel=1e-9)


@pytest.mark.parametrize("name", LIBRARY)
def test_a_case_opens_with_pythons_numbers(open_page, name):
    agree(open_page(name=name), name)


def test_the_page_shows_the_device_of_a_forearm_level_arm(open_page):
    one = open_page(name="forearm-level")
    result = work_arm(library_case("forearm-level"), draws=0)
    shown = one.measures()
    assert shown["lost_n_mm"] == pytest.approx(1000.0 * result.device.lost, rel=1e-9)
    assert shown["efficiency"] == pytest.approx(result.device.efficiency, rel=1e-9)
    assert handle(one, "loop").count() == 0
    drag(one, "length", -40, 0)
    assert standing_at(one, "length") < -10.0
    agree(one, "forearm-level", forearm_change_mm=standing_at(one, "length"))


@pytest.mark.parametrize(
    ("name", "key", "place", "move", "grows"),
    [
        ("loop", "loop_mm", 0, (40, 10), True),
        ("loop", "loop_mm", 1, (-20, -5), False),
        ("guide", "guide_mm", 0, (0, -40), True),
        ("guide", "guide_mm", 0, (0, 30), False),
        ("length", "forearm_change_mm", 0, (-40, -10), False),
    ],
)
def test_a_dragged_handle_gives_pythons_numbers(open_page, name, key, place, move, grows):
    one = open_page()
    before = standing_at(one, name)
    drag(one, name, *move, place)
    now = standing_at(one, name)
    assert (now > before) is grows and now != before
    agree(one, **{key: now})


@pytest.mark.parametrize(
    ("state", "name"),
    [
        ("loop_mm=51&guide_mm=100&held_mass_kg=0.5", "above-elbow"),
        ("loop_mm=120&forearm_change_mm=-60", "above-elbow"),
        ("loop_mm=25&guide_mm=60&forearm_change_mm=20&held_mass_kg=1.5", "shoulder-level"),
        ("forearm_change_mm=-38", "shoulder-level"),
    ],
)
def test_positions_of_an_address_have_pythons_numbers(open_page, state, name):
    changed = {key: float(value) for key, value in re.findall(r"(\w+)=([-.\d]+)", state)}
    agree(open_page(state, name), name, **changed)


def test_the_arm_follows_while_the_loop_is_dragged(open_page):
    one = open_page()
    handle(one, "loop", 1).scroll_into_view_if_needed()
    box = handle(one, "loop", 1).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    seen = []
    for step in range(1, 5):
        one.page.mouse.move(x + 12 * step, y + 3 * step)
        one.page.wait_for_timeout(200)
        cable = one.page.locator(".arm-near .arm-now .arm-cable").get_attribute("d")
        seen.append((standing_at(one, "loop"), one.measures()["peak_pull_n"], cable))
    one.page.mouse.up()
    assert all(len(set(each)) == 4 for each in zip(*seen, strict=True))
    pulls = [pull for _, pull, _ in seen]
    assert pulls == sorted(pulls, reverse=True)  # farther out, the lighter


def test_arrow_keys_move_the_loop_finely_and_with_shift_coarsely(open_page):
    one = open_page()
    handle(one, "loop").focus()
    for key, wanted in (
        ("ArrowRight", 33), ("Shift+ArrowLeft", 28), ("Home", 5), ("End", 250), ("PageDown", 245),
    ):  # fmt: skip
        one.page.keyboard.press(key)
        one.settle()
        assert standing_at(one, "loop") == wanted
    agree(one, loop_mm=245.0)


def test_every_setting_is_reached_by_tabs_alone(open_page):
    one = open_page()
    names = set()
    for _ in range(50):
        one.page.keyboard.press("Tab")
        names.add(
            one.page.evaluate(
                "document.activeElement.ariaLabel ?? "
                "document.activeElement.labels?.[0]?.textContent ?? ''"
            )
        )
    wanted = {*HANDLES.values(), "Load in the device, kg", "Flexion of the elbow, per cent"}
    assert wanted <= names


def test_a_finger_moves_the_loop_on_a_phone_without_moving_the_page(open_page):
    one = open_page(size=PHONE, touch=True)
    one.page.locator(".arm-chooser").get_by_text("elbow, enlarged").tap()
    one.settle()
    before = one.page.evaluate("scrollY")
    box = handle(one, "loop").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    session = one.page.context.new_cdp_session(one.page)

    def touch(kind, *points):
        told = [{"x": px, "y": py} for px, py in points]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": told})

    touch("touchStart", (x, y))
    for step in range(1, 7):
        touch("touchMove", (x + 4 * step, y + step))
    touch("touchEnd")
    one.settle()
    assert standing_at(one, "loop") > 40.0
    assert one.page.evaluate("scrollY") == before
    agree(one, loop_mm=standing_at(one, "loop"))


@pytest.mark.parametrize("name", LIBRARY)
@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_wider_than_the_screen(open_page, size, name):
    width, height = SIZES[size]
    one = open_page("forearm_change_mm=60", name, size=SIZES[size])
    assert one.page.evaluate("document.documentElement.scrollWidth") <= width
    drawing = one.page.locator(".drawing").first.bounding_box()
    assert drawing["y"] >= 0.0 and drawing["y"] + drawing["height"] <= height


def test_flexion_is_played_and_scrubbed(open_page):
    one = open_page()
    bar = one.page.get_by_label("Flexion of the elbow, per cent")
    bar.fill("100")
    one.settle()
    told = one.page.inner_text(".drawing-told")
    case = library_case("above-elbow")
    found = in_python(case, baseline_setting(case))
    assert f"Elbow at 135\u00b0: pull {found['pull'][-1]:.0f}\u00a0N" in told
    assert f"cable drawn {1000.0 * found['drawn'][-1]:.0f}\u00a0mm" in told
    hook = one.page.locator(".arm-whole .arm-now .arm-hook")
    one.page.get_by_role("button", name="Play").click()
    drawn = set()
    for _ in range(6):
        one.page.wait_for_timeout(150)
        drawn.add(hook.get_attribute("d"))
    assert len(drawn) >= 4


def test_without_motion_there_is_no_play_button(open_page):
    one = open_page(reduced_motion=True)
    assert one.page.get_by_role("button", name="Play").count() == 0
    one.page.get_by_role("button", name="step forward").click()
    one.settle()
    agree(one)


def test_what_binds_is_said_in_words_and_follows(open_page):
    one = open_page()
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


def test_the_best_balanced_place_is_the_recommended_one(open_page):
    for name in ("above-elbow", "shoulder-level"):
        one = open_page(name=name)
        result = work_arm(library_case(name), draws=0)
        best = 1000.0 * result.positions[result.recommended].loop
        button = one.page.get_by_role("button", name="Put the loop there")
        button.click()
        one.settle()
        assert standing_at(one, "loop") == pytest.approx(best)
        assert not button.is_visible()


def test_the_ledger_balances_and_is_pythons(open_page):
    one = open_page("loop_mm=45", "shoulder-level")
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


def test_a_held_arm_is_drawn_and_compared(open_page):
    one = open_page()
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


def test_the_address_carries_the_state_and_gives_it_back(open_page):
    one = open_page()
    drag(one, "loop", 30, 8)
    one.page.get_by_role("button", name="Hold as comparison").click()
    drag(one, "guide", 0, -25)
    address = one.page.evaluate("location.hash")
    again = open_page(address.removeprefix("#"))
    assert again.measures() == one.measures()
    cells = "tr[data-measure='peak_pull_n'] td"
    shown = one.page.locator(cells).all_inner_texts()
    assert again.page.locator(cells).all_inner_texts() == shown
    agree(again, loop_mm=standing_at(one, "loop"), guide_mm=standing_at(one, "guide"))


def test_a_setting_that_cannot_be_says_why_and_keeps_the_last_drawing(open_page):
    one = open_page("loop_mm=230")
    cable = one.page.locator(".arm-whole .arm-now .arm-cable")
    drawn = cable.get_attribute("d")
    one.page.get_by_label("Change of the forearm, millimetres").fill("-50")
    one.page.get_by_label("Change of the forearm, millimetres").press("Enter")
    one.settle()
    assert "beyond the end of the forearm at 200 mm" in one.page.inner_text(".messages")
    assert cable.get_attribute("d") == drawn
    assert one.page.locator(".drawing.stale").count() == 2


def test_a_cable_that_passes_the_axis_is_said(open_page):
    one = open_page("loop_mm=6")
    case = library_case("above-elbow")
    found = in_python(case, {**baseline_setting(case), "loop_mm": 6.0})
    where = found["measures"]["crosses_axis_at_deg"]
    assert f"the cable passes it at {where:.0f}\u00b0" in one.page.inner_text(".verdict")
    assert "no pull can lift" in one.page.inner_text(".drawing-told")


def test_the_voice_says_setting_and_measures_once_things_rest(open_page):
    one = open_page()
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


def test_the_files_are_small(pages):
    assert max(page.stat().st_size for page in pages.values()) <= 1_000_000


def test_a_hostile_title_stays_a_text(open_page, tmp_path):
    hostile = "<img src=x onerror=\"alert('1')\"></script><script>document.title=1</script>&amp;\\"
    text = (FOLDER / "above-elbow.toml").read_text()
    case = tmp_path / "hostile.toml"
    line = f"title = {json.dumps(hostile)}"
    case.write_text(re.sub(r"^title = .*$", lambda found: line, text, flags=re.M))
    one = open_page(path=written_page(case, tmp_path))
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
def test_a_saved_case_is_the_same_arm(open_page, tmp_path, name, state):
    changed = {key: float(value) for key, value in re.findall(r"(\w+)=([-.\d]+)", state)}
    one = open_page(state, name)
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


def test_what_is_printed_is_the_setting_and_the_tables(open_page):
    one = open_page("loop_mm=41")
    one.page.emulate_media(media="print")
    assert one.page.locator(".settings-table").is_visible()
    assert "41\u00a0mm" in one.page.inner_text(".settings-table")
    assert not one.page.get_by_role("button", name="Play").is_visible()
    assert one.page.locator(".caution").is_visible()


def test_every_curve_has_a_table_that_shows_its_numbers(open_page):
    one = open_page()
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
def test_a_checker_of_access_finds_nothing_serious(open_page, size, name):
    state = "loop_mm=50" if name != "forearm-level" else ""
    one = open_page(state, name, size=SIZES[size])
    for summary in one.page.locator("summary").all():
        if summary.is_visible():
            summary.click()
    assert findings(one.page) == []
