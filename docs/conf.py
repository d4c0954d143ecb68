"""How the documentation is built: `python -m sphinx -W -b html docs docs/_build`."""

import tomllib
from pathlib import Path

_project = tomllib.loads(
    (Path(__file__).resolve().parents[1] / "pyproject.toml").read_text(encoding="utf-8")
)["project"]

project = "simgait"
author = "simgait contributors"
copyright = author
release = _project["version"]
version = release

extensions = [
    "myst_nb",
    "sphinx.ext.autodoc",
    "sphinx.ext.napoleon",
]
exclude_patterns = ["_build", "jupyter_execute"]

html_theme = "furo"
html_title = f"simgait {release}"
html_copy_source = False

# Pages hold results that a script wrote; they are not run again at every build.
nb_execution_mode = "off"
myst_enable_extensions = ["deflist", "dollarmath"]
myst_heading_anchors = 3

autodoc_typehints = "description"
autodoc_member_order = "bysource"
