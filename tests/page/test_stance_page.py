"""The page of a below-knee limb in a real browser: its numbers, its ways in, its safety."""

import re

import pytest

from browser import DESK, PHONE, PROJECTOR
from limb_pages import written_page
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.case import read_case
from simgait.library import models_folder
from simgait.limb import limb_of
from simgait.page.stance_page import KEY_MEASURES
from simgait.stance import simulate_stance

EVERYDAY = models_folder() / "cases" / "everyday.toml"


def python_measures(path, **changed):
    """Return what the compiled engine says of a case with some values changed."""
    case = read_case(path)
    written = {**case.baseline.as_written(), **changed}
    return simulate_stance(limb_of(case, Alignment.from_written(written))).measures


def agree(shown, computed):
    wanted = {name: computed[name] for name in KEY_MEASURES}
    assert {name: shown[name] for name in KEY_MEASURES} == pytest.approx(wanted, rel=1e-9)


def drag(one, name, right, down):
    """Drag a handle by mouse and let go."""
    x, y = one.middle(name)
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    one.page.mouse.move(x + right, y + down, steps=6)
    one.page.mouse.up()
    one.settle()


@pytest.mark.parametrize(
    ("name", "key", "move", "grows"),
    [
        ("foot", "foot_forward_mm", (16, 0), True),
        ("foot", "foot_forward_mm", (-12, 0), False),
        ("toe", "dorsiflexion_deg", (0, -14), True),
        ("pylon", "length_change_mm", (0, 16), True),
    ],
)
def test_a_dragged_handle_gives_the_compiled_engines_numbers(open_page, name, key, move, grows):
    one = open_page()
    before = one.setting(name)
    drag(one, name, *move)
    now = one.setting(name)
    assert (now > before) is grows and now != before
    agree(one.measures(), python_measures(EVERYDAY, **{key: now}))


def test_numbers_and_drawing_follow_while_the_foot_is_dragged(open_page):
    one = open_page()
    x, y = one.middle("foot")
    foot = one.page.locator(".walking-only .limb-now .limb-foot")
    one.page.mouse.move(x, y)
    one.page.mouse.down()
    seen = []
    for step in range(1, 5):
        one.page.mouse.move(x + 9 * step, y)
        one.page.wait_for_timeout(120)
        seen.append((one.setting("foot"), one.measures()["toe_lever_mm"], foot.get_attribute("d")))
        agree(one.measures(), python_measures(EVERYDAY, foot_forward_mm=seen[-1][0]))
    one.page.mouse.up()
    assert len({setting for setting, _, _ in seen}) == 4
    assert len({drawn for _, _, drawn in seen}) == 4


def test_the_arrow_keys_move_a_handle_finely_and_with_shift_coarsely(open_page):
    one = open_page()
    one.handle("foot").focus()
    one.page.keyboard.press("ArrowRight")
    one.settle()
    assert one.setting("foot") == 1.0
    one.page.keyboard.press("Shift+ArrowLeft")
    one.settle()
    assert one.setting("foot") == -4.0
    one.page.keyboard.press("Home")
    one.settle()
    assert one.setting("foot") == -60.0
    agree(one.measures(), python_measures(EVERYDAY, foot_forward_mm=-60.0))


def test_every_setting_is_reached_by_tabs_alone(open_page):
    one = open_page()
    names = set()
    for _ in range(60):
        one.page.keyboard.press("Tab")
        names.add(
            one.page.evaluate(
                "document.activeElement.ariaLabel ?? "
                "document.activeElement.labels?.[0]?.textContent ?? ''"
            )
        )
    wanted = {"Foot forward", "Dorsiflexion", "Socket flexion", "Length change"}
    assert wanted | {"Heel rise of the shoe", "Foot fore and aft"} <= names


def test_a_number_typed_beside_a_slider_is_taken_and_one_out_of_range_is_said(open_page):
    one = open_page()
    field = one.page.get_by_label("Socket flexion, degrees")
    field.fill("7,5")
    field.press("Enter")
    one.settle()
    agree(one.measures(), python_measures(EVERYDAY, socket_flexion_deg=7.5))
    field.fill("99")
    field.press("Enter")
    one.settle()
    assert field.input_value() == "25.00"
    assert "It may be" in one.page.inner_text(".settings-sliders")


def test_a_finger_moves_the_foot_on_a_phone_without_moving_the_page(open_page):
    one = open_page(size=PHONE, touch=True)
    x, y = one.middle("foot")
    session = one.page.context.new_cdp_session(one.page)

    def touch(kind, *points):
        told = [{"x": px, "y": py} for px, py in points]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": told})

    touch("touchStart", (x, y))
    for step in range(1, 7):
        touch("touchMove", (x + 4 * step, y - 12 * step))
    touch("touchEnd")
    one.settle()
    assert one.setting("foot") > 0.0
    assert one.page.evaluate("scrollY") == 0
    agree(one.measures(), python_measures(EVERYDAY, foot_forward_mm=one.setting("foot")))


@pytest.mark.parametrize("size", [PHONE, DESK, PROJECTOR])
def test_nothing_is_wider_than_the_screen(open_page, size):
    width, height = size
    one = open_page("foot_forward_mm=15", size=size)
    assert one.page.evaluate("document.documentElement.scrollWidth") <= width
    drawing = one.page.locator(".drawing").first.bounding_box()
    assert drawing["y"] >= 0.0 and drawing["y"] + drawing["height"] <= height


def test_the_address_carries_the_state_and_gives_it_back(open_page):
    one = open_page()
    drag(one, "foot", 20, 0)
    one.page.get_by_role("button", name="Hold as comparison").click()
    drag(one, "toe", 0, -10)
    address = one.page.evaluate("location.hash")
    again = open_page(address.removeprefix("#"))
    assert again.measures() == one.measures()
    held = one.page.locator("tr[data-measure='heel_off_s'] td").nth(1).inner_text()
    assert again.page.locator("tr[data-measure='heel_off_s'] td").nth(1).inner_text() == held
    agree(
        again.measures(),
        python_measures(
            EVERYDAY, foot_forward_mm=one.setting("foot"), dorsiflexion_deg=one.setting("toe")
        ),
    )


def test_what_an_address_says_wrongly_is_brought_into_range_or_left_out_and_said(open_page):
    one = open_page("foot_forward_mm=900&dorsiflexion_deg=abc&<b>x</b>=1&length_change_mm=2.4")
    assert one.setting("foot") == 60.0 and one.setting("toe") == 0.0 and one.setting("pylon") == 2.0
    words = one.page.inner_text(".messages")
    for part in (
        "900 cannot be set; 60",
        '"abc" is no number',
        '"<b>x</b>" is nothing',
        "2 is taken",
    ):
        assert part in words
    assert one.page.locator(".messages b").count() == 0


def test_the_voice_says_setting_and_measures_once_things_rest(open_page):
    one = open_page()
    one.page.wait_for_timeout(400)
    one.page.evaluate(
        """() => { window.said = []; new MutationObserver(() => window.said.push(
             document.getElementById("live").textContent))
             .observe(document.getElementById("live"), {childList: true}); }"""
    )
    drag(one, "foot", 24, 0)
    one.page.wait_for_timeout(500)
    (said,) = one.page.evaluate("window.said")
    assert f"foot forward {one.setting('foot'):g}" in said.replace("\u00a0", " ")
    assert "knee flexion moment" in said and "newton" not in said.split(".")[0]


def test_the_page_is_small_and_asks_for_nothing_while_it_is_used(open_page, everyday):
    one = open_page()
    asked = []
    one.page.on("request", lambda request: asked.append(request.url))
    drag(one, "foot", 20, 0)
    one.page.get_by_role("button", name="Play").click()
    one.page.wait_for_timeout(600)
    assert asked == []
    assert everyday.stat().st_size <= 1_000_000


def test_a_hostile_title_stays_a_text(open_page, tmp_path):
    hostile = "<img src=x onerror=alert(1)></script><script>document.title=1</script>&amp;"
    text = re.sub(r"^title = .*$", f"title = '{hostile}'", EVERYDAY.read_text(), flags=re.M)
    case = tmp_path / "hostile.toml"
    case.write_text(text)
    one = open_page(path=written_page(case, tmp_path))
    assert one.page.inner_text("h1") == hostile
    assert one.page.title() == f"{hostile} - simgait"
    assert one.page.locator("img").count() == 0
    agree(one.measures(), python_measures(EVERYDAY))


@pytest.mark.parametrize("name", WRITTEN_NAMES)
def test_a_saved_case_is_the_same_prosthesis(open_page, tmp_path, name):
    value = {"heel_rise_mm": 25.0, "socket_flexion_deg": 7.25, "dorsiflexion_deg": -2.5}.get(
        name, 9.0
    )
    one = open_page(f"{name}={value}")
    with one.page.expect_download() as got:
        one.page.get_by_role("button", name="Save as a case file").click()
    saved = tmp_path / got.value.suggested_filename
    got.value.save_as(saved)
    assert saved.name == EVERYDAY.name
    assert EVERYDAY.read_text().splitlines()[:3] == saved.read_text().splitlines()[:3]
    agree(one.measures(), python_measures(saved))
    assert read_case(saved).alignments() != read_case(EVERYDAY).alignments()


@pytest.mark.parametrize("path", sorted(EVERYDAY.parent.glob("*.toml")), ids=lambda path: path.stem)
def test_every_case_of_the_library_opens_and_a_saved_heel_means_the_same_limb(
    open_page, tmp_path, path
):
    page = written_page(path, tmp_path)
    agree(open_page(path=page).measures(), python_measures(path))
    one = open_page("heel_rise_mm=22&foot_forward_mm=3", path=page)
    changed = python_measures(path, heel_rise_mm=22.0, foot_forward_mm=3.0)
    agree(one.measures(), changed)
    with one.page.expect_download() as got:
        one.page.get_by_role("button", name="Save as a case file").click()
    got.value.save_as(saved := tmp_path / "saved.toml")
    agree(one.measures(), python_measures(saved))
