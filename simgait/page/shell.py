"""One self-contained HTML file: style, scripts and data inside, and nothing let in or out."""

from __future__ import annotations

import base64
import hashlib
import html
import json
from collections.abc import Mapping, Sequence
from functools import cache
from importlib.resources import files
from typing import Any

from simgait.pictures.style import ACCENT, INK, PAPER, SOFT_INK, Colour, hex_colour

__all__ = ["BASE_SCRIPTS", "BASE_STYLES", "asset", "look_style", "page_text", "safe_json"]

COOL: Colour = (23, 65, 79)  # the second accent: darker than ACCENT, so that both differ in grey

# What every page of this project begins with, in this order
BASE_STYLES = ("page.css", "controls.css", "plot.css")
BASE_SCRIPTS = ("elements.js", "controls.js", "scale.js", "plot.js")

_NO_SCRIPT = (
    "This page computes in your browser, and scripts are switched off. Allow scripts for this "
    "file to use it; it asks nothing of any network."
)
_FORBIDDEN = ("</script", "</style", "<!--", "\r")


@cache
def asset(name: str) -> str:
    """Return the text of a hand-written script or style, by its file name in `assets`.

    Raises:
        FileNotFoundError: there is none of that name.

    >>> "function el(" in asset("elements.js")
    True
    """
    return (files("simgait.page") / "assets" / name).read_text(encoding="utf-8")


def look_style() -> str:
    """Return the colours of the project's pictures as properties that every style may use.

    >>> "--paper: #f7f2e8" in look_style()
    True
    """
    colours = {
        "paper": PAPER,
        "ink": INK,
        "soft-ink": SOFT_INK,
        "accent": ACCENT,
        "cool": COOL,
    }
    lines = (f"  --{name}: {hex_colour(colour)};" for name, colour in colours.items())
    return ":root {\n" + "\n".join(lines) + "\n}\n"


def safe_json(value: Any) -> str:
    """Return a value as JSON that cannot end the element it stands in, nor be taken for markup.

    Raises:
        ValueError: it holds a number that is not finite.

    >>> safe_json({"title": "</script>&"})
    '{"title":"\\\\u003c/script\\\\u003e\\\\u0026"}'
    """
    text = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    for mark in "<>&\u2028\u2029":
        text = text.replace(mark, f"\\u{ord(mark):04x}")
    return text


def page_text(
    *,
    title: str,
    body: str,
    data: Mapping[str, Any],
    scripts: Sequence[str],
    styles: Sequence[str],
    language: str = "en",
) -> str:
    """Return the whole text of one page; nothing in it is fetched, and nothing can leave it.

    title: of the window, plain text; body: markup of this project's own, never of a reader's
    words; data: what JSON can say, read by the scripts as `data`; scripts, styles: texts in their
    order (see `asset`), the scripts sharing one scope; language: of the page's words.

    Raises:
        ValueError: a script or style holds what would end its element, or data are not finite.

    >>> text = page_text(title="a < b", body="<main></main>", data={}, scripts=[], styles=[])
    >>> "<title>a &lt; b</title>" in text, " src=" in text
    (True, False)
    """
    style = _harmless("\n".join((look_style(), *styles)))
    check = _harmless(asset("features.js"))
    script = _harmless(_one_scope(scripts))
    return "\n".join(
        (
            "<!doctype html>",
            f'<html lang="{html.escape(language)}">',
            *_head(title, _policy((check, script), style), style),
            "<body>",
            f'<noscript><p class="lacking">{_NO_SCRIPT}</p></noscript>',
            '<p id="lacking" class="lacking" role="alert" hidden></p>',
            body,
            '<div id="live" class="unseen" role="status" aria-live="polite"></div>',
            f'<script type="application/json" id="data">{safe_json(data)}</script>',
            f"<script>{check}</script>",
            f"<script>{script}</script>",
            "</body>",
            "</html>",
            "",
        )
    )


def _head(title: str, policy: str, style: str) -> tuple[str, ...]:
    """Return the lines of a page's head."""
    return (
        "<head>",
        '<meta charset="utf-8">',
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        '<meta name="referrer" content="no-referrer">',
        '<link rel="icon" href="data:,">',
        f"<title>{html.escape(title)}</title>",
        f"<style>{style}</style>",
        "</head>",
    )


def _policy(scripts: Sequence[str], style: str) -> str:
    """Return what the page may do: run these scripts in this style, and reach nothing."""
    return (
        f"default-src 'none'; script-src {' '.join(map(_hash, scripts))}; "
        f"style-src {_hash(style)}; img-src data:; connect-src 'none'; "
        "base-uri 'none'; form-action 'none'"
    )


def _one_scope(scripts: Sequence[str]) -> str:
    """Return the scripts inside one function, after the line that reads the data."""
    lines = (
        "(() => {",
        '"use strict";',
        "window.pageStarted = true;",
        'const data = JSON.parse(document.getElementById("data").textContent);',
        *scripts,
        "})();",
    )
    return "\n".join(lines)


def _harmless(text: str) -> str:
    """Return a script or style if an HTML parser leaves it whole.

    Raises:
        ValueError: it holds what would end its element or be read otherwise.
    """
    for mark in _FORBIDDEN:
        if mark in text.lower():
            raise ValueError(f"a script or style of a page must not hold {mark!r}")
    return text


def _hash(text: str) -> str:
    """Return the name under which a Content-Security-Policy lets exactly this text pass."""
    digest = hashlib.sha256(text.encode("utf-8")).digest()
    return f"'sha256-{base64.b64encode(digest).decode('ascii')}'"
