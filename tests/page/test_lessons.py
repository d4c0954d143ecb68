"""Lessons in a real browser: Python's numbers, an answer that waits, every way in, print."""

import random
import re
from contextlib import ExitStack
from pathlib import Path

import pytest
from click.testing import CliRunner

from browser import PHONE, PROJECTOR, findings, opened_page
from lesson_pages import (
    HIDE,
    SHOW,
    everything,
    listed,
    move,
    predict,
    read,
    settle,
    shown_values,
    written,
)
from simgait.command import main
from simgait.lessons.shelf import LESSONS

NAMES = tuple(LESSONS)


@pytest.fixture(scope="session")
def lesson_file(tmp_path_factory):
    """What gives the file that the verb writes of a lesson."""
    folder = tmp_path_factory.mktemp("lessons")

    def make(name):
        place = folder / f"{name}.html"
        if not place.exists():
            done = CliRunner().invoke(main, ["lesson", name, "-o", str(place)])
            assert done.exit_code == 0, done.output
        return place

    return make


@pytest.fixture
def open_lesson(browser, lesson_file):
    """What opens a lesson; in the end it must have met no fault and asked for nothing."""
    with ExitStack() as stack:

        def make(name, **options):
            page = stack.enter_context(opened_page(browser, lesson_file(name), **options))
            page.wait_for_function("document.querySelector('.stage .draw') !== null")
            return page

        yield make


def settings_of(lesson):
    """Return the start, both ends and three drawn settings."""
    control = lesson.control
    drawn = random.Random(lesson.name).sample(control.settings(), 3)
    return [control.start, control.low, control.high, *drawn]


@pytest.mark.parametrize("name", NAMES)
def test_the_numbers_are_pythons(open_lesson, name):
    lesson, page = LESSONS[name], open_lesson(name)
    predict(page, lesson.question.right)
    for setting in settings_of(lesson):
        move(page, setting)
        values, told = lesson.values(setting), written(lesson, setting)
        wanted = {key: values[key] for key in lesson.shown}
        assert shown_values(page) == pytest.approx(wanted, rel=1e-9)
        assert listed(page) == {key: told[key] for key in lesson.shown}
        ledger = read(page.inner_text("#ledger"))
        keys = [row.key for row in lesson.ledger.rows] or ["effort", "work_in", "work_out", "lost"]
        assert [key for key in keys if told[key] not in ledger] == []


@pytest.mark.parametrize("name", NAMES)
def test_nothing_of_the_answer_is_in_the_page_before_a_prediction(open_lesson, name):
    lesson, page = LESSONS[name], open_lesson(name)
    for setting in (lesson.control.low, lesson.control.high):
        move(page, setting)
        words = everything(page)
        assert lesson.idea not in words
        assert [each.reply for each in lesson.question.choices if each.reply in words] == []
        assert [each for each in lesson.explanation if each.split("{")[0][:30] in words] == []
        assert page.locator("[data-value], .force, table, .plot").count() == 0
        assert [part for part in (*lesson.teacher.equation,) if part in words] == []
    assert page.get_by_role("button", name=SHOW).is_disabled()
    predict(page, 0)
    assert lesson.idea in everything(page)
    assert page.locator(".force").count() + page.locator(".span").count() > 1


@pytest.mark.parametrize("name", NAMES)
def test_the_whole_way_by_keyboard(open_lesson, name):
    lesson, page = LESSONS[name], open_lesson(name)
    keys = page.keyboard
    keys.press("Tab")
    assert page.evaluate("document.activeElement.type") in ("range", "text")
    while page.evaluate("document.activeElement.type") != "range":
        keys.press("Tab")
    way = "ArrowRight" if lesson.control.start < lesson.control.high else "ArrowLeft"
    keys.press(way)
    for _ in range(4):
        if page.evaluate("document.activeElement.type") == "radio":
            break
        keys.press("Tab")
    keys.press("Space")
    keys.press("ArrowDown")
    keys.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == SHOW
    keys.press("Enter")
    settle(page)
    assert page.evaluate("document.activeElement.tagName") == "H2"
    step = lesson.control.step * (1.0 if way == "ArrowRight" else -1.0)
    wanted = lesson.values(lesson.control.start + step)
    assert shown_values(page) == pytest.approx({k: wanted[k] for k in lesson.shown}, rel=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_the_handle_is_dragged(open_lesson, name):
    lesson, page = LESSONS[name], open_lesson(name)
    predict(page, 0)
    middle = (lesson.control.low + lesson.control.high) / 2.0
    move(page, lesson.control.low)
    page.locator(".stage").scroll_into_view_if_needed()
    low = handle(page)
    move(page, lesson.control.high)
    high = handle(page)
    page.mouse.move(*high)
    page.mouse.down()
    page.mouse.move((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0, steps=5)
    page.mouse.up()
    settle(page)
    now = float(page.locator("#drawing input[type=text]").input_value().replace("\u2212", "-"))
    assert now == pytest.approx(middle, abs=0.3 * (lesson.control.high - lesson.control.low))
    wanted = lesson.values(min(lesson.control.settings(), key=lambda each: abs(each - now)))
    assert shown_values(page) == pytest.approx({k: wanted[k] for k in lesson.shown}, rel=1e-9)


def handle(page):
    """Return where the handle is on the screen [pixel]."""
    box = page.locator(".handle-ring").bounding_box()
    return box["x"] + box["width"] / 2.0, box["y"] + box["height"] / 2.0


@pytest.mark.parametrize("name", NAMES)
def test_right_and_wrong_are_told_and_may_be_tried_again(open_lesson, name):
    lesson, page = LESSONS[name], open_lesson(name)
    question = lesson.question
    for choice, each in enumerate(question.choices):
        predict(page, choice)
        answer = read(page.inner_text("#answer"))
        assert each.reply in answer and question.choices[question.right].reply in answer
        assert ("Predicted right." in answer) is (choice == question.right)
        assert "{" not in answer + page.inner_text("#ledger")
        page.get_by_role("button", name=HIDE).click()
        assert lesson.idea not in everything(page)
        assert page.locator("#question input:checked").count() == 0


@pytest.mark.parametrize("name", NAMES)
def test_no_serious_finding_of_axe(open_lesson, name):
    page = open_lesson(name)
    for step in ("before", "after"):
        if step == "after":
            predict(page, 1)
            page.locator("#teacher summary").click()
        assert findings(page) == []


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("size", [PHONE, PROJECTOR])
def test_nothing_is_wider_than_the_screen_and_words_stay_on_the_drawing(open_lesson, name, size):
    lesson, page = LESSONS[name], open_lesson(name, size=size)
    predict(page, 0)
    for setting in (lesson.control.low, lesson.control.high):
        move(page, setting)
        assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
        outside = page.evaluate(
            """() => { const all = document.querySelector(".stage").getBoundingClientRect();
                 return [...document.querySelectorAll(".stage text")].filter((text) => {
                   const box = text.getBoundingClientRect();
                   return box.left < all.left - 3 || box.right > all.right + 3;
                 }).map((text) => text.textContent); }"""
        )
        assert outside == []
    assert page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)") >= 16


@pytest.mark.parametrize("name", NAMES)
def test_printed_it_is_a_worksheet_and_the_answer_is_on_another_page(open_lesson, name):
    page = open_lesson(name)
    page.emulate_media(media="print")
    before = pages_of(page.pdf(format="A4"))
    assert before == 1
    assert page.locator("#question button").is_hidden()
    page.emulate_media(media="screen")
    predict(page, 0)
    page.emulate_media(media="print")
    page.evaluate("window.dispatchEvent(new Event('beforeprint'))")
    numbers = "getComputedStyle(document.getElementById('numbers'))"
    assert page.evaluate(f"{numbers}.breakBefore") == "page"
    first = page.locator("#drawing").inner_html() + page.locator("#question").inner_html()
    assert 'class="force' not in first and page.locator("#numbers .stage .draw").count() > 3
    page.evaluate("window.dispatchEvent(new Event('afterprint'))")
    assert 2 <= pages_of(page.pdf(format="A4")) <= 3


def pages_of(document):
    """Return how many pages a PDF has."""
    return len(re.findall(rb"/Type\s*/Page\b", document))


def test_asked_for_stillness_nothing_moves_by_itself(open_lesson):
    page = open_lesson("ramp", reduced_motion=True)
    predict(page, 0)
    moving = page.evaluate(
        """() => [...document.querySelectorAll("*")].filter((node) => {
             const style = getComputedStyle(node);
             return parseFloat(style.transitionDuration) > 0 || style.animationName !== "none";
           }).length"""
    )
    assert moving == 0


@pytest.mark.parametrize("name", NAMES)
def test_the_file_is_small(lesson_file, name):
    assert 10_000 < lesson_file(name).stat().st_size <= 1_000_000


def test_the_list_names_every_lesson_with_its_idea():
    done = CliRunner().invoke(main, ["lesson", "--list"], env={"COLUMNS": "200"})
    assert done.exit_code == 0
    for lesson in LESSONS.values():
        assert lesson.name in done.output
        assert " ".join(lesson.idea.split()[:4]) in " ".join(done.output.split())


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (["lever-frist"], "nearest: lever-first"),
        (["Pulley_Block"], "nearest: pulley-block"),
        ([], "--list"),
        (["ramp", "-o", "ramp.pdf"], "nearest: ramp.html"),
        (["ramp", "-o", "/proc/nowhere/ramp.html"], "cannot be written"),
        (["\u001b[2J"], "is not a known lesson"),
    ],
)
def test_wrong_input_is_refused_and_nothing_is_written(tmp_path, monkeypatch, words, complaint):
    monkeypatch.chdir(tmp_path)
    done = CliRunner().invoke(main, ["lesson", *words])
    assert done.exit_code == 2
    assert complaint in done.output and "Traceback" not in done.output
    assert "\u001b" not in done.output
    assert list(Path(tmp_path).iterdir()) == []


def test_a_lesson_is_written_as_every_page_is(tmp_path):
    (tmp_path / "folder.html").mkdir()
    done = CliRunner().invoke(main, ["lesson", "ramp", "-o", str(tmp_path / "folder.html")])
    assert done.exit_code == 2 and "is a folder" in done.output
    place = tmp_path / "deep" / "ramp.html"
    done = CliRunner().invoke(main, ["lesson", "ramp", "-o", str(place)])
    assert done.exit_code == 0 and str(place) in done.output
    assert [path.name for path in place.parent.iterdir()] == ["ramp.html"]
