"""The page of a below-knee limb: everything that it needs beside the model itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from simgait.alignment import Alignment
from simgait.case import Case
from simgait.errors import RangeError
from simgait.limb import limb_of
from simgait.page.case_text import NOTE, case_pieces
from simgait.page.shell import BASE_SCRIPTS, BASE_STYLES, asset, page_text
from simgait.page.stance_data import stance_data
from simgait.page.standing_data import page_physics, standing_data
from simgait.stance.provenance import case_cautions, case_sources, model_version
from simgait.standing.names import AGREED
from simgait.symbols import MAIN_MEASURES
from simgait.units import mm_from_metres

__all__ = ["KEY_MEASURES", "stance_page_text"]

# Shown before all others: the project's main measures, of this one body instead of per mass, and
# three more; SPOKEN are what the page says aloud.
KEY_MEASURES = (
    *(name.removesuffix("_kg") for name in MAIN_MEASURES),
    "force_behind_knee_percent",
    "brim_force_peak_n",
    "toe_lever_mm",
)
KEY_STANDING = tuple(quantity.name for quantity in AGREED)
SPOKEN = (
    "knee_flexion_moment_peak_nm",
    "knee_extension_moment_peak_nm",
    "socket_extension_moment_peak_nm",
)
SCRIPTS = (
    "stance_model.js",
    "stand_model.js",
    "handles.js",
    "transport.js",
    "address.js",
    "measures.js",
    "limb_geometry.js",
    "limb_drawing.js",
    "case_file.js",
    "stance_settings.js",
    "stance_curves.js",
    "standing_view.js",
    "stance_pictures.js",
    "page_frame.js",
    "stance_layout.js",
    "stance_page.js",
)
STYLES = ("stance_page.css",)
BODY = (
    '<header id="head" class="page-head"></header>\n'
    '<main id="page" class="stance-page"></main>\n'
    '<footer id="foot" class="page-foot"></footer>'
)
START = "startStancePage();"
HEEL_STEP = 0.5  # [mm] between the heel rises at which the level length is told
HIGHEST_HEEL = 100.0  # [mm] of a case file


def stance_page_text(case: Case, text: str, name: str) -> str:
    """Return the whole page of a case of a leg, as one HTML file.

    A case whose own alignment cannot be built gives a page that says why.

    text: of the case file; name: of the file, without folders.
    """
    entries: dict[str, Any] = words_of(case, name)
    models: dict[str, Any] = {"stance": None, "standing": None}
    try:
        models = {"stance": stance_data(case), "standing": standing_data(case)}
        entries |= figures_of(case, text, name)
    except RangeError as trouble:
        entries["trouble"] = str(trouble)
    entries["invented"] = says_invented(case.title, text)
    scripts = [asset(part) for part in BASE_SCRIPTS]
    scripts += [page_physics(), *(asset(part) for part in SCRIPTS), START]
    return page_text(
        title=f"{case.title} - simgait",
        body=BODY,
        data={"page": entries, **models},
        scripts=scripts,
        styles=[asset(part) for part in (*BASE_STYLES, *STYLES)],
    )


def words_of(case: Case, name: str) -> dict[str, Any]:
    """Return what the page of any case says: title, version, cautions, sources.

    name: of the case's file, without folders.
    """
    return {
        "title": case.title,
        "file": name,
        "version": model_version(),
        "cautions": case_cautions(case),
        "filled": case.filled,
        "sources": case_sources(case),
    }


def figures_of(case: Case, text: str, name: str) -> dict[str, Any]:
    """Return what the page of a case that can be simulated needs beside the model.

    text: of the case file; name: of the file, without folders.

    Raises:
        RangeError: the limb cannot be built.
    """
    return {
        "body_weight": limb_of(case, case.baseline).body_weight,
        "key_measures": KEY_MEASURES,
        "key_standing": KEY_STANDING,
        "spoken": SPOKEN,
        "case_file": {"name": name, "note": NOTE, "pieces": case_pieces(text)},
        "level": level_lengths(case),
    }


def says_invented(title: str, text: str) -> bool:
    """Return whether a case says of itself that it is invented, in its title or opening comment.

    >>> says_invented("A walker (invented)", ""), says_invented("A walker", "# my notes")
    (True, False)
    """
    opening = text.lstrip("\ufeff \t\r\n").split("\n\n", 1)[0]
    comment = [line for line in opening.splitlines() if line.lstrip().startswith("#")]
    return any("invented" in words.lower() for words in (title, *comment))


def level_lengths(case: Case) -> dict[str, Any]:
    """Return how far the pylon's level length of a case depends on the shoe's heel [mm].

    A case takes its pylon as cut in its own shoes; a case with another heel has another pylon.
    ``own_mm`` is that of the case, ``at_mm`` that of the same case with the heel rises ``low``,
    ``low + step``, ... [mm]; see `simgait.limb.limb_of`.
    """
    count = round(HIGHEST_HEEL / HEEL_STEP) + 1
    return {
        "own_mm": _level_length(case, case.baseline),
        "low": 0.0,
        "step": HEEL_STEP,
        "at_mm": [
            _level_length(case, replace(case.baseline, heel_rise=HEEL_STEP * i / 1000.0))
            for i in range(count)
        ],
    }


def _level_length(case: Case, own: Alignment) -> float:
    """Return the level lift of a case whose own setting is `own` [mm]."""
    there = replace(case, settings=(own,), baseline_index=0)
    return round(mm_from_metres(limb_of(there, own).level_lift), 9)
