"""What the page of a limb shows: the stance playing, the comparison, curves, paper, refusals."""

import json
import re
from math import isfinite

import pytest

from browser import DESK, PHONE, findings
from limb_pages import written_page
from simgait.case import read_case
from simgait.library import models_folder
from simgait.limb import limb_of
from simgait.stance import simulate_stance
from simgait.standing import stand
from simgait.standing.names import AGREED
from simgait.symbols import CAUTIONS, ENDING_SENTENCES

EVERYDAY = models_folder() / "cases" / "everyday.toml"
SLIPS = "foot_forward_mm=-60&socket_flexion_deg=25&length_change_mm=-60&heel_rise_mm=0"
AGREED_STANDING = {quantity.name for quantity in AGREED}
BARE_FOOT = """
heel_stiffness_n_mm = 12
forefoot_stiffness_n_mm = 46
heel_loss = 0.4
forefoot_loss = 0.22
heel_lever_mm = 49
toe_lever_mm = 140
sole_height_mm = 76
heel_rise_mm = 10
mass_kg = 0.56
length_mm = 260
"""


def pose(one):
    return one.page.locator(".walking-only .limb-now .limb-foot").get_attribute("d")


def percent(one):
    return int(re.match(r"\d+", one.page.inner_text(".transport-words"))[0])


def test_the_stance_plays_pauses_steps_and_scrubs(open_page):
    one = open_page("at_percent=20")
    play = one.page.get_by_role("button", name="Play")
    before = pose(one)
    play.click()
    one.page.wait_for_timeout(500)
    one.page.get_by_role("button", name="Pause").click()
    there = percent(one)
    assert 22 < there < 60 and pose(one) != before
    one.page.wait_for_timeout(200)
    assert percent(one) == there
    one.page.get_by_role("button", name="step forward").click()
    assert percent(one) == there + 1
    one.page.get_by_role("button", name="step back").click()
    assert percent(one) == there
    one.page.get_by_label("Instant of the stance, per cent").fill("75")
    assert percent(one) == 75


def test_slow_motion_is_as_slow_as_it_says(open_page):
    one = open_page("at_percent=0")
    one.page.locator(".choice label", has_text="1/10").click()
    end = simulate_stance(limb_of(case := read_case(EVERYDAY), case.baseline)).end_time
    one.page.get_by_role("button", name="Play").click()
    moved = one.page.evaluate(
        """() => new Promise((done) => {
             const place = () => Number(document.querySelector(".transport-bar input").value);
             requestAnimationFrame((begin) => { const from = place();
               setTimeout(() => requestAnimationFrame((end) => done([end - begin, place() - from])),
                 1500); }); })"""
    )
    assert moved[1] == pytest.approx(moved[0] / 1000.0 / 10.0 / end * 100.0, abs=1.0)


def test_nothing_plays_where_stillness_is_wanted(open_page):
    one = open_page(reduced_motion=True)
    before = pose(one)
    one.page.wait_for_timeout(300)
    assert pose(one) == before
    assert one.page.get_by_role("button", name="Play").count() == 0
    one.page.get_by_role("button", name="step forward").click()
    assert pose(one) != before
    moving = "[...document.querySelectorAll('*')].filter((node) => "
    moving += "getComputedStyle(node).transitionDuration !== '0s').length"
    assert one.page.evaluate(moving) == 0


def test_the_held_comparison_stays_while_the_setting_moves(open_page):
    one = open_page("foot_forward_mm=12")
    ghost = one.page.locator(".walking-only .limb-held")
    assert "absent" not in ghost.get_attribute("class")
    one.page.get_by_role("button", name="Hold as comparison").click()
    one.settle()
    assert "absent" in ghost.get_attribute("class")
    one.handle("foot").focus()
    one.page.keyboard.press("Shift+ArrowRight")
    one.settle()
    row = one.page.locator("tr[data-measure='knee_extension_moment_peak_nm'] td")
    now, held, change = (float(text.replace("\u2212", "-")) for text in row.all_inner_texts())
    assert change == pytest.approx(now - held, abs=0.11) and change > 0.0
    one.page.get_by_role("button", name="Back to the case").click()
    one.settle()
    assert one.setting("foot") == 0.0


def test_a_curves_table_holds_the_compiled_engines_numbers(open_page):
    one = open_page("foot_forward_mm=8")
    figure = one.page.locator("figure", has_text="Vertical force")
    figure.locator("summary").click()
    cells = figure.locator("tbody tr").evaluate_all(
        "(rows) => rows.map((row) => [...row.cells].map((cell) => cell.textContent))"
    )
    case = read_case(EVERYDAY, {"alignment.foot_forward_mm": "8"})
    curves = simulate_stance(limb_of(case, case.baseline)).curves
    for place, now, _ in cells:
        at = min(range(len(curves.percent)), key=lambda i: abs(curves.percent[i] - float(place)))
        near = curves.force_up[max(at - 1, 0) : at + 2]
        assert min(near) - 0.5 <= float(now) <= max(near) + 0.5
    assert len(cells) == 21


def test_the_lever_words_are_plane_geometry(open_page):
    one = open_page("at_percent=50")
    words = one.page.inner_text(".drawing-told")
    said = re.search(r"(\d+) ms after.*?(\d+) N from the floor, its line (\d+) mm (\w+)", words)
    time, size, lever, side = said.groups()
    case = read_case(EVERYDAY)
    curves = simulate_stance(limb_of(case, case.baseline)).curves
    at = min(range(len(curves.time)), key=lambda i: abs(curves.time[i] - float(time) / 1000.0))
    up, forward = curves.force_up[at], curves.force_forward[at]
    x, y = curves.knee[at] - (curves.pressure_x[at], 0.0)
    arm = (x * up - y * forward) / (up**2 + forward**2) ** 0.5
    assert float(size) == pytest.approx((up**2 + forward**2) ** 0.5, abs=3.0)
    assert float(lever) == pytest.approx(abs(1000.0 * arm), abs=1.5)
    assert side == ("behind" if arm > 0.0 else "ahead")


def test_a_run_that_ends_badly_says_how_and_has_no_measures(open_page):
    one = open_page(SLIPS)
    assert ENDING_SENTENCES["foot_slipped"] in one.page.inner_text(".messages")
    assert "foot slipped" in one.page.inner_text(".drawing-note")
    assert "knee_extension_moment_peak_nm" not in one.measures()


def test_a_refused_setting_says_why_and_keeps_the_last_good_drawing(open_page, everyday, tmp_path):
    case = read_case(EVERYDAY)
    shortest = limb_of(case, case.baseline).pylon_length - 0.005
    text, count = re.subn(
        r'("pylon":\{"shortest":)[\d.]+', rf"\g<1>{shortest}", everyday.read_text("utf-8")
    )
    assert count == 1
    page = tmp_path / "short.html"
    page.write_text(text, "utf-8")
    one = open_page(path=page)
    one.handle("pylon").focus()
    one.page.keyboard.press("Shift+ArrowDown")
    one.settle()
    good = pose(one)
    assert one.page.locator(".walking-only .drawing.stale").count() == 0
    one.page.keyboard.press("Shift+ArrowDown")
    one.settle()
    assert one.setting("pylon") == -10.0
    assert "the pylon would be" in one.page.inner_text(".messages")
    assert one.page.locator(".walking-only .drawing.stale").count() == 1
    assert pose(one) == good
    assert one.measures() == {}


def test_a_case_that_cannot_run_shows_its_reason(open_page, tmp_path):
    text = EVERYDAY.read_text().replace('model = "carbon-leaf"', BARE_FOOT)
    case = tmp_path / "soft.toml"
    case.write_text(text)
    one = open_page(path=written_page(case, tmp_path))
    words = one.page.inner_text("main")
    assert "cannot be simulated" in words and "stiffness of the sole" in words


def test_a_browser_that_lacks_something_says_what(browser, everyday):
    page = browser.new_page()
    page.add_init_script("delete window.PointerEvent")
    page.goto(everyday.as_uri())
    assert "lacks what the page needs: pointer events" in page.inner_text("#lacking")
    page.close()


def test_without_scripts_the_page_says_so(browser, everyday):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(everyday.as_uri())
    assert "scripts are switched off" in page.locator("body").inner_text()
    context.close()


def test_cautions_version_and_the_word_invented_stand_on_the_page(open_page):
    one = open_page()
    words = one.page.inner_text("body")
    for caution in CAUTIONS:
        assert caution in words
    assert "no real person stands behind it" in words and "simgait 0" in words


@pytest.mark.parametrize("media", ["screen", "print"])
def test_paper_holds_limb_settings_measures_curves_and_cautions(open_page, media):
    one = open_page("foot_forward_mm=9&at_percent=40", media=media)
    seen = one.page.locator(".settings-table").is_visible()
    assert seen is (media == "print")
    assert one.page.locator(".transport").is_visible() is (media == "screen")
    for place in (".drawing", ".measures", ".plot-drawing", ".caution"):
        assert one.page.locator(place).first.is_visible()
    if media == "screen":
        return
    pages = len(re.findall(rb"/Type\s*/Page\b(?!s)", one.page.pdf(prefer_css_page_size=True)))
    assert 1 <= pages <= 2


@pytest.mark.parametrize("size", [PHONE, DESK])
@pytest.mark.parametrize("state", ["foot_forward_mm=9", "standing=1", SLIPS])
def test_no_serious_accessibility_finding(open_page, size, state):
    one = open_page(state, size=size, more_contrast=size == DESK)
    one.page.locator("summary:visible").first.click()
    assert findings(one.page) == []


def test_every_hostile_thing_in_the_data_is_escaped(everyday):
    raw = re.search(
        r'<script type="application/json" id="data">(.*?)</script>',
        everyday.read_text("utf-8"),
        re.S,
    )[1]
    assert not set("<>&") & set(raw)
    assert json.loads(raw)["page"]["title"] == read_case(EVERYDAY).title


@pytest.mark.parametrize("changed", [{}, {"foot_forward_mm": 12}, {"dorsiflexion_deg": -4}])
def test_the_standing_view_shows_pythons_numbers(open_page, changed):
    one = open_page("&".join(f"{name}={value}" for name, value in changed.items()))
    one.page.locator(".view-chooser label", has_text="standing").click()
    one.settle()
    overrides = {f"alignment.{name}": str(value) for name, value in changed.items()}
    both, _ = stand(read_case(EVERYDAY, overrides))
    shown = {name: value for name, value in one.measures().items() if name in AGREED_STANDING}
    wanted = {
        name: both.measures[name] for name in AGREED_STANDING if isfinite(both.measures[name])
    }
    assert shown == pytest.approx(wanted, rel=1e-6, abs=1e-6)
    assert len(wanted) >= 5
    ahead = both.measures["load_line_ahead_of_knee_mm"]
    side = "ahead of" if ahead >= 0.0 else "behind"
    assert f"{abs(ahead):.0f} mm {side} the knee" in one.page.inner_text(".limb-below")
    assert one.page.locator(".standing-only .drawing").is_visible()


def test_the_foot_is_dragged_while_it_stands_and_a_link_opens_the_same_view(open_page):
    one = open_page("standing=1")
    x, y = one.middle("foot")
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    one.page.mouse.move(x + 20, y, steps=5)
    one.page.mouse.up()
    one.settle()
    assert one.setting("foot") > 0.0
    again = open_page(one.page.evaluate("location.hash").removeprefix("#"))
    assert again.page.locator(".standing-only .drawing").is_visible()
    assert again.measures() == one.measures()
