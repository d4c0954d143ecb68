"""The work of the script engine's job: stances in one Node process that stays awake."""

import atexit
import functools
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from stance_jobs import ROOT, batch

sys.path.insert(0, str(ROOT / "tests" / "support"))

STANCES = 100
ANSWER = """
const files = require("fs");
const given = new Float64Array(Uint8Array.from(files.readFileSync(process.argv[2])).buffer);
process.stdin.on("data", () => {
  const answer = stances(given);
  process.stdout.write(`${answer.filter(Number.isFinite).length}\\n`);
});
"""


@functools.cache
def awake() -> subprocess.Popen[str]:
    """Return the process, which runs all stances once for each line that it is sent."""
    import numpy as np

    from scripts import node, stance_columns, stance_script
    from simgait.stance.running import STEP

    room = tempfile.TemporaryDirectory()
    program, given = Path(room.name, "program.js"), Path(room.name, "given")
    program.write_text(stance_script() + ANSWER, encoding="utf-8")
    given.write_bytes(stance_columns(batch().part(np.arange(STANCES)), STEP).tobytes())
    process = subprocess.Popen(
        [node(), program, given], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    atexit.register(room.cleanup)
    atexit.register(process.kill)
    return process


def script_stances() -> Mapping[str, int]:
    """Run the stances one after the other, all measures; returns how many numbers came out."""
    process = awake()
    assert process.stdin is not None and process.stdout is not None
    process.stdin.write("again\n")
    process.stdin.flush()
    return {"stances": STANCES, "finite_numbers": int(process.stdout.readline())}
