"""A wholly mirrored scene of tipping falls the other way."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from simgait.case import read_case
from simgait.engines.setting import Balance, Muscle, SceneSole, Setting
from simgait.library import models_folder
from simgait.physics.scene import BODY_ANGLE
from simgait.standing import stand
from simgait.tipping.names import BY_NAME
from simgait.tipping.playing import play, ready


def mirrored(setting: Setting) -> Setting:
    """Return a scene with ahead and behind exchanged; heel ends stay the first of a sole."""

    def muscle(m: Muscle) -> Muscle:
        turned = {"aim": -m.aim, "feed": -m.feed, "least": -m.greatest, "greatest": -m.least}
        return replace(m, **turned, stop_low=-m.stop_high, stop_high=-m.stop_low)

    def sole(s: SceneSole) -> SceneSole:
        rest = {"up": s.up[::-1], "stiffness": s.stiffness[::-1], "loss": s.loss[::-1]}
        return replace(s, forward=-s.forward[::-1], **rest)

    def balance(b: Balance) -> Balance:
        ends = {"reach_back": -b.reach_ahead, "reach_ahead": -b.reach_back, "stood": -b.stood}
        return replace(b, axis=(-b.axis[0], b.axis[1]), flat_lean=-b.flat_lean, **ends)

    assert setting.balance is not None
    return replace(
        setting,
        bodies=tuple(
            replace(each, centre=(-each.centre[0], each.centre[1]), lean=-each.lean)
            for each in setting.bodies
        ),
        pivots=tuple(replace(each, at=(-each.at[0], each.at[1])) for each in setting.pivots),
        muscles=tuple(map(muscle, setting.muscles)),
        soles=tuple(map(sole, setting.soles)),
        balance=balance(setting.balance),
    )


@pytest.mark.parametrize("size", [8.0, 12.0, 16.0])
def test_a_mirrored_wearer_falls_the_other_way(size: float) -> None:
    # Nothing but the wearer knows ahead from behind: every sign of bodies, muscles, soles,
    # balance and judgement exchanged, the same push tips the same way round.
    made = ready(stand(read_case(models_folder() / "cases" / "everyday.toml"))[0])
    turned = replace(made, setting=mirrored(made.setting))
    ahead = play(made, BY_NAME["forward_push_ns"], size)
    back = play(turned, BY_NAME["backward_push_ns"], size)
    assert ahead.ending == back.ending
    assert ahead.time == pytest.approx(back.time)
    assert back.centre[:, 0] == pytest.approx(-ahead.centre[:, 0], abs=1e-6)
    assert back.body[:, :, BODY_ANGLE] == pytest.approx(-ahead.body[:, :, BODY_ANGLE], abs=1e-5)
    assert np.abs(ahead.centre[:, 0] - ahead.centre[0, 0]).max() > 0.01
