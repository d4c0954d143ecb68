"""What opens a page in a browser sees errors, requests and elements that nobody can use."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from browser import ARGUMENTS, PHONE, PROJECTOR, chromium, findings

GOOD = """<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>A small page</title>
<meta http-equiv="Content-Security-Policy"
  content="default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline';
  img-src data:">
<style>
  p { color: #222; background: #fff; }
  @media print { #shown { display: none; } }
  @media (prefers-reduced-motion: reduce) { #still::after { content: "still"; } }
  @media (prefers-contrast: more) { #still::before { content: "clear"; } }
</style></head>
<body><main><h1>A small page</h1><p id="still">Words</p>
<label for="shown">Shift</label> <input id="shown" type="range" min="0" max="9" value="4">
<img alt="a dot" src="data:image/gif;base64,R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==">
<button id="save">Save</button> <output id="told"></output></main>
<script>
  const shown = document.getElementById("shown"), told = document.getElementById("told");
  shown.addEventListener("input", () => { told.textContent = shown.value; });
  document.getElementById("save").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob(["words"], { type: "text/plain" }));
    link.download = "words.txt";
    link.click();
  });
</script></body></html>
"""


@pytest.fixture
def written(tmp_path: Path) -> Callable[..., Path]:
    """Return what writes the page, with something in place of its words."""

    def write(instead: str = "Words", where: str = "Words") -> Path:
        assert where in GOOD
        path = tmp_path / "page.html"
        path.write_text(GOOD.replace(where, instead), encoding="utf-8")
        return path

    return write


def test_a_page_is_opened_and_used(page_of, written) -> None:
    with page_of(written(), fragment="kept") as page:
        assert page.title() == "A small page"
        assert page.evaluate("location.hash") == "#kept"
        page.focus("#shown")
        page.keyboard.press("ArrowRight")
        assert page.text_content("#told") == "5"
        assert findings(page) == []


def test_a_page_may_give_a_file_away(page_of, written) -> None:
    with page_of(written()) as page:
        with page.expect_download() as download:
            page.click("#save")
        assert Path(download.value.path()).read_text(encoding="utf-8") == "words"
        assert download.value.suggested_filename == "words.txt"


@pytest.mark.parametrize("size", [PHONE, PROJECTOR])
def test_the_window_has_the_size(page_of, written, size) -> None:
    with page_of(written(), size=size) as page:
        assert page.evaluate("[innerWidth, innerHeight]") == list(size)


def test_what_a_reader_asks_for_reaches_the_page(page_of, written) -> None:
    style = "(part) => getComputedStyle(document.getElementById('still'), part).content"
    with page_of(written()) as page:
        assert [page.evaluate(style, part) for part in ("::before", "::after")] == ["none", "none"]
        assert page.is_visible("#shown")
        assert page.evaluate("navigator.maxTouchPoints") == 0
    asked = {"reduced_motion": True, "more_contrast": True, "media": "print", "touch": True}
    with page_of(written(), **asked) as page:
        assert page.evaluate(style, "::after") == '"still"'
        assert page.evaluate(style, "::before") == '"clear"'
        assert not page.is_visible("#shown")
        assert page.evaluate("navigator.maxTouchPoints") == 1


def script(text: str) -> str:
    """Return words with a script behind them."""
    return f"Words<script>{text}</script>"


LOOSE = GOOD.partition("<meta http-equiv")[2].partition(">")[0]  # what keeps requests from leaving


@pytest.mark.parametrize(
    ("instead", "complaint"),
    [
        (script("console.error('so it is')"), "console: so it is"),
        (script("console.assert(false, 'not so')"), "console: not so"),
        (script("throw new Error('thrown')"), "error: .*thrown"),
        (script("Promise.reject(new Error('promised'))"), "error: .*promised"),
        (script("setTimeout(() => { throw new Error('later'); }, 0)"), "error: .*later"),
        ('<img alt="" src="other.png">', "Content Security Policy"),
        (script("fetch('https://example.org/').catch(() => 0)"), "Content Security Policy"),
        ('<i style="color: red">Words</i><script>eval("1")</script>', "Content Security Policy"),
    ],
)
def test_what_goes_wrong_is_caught(page_of, written, instead: str, complaint: str) -> None:
    caught = pytest.raises(AssertionError, match=f"page.html: .*{complaint}")
    with caught, page_of(written(instead)) as page:
        page.wait_for_timeout(50)


@pytest.mark.parametrize(
    ("asks", "address"),
    [
        ('<img alt="" src="https://example.org/a.png">', "https://example.org/a.png"),
        ('<img alt="" src="other.png">', "other.png"),
        ('<link rel="stylesheet" href="other.css">', "other.css"),
        (script("fetch('https://example.org/b').catch(() => 0)"), "https://example.org/b"),
        (script("new Image().src = 'http://127.0.0.1:9/c'"), "http://127.0.0.1:9/c"),
        (script("navigator.sendBeacon('https://example.org/d', 'x')"), "https://example.org/d"),
        (script("new WebSocket('wss://example.org/e').onerror = () => 0"), "wss://example.org/e"),
        ('<iframe title="f" src="https://example.org/f"></iframe>', "https://example.org/f"),
        (script("window.open('https://example.org/g')"), "https://example.org/g"),
    ],
)
def test_a_request_is_caught(page_of, written, asks: str, address: str) -> None:
    """Without a policy in the page that would stop it first."""
    path = written()
    text = path.read_text(encoding="utf-8").replace(f"<meta http-equiv{LOOSE}>", "")
    assert "Content-Security-Policy" not in text
    path.write_text(text.replace("Words", asks), encoding="utf-8")
    caught = pytest.raises(AssertionError, match=f"(request|socket): \\S*{re.escape(address)}")
    with caught, page_of(path) as page:
        page.wait_for_timeout(100)


def test_an_error_after_the_opening_is_caught(page_of, written) -> None:
    with pytest.raises(AssertionError, match="afterwards"), page_of(written()) as page:
        page.evaluate("setTimeout(() => { throw new Error('afterwards'); }, 0) && 1")


def test_what_the_test_itself_finds_comes_first(page_of, written) -> None:
    with pytest.raises(KeyError), page_of(written(script("console.error('so it is')"))):
        raise KeyError("found by the test")


@pytest.mark.parametrize(
    ("where", "instead", "rule"),
    [
        ('<label for="shown">Shift</label>', "", "label (critical)"),
        ('<html lang="en">', "<html>", "html-has-lang (serious)"),
        ("color: #222", "color: #bbb", "color-contrast (serious)"),
        ('alt="a dot"', "", "image-alt (critical)"),
        (">Save<", "><", "button-name (critical)"),
    ],
)
def test_what_nobody_can_use_is_found(page_of, written, where, instead, rule) -> None:
    with page_of(written(instead, where)) as page:
        assert any(each.startswith(rule) for each in findings(page))


def test_no_browser_is_a_skip_or_a_failure_as_the_caller_says(monkeypatch) -> None:
    monkeypatch.setenv("PATH", "")
    monkeypatch.delenv("SIMGAIT_NEEDS_BROWSER", raising=False)
    with pytest.raises(pytest.skip.Exception, match="Chromium"):
        chromium()
    monkeypatch.setenv("SIMGAIT_NEEDS_BROWSER", "1")
    with pytest.raises(pytest.fail.Exception, match="Chromium"):
        chromium()


def test_the_browser_is_told_to_keep_to_itself() -> None:
    assert "--disable-background-networking" in ARGUMENTS
