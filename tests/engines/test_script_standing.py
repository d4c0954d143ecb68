"""Standing in a page, run by Node, gives Python's numbers at any alignment."""

import json
import subprocess
from dataclasses import replace

import numpy as np
import pytest

from scripts import node
from simgait.alignment import WRITTEN_NAMES, Alignment
from simgait.case import read_case
from simgait.library import models_folder
from simgait.library.strengths import read_strength
from simgait.limb import limb_columns, limb_of
from simgait.page.shell import asset
from simgait.page.stance_data import stance_data
from simgait.page.standing_data import page_physics, standing_data
from simgait.physics import rest_layout as rows
from simgait.standing import stand_limb
from simgait.standing.flat import flat
from simgait.standing.outline import outline
from simgait.standing.result import EQUAL, stance_of

CASES = sorted((models_folder() / "cases").glob("*.toml"))
SPANS = ((-50.0, 50.0), (-14.0, 14.0), (0.0, 15.0), (-15.0, 15.0), (0.0, 35.0))
REPORT = """
const listed = (way) => ({
  ...way, sole: [Array.from(way.sole.x), Array.from(way.sole.y)], force: Array.from(way.force),
  points: Object.fromEntries(Object.entries(way.points).map(([name, at]) => [name, [at.x, at.y]])),
});
console.log(JSON.stringify(settings.map((setting) => {
  const said = model.stand(setting);
  return said.refused !== null ? said : { ...listed(said), alone: listed(said.alone) };
})));
"""


def drawn(count, seed=5):
    rng = np.random.default_rng(seed)
    return [
        {name: rng.uniform(*span) for name, span in zip(WRITTEN_NAMES, SPANS, strict=True)}
        for _ in range(count)
    ]


def weakened(data, strength):
    """Return a page's data with another strength than the case's wearer has."""
    rest = list(data["rest"])
    factor = {rows.REST_KNEE: strength[0], rows.REST_HIP: strength[1]}
    return data | {"rest": [value * factor.get(row, 1.0) for row, value in enumerate(rest)]}


def told(case, settings, tmp_path, strength=(1.0, 1.0)):
    """Return what the page's model says of a case standing at some settings."""
    standing = json.dumps(weakened(standing_data(case), strength))
    lines = [
        page_physics(),
        *(asset(name) for name in ("elements.js", "stance_model.js", "stand_model.js")),
        f"const model = stanceModel({json.dumps(stance_data(case))}, standModel({standing}));",
        f"const settings = {json.dumps(settings)};",
        REPORT,
    ]
    program = tmp_path / "program.js"
    program.write_text("\n".join(lines), encoding="utf-8")
    done = subprocess.run([node(), program], capture_output=True, text=True, timeout=300)
    assert done.returncode == 0, done.stderr[-2000:]
    return json.loads(done.stdout)


def number(value):
    return np.nan if value is None else value


def is_pythons(said, way):
    """Assert that one way of standing in the page is Python's."""
    assert said["ending"] == way.ending
    assert said["measures"].keys() == way.measures.keys()
    for name, value in way.measures.items():
        found = number(said["measures"][name])
        assert found == pytest.approx(value, rel=1e-9, abs=1e-9, nan_ok=True), name
    assert {name: limit["reason"] for name, limit in said["limits"].items()} == {
        name.replace("_", " "): limit.reason for name, limit in way.limits.items()
    }
    drawing, pose = outline(way), way.pose
    for name in ("hip", "knee", "brim", "limb_end", "socket_end", "ankle"):
        assert said["points"][name] == pytest.approx(getattr(drawing, name), abs=1e-11), name
    assert np.transpose(said["sole"]) == pytest.approx(drawing.sole, abs=1e-11)
    assert said["force"] == pytest.approx(pose.footing.force, rel=1e-9, abs=1e-9)
    for name in ("pressure", "heel_end", "toe_end", "centre_height", "carried"):
        assert said[name] == pytest.approx(getattr(drawing, name), rel=1e-9, abs=1e-11), name
    assert said["share"] == pytest.approx(way.share, rel=1e-9)
    assert said["hip_moment_nm"] == pytest.approx(pose.hip_moment, rel=1e-9, abs=1e-8)
    for name in ("knee", "ankle", "hip"):
        ahead = 1000.0 * pose.line_ahead_of(getattr(pose, name))
        assert said[f"line_ahead_of_{name}_mm"] == pytest.approx(ahead, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("path", CASES, ids=[path.stem for path in CASES])
@pytest.mark.parametrize("strength", [(1.0, 1.0), (0.15, 0.03)], ids=["own", "weak"])
def test_the_pages_standing_is_pythons(path, strength, tmp_path):
    case = read_case(path)
    settings = [case.baseline.as_written(), *drawn(20)]
    own = read_strength(case.wearer)
    weak = replace(own, knee=own.knee * strength[0], hip=own.hip * strength[1])
    endings = set()
    for setting, said in zip(settings, told(case, settings, tmp_path, strength), strict=True):
        assert said["refused"] is None
        limb = limb_of(case, Alignment.from_written(setting))
        for entry, way in zip((said, said["alone"]), stand_limb(limb, weak), strict=True):
            is_pythons(entry, way)
            endings.add(way.ending)
    assert "stands" in endings
    assert (len(endings) > 1) == (strength[0] < 1.0)


def test_standing_reads_a_limbs_columns_as_python_reads_the_limb():
    from simgait.physics.layout import W
    from simgait.physics.still import take_columns

    case = read_case(CASES[0])
    strength = read_strength(case.wearer)
    for setting in drawn(5, seed=6):
        limb = limb_of(case, Alignment.from_written(setting))
        stance, columns = stance_of(limb, strength, EQUAL), limb_columns(limb)
        rest = flat(rows.REST_ROWS)
        rest[:] = list(stance.rest)
        wide = [np.zeros((len(part), W)) for part in (columns.parameter, columns.sole)]
        for into, part in zip(wide, (columns.parameter, columns.sole), strict=True):
            into[:, 3] = part
        take_columns(3, wide[0].reshape(-1), wide[1].reshape(-1), rest)
        assert np.array(rest) == pytest.approx(np.array(stance.rest), rel=1e-12, abs=1e-14)


def test_what_cannot_be_built_says_why_and_stands_nowhere(tmp_path):
    case = read_case(CASES[0])
    said = told(case, [case.baseline.as_written() | {"foot_forward_mm": 61.0}], tmp_path)[0]
    assert set(said) == {"setting", "refused"}
    assert "61.0" in said["refused"]
