"""The pages of a leg and of an arm for a screen reader, and in colours of the reader's own."""

import pytest
from click.testing import CliRunner

from browser import opened_page
from simgait.command import main
from simgait.library import models_folder

CASES = ("everyday.toml", "arms/above-elbow.toml", "arms/forearm-level.toml")
LIKE_PAPER = """() => {
  const light = (colour) => (colour.match(/[0-9.]+/g) ?? []).slice(0, 3).map(Number).reduce((a, b) => a + b, 0) / 3;
  const back = light(getComputedStyle(document.documentElement).backgroundColor);
  return [...document.querySelectorAll(".plot-now, .limb-now .limb-wall, .arm-now .arm-cable, .drawing-text")]
    .filter((node) => node.getClientRects().length)
    .map((node) => [node.getAttribute("class"), getComputedStyle(node)[node.tagName === "text" ? "fill" : "stroke"]])
    .filter(([, colour]) => Math.abs(light(colour) - back) < 100);
}"""  # noqa: E501


@pytest.fixture(params=CASES)
def page(request, browser, tmp_path):
    place = tmp_path / "page.html"
    made = CliRunner().invoke(
        main, ["page", str(models_folder() / "cases" / request.param), "-o", str(place)]
    )
    assert made.exit_code == 0, made.output
    with opened_page(browser, place) as opened:
        opened.wait_for_function("document.querySelector('.plot-now') !== null")
        yield opened


def test_every_fold_is_named_for_what_is_in_it(page):
    names = [" ".join(each.text_content().split()) for each in page.locator("figure summary").all()]
    assert len(names) == len(set(names)) > 1
    assert all(name.startswith("Table of this curve: ") for name in names)


def test_the_bar_of_time_says_where_it_stands_in_the_words_beside_it(page):
    bar = page.locator(".transport-bar input")
    for value in ("25", "80"):
        bar.fill(value)
        words = page.locator(".transport-words").text_content()
        assert bar.get_attribute("aria-valuetext") == words != ""


def test_in_colours_of_the_readers_own_limb_and_curves_stay_to_be_seen(page):
    page.emulate_media(forced_colors="active", color_scheme="dark")
    assert page.locator(".plot-now").count() > 1
    assert page.evaluate(LIKE_PAPER) == []
    chosen = page.locator(".choice input:checked + span").first
    other = page.locator(".choice input:not(:checked) + span").first
    back = "(node) => getComputedStyle(node).backgroundColor"
    assert chosen.evaluate(back) != other.evaluate(back)
