"""Every model file loads, and says only what it may."""

import math
import re

import pytest

from simgait import library
from simgait.errors import CaseError
from simgait.library.figures import figures_of, read_figures, read_model
from simgait.sources import Grade

PART_READERS = {
    "feet": library.read_foot,
    "shoes": library.read_shoe,
    "sockets": library.read_socket,
    "pylons": library.read_pylon,
}
PARTS = [(kind, name) for kind in PART_READERS for name in library.names(kind)]
FEET = [library.read_foot(name) for name in library.names("feet")]

GOOD = """title = "x"
sentence = "y"
[figures.mass_kg]
value = 0.5
grade = "illustrative"
source = "illustrative"
place = "z"
"""


@pytest.mark.parametrize(("kind", "name"), PARTS)
def test_a_part_loads_under_its_own_name(kind, name):
    assert PART_READERS[kind](name).name == name


@pytest.mark.parametrize(("kind", "name"), PARTS)
def test_places_cite_known_sources(kind, name):
    for figure in read_figures(kind, name).values():
        for key in re.findall(r"\(([a-z-]+-\d{4})", figure.place):
            assert library.source(key).key == key


def test_feet_span_the_published_range():
    # 27-68 and 28-76 N/mm: ASME SBC2012 p. 191; an end counts as reached within 2 N/mm
    heels = [foot.heel_stiffness / 1000 for foot in FEET]
    forefeet = [foot.forefoot_stiffness / 1000 for foot in FEET]
    assert min(heels) == pytest.approx(27, abs=2) and max(heels) == pytest.approx(68, abs=2)
    assert min(forefeet) == pytest.approx(28, abs=2) and max(forefeet) == pytest.approx(76, abs=2)
    assert all(27 <= value <= 68 for value in heels)
    assert all(28 <= value <= 76 for value in forefeet)


def test_bare_heels_lose_what_bare_heels_were_measured_to_lose():
    # 33.6-52.6 %: Klute, Berge, Segal 2004
    assert all(0.336 <= foot.heel_loss <= 0.526 for foot in FEET)


def test_feet_carry_on_the_recalled_share_of_their_length():
    # 0.63-0.81: Hansen, Sam, Childress 2004, from memory
    ratios = [f.effective_length_ratio for f in FEET if f.name != "natural-stand-in"]
    assert all(0.63 <= ratio <= 0.81 for ratio in ratios)
    assert max(ratios) - min(ratios) > 0.1


def test_the_stand_in_carries_on_as_much_of_its_length_as_a_natural_foot():
    # 0.83 able-bodied: the same, from memory
    assert round(library.read_foot("natural-stand-in").effective_length_ratio, 2) == 0.83


def test_invented_parts_say_that_they_are_invented():
    for kind in ("feet", "shoes"):
        for name in library.names(kind):
            sentence = read_model(library.path_of(kind, name))["sentence"]
            assert "invented" in sentence.lower(), name
            grades = {figure.grade for figure in read_figures(kind, name).values()}
            assert grades == {Grade.ILLUSTRATIVE}, name


@pytest.mark.parametrize(("name", "per_degree"), [("soft", 5), ("usual", 15), ("firm", 25)])
def test_socket_stiffness_is_read_per_degree(name, per_degree):
    stiffness = library.read_socket(name).rotational_stiffness
    assert stiffness * math.pi / 180 == pytest.approx(per_degree, rel=1e-12)


def test_one_screw_turn_is_what_is_quoted():
    turn = math.degrees(library.read_pylon("usual").turn)
    assert turn == pytest.approx(2.8, rel=1e-12)
    assert read_figures("pylons", "usual")["turn_deg"].source == "shepherd-2021"


def test_defaults_are_figures():
    defaults = library.read_defaults()
    assert defaults["friction"].number == 0.7
    assert defaults["socket_flexion_deg"].number == 5.0


@pytest.mark.parametrize("kind", [kind for kind in library.KINDS if kind != "cases"])
def test_an_unknown_name_is_answered_with_the_nearest(kind):
    known = library.names(kind)[0]
    with pytest.raises(CaseError) as caught:
        library.path_of(kind, known + "x")
    assert caught.value.faults[0].nearest == known
    assert known in caught.value.faults[0].allowed


@pytest.mark.parametrize("name", ["../feet/firm", "", "firm.toml", "/etc/hostname", "FIRM\x00"])
def test_a_name_reaches_no_other_file(name):
    with pytest.raises(CaseError):
        library.read_foot(name)


def test_an_unknown_kind_and_an_unknown_source_are_refused():
    with pytest.raises(CaseError, match="feet"):
        library.names("foots")
    with pytest.raises(CaseError, match="hof-2005"):
        library.source("hof-2006")


def read(tmp_path, text):
    path = tmp_path / "part.toml"
    path.write_text(text, encoding="utf-8")
    return read_model(path)


def test_a_figure_is_read_with_its_origin(tmp_path):
    figure = figures_of(read(tmp_path, GOOD), "part.toml")["mass_kg"]
    assert (figure.number, figure.grade, figure.source) == (0.5, "illustrative", "illustrative")
    assert figure.place == "z"


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('grade = "illustrative"\n', "", "grade"),
        ('source = "illustrative"\n', "", "source"),
        ('grade = "illustrative"', 'grade = "certain"', "certain"),
        ('source = "illustrative"', 'source = "ilustrative"', "nearest: illustrative"),
        ("value = 0.5", "value = nan", "finite"),
        ('title = "x"', 'titel = "x"', "title"),
        ('title = "x"', 'title = "x"\nbare = 3', "where it comes from"),
        ('title = "x"', 'title = "x"\nbare = [[1.0]]', "where it comes from"),
        ('title = "x"', "title = ", "cannot be read"),
    ],
)
def test_a_number_without_an_origin_does_not_load(tmp_path, old, new, complaint):
    assert old in GOOD
    with pytest.raises(CaseError, match=complaint):
        read(tmp_path, GOOD.replace(old, new, 1))


@pytest.mark.parametrize("value", ['"0.5"', "true", "[]", '[1, "a"]', "{ a = 1 }"])
def test_a_value_that_is_no_number_does_not_load(tmp_path, value):
    data = read(tmp_path, GOOD.replace("value = 0.5", f"value = {value}"))
    with pytest.raises(CaseError, match="no usable value"):
        figures_of(data, "part.toml")


def test_a_row_of_numbers_is_a_row(tmp_path):
    data = read(tmp_path, GOOD.replace("value = 0.5", "value = [1, 2.5]"))
    figure = figures_of(data, "part.toml")["mass_kg"]
    assert figure.value == (1.0, 2.5)
    with pytest.raises(ValueError, match="row"):
        _ = figure.number


def test_a_part_with_a_wrong_figure_is_a_fault(tmp_path, monkeypatch):
    (tmp_path / "feet").mkdir()
    (tmp_path / "feet" / "bad.toml").write_text(GOOD, encoding="utf-8")
    monkeypatch.setattr("simgait.library.folder.models_folder", lambda: tmp_path)
    with pytest.raises(CaseError, match="do not make a foot"):
        library.read_foot("bad")
