"""The generated parts of the guide's page on case files."""

from __future__ import annotations

import tempfile
from collections.abc import Iterable
from pathlib import Path

from making.text import plain, table
from simgait.alignment import WRITTEN_NAMES
from simgait.case import MOST_ALIGNMENTS, read_case
from simgait.case.checking import choices_of
from simgait.case.entries import FILLABLE_FOOT, NEEDED_FOOT, TABLES, Entry, number_range
from simgait.case.goals import HEAVIEST, MOST_GOALS, MOST_LEVELS, TILTS
from simgait.case.naming import BAREFOOT, NAMED
from simgait.case.seen import MOST_SIGNS, WORDS
from simgait.library import names
from simgait.symbols.complaints import COMPLAINTS
from simgait.symbols.watching import VISIBLE

UNITS = (  # longest endings first
    ("_n_mm", "N/mm"),
    ("_m_s", "m/s"),
    ("_mm", "mm"),
    ("_kg", "kg"),
    ("_deg", "degrees"),
)
LEAST_CASE = """\
[person]
sex = "male"
mass_kg = 80
stature_mm = 1760

[limb]
residual_limb_mm = 150

[foot]
model = "carbon-leaf"
"""


def unit_of(key: str, entry: type[Entry]) -> str:
    """Return the unit that a key's name ends in; nothing for a text, 'share' for a pure number."""
    if number_range(entry, key) is None:
        return ""
    return next((unit for ending, unit in UNITS if key.endswith(ending)), "share")


def allowed(name: str, key: str, entry: type[Entry]) -> str:
    """Return what a key may be: a range, words, or names of the library."""
    limits = number_range(entry, key)
    if limits is not None:
        return f"{plain(limits[0])} to {plain(limits[1])}"
    words = choices_of(entry, key)
    for table_name, named_key, kind in NAMED:
        if (table_name, named_key) == (name, key):
            words = (*names(kind), BAREFOOT) if kind == "shoes" else names(kind)
    return ", ".join(f"`{word}`" for word in words)


def need(name: str, key: str, entry: type[Entry]) -> str:
    """Return whether a key must be there."""
    if name == "foot" and key == "model":
        return "this or the figures"
    if name == "foot":
        return "with own figures" if key in NEEDED_FOOT else "may be left out"
    return "must be there" if entry.model_fields[key].is_required() else "may be left out"


def keys_part() -> str:
    """Return one table for each table of a case file."""
    parts = []
    for name, entry in TABLES.items():
        rows = [
            (f"`{key}`", unit_of(key, entry), allowed(name, key, entry), need(name, key, entry))
            for key in entry.model_fields
        ]
        words = (entry.__doc__ or "").strip().splitlines()[0].replace("``", "`")
        if words.startswith("`[shoe]`"):
            words = f"`[{name}]`: a model of the library."
        parts.append(
            f"### [{name}]\n\n{words}\n\n" + table(("key", "unit", "allowed", "needed"), rows)
        )
    return "\n".join(parts)


def filled_part() -> str:
    """Return the least case there is, and what was filled in for it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "least.toml"
        path.write_text(LEAST_CASE, encoding="utf-8")
        filled = read_case(path).filled
    listed = "\n".join(f"* {sentence}" for sentence in filled)
    return (
        f"```toml\n{LEAST_CASE}```\n\nFor this case the output says that it filled "
        f"in:\n\n{listed}\n\nA foot of one's own needs all its figures but "
        f"{' and '.join(f'`{k}`' for k in FILLABLE_FOOT)}."
    )


def limits_part() -> str:
    """Return how many alignments one case may ask for."""
    return f"All combinations are run, up to {MOST_ALIGNMENTS}; the last list varies fastest."


def fitting_part() -> str:
    """Return what may stand in the tables of advice and of signs."""

    def listed(words: Iterable[str]) -> str:
        return ", ".join(f"`{word}`" for word in words)

    measure, alignment = "a [measure](../reference/measures.md)", listed(WRITTEN_NAMES)
    weight = f"with `weight`, above 0 to {plain(HEAVIEST)}, 1 if left out"
    rows = [
        ("`[goal]`", "`complaints`", f"a list of: {listed(COMPLAINTS)}"),
        (
            "`[goal]`",
            f"{measure}, up to {MOST_GOALS}",
            "`{ below = 40 }`, `{ above = 10 }` or `{ near = 100, within = 5 }`, in the unit of "
            f"its name; {weight}",
        ),
        (
            "`[adjust]`",
            f"any of {alignment}",
            '`{ from = -15, to = 15, step = 1 }`, a list of values, or `"fixed"`; up to '
            f"{MOST_LEVELS} values",
        ),
        ("`[adjust]`", listed(TILTS), "`step_turns`, in turns of a screw, instead of `step`"),
        ("`[seen]`", f"{measure}, up to {MOST_SIGNS}", "measured: `{ value = 17, within = 2 }`"),
        ("`[seen]`", f"any of {listed(VISIBLE)}", f"a word: {listed(WORDS)}"),
    ]
    return table(("table", "key", "what it may be"), rows)


def parts() -> dict[str, str]:
    """Return the generated parts by name."""
    return {
        "keys": keys_part(),
        "filled": filled_part(),
        "limits": limits_part(),
        "fitting": fitting_part(),
    }
