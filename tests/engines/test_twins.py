"""The plain and the compiled engine are twins, and a run does not know its lane or its company."""

from types import ModuleType

import numpy as np
import pytest

from simgait.case import read_case
from simgait.engines import compiled, plain
from simgait.engines.blocks import run_block
from simgait.engines.scene import Scene
from simgait.library import models_folder
from simgait.physics import layout as rows
from simgait.physics import rest_layout as still
from simgait.physics import scene as law
from simgait.standing import stand
from simgait.tipping.playing import ready
from worked_limb import Columns, W, filled, run, walking

STEP = 5e-4  # [s]


def recorded(kernel: ModuleType, runs: list[Columns], lanes: list[int], steps: int):
    """Return the curves [instants, channels, lanes] and the ends of a block run in these lanes."""
    block = filled(runs, steps, lanes)
    count = run_block(kernel, block, max(lanes) + 1, STEP)
    curves = block.curves.reshape(-1, rows.CHANNELS, W)[:count]
    return curves.copy(), block.ends.reshape(-1, W).copy(), block.state.reshape(-1, W).copy()


def company() -> list[Columns]:
    """Sixteen different runs; some fall, some walk."""
    made = []
    for i in range(W):
        limb = walking().changed(
            KNEE_STIFFNESS=360.0 + 10.0 * i, FRICTION=0.3 + 0.04 * i, MASS_HIP=50.0 + 2.0 * i
        )
        made.append(limb.at(THIGH_RATE=-7.3 + 0.05 * i))
    return made


def test_plain_and_compiled_agree_from_touch_down():
    """Thirty steps: heel contact, the steepest part of the stance."""
    runs, lanes = company()[:2], [0, 1]
    slow, slow_ends, slow_state = recorded(plain.kernel(), runs, lanes, 31)
    fast, fast_ends, fast_state = recorded(compiled.kernel(), runs, lanes, 31)
    assert slow.shape == fast.shape == (31, rows.CHANNELS, W)
    assert slow[-1, rows.FORCE_UP, 0] > 50.0
    for lane in lanes:
        scale = np.abs(slow[:, :, lane]).max(axis=0) + 1e-9
        assert (np.abs(fast - slow)[:, :, lane] / scale).max() < 1e-12
    assert fast_ends == pytest.approx(slow_ends, rel=1e-12)
    assert fast_state == pytest.approx(slow_state, rel=1e-12, abs=1e-15)


def test_plain_and_compiled_agree_to_toe_off():
    """A whole walk at twice the step: the ending, when it was, and the state then."""
    slow = run(plain.kernel(), walking(), 1.0, 2.0 * STEP)
    fast = run(compiled.kernel(), walking(), 1.0, 2.0 * STEP)
    assert slow.ends[rows.ENDING] == rows.TOE_OFF
    assert slow.curves.shape == fast.curves.shape
    assert fast.ends == pytest.approx(slow.ends, rel=1e-10, abs=1e-12)


def test_a_run_does_not_know_its_lane_or_its_company():
    """To the last bit: alone in lane 0, and in another lane among fifteen others."""
    crowd, ends_crowd, _ = recorded(compiled.kernel(), company(), list(range(W)), 1800)
    for place in (7, 2):
        alone, ends_alone, _ = recorded(compiled.kernel(), [company()[place]], [0], 1800)
        end = int(ends_alone[rows.END_STEP, 0]) + 1
        assert end > 1000
        assert np.array_equal(ends_alone[:, 0], ends_crowd[:, place])
        assert np.array_equal(alone[:end, :, 0], crowd[:end, :, place])
        others = np.delete(np.arange(W), place)
        assert not any(np.array_equal(crowd[:, :, place], crowd[:, :, other]) for other in others)


def scene_arrays(scene: Scene, rng: np.random.Generator) -> list[np.ndarray]:
    """Return what `drive_scene` takes, the bodies shaken: places, leans and speeds at random."""
    body = np.array([(*each.centre, -each.lean, 0.0, 0.0, 0.0) for each in scene.setting.bodies])
    body += rng.normal(size=body.shape) * (0.01, 0.003, 0.1, 0.3, 0.3, 1.0)
    scene.state[rows.ANCHOR * W : (rows.ANCHOR + rows.ELEMENTS) * W] = 0.002 * rng.normal(
        size=rows.ELEMENTS * W
    )
    scene.tilt(float(rng.normal()) * 0.1)
    own = (body.reshape(-1), scene.mass, scene.muscle, scene.foot, scene.balance, scene.state)
    rest = (scene.parameter, scene.sole, scene.scratch, scene.rate, np.zeros(law.LOAD * len(body)))
    return [each.copy() for each in (*own, *rest)]


def test_plain_and_compiled_agree_on_scenes():
    """A standing wearer shaken at random: everything that one step of the laws fills."""
    case = read_case(models_folder() / "cases" / "everyday.toml")
    setting = ready(stand(case)[0]).setting
    counts = (len(setting.bodies), len(setting.muscles), len(setting.soles), 2e-4)
    rng, pressed = np.random.default_rng(5), 0
    for _ in range(20):
        slow = scene_arrays(Scene(setting), rng)
        fast = [each.copy() for each in slow]
        plain.kernel().drive_scene(*counts, *slow)
        compiled.kernel().drive_scene(*counts, *fast)
        for one, other in zip(slow, fast, strict=True):
            assert other == pytest.approx(one, rel=1e-11, abs=1e-10)
        pressed += bool(np.abs(slow[-1]).max() > 10.0 and slow[8][rows.SUM_UP * W] > 10.0)
    assert pressed > 5


def stood_by(kernel: ModuleType, rest: np.ndarray) -> np.ndarray:
    """Return everything that an engine fills in of a limb that stands on both feet."""
    load, trial = np.zeros(still.LOAD_ROWS), np.zeros(still.TRIAL_ROWS)
    pose, disturbed = np.zeros(still.POSE_ROWS), np.zeros(still.POSE_ROWS)
    room, stood = np.zeros(still.BRACKET_ROWS), np.zeros(still.STOOD_ROWS)
    share = kernel.share_held(0.0, load, rest, pose, room)
    kernel.stand_with(share, load, rest, pose, room, stood)
    kernel.find_limits(load, rest, pose, room, trial, disturbed, stood)
    return np.concatenate((stood, pose, disturbed))


def test_plain_and_compiled_agree_on_standing():
    """Wearers who keep their place, take less load, give the place up, and cannot stand at all."""
    case = read_case(models_folder() / "cases" / "everyday.toml")
    rest = np.array(stand(case)[0].stance.rest)
    found = []
    for ahead, knee, deepest in ((0.0, 1.0, 0.5), (0.03, 0.1, 0.5), (0.03, 1.0, 0.06), (0, 1, -2)):
        changed = rest.copy()
        changed[still.REST_PLACE] += ahead
        changed[still.REST_KNEE] *= knee
        changed[still.REST_DEEPEST] = deepest
        slow = stood_by(plain.kernel(), changed)
        fast = stood_by(compiled.kernel(), changed)
        assert fast == pytest.approx(slow, rel=1e-9, abs=1e-11)
        moved = abs(slow[still.STOOD_ROWS + still.POSE_PLACE] - changed[still.REST_PLACE]) > 1e-3
        found.append((slow[still.STOOD_ENDING], slow[still.STOOD_SHARE] < 0.499, moved))
    assert found == [
        (still.STANDS, False, False),
        (still.STANDS, True, False),
        (still.STANDS, False, True),
        (still.KNEE_TOO_BENT, False, False),
    ]
