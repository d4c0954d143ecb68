"""A case's text with another alignment in it: the rest stays, and it reads as meant."""

import json
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from simgait.alignment import WRITTEN_NAMES
from simgait.library import models_folder
from simgait.page.case_text import NOTE, case_pieces, filled_text

CASES = sorted((models_folder() / "cases").glob("*.toml"))
SETTING = dict(zip(WRITTEN_NAMES, (12.0, -2.5, 7.25, -3.0, 20.0), strict=True))
FORMS = {
    "no table": '[foot]\nmodel = "firm"\n',
    "no line end": '[foot]\nmodel = "firm"',
    "an empty table": "[alignment]\n\n[foot]\nmodel = 'firm'\n",
    "a table at the end": "[foot]\nmodel = 'firm'\n[alignment]",
    "quoted and spaced": "[ 'alignment' ] # here\n \"foot_forward_mm\"=+3 # mine\n[compare]\n",
    "an inline table": "alignment = { foot_forward_mm = 3 }\n[compare]\nheel_rise_mm = [0, 10]\n",
    "dotted keys": 'title = "a \\"b\\""\nalignment.foot_forward_mm = 3\n[foot]\nmass_kg = 0.5\n',
    "a text like it": 'title = """\n[alignment]\nfoot_forward_mm = 1\n"""\n[alignment]\n',
    "tables within": "alignment.heel_rise_mm = 3\n[goal]\nfast = true\na.b = {low = 1, high = 2}\n",
    "windows lines": "[alignment]\r\nfoot_forward_mm = 3\r\n[foot]\r\n",
    "a note of before": f"[alignment]\n{NOTE} old\nlength_change_mm = 3\n",
}


def agrees(text, setting, note=""):
    got = tomllib.loads(filled_text(case_pieces(text), setting, note))
    assert got == {**tomllib.loads(text), "alignment": setting}


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_every_case_keeps_all_but_its_alignment(path):
    text = path.read_text(encoding="utf-8")
    agrees(text, SETTING)
    old = [line for line in text.splitlines() if not line.startswith(WRITTEN_NAMES)]
    new = filled_text(case_pieces(text), SETTING).splitlines()
    assert [line for line in new if not line.startswith(WRITTEN_NAMES)] == old


@pytest.mark.parametrize("form", FORMS)
def test_every_form_of_writing_it_is_understood(form):
    agrees(FORMS[form], SETTING)
    agrees(FORMS[form], SETTING, f"{NOTE} why\n")


def test_comments_on_the_lines_stay_and_an_older_note_goes():
    text = f"[alignment]\nfoot_forward_mm = 1 # my own\n{NOTE} old\nlength_change_mm = 2\n"
    got = filled_text(case_pieces(text), SETTING, f"{NOTE} new\n")
    assert "foot_forward_mm = 12 # my own\n" in got and f"{NOTE} new\nlength_change_mm" in got
    assert "old" not in got


def test_what_cannot_be_followed_line_by_line_is_written_anew_and_says_so():
    got = filled_text(case_pieces(FORMS["an inline table"]), SETTING)
    assert got.startswith(f"{NOTE} written anew")


def test_a_text_written_anew_keeps_every_character():
    title = 'a\x7fb " \\ \u2028 \u00e9'
    text = f"title = {json.dumps(title)}\nalignment = {{ foot_forward_mm = 3 }}\n"
    agrees(text.replace("\x7f", "\\u007f"), SETTING)


@given(st.lists(st.floats(-60, 60, allow_subnormal=False), min_size=5, max_size=5))
def test_values_come_back_to_nine_digits(values):
    text = filled_text(case_pieces("[alignment]\n"), dict(zip(WRITTEN_NAMES, values, strict=True)))
    got = tomllib.loads(text)["alignment"]
    for name, value in zip(WRITTEN_NAMES, values, strict=True):
        assert got[name] == pytest.approx(value, rel=1e-8)
