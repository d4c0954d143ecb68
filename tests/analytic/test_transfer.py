"""Chains of components: formula against rigid transformations, search against all there is."""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy

from rigid_chains import every_chain, place_of_foot, pose_of_matrix
from simgait.transfer.geometry import Chain, Pose, distance, span_and_tilt
from simgait.transfer.hardware import Hardware, Tilt, Tube
from simgait.transfer.search import best_with, cut_span, found_chains, tolerance_used

DEG = math.pi / 180.0


def drawn_chain(seed: int) -> Chain:
    rng = np.random.default_rng(seed)
    return Chain(
        socket_adapter=rng.uniform(0.0, 0.08),
        offset=rng.uniform(-0.03, 0.03),
        upper_tilt=rng.uniform(-0.3, 0.3),
        span=rng.uniform(0.02, 0.40),
        lower_tilt=rng.uniform(-0.3, 0.3),
        foot_shift=rng.uniform(-0.03, 0.03),
        foot_adapter=rng.uniform(0.0, 0.08),
    )


def hardware(**changes: object) -> Hardware:
    usual: dict[str, object] = {
        "socket_adapter": 0.03,
        "foot_adapter": 0.02,
        "clamps": 0.04,
        "tube": Tube(least=0.10, most=0.20, step=0.001),
        "upper": Tilt(most=8.0 * DEG, step=0.0),
        "lower": Tilt(most=8.0 * DEG, step=0.0),
        "offsets": (0.0,),
        "tolerance": 0.001,
        "turn_tolerance": 0.5 * DEG,
    }
    return Hardware(**{**usual, **changes})  # type: ignore[arg-type]


def reached(rng: np.random.Generator, own: Hardware) -> Pose:
    """A pose that lies about where the hardware reaches."""
    return Chain(
        socket_adapter=own.socket_adapter + rng.uniform(-0.003, 0.003),
        offset=rng.uniform(-0.004, 0.004),
        upper_tilt=rng.uniform(-1.0, 1.0) * own.upper.most,
        span=own.clamps + rng.uniform(own.tube.least, own.tube.most),
        lower_tilt=rng.uniform(-1.0, 1.0) * own.lower.most,
        foot_shift=0.0,
        foot_adapter=own.foot_adapter,
    ).pose


@pytest.mark.parametrize("seed", range(100))
def test_a_chain_is_its_parts_turned_and_moved_one_after_the_other(seed: int) -> None:
    chain = drawn_chain(seed)
    pose, other = chain.pose, pose_of_matrix(place_of_foot(chain))
    assert (pose.forward, pose.below, pose.turn) == pytest.approx(
        (other.forward, other.below, other.turn), abs=1e-12
    )


def test_the_written_formula_is_that_of_complex_numbers() -> None:
    a, b, span, shift, offset, adapter, foot = sympy.symbols("a b L p o h f", real=True)
    t, i = a + b, sympy.I
    place = (
        offset
        - i * adapter
        + sympy.exp(i * a) * (-i * span)
        + sympy.exp(i * t) * (shift - i * foot)
    )
    x = offset + span * sympy.sin(a) + shift * sympy.cos(t) + foot * sympy.sin(t)
    y = -adapter - span * sympy.cos(a) + shift * sympy.sin(t) - foot * sympy.cos(t)
    assert sympy.simplify(sympy.expand_complex(place) - (x + i * y)) == 0


@pytest.mark.parametrize("seed", range(50))
def test_the_closed_form_gives_back_the_chain_that_made_the_pose(seed: int) -> None:
    chain = drawn_chain(seed)
    plain = Chain(**{**vars(chain), "foot_shift": 0.0})
    span, tilt = span_and_tilt(
        plain.pose, plain.offset, plain.socket_adapter, plain.foot_adapter, plain.turn
    )
    assert (span, tilt) == pytest.approx((plain.span, plain.upper_tilt), abs=1e-12)


@pytest.mark.parametrize("seed", range(60))
def test_in_steps_the_search_finds_what_trying_every_setting_finds(seed: int) -> None:
    rng = np.random.default_rng(seed)
    own = hardware(
        tube=Tube(least=0.10, most=0.13, step=float(rng.choice([0.001, 0.002, 0.005]))),
        upper=Tilt(most=4.0 * DEG, step=float(rng.choice([0.25, 0.5, 1.0])) * DEG),
        lower=Tilt(most=4.0 * DEG, step=float(rng.choice([0.25, 0.5, 1.0])) * DEG),
        tolerance=float(rng.choice([0.0005, 0.002, 0.005])),
        turn_tolerance=float(rng.choice([0.2, 0.6, 1.2])) * DEG,
    )
    pose = reached(rng, own)
    least = min(
        tolerance_used(
            pose,
            Chain(
                socket_adapter=own.socket_adapter,
                offset=0.0,
                upper_tilt=upper,
                span=tube + own.clamps,
                lower_tilt=lower,
                foot_shift=0.0,
                foot_adapter=own.foot_adapter,
            ).pose,
            own,
        )
        for upper, tube, lower in every_chain(own, 0.0)
    )
    best = best_with(pose, 0.0, own)
    if least <= 1.0:
        assert best is not None
        assert best[0] == pytest.approx(least, abs=1e-9)
    assert bool(found_chains(pose, own)) == (least <= 1.0)


def test_among_those_poses_some_are_kept_and_some_are_not() -> None:
    kept = []
    for seed in range(60):
        rng = np.random.default_rng(seed)
        own = hardware(
            tube=Tube(least=0.10, most=0.13, step=0.002),
            upper=Tilt(most=4.0 * DEG, step=0.5 * DEG),
            lower=Tilt(most=4.0 * DEG, step=0.5 * DEG),
        )
        kept.append(bool(found_chains(reached(rng, own), own)))
    assert 5 < sum(kept) < 55


@pytest.mark.parametrize("steps", [(0.0, 0.5), (0.5, 0.0)])
@pytest.mark.parametrize("seed", range(15))
def test_with_one_tilt_free_nothing_that_fine_steps_reach_is_missed(
    seed: int, steps: tuple[float, float]
) -> None:
    rng = np.random.default_rng(seed)
    turn_tolerance = float(rng.choice([0.1, 0.3])) * DEG
    common = {"tube": Tube(least=0.10, most=0.13, step=0.002), "turn_tolerance": turn_tolerance}
    free = hardware(
        upper=Tilt(most=3.0 * DEG, step=steps[0] * DEG),
        lower=Tilt(most=3.0 * DEG, step=steps[1] * DEG),
        **common,
    )
    fine = hardware(
        upper=Tilt(most=3.0 * DEG, step=(steps[0] or 0.02) * DEG),
        lower=Tilt(most=3.0 * DEG, step=(steps[1] or 0.02) * DEG),
        **common,
    )
    pose = reached(rng, free)
    if found_chains(pose, fine):
        assert found_chains(pose, free)


@pytest.mark.parametrize("seed", range(20))
def test_free_hardware_keeps_every_pose_in_reach_exactly(seed: int) -> None:
    rng = np.random.default_rng(seed)
    own = hardware(
        tube=Tube(least=0.05, most=0.30, step=0.0),
        upper=Tilt(most=20.0 * DEG, step=0.0),
        lower=Tilt(most=20.0 * DEG, step=0.0),
        tolerance=0.0,
        turn_tolerance=0.0,
        offsets=(0.0, 0.005, -0.01),
    )
    pose = reached(rng, hardware(tube=Tube(least=0.10, most=0.20, step=0.0)))
    found = found_chains(pose, own)
    assert len(found) == 3
    for each in found:
        assert each.error == pytest.approx(0.0, abs=1e-12)
        assert each.turn_error == pytest.approx(0.0, abs=1e-12)
        assert each.cut_from == pytest.approx(each.pylon, abs=1e-9)
        assert each.cut_to == pytest.approx(each.pylon, abs=1e-9)


def test_a_tolerance_of_nothing_and_a_cut_in_steps_keep_only_poses_on_a_step() -> None:
    own = hardware(tolerance=0.0, turn_tolerance=0.0)
    straight = Pose(forward=0.0, below=0.03 + 0.04 + 0.150 + 0.02, turn=0.0)
    (found,) = found_chains(straight, own)
    assert found.pylon == pytest.approx(0.150)
    assert found_chains(Pose(forward=0.0, below=straight.below + 0.0004, turn=0.0), own) == ()


def test_a_tilt_at_its_limit_is_kept_and_one_beyond_is_not() -> None:
    own = hardware(turn_tolerance=0.0)
    at_limit = Chain(
        socket_adapter=0.03, offset=0.0, upper_tilt=8.0 * DEG, span=0.19, lower_tilt=-8.0 * DEG,
        foot_shift=0.0, foot_adapter=0.02,
    )  # fmt: skip
    (found,) = found_chains(at_limit.pose, own)
    assert found.chain.upper_tilt == pytest.approx(8.0 * DEG)
    beyond = Chain(**{**vars(at_limit), "upper_tilt": 8.6 * DEG, "lower_tilt": -8.6 * DEG})
    assert found_chains(beyond.pose, own) == ()
    assert found_chains(beyond.pose, hardware(tolerance=0.004))


@pytest.mark.parametrize("seed", range(20))
def test_the_cut_may_vary_just_as_far_as_is_said(seed: int) -> None:
    rng = np.random.default_rng(seed)
    own = hardware(tube=Tube(least=0.05, most=0.30, step=0.001), tolerance=0.002)
    pose = reached(rng, hardware(upper=Tilt(most=3.0 * DEG, step=0.0)))
    best = best_with(pose, 0.0, own)
    assert best is not None
    low, high = cut_span(pose, best[1], own)
    assert low <= best[2] <= high

    def off(tube: float) -> float:
        chain = Chain(**{**vars(best[1]), "span": tube + own.clamps})
        return distance(pose, chain.pose)

    for end, outwards in ((low, -1e-5), (high, 1e-5)):
        assert off(end) == pytest.approx(own.tolerance, abs=1e-9)
        assert off(end + outwards) > own.tolerance
        assert off(end - outwards) < own.tolerance


def test_the_best_chain_is_first_and_every_plate_comes_once() -> None:
    own = hardware(offsets=(0.010, 0.0, 0.005))
    pose = Chain(
        socket_adapter=0.03, offset=0.005, upper_tilt=2.0 * DEG, span=0.19, lower_tilt=-1.0 * DEG,
        foot_shift=0.0, foot_adapter=0.02,
    ).pose  # fmt: skip
    found = found_chains(pose, own)
    assert sorted(each.chain.offset for each in found) == [0.0, 0.005, 0.010]
    assert found[0].chain.offset == 0.005
    used = [tolerance_used(pose, each.chain.pose, own) for each in found]
    assert used == sorted(used)
