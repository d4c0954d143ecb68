"""Lessons for eyes that need more: a reader's own colours, four times enlarged; arrows' way."""

import math
import re
from contextlib import ExitStack

import pytest
from click.testing import CliRunner

from browser import opened_page
from lesson_pages import move, predict
from simgait.command import main
from simgait.lessons import machine_numbers as given
from simgait.lessons.shelf import LESSONS

NAMES = tuple(LESSONS)
NARROW = (320, 640)  # [px] 1280 px enlarged four times
TOO_LIKE = """() => {
  const back = getComputedStyle(document.documentElement).backgroundColor;
  const light = (colour) => (colour.match(/[0-9.]+/g) ?? []).slice(0, 3).map(Number).reduce((a, b) => a + b, 0) / 3;
  const found = [];
  for (const node of document.querySelectorAll(".stage .draw, .stage .force, .stage .span, .stage text, .plot-now, .handle-ring")) {
    const colour = getComputedStyle(node)[node.tagName === "text" ? "fill" : "stroke"];
    if (Math.abs(light(colour) - light(back)) < 100) found.push(`${node.getAttribute("class")}: ${colour} on ${back}`);
  }
  return found;
}"""  # noqa: E501


@pytest.fixture
def open_lesson(browser, tmp_path):
    """What opens a lesson; in the end it must have met no fault and asked for nothing."""
    with ExitStack() as stack:

        def make(name, **options):
            place = tmp_path / f"{name}.html"
            assert CliRunner().invoke(main, ["lesson", name, "-o", str(place)]).exit_code == 0
            page = stack.enter_context(opened_page(browser, place, **options))
            page.wait_for_function("document.querySelector('.stage .draw') !== null")
            return page

        yield make


@pytest.mark.parametrize("name", NAMES)
def test_in_colours_of_the_readers_own_the_drawing_stays_to_be_seen(open_lesson, name):
    page = open_lesson(name)
    page.emulate_media(forced_colors="active", color_scheme="dark")
    predict(page, 0)
    assert page.evaluate("matchMedia('(forced-colors: active)').matches")
    assert page.evaluate(TOO_LIKE) == []
    track = page.locator("#drawing input[type=range]")
    assert track.evaluate("(node) => getComputedStyle(node).forcedColorAdjust") == "none"


@pytest.mark.parametrize("name", NAMES)
def test_four_times_enlarged_nothing_is_wider_than_the_window(open_lesson, name):
    page = open_lesson(name, size=NARROW)
    predict(page, 0)
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROW[0]


def test_the_hand_turns_the_crank_so_that_the_rope_winds_on(open_lesson):
    lesson, page = LESSONS["wheel-and-gears"], open_lesson("wheel-and-gears")
    predict(page, 0)
    for teeth in (lesson.control.low, lesson.control.high):
        move(page, teeth)
        axis = gear_middle(page, 1)
        tip, tail = arrow(page, "effort")
        turns = cross(minus(tip, axis), minus(tip, tail))  # [px²] y down: + to the right
        drum = gear_middle(page, 0)
        rope, below = arrow(page, "load")
        assert (
            rope[0] > drum[0] and rope[1] < below[1]
        )  # the rope pulls up at the drum's right side
        assert turns < 0.0  # the small gear turns left, the drum right: its right side comes down
    assert given.PINION_TEETH == 12


def gear_middle(page, place):
    """Return the middle of a gear [px of the drawing]: the mean of its corners."""
    paths = [each.get_attribute("d") for each in page.locator(".stage path.draw").all()]
    gears = [numbers(path) for path in paths if len(numbers(path)) >= 2 * 5 * 12]
    xs, ys = gears[place][0::2], gears[place][1::2]
    return (sum(xs) / len(xs), sum(ys) / len(ys))


def arrow(page, look):
    """Return tip and tail of the only arrow of a kind [px of the drawing]."""
    head = numbers(page.locator(f".force-head.{look}").get_attribute("d"))
    tail = numbers(page.locator(f".force.{look}").get_attribute("d"))
    assert math.dist(head[:2], tail[:2]) > 3.0
    return tuple(head[:2]), tuple(tail[:2])


def numbers(path):
    return [float(each) for each in re.findall(r"-?\d+\.?\d*", path)]


def minus(a, b):
    return (a[0] - b[0], a[1] - b[1])


def cross(a, b):
    return a[0] * b[1] - a[1] * b[0]
