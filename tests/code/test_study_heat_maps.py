"""Heat maps of studies: shades, hatching, numbers, contours; and the words on them."""

from typing import Any

import numpy as np
import pandas as pd

from invented_pictures import FORWARD, NAN, PEAK, TOE, Told, a_grid, grey_of, marked, texts_of
from simgait.pictures.studies.bars import DARK, PALE
from simgait.pictures.studies.heat import heat_figure
from simgait.pictures.studies.heat_panel import HATCHES
from simgait.pictures.studies.shades import SHADES, ink_on, lightness, shade, shades
from simgait.pictures.studies.words import axis_label, label, noun, setting_words
from simgait.pictures.style import ACCENT, INK, PAPER
from simgait.studies.cells import cells_of
from simgait.studies.entries import CASE_NAMES
from simgait.symbols import ENDING_SENTENCES, SETTING_BY_NAME


def test_shades_are_even_steps_of_lightness_also_in_grey() -> None:
    steps = np.diff([lightness(colour) for colour in shades()])
    even = (lightness(shade(1.0)) - lightness(shade(0.0))) / (SHADES - 1)
    smooth = np.convolve(steps, np.ones(16) / 16.0, mode="valid")
    np.testing.assert_allclose(smooth, even, rtol=0.10)
    greys = np.array([grey_of(colour) for colour in shades()[::8]])
    assert (np.diff(greys) < 0.0).all()
    assert greys[0] - greys[-1] > 0.6
    assert grey_of(PAPER) - greys[0] > 0.04


def test_words_on_shades_and_paired_bars_are_legible_in_grey() -> None:
    for share in np.linspace(0.0, 1.0, 101):
        ink = INK if ink_on(share) else PAPER
        assert abs(lightness(ink) - lightness(shade(float(share)))) > 36.0
    assert grey_of(PALE) - grey_of(DARK) > 0.4
    assert grey_of(PAPER) - grey_of(PALE) > 0.15
    assert grey_of(PAPER) - grey_of(ACCENT) > 0.4


def test_a_cell_has_the_shade_and_the_number_of_its_value() -> None:
    figure = heat_figure(a_grid(), study=Told(), x=FORWARD, y=TOE, measure=PEAK)
    (mesh,) = marked(figure, "shades")
    held = mesh.get_array()
    assert held[:, 1].tolist() == [100.0, 101.0, 102.0]  # y goes up, x = 10 is the second column
    assert held.mask[2, 2]
    assert mesh.get_clim() == (0.0, 201.0)
    written = {text.get_position(): text.get_text() for text in marked(figure, "number")}
    assert written[(10.0, 2.0)] == "102"
    assert len(written) == 8


def test_bad_endings_are_hatched_by_their_share_and_named() -> None:
    figure = heat_figure(a_grid(), study=Told(), x=FORWARD, y=TOE, measure=PEAK)
    (whole,) = marked(figure, "all ended badly")
    (part,) = marked(figure, "ended badly")
    assert (whole.get_xy(), whole.get_height()) == ((15.0, 1.5), 1.0)
    assert whole.get_hatch() == HATCHES["fell_forward"]
    assert (part.get_xy(), part.get_height()) == ((-5.0, -0.5), 0.5)
    assert part.get_hatch() == HATCHES["foot_slipped"]
    words = [text.get_text() for text in texts_of(figure)]
    assert "fell forward" in words
    assert "foot slipped" in words
    assert "knee collapsed" not in words


def test_each_bad_ending_has_a_hatching_of_its_own() -> None:
    assert set(HATCHES) == {*ENDING_SENTENCES, "cannot_be_built"} - {"toe_off"}
    assert len(set(HATCHES.values())) == len(HATCHES)


def test_hatching_and_paper_differ_in_the_picture() -> None:
    clean = a_grid().assign(bad=0.0, ending="")
    over: dict[str, Any] = {"study": Told(), "x": FORWARD, "y": TOE, "measure": PEAK}
    spread = []
    for cells in (a_grid(), clean):
        figure = heat_figure(cells, **over)
        figure.canvas.draw()
        picture = np.asarray(figure.canvas.buffer_rgba())[::-1, :, 0].astype(float)
        (mesh,) = marked(figure, "shades")
        ends = mesh.axes.transData.transform([(15.6, 1.6), (24.4, 2.4)]).astype(int)
        (left, low), (right, high) = ends
        spread.append(picture[low:high, left:right].std())
    assert spread[0] > 30.0
    assert spread[1] < spread[0] / 3.0


def test_the_line_of_the_limit_stands_where_the_limit_is() -> None:
    figure = heat_figure(a_grid(6), study=Told(), x=FORWARD, y=TOE, measure=PEAK, limit=150.0)
    (line,) = marked(figure, "limit")
    points = np.concatenate([path.vertices for path in line.get_paths()])
    np.testing.assert_allclose(10.0 * points[:, 0] + points[:, 1], 150.0)
    assert any("limit 150 N\u00a0m" in text.get_text() for text in texts_of(figure))
    assert len(marked(figure, "limit on the scale")) == 1


def test_a_limit_out_of_reach_is_told_and_not_drawn() -> None:
    figure = heat_figure(a_grid(), study=Told(), x=FORWARD, y=TOE, measure=PEAK, limit=900.0)
    words = " ".join(text.get_text() for text in texts_of(figure))
    assert "all cells below" in words
    assert marked(figure, "limit") == []


def test_numbers_stand_in_few_cells_and_names_of_lines_in_many() -> None:
    over: dict[str, Any] = {"study": Told(), "x": FORWARD, "y": TOE, "measure": PEAK}
    few, many = (heat_figure(a_grid(side), limit=50.0, **over) for side in (12, 13))
    assert len(marked(few, "number")) == 143
    assert marked(few, "limit named") == []
    assert marked(many, "number") == []
    assert [text.get_text() for text in marked(many, "limit named")] == ["50"]


def test_panels_share_one_scale_and_say_which_case_they_are() -> None:
    second = a_grid().assign(case="heavy-worker.toml")
    second[PEAK] = second[PEAK] + 500.0
    cells = pd.concat([a_grid().assign(case="everyday.toml"), second])
    figure = heat_figure(cells, study=Told(), x=FORWARD, y=TOE, measure=PEAK, by="case")
    limits = [mesh.get_clim() for mesh in marked(figure, "shades")]
    assert limits == [(0.0, 701.0)] * 2
    heads = [text.get_text() for text in marked(figure, "panel head")]
    assert heads == ["everyday", "heavy worker"]


def test_what_was_never_run_is_not_taken_for_a_value() -> None:
    figure = heat_figure(a_grid()[1:], study=Told(), x=FORWARD, y=TOE, measure=PEAK)
    assert len(marked(figure, "not run")) == 1
    assert "not run" in [text.get_text() for text in texts_of(figure)]


def test_every_entry_of_a_case_has_words_and_the_unit_of_its_name() -> None:
    assert set(SETTING_BY_NAME) == set(CASE_NAMES)
    ends = {
        "n_mm": "N/mm", "m_s": "m/s", "kg": "kg", "mm": "mm", "deg": "deg",
    }  # fmt: skip
    for name, setting in SETTING_BY_NAME.items():
        unit = next((unit for end, unit in ends.items() if name.endswith(f"_{end}")), "")
        assert setting.unit == unit, name
        assert "_" not in setting.title
    assert axis_label(f"{FORWARD}.aim") == "foot forward [mm], + ahead of the socket"
    assert noun("something.quite_new_mm") == "quite new mm"
    assert label("utilised_friction") == "friction used"
    assert setting_words("alignment.dorsiflexion_deg", -3.0) == "dorsiflexion \u22123°"


def test_cells_gather_the_draws_of_a_grid() -> None:
    table = pd.DataFrame(
        {
            FORWARD: [1.2, 0.9, 5.0, 5.0],
            f"{FORWARD}.aim": [1.0, 1.0, 5.0, 5.0],
            TOE: 0.0,
            PEAK: [10.0, 20.0, NAN, NAN],
            "ending": pd.Categorical(["toe_off", "toe_off", "fell_forward", "foot_slipped"]),
        }
    )
    cells = cells_of(table, [FORWARD, TOE], [PEAK])
    assert cells[FORWARD].tolist() == [1.0, 5.0]
    assert cells[PEAK].tolist()[0] == 15.0
    assert cells["runs"].tolist() == [2, 2]
    assert cells["bad"].tolist() == [0.0, 1.0]
    assert cells["ending"].tolist() == ["", "fell_forward"]
