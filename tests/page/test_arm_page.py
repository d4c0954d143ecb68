"""The page of an arm in a real browser: its numbers while loop, guide and length are moved."""

import re

import pytest

from arm_handles import HANDLES, SIZES, agree, drag, handle, standing_at
from arm_pages import LIBRARY, in_python, library_case
from browser import PHONE
from simgait.arm.running import work_arm
from simgait.page.arm_data import baseline_setting


@pytest.mark.parametrize("name", LIBRARY)
def test_a_case_opens_with_pythons_numbers(open_arm, name):
    agree(open_arm(name=name), name)


def test_the_page_shows_the_device_of_a_forearm_level_arm(open_arm):
    one = open_arm(name="forearm-level")
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
def test_a_dragged_handle_gives_pythons_numbers(open_arm, name, key, place, move, grows):
    one = open_arm()
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
def test_positions_of_an_address_have_pythons_numbers(open_arm, state, name):
    changed = {key: float(value) for key, value in re.findall(r"(\w+)=([-.\d]+)", state)}
    agree(open_arm(state, name), name, **changed)


def test_the_arm_follows_while_the_loop_is_dragged(open_arm):
    one = open_arm()
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


def test_arrow_keys_move_the_loop_finely_and_with_shift_coarsely(open_arm):
    one = open_arm()
    handle(one, "loop").focus()
    for key, wanted in (
        ("ArrowRight", 33), ("Shift+ArrowLeft", 28), ("Home", 5), ("End", 250), ("PageDown", 245),
    ):  # fmt: skip
        one.page.keyboard.press(key)
        one.settle()
        assert standing_at(one, "loop") == wanted
    agree(one, loop_mm=245.0)


def test_every_setting_is_reached_by_tabs_alone(open_arm):
    one = open_arm()
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


def test_a_finger_moves_the_loop_on_a_phone_without_moving_the_page(open_arm):
    one = open_arm(size=PHONE, touch=True)
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
def test_nothing_is_wider_than_the_screen(open_arm, size, name):
    width, height = SIZES[size]
    one = open_arm("forearm_change_mm=60", name, size=SIZES[size])
    assert one.page.evaluate("document.documentElement.scrollWidth") <= width
    drawing = one.page.locator(".drawing").first.bounding_box()
    assert drawing["y"] >= 0.0 and drawing["y"] + drawing["height"] <= height


def test_flexion_is_played_and_scrubbed(open_arm):
    one = open_arm()
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


def test_without_motion_there_is_no_play_button(open_arm):
    one = open_arm(reduced_motion=True)
    assert one.page.get_by_role("button", name="Play").count() == 0
    one.page.get_by_role("button", name="step forward").click()
    one.settle()
    agree(one)
