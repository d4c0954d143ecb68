"""Numbers on stance films: beside curves and levers, none over another, all inside."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw

from film_reading import hearing
from simgait.pictures.films.moving import spread, write_lever


def test_numbers_of_curves_do_not_cover_each_other() -> None:
    places = [(5.0, y) for y in (10.0, 11.0, 12.0, 40.0, 41.0, 200.0)]
    rows = spread(places, 14)
    assert np.diff(rows).min() >= 14.0 - 1e-9
    assert rows[-1] == 200.0
    assert sum(rows[:5]) == pytest.approx(sum(y for _, y in places[:5]))


@pytest.mark.parametrize("length", [-0.123, 0.123])
@pytest.mark.parametrize("x", [-40.0, 3.0, 90.0, 178.0, 240.0])
def test_the_size_of_a_lever_stays_in_its_window(
    length: float, x: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    pen = ImageDraw.Draw(Image.new("L", (180, 100)))
    with hearing(monkeypatch) as heard:
        write_lever(pen, (length, (x, 50.0)), 14, 180)
    assert [word.inside for word in heard] == [True]
    assert heard[0].text == ("+123" if length > 0 else "\u2212123")
    if x == 90.0:
        assert (heard[0].box[0] > x) == (length < 0.0)
