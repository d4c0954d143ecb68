"""The script engine under Node: text in, numbers out, as raw doubles so that no digit is lost."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from simgait.arrays import Array
from simgait.engines.script import script_text
from simgait.physics import layout as rows
from simgait.stance.batch import Batch
from simgait.stance.running import LOADING, paces, steps_needed

READ = """
const files = require("fs"), [given_file, answer_file] = process.argv.slice(2);
const given = new Float64Array(Uint8Array.from(files.readFileSync(given_file)).buffer);
"""
WRITE = """
files.writeFileSync(answer_file, Buffer.from(Float64Array.from(answer).buffer));
"""
# One stance after the other: room for instants, most instants, first double step, step; parameter,
# sole, reference and state in; ends and measures out.
STANCES = """
const P = physics;
const rooms = (room) => {
  const block = {};
  const sizes = {
    state: P.STATES, rate: P.STATES, base: P.STATES, first: P.STATES, total: P.STATES,
    scratch: P.SCRATCH, ends: P.ENDS, found: P.FOUND, measures: P.MEASURES,
    curves: P.CHANNELS * room, series: P.SERIES * room,
  };
  for (const name of Object.keys(sizes)) block[name] = new Float64Array(sizes[name]);
  return block;
};
const watched = (array) => !WATCH ? array : new Proxy(array, {
  get: (target, key) => {
    if (!(Number.isInteger(+key) && +key >= 0 && +key < target.length))
      throw new RangeError(`entry ${String(key)} of ${target.length}`);
    return target[key];
  },
  set: (target, key, value) => {
    if (!(Number.isInteger(+key) && +key >= 0 && +key < target.length))
      throw new RangeError(`entry ${String(key)} of ${target.length}`);
    target[key] = value;
    return true;
  },
});
const stances = (given) => {
  const answer = [];
  let at = 0;
  const take = (count) => given.slice(at, at += count);
  while (at < given.length) {
    const [room, steps, fine, step] = take(4);
    const b = rooms(room);
    const parameter = watched(take(P.PARAMETERS)), sole = watched(take(P.SOLE_ROWS));
    const reference = watched(take(P.REFERENCE_ROWS));
    b.state = take(P.STATES);
    for (const name of Object.keys(b)) b[name] = watched(b[name]);
    P.run_stance(1, steps, fine, step, b.state, parameter, sole, reference, b.scratch, b.rate,
      b.base, b.first, b.total, b.curves, b.ends);
    P.measure_block(1, steps, step, b.curves, parameter, b.ends, b.series, b.found, b.measures);
    for (let i = 0; i < P.ENDS; i += 1) answer.push(b.ends[i]);
    for (let i = 0; i < P.MEASURES; i += 1) answer.push(b.measures[i]);
  }
  return answer;
};
"""


def node() -> str:
    """Return where Node is; without it the test is skipped, or fails where it is needed."""
    found = shutil.which("node") or shutil.which("nodejs")
    if found:
        return found
    if os.environ.get("SIMGAIT_NEEDS_BROWSER") == "1":
        pytest.fail("SIMGAIT_NEEDS_BROWSER is 1 and there is no node")
    pytest.skip("no node to run the script engine with")


def run_script(text: str, given: Array | None = None) -> Array:
    """Return the numbers that a script leaves in `answer`; it finds the given ones in `given`."""
    with tempfile.TemporaryDirectory() as room:
        program, entered, answer = (Path(room, name) for name in ("program.js", "given", "answer"))
        program.write_text(READ + text + WRITE, encoding="utf-8")
        entered.write_bytes(b"" if given is None else np.ascontiguousarray(given).tobytes())
        done = subprocess.run(
            [node(), program, entered, answer], capture_output=True, text=True, timeout=300
        )
        assert done.returncode == 0, done.stderr[-2000:]
        return np.frombuffer(answer.read_bytes())


@cache
def stance_script(watch: bool = False) -> str:
    """Return the script that defines `stances`, which runs stances and reads their measures.

    watch: whether every access to an array is looked at, and one beyond its ends is an error.
    """
    physics = script_text(["run_stance", "measure_block"])
    return f"{physics}const WATCH = {str(watch).lower()};{STANCES}"


def stance_columns(
    batch: Batch, step: float, forced: bool = False, room: int | None = None
) -> Array:
    """Return what `stances` takes, each run with the steps that the compiled engine gives it.

    forced: exactly this step for all [s]; room: instants to make room for, if not for as many as a
    run can take.
    """
    each = np.full(len(batch), step), np.zeros(len(batch), bool)
    steps, doubled = each if forced else paces(batch, step)
    columns = []
    for run, (size, twice) in enumerate(zip(steps, doubled, strict=True)):
        alone = batch.part(np.array([run]))
        most = steps_needed(alone, size)
        fine = round(LOADING / size) if twice else most
        columns += [np.array([room or most, most, fine, size])]
        columns += [alone.parameter[0], alone.sole[0], alone.reference[0], alone.state[0]]
    return np.concatenate(columns)


def script_stances(
    batch: Batch, step: float, watch: bool = False, forced: bool = False, room: int | None = None
) -> tuple[Array, Array]:
    """Return ends [runs, ENDS] and measures [runs, MEASURES] of a batch, run by the script.

    See `stance_script` and `stance_columns`.
    """
    given = stance_columns(batch, step, forced, room)
    answer = run_script(f"{stance_script(watch)}const answer = stances(given);", given)
    both = answer.reshape(len(batch), -1)
    return both[:, : rows.ENDS], both[:, rows.ENDS :]
