"""What a wearer who adapts keeps: read off the run, and weighed as the guide says."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from simgait.arrays import many
from simgait.case import read_case
from simgait.errors import RangeError
from simgait.library import models_folder
from simgait.limb import as_many, limb_of, limb_part
from simgait.stance import simulate_stance
from simgait.stance.kept_walk import SPEEDS, KeptWalk, Yardsticks, kept_walk, walks
from walkers import aligned, walker


def everyday(*words):
    case = read_case(models_folder() / "cases" / "everyday.toml", dict(words))
    return limb_of(case, case.baseline)


def test_the_misfit_is_weighed_as_the_guide_says():
    yardsticks = Yardsticks(hip=0.05, knee=0.05, speed=0.02, lean=0.01, progress=0.03)
    rng = np.random.default_rng(4)
    own, other = rng.normal(size=7), rng.normal(size=(3, 7))
    kept = KeptWalk(alignment=everyday().alignment, walk=own, yardsticks=yardsticks)
    for walk, misfit in zip(other, kept.misfit(other), strict=True):
        speed, change, *leans = walk - own
        mean = sum(leans) / 5
        expected = (speed / 0.02) ** 2 + (change / 0.02) ** 2 + (mean / 0.01) ** 2
        expected += sum((lean - mean) ** 2 for lean in leans) / 5 / 0.03**2
        assert (misfit**2).sum() == pytest.approx(expected)


def test_without_a_walk_nothing_can_be_kept():
    with pytest.raises(RangeError, match="no walk to keep"):
        kept_walk(everyday(("ground.friction", "0.05")))
    pair = limb_part(as_many(everyday()), np.array([0, 0]))
    slippery = replace(pair, friction=many(np.array([0.7, 0.05])))
    with pytest.raises(RangeError) as refusal:
        kept_walk(slippery)
    assert refusal.value.rows.tolist() == [False, True]


def test_the_shank_is_read_off_the_curves_and_the_speed_off_the_hip():
    limb = walker("able-bodied-like")
    (walk,), _ = walks(limb)
    result = simulate_stance(limb)
    curves = result.curves
    shares = np.array([0.15, 0.30, 0.45, 0.60, 0.75]) * limb.wearer.stance_time
    assert walk[SPEEDS:] == pytest.approx(np.interp(shares, curves.time, curves.shank_lean))
    assert walk[1] == pytest.approx(result.measures["speed_change_m_s"])
    way = curves.hip[-1, 0] - curves.hip[0, 0]
    assert walk[0] == pytest.approx(way / curves.time[-1], rel=2e-3)
    flexed = aligned(limb, socket_flexion=0.03)
    other = simulate_stance(flexed).curves
    assert walks(flexed)[0][0, SPEEDS:] == pytest.approx(
        np.interp(shares, other.time, other.shank_lean) - 0.03
    )
