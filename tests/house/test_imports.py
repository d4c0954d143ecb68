"""The rooms of the package import downwards only, and heavy libraries stay at home."""

import subprocess
import sys

import pytest

from house_tree import name, read, sources
from rule_imports import APART, circle, direction_faults, home_faults, models_faults

PACKAGE = [(name(path), read(path)) for path in sources("simgait")]
HEAVY = ("matplotlib", "numba", "pandas", "pyarrow", "pymunk")


def test_the_package_has_files():
    assert len(PACKAGE) > 5


@pytest.mark.parametrize("rule", [direction_faults, home_faults, models_faults])
def test_no_file_breaks_the_rule(rule):
    assert [fault for path, text in PACKAGE for fault in rule(path, text)] == []


def test_no_rooms_import_each_other_in_a_circle():
    assert circle(PACKAGE) == []


@pytest.mark.parametrize(
    ("path", "text", "words"),
    [
        ("simgait/physics/chain.py", "from simgait.stance.run import step", "above it"),
        ("simgait/limb.py", "def f():\n    import simgait.command", "above it"),
        ("simgait/parts/foot.py", "from ..case import Case", "above it"),
        ("simgait/parts/foot.py", "from simgait import limb", "above it"),
        ("simgait/errors.py", "import simgait", "not a room"),
        ("simgait/case.py", "from simgait import read_case", "not a room"),
        ("simgait/case.py", "import simgait.attic", "not a room"),
        ("simgait/attic.py", "", "on no floor"),
    ],
)
def test_an_import_that_points_up_is_seen(path, text, words):
    faults = direction_faults(path, text)
    assert len(faults) == 1
    assert words in faults[0]


def test_an_import_that_points_down_passes():
    text = "from simgait.errors import require\nfrom simgait.parts.foot import Foot\nimport numpy"
    assert direction_faults("simgait/limb.py", text) == []


@pytest.mark.parametrize("room", sorted(APART))
@pytest.mark.parametrize("other", sorted(APART))
def test_the_mechanics_do_not_import_each_other(room, other):
    faults = direction_faults(f"simgait/{room}/run.py", f"import simgait.{other}.run")
    assert len(faults) == (room != other)


def test_a_circle_within_a_floor_is_seen():
    files = [
        ("simgait/units.py", "import simgait.errors"),
        ("simgait/errors.py", "import simgait.sources"),
        ("simgait/sources.py", "import simgait.units"),
        ("simgait/limb.py", "import simgait.units"),
        ("simgait/files.py", ""),
    ]
    assert circle(files) == ["errors", "limb", "sources", "units"]
    assert circle(files[:2]) == []


def test_a_library_away_from_home_is_seen():
    text = "def draw():\n    from matplotlib import pyplot"
    assert len(home_faults("simgait/stance/run.py", text)) == 1
    assert home_faults("simgait/pictures/film.py", text) == []


def test_a_room_that_opens_models_is_seen():
    text = '"""models/ is data."""\nfolder = here / "models"\nfoot = here / "models/feet"'
    assert len(models_faults("simgait/limb.py", text)) == 2
    assert models_faults("simgait/library.py", text) == []


def loaded_by(statement: str) -> list[str]:
    """Return which heavy libraries a new process has loaded after a statement."""
    code = f"{statement}\nimport sys\nprint(*(n for n in {HEAVY} if n in sys.modules))"
    run = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return run.stdout.split()


@pytest.mark.parametrize("statement", ["import simgait", "import simgait.command"])
def test_the_import_stays_light(statement):
    assert loaded_by(statement) == []


def test_a_heavy_import_is_seen():
    assert "pyarrow" in loaded_by("import pyarrow")
