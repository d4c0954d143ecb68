"""The shell of pages: one file, escaped data, a policy that names exactly what may run."""

import base64
import hashlib
import re
from importlib.resources import files

import pytest
from click.testing import CliRunner

from simgait.command import main
from simgait.library import models_folder
from simgait.page.shell import asset, page_text, safe_json

CASES = models_folder() / "cases"
LINES = 300
FUNCTION_LINES = 40
ASSETS = sorted(part.name for part in (files("simgait.page") / "assets").iterdir())


def made(**changed):
    given = {"title": "t", "body": "<main></main>", "data": {}, "scripts": [], "styles": []}
    return page_text(**{**given, **changed})


def test_the_policy_names_the_hash_of_every_script_and_style():
    text = made(scripts=["let a = 1;"], styles=["p { color: red; }"])
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', text)[1]
    inside = re.findall(r"<(?:script|style)>(.*?)</(?:script|style)>", text, re.S)
    assert len(inside) == 3
    for part in inside:
        digest = base64.b64encode(hashlib.sha256(part.encode()).digest()).decode()
        assert f"'sha256-{digest}'" in policy
    assert "default-src 'none'" in policy and "connect-src 'none'" in policy


def test_the_policy_allows_these_hashes_and_nothing_else():
    policy = re.search(r'Content-Security-Policy" content="([^"]*)"', made())[1]
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    hashes = r"'sha256-[A-Za-z0-9+/]{43}='"
    assert re.fullmatch(f"{hashes} {hashes}", rules.pop("script-src"))
    assert re.fullmatch(hashes, rules.pop("style-src"))
    assert rules.pop("img-src") == "data:"
    assert rules == dict.fromkeys(
        ("default-src", "connect-src", "base-uri", "form-action"), "'none'"
    )


def test_a_title_and_data_cannot_become_markup():
    text = made(title="</title><b>", data={"a": "</script><!--\u2028"}, language='"><b>')
    assert "<title>&lt;/title&gt;&lt;b&gt;</title>" in text
    assert "\\u003c/script\\u003e\\u003c!--\\u2028" in text
    assert "<b>" not in text


@pytest.mark.parametrize("words", ["a = '</script>';", "a = '</SCRIPT>';", "/* <!-- */", "a\r\nb"])
def test_a_script_that_would_end_its_element_is_refused(words):
    with pytest.raises(ValueError, match="must not hold"):
        made(scripts=[words])


@pytest.mark.parametrize("words", ["/* </style> */", "/* </Style */", "/* <!-- */"])
def test_a_style_that_would_end_its_element_is_refused(words):
    with pytest.raises(ValueError, match="must not hold"):
        made(styles=[words])


def test_numbers_that_json_cannot_say_are_refused():
    with pytest.raises(ValueError, match="JSON"):
        safe_json({"a": float("nan")})


@pytest.mark.parametrize("name", ASSETS)
def test_an_asset_is_short_and_sets_no_markup(name):
    text = asset(name)
    assert len(text.splitlines()) <= LINES
    for forbidden in (
        "innerHTML",
        "outerHTML",
        "insertAdjacentHTML",
        "document.write",
        "eval(",
        "fetch(",
        "XMLHttpRequest",
        "import(",
        "@import",
        "url(",
    ):
        assert forbidden not in text


@pytest.mark.parametrize("name", [name for name in ASSETS if name.endswith(".js")])
def test_functions_of_scripts_are_short(name):
    lines = asset(name).splitlines()
    starts = [i for i, line in enumerate(lines) if re.match(r"(async )?function ", line)]
    for start in starts:
        end = next(i for i in range(start, len(lines)) if lines[i].startswith("}"))
        assert end - start + 1 <= FUNCTION_LINES, lines[start]


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_a_page_goes_where_it_is_asked_to(tmp_path):
    place = tmp_path / "deep" / "page.html"
    done = run("page", CASES / "everyday.toml", "-o", place)
    assert done.exit_code == 0 and str(place) in done.output
    assert place.read_text("utf-8").startswith("<!doctype html>")
    assert [path.name for path in place.parent.iterdir()] == ["page.html"]


@pytest.mark.parametrize(
    ("out", "words"), [("page.txt", "nearest: "), ("folder.html", "is a folder")]
)
def test_a_place_that_is_no_page_is_refused(tmp_path, out, words):
    (tmp_path / "folder.html").mkdir()
    done = run("page", CASES / "everyday.toml", "-o", tmp_path / out)
    assert done.exit_code == 2 and words in done.output and "Traceback" not in done.output
    assert [path.name for path in tmp_path.iterdir()] == ["folder.html"]


def test_a_case_that_is_refused_writes_nothing(tmp_path):
    case = tmp_path / "bad.toml"
    case.write_text("[person]\nsex = 'male'\n")
    done = run("page", case, "-o", tmp_path / "bad.html")
    assert done.exit_code == 2 and "bad.toml: person.mass_kg" in done.output
    assert not (tmp_path / "bad.html").exists()
