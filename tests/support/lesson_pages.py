"""Lessons in a real browser: what a learner does, and what is then to be read."""

from typing import Any

from playwright.sync_api import Page

from simgait.lessons.lesson import Lesson

SHOW = "This is my prediction: show me"
HIDE = "Hide it and predict again"


def settle(page: Page) -> None:
    """Wait until what was asked is drawn: the page draws once a frame."""
    page.evaluate(
        "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
    )


def move(page: Page, value: float) -> None:
    """Set the one control, by the number beside its slider."""
    field = page.locator("#drawing .control input[type=text]")
    field.fill(f"{value:.6g}")
    field.press("Enter")
    settle(page)


def predict(page: Page, choice: int) -> None:
    """Choose a prediction and give it."""
    page.locator("#question input[type=radio]").nth(choice).check()
    page.get_by_role("button", name=SHOW).click()
    settle(page)


def shown_values(page: Page) -> dict[str, float]:
    """Return the listed figures [SI, or the unit of a measure], as exactly as the page has them."""
    found: dict[str, float] = page.evaluate(
        """() => Object.fromEntries([...document.querySelectorAll("#numbers [data-value]")]
             .map((row) => [row.dataset.measure, Number(row.dataset.value)]))"""
    )
    return found


def read(text: str) -> str:
    """Return words of a page with plain spaces and a plain minus."""
    for mark in "\u00a0\u202f":
        text = text.replace(mark, " ")
    return text.replace("\u2212", "-")


def written(lesson: Lesson, setting: float) -> dict[str, str]:
    """Return Python's figures for a setting as the page should write them."""
    values = lesson.values(setting)
    told = {figure.key: figure.written(values[figure.key]) for figure in lesson.figures}
    return {key: text.replace(" %", "%").replace(" deg", "\u00b0") for key, text in told.items()}


def listed(page: Page) -> dict[str, str]:
    """Return the listed figures for the setting now, in words."""
    rows = page.locator("#numbers tbody tr").all()
    return {
        row.get_attribute("data-measure") or "": read(row.locator("td.now").inner_text())
        for row in rows
    }


def everything(page: Page) -> str:
    """Return all text that is in the page, seen or not, and every label of it."""
    found: Any = page.evaluate(
        """() => [...document.querySelectorAll("main, main [aria-label], main [aria-valuetext]")]
             .map((node) => [node.tagName === "MAIN" ? node.textContent : "",
               node.getAttribute("aria-label") ?? "", node.getAttribute("aria-valuetext") ?? ""])
             .flat().join(" ")"""
    )
    return read(str(found))
