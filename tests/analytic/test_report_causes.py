"""The causes of a change of the knee's moment: exact parts, and the same lever by another route."""

import math

import numpy as np
import pytest

from simgait.pictures.poses import knee_lever
from simgait.report.causes import PARTS, Instant, parts_of_change


def drawn(rng: np.random.Generator) -> Instant:
    return Instant(
        percent=rng.uniform(0.0, 100.0),
        moment=rng.uniform(-120.0, 120.0),
        force=rng.uniform(50.0, 1500.0),
        lean=rng.uniform(-0.4, 0.4),
        ahead=rng.uniform(-0.3, 0.3),
        ankle_ahead=rng.uniform(-0.2, 0.2),
        height=rng.uniform(0.3, 0.6),
    )


PAIRS = [(drawn(rng), drawn(rng)) for rng in map(np.random.default_rng, range(200))]


def test_the_parts_add_up_to_the_change_whatever_the_numbers() -> None:
    for before, after in PAIRS:
        parts = parts_of_change(before, after)
        assert tuple(parts) == PARTS
        assert sum(parts.values()) == pytest.approx(after.moment - before.moment, abs=1e-9)


def test_the_parts_of_the_way_back_are_the_negatives() -> None:
    for before, after in PAIRS:
        there, back = parts_of_change(before, after), parts_of_change(after, before)
        assert [back[name] for name in PARTS] == pytest.approx([-there[name] for name in PARTS])


def test_the_lever_is_the_distance_of_the_force_line_as_vectors_give_it() -> None:
    for instant, _ in PAIRS:
        force = instant.force * np.array([math.sin(instant.lean), math.cos(instant.lean)])
        found = knee_lever(np.array([0.7 + instant.ahead, instant.height]), 0.7, force)
        assert found is not None
        assert instant.lever == pytest.approx(found[1], abs=1e-12)


def changed(before: Instant, **values: float) -> dict[str, float]:
    moment = before.moment
    other = Instant(**{**vars(before), **values})
    whole = Instant(**{**vars(other), "moment": moment - before.force * before.lever
                       + other.force * other.lever})  # fmt: skip
    return parts_of_change(before, whole)


def test_one_cause_alone_has_the_whole_change() -> None:
    before = PAIRS[0][0]
    for name, values in (
        ("pressure", {"ahead": before.ahead + 0.01}),
        ("lean", {"lean": before.lean + 0.02}),
        ("height", {"height": before.height + 0.01}),
        ("force", {"force": before.force * 1.1}),
    ):
        parts = changed(before, **values)
        others = {cause: part for cause, part in parts.items() if cause != name}
        assert abs(parts[name]) > 1e-3
        assert others == pytest.approx(dict.fromkeys(others, 0.0), abs=1e-9)


def test_a_pressure_further_forward_under_the_knee_bends_it_less_by_force_times_shift() -> None:
    before = Instant(
        percent=20.0, moment=15.0, force=800.0, lean=0.0, ahead=-0.02, ankle_ahead=-0.1, height=0.5
    )
    parts = changed(before, ahead=before.ahead - 0.010)  # 10 mm
    assert parts["pressure"] == pytest.approx(-8.0)
