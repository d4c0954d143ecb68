"""The work of the arm's job; it does it once and returns what it did, as counts."""

import subprocess
import sysconfig
import tempfile
from collections.abc import Mapping
from pathlib import Path

ABOVE_ELBOW = Path(__file__).resolve().parent.parent / "models/cases/arms/above-elbow.toml"
SEARCH = """[search]
loop_mm = { from = 20.25, to = 70, step = 0.25 }
forearm_change_mm = { from = -90, to = 8, step = 2 }
"""


def arm_command() -> Mapping[str, int]:
    """Run `simgait arm` on 200 loops, 50 lengths and 1,000 draws in a new process."""
    command = Path(sysconfig.get_path("scripts")) / "simgait"
    with tempfile.TemporaryDirectory() as room:
        case = Path(room) / "many.toml"
        text = ABOVE_ELBOW.read_text(encoding="utf-8").partition("[search]")[0]
        case.write_text(text + SEARCH, encoding="utf-8")
        words = [command, "arm", str(case), "--json", "--draws", "1000"]
        subprocess.run(words, check=True, capture_output=True)
    return {"positions": 200, "lengths": 50, "draws": 1000}
